package web

import (
	"context"
	"net/http"

	"halfturn/coach"
	"halfturn/coach/brief"
	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/configs/guide"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// Cards are the cards that can be chosen.
type Cards struct {
	Maneuvers []brief.Title `json:"maneuvers"`
	Auto      brief.Title   `json:"auto"` // in place of a maneuver: recognizes what is flown
	Standards []brief.Title `json:"standards"`
	Aircraft  []brief.Title `json:"aircraft"`
}

// A Desk is what the pages need from the rest of the program. It is safe for concurrent use. What is asked of a station
// waits for it no longer than ctx lasts.
type Desk interface {
	// Cards lists what can be chosen.
	Cards() Cards
	// Do carries out a command at its station. The error's words are shown to whoever asks.
	Do(ctx context.Context, c command.Command) error
	// Brief returns the sheet for cards by name, as in a choice. The value is written as JSON.
	Brief(c maneuver.Choice) (any, error)
	// Legs returns the station's legs in the grade format, false when there is no such
	// station. The value is written as JSON.
	Legs(ctx context.Context, station string) (any, bool)
	// Probe returns everything known of the station's stream, false when there is no such
	// station. The value is written as JSON.
	Probe(ctx context.Context, station string) (any, bool)
}

// apiVersion is that of the answers over HTTP.
const apiVersion = 1

// StationList is the answer to GET /api/stations.
type StationList struct {
	Version  int               `json:"version"`
	Server   string            `json:"server"`
	Listen   []string          `json:"listen"` // where simulators send to
	Refused  *Refused          `json:"refused,omitempty"`
	Stations []message.Station `json:"stations"`
}

// A Refused is a sender that was refused because there are as many stations as the setting max-stations allows.
type Refused struct {
	Address string `json:"address"`
	Senders int    `json:"senders"` // the limit
}

// Choice is the body of POST /api/stations/{name}/choose.
type Choice struct {
	Maneuver string `json:"maneuver"`
	Standard string `json:"standard"`
	Aircraft string `json:"aircraft"`
}

func (s *Server) stations(w http.ResponseWriter, _ *http.Request) error {
	list := StationList{Version: apiVersion, Server: s.hub.Version(), Listen: s.cfg.Listen, Stations: s.hub.Stations()}
	if s.cfg.Refused != nil {
		list.Refused = s.cfg.Refused()
	}
	return guard.WriteJSON(w, list)
}

func (s *Server) cards(w http.ResponseWriter, _ *http.Request) error {
	return guard.WriteJSON(w, s.desk.Cards())
}

func (s *Server) legs(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	v, ok := s.desk.Legs(r.Context(), name)
	if !ok {
		return noStation(name)
	}
	return guard.WriteJSON(w, v)
}

func (s *Server) probe(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	v, ok := s.desk.Probe(r.Context(), name)
	if !ok {
		return noStation(name)
	}
	return guard.WriteJSON(w, v)
}

// guides are the steps that set up each simulator.
func (s *Server) guides(w http.ResponseWriter, _ *http.Request) error {
	list, err := guide.All()
	if err != nil {
		return err
	}
	return guard.WriteJSON(w, map[string]any{"version": apiVersion, "guides": list})
}

// brief is the sheet of the cards named in the query.
func (s *Server) brief(w http.ResponseWriter, r *http.Request) error {
	q := r.URL.Query()
	c := maneuver.Choice{Maneuver: q.Get("maneuver"), Standard: q.Get("standard"), Aircraft: q.Get("aircraft")}
	if c.Maneuver == "" {
		return guard.Misuse(
			http.StatusBadRequest,
			"the brief is of no maneuver: ask for /api/brief?maneuver=NAME&aircraft=NAME; "+
				"GET /api/cards lists the names",
		)
	}
	v, err := s.desk.Brief(c)
	if err != nil {
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.OfError(err)}
	}
	return guard.WriteJSON(w, v)
}

// posted reads what a page of this server sent about a station that is there, and returns the
// station's name. Want says what is expected.
func (s *Server) posted(w http.ResponseWriter, r *http.Request, to any, want string) (string, error) {
	if err := guard.Body(guard.MaxBody, w, r, to, want); err != nil {
		return "", err
	}
	name := r.PathValue("name")
	if !s.hub.Has(name) {
		return "", noStation(name)
	}
	return name, nil
}

// line sets or clears a station's ground line.
func (s *Server) line(w http.ResponseWriter, r *http.Request) error {
	var c coach.LineChoice
	name, err := s.posted(
		w,
		r,
		&c,
		`{"heading": DEGREES or null, "side": "right", "left" or "", "distance": NM or null}, or {"clear": true}`,
	)
	if err != nil {
		return err
	}
	if err := s.command(r, name, command.Line{LineChoice: c}); err != nil {
		return err
	}
	return guard.WriteJSON(w, struct{}{})
}

func (s *Server) choose(w http.ResponseWriter, r *http.Request) error {
	const want = `{"maneuver": "NAME", "aircraft": "NAME or empty"}`
	var c Choice
	name, err := s.posted(w, r, &c, want)
	if err != nil {
		return err
	}
	if c.Maneuver == "" {
		return guard.Misuse(http.StatusBadRequest, "the body names no maneuver: send "+want)
	}
	if err := s.command(r, name, command.Choose{Choice: maneuver.Choice(c)}); err != nil {
		return err
	}
	return guard.WriteJSON(w, c)
}

// prompts sets how much is said in flight at a station.
func (s *Server) prompts(w http.ResponseWriter, r *http.Request) error {
	var to struct {
		Prompts string `json:"prompts"`
	}
	name, err := s.posted(w, r, &to, `{"prompts": "card", "all", "fade" or "off"}`)
	if err != nil {
		return err
	}
	if err := s.command(r, name, command.Prompt{How: to.Prompts}); err != nil {
		return err
	}
	return guard.WriteJSON(w, to)
}

// again says what was said last at a station once more.
func (s *Server) again(w http.ResponseWriter, r *http.Request) error {
	name, err := s.posted(w, r, &struct{}{}, "{}")
	if err != nil {
		return err
	}
	if err := s.command(r, name, command.Again{}); err != nil {
		return err
	}
	return guard.WriteJSON(w, struct{}{})
}

// student says who flies at a station.
func (s *Server) student(w http.ResponseWriter, r *http.Request) error {
	const want = `{"student": "NAME or empty"}`
	var who struct {
		Student *string `json:"student"`
	}
	name, err := s.posted(w, r, &who, want)
	if err != nil {
		return err
	}
	if who.Student == nil {
		return guard.Misuse(http.StatusBadRequest, "the body says nothing: send "+want)
	}
	if err := s.command(r, name, command.Student{Name: *who.Student}); err != nil {
		return err
	}
	return guard.WriteJSON(w, who)
}

// end ends the session of a station.
func (s *Server) end(w http.ResponseWriter, r *http.Request) error {
	name, err := s.posted(w, r, &struct{}{}, "{}")
	if err != nil {
		return err
	}
	if err := s.command(r, name, command.End{}); err != nil {
		return err
	}
	return guard.WriteJSON(w, struct{}{})
}

func noStation(name string) error {
	return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoStation.Of(phrase.Name("name", name))}
}
