package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"io"
	"net/http"
	"strconv"
	"strings"

	"halfturn/coach"
	"halfturn/coach/brief"
	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// Flights are recorded sessions as pictures. They are safe for concurrent use. An error that
// is a *guard.Problem is sent to the client.
type Flights interface {
	// Legs lists the legs of a session's recording, in the order in which they were flown.
	Legs(ctx context.Context, id string) (FlownLegs, error)
	// Leg returns a FlownLeg by its number in the session, from 1, as gzipped JSON.
	Leg(ctx context.Context, id string, n int) ([]byte, error)
}

// FlownLegs is the answer to GET /api/sessions/{id}/legs.
type FlownLegs struct {
	Version  int             `json:"version"`
	Session  string          `json:"session"`
	Duration float64         `json:"duration"` // of the recording, s
	Plans    []message.Chart `json:"plans"`    // those flown
	Legs     []FlownSheet    `json:"legs"`
	Series   []coach.Series  `json:"series"` // those that are over, in order, without their legs
	Damage   phrase.Phrase   `json:"damage"` // why the recording could not be read to its end; nothing when it could
	Holes    []coach.Hole    `json:"holes"`  // where the machine that recorded it lost datagrams, in order
	Advice   phrase.Phrase   `json:"advice"` // what to do about it when nothing in it can be graded
}

// A FlownSheet is a leg as a small picture.
type FlownSheet struct {
	Number int `json:"n"`      // in the session, from 1
	Series int `json:"series"` // in the session, from 1
	Plan   int `json:"plan"`   // its place in Plans
	coach.Leg
	Place float64 `json:"place"` // where it starts in the recording, s
}

// A FlownLeg is the answer to GET /api/sessions/{id}/legs/{n}: a leg with all that its
// pictures need. It begins a little before the entry and ends a little after the exit.
type FlownLeg struct {
	Version int           `json:"version"`
	Session string        `json:"session"`
	Number  int           `json:"n"`
	Series  int           `json:"series"`
	Plan    message.Chart `json:"plan"`
	Leg     coach.Leg     `json:"leg"`     // as it was graded first
	Changed bool          `json:"changed"` // this version of the program grades it otherwise
	// Samples are ten a second, a row a quantity, each as long as "time": "time" in s of stream
	// time, "place" in s of the recording, "turn" in °, and the values of the frames by their
	// channels, null where there is none. Bank and ball are positive toward the turn.
	Samples  map[string][]*float64 `json:"samples"`
	Callouts []*coach.Callout      `json:"callouts"`
	Track    Track                 `json:"track"`
	Path     []brief.Point         `json:"path"` // the reference path of the plan; null when there is none
}

// A Track says what the way over the ground was made from: the rows "along" and "across" of the
// samples, in ft from the entry, along its heading and toward the side of the turn.
type Track struct {
	From   string        `json:"from"`   // "position", "heading" (from heading and speed), "" when there is none
	Line   *float64      `json:"line"`   // heading of the chosen line, °; null when none was chosen
	Entry  float64       `json:"entry"`  // heading at the entry, °
	Wind   *coach.Wind   `json:"wind"`   // over the leg, null when it is not known
	Reason phrase.Phrase `json:"reason"` // why there is no track
}

func (s *Server) debriefRoutes() []route {
	return []route{
		{"GET /sessions/{id}", permit.Enter, beside, s.sessionPage},
		{"GET /api/sessions/{id}/legs", permit.Read, atSession, s.gates.work.Few(s.flownLegs)},
		{"GET /api/sessions/{id}/legs/{n}", permit.Read, atSession, s.gates.work.Few(s.flownLeg)},
		{"GET /api/sessions/{id}/share.html", permit.Read, atSession, s.gates.exports.Few(s.share)},
	}
}

// sessionPage serves the page of any session; the page asks for it and says when it is not there.
func (s *Server) sessionPage(w http.ResponseWriter, r *http.Request) error {
	return s.serve(w, r, s.pages["/session.html"])
}

func (s *Server) flownLegs(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Flights == nil {
		return noRecordings()
	}
	legs, err := s.cfg.Flights.Legs(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	legs.Version = apiVersion
	return guard.WriteJSON(w, legs)
}

func (s *Server) flownLeg(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Flights == nil {
		return noRecordings()
	}
	n, err := legNumber(r.PathValue("n"))
	if err != nil {
		return err
	}
	data, err := s.cfg.Flights.Leg(r.Context(), r.PathValue("id"), n)
	if err != nil {
		return err
	}
	return writeGzipped(w, r, data)
}

// legNumber reads the number of a leg.
func legNumber(s string) (int, error) {
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 {
		return 0, &guard.Problem{Status: http.StatusBadRequest, Phrase: phrase.NotALeg.Of(phrase.Name("number", s))}
	}
	return n, nil
}

// writeGzipped sends gzipped JSON, unpacked for clients that do not accept gzip.
func writeGzipped(w http.ResponseWriter, r *http.Request, data []byte) error {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Vary", "Accept-Encoding")
	if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		w.Header().Set("Content-Encoding", "gzip")
		_, err := w.Write(data)
		return err
	}
	plain, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return err
	}
	_, err = io.Copy(w, plain)
	return err
}
