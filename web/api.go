package web

import (
	"context"
	"errors"
	"net/http"
	"time"

	"halfturn/coach/brief"
	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/configs/guide"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// Cards are the cards that can be chosen.
type Cards struct {
	Maneuvers []brief.Title   `json:"maneuvers"`
	Auto      brief.Title     `json:"auto"` // in place of a maneuver: recognizes it
	Standards []brief.Title   `json:"standards"`
	Aircraft  []AircraftTitle `json:"aircraft"`
}

// An AircraftTitle is an aircraft card as it is chosen: by three speeds, in kt; 0 is not known.
type AircraftTitle struct {
	brief.Title
	Entry float64 `json:"entry"`
	Apex  float64 `json:"apex"` // the lowest of a good wing-over
	Stall float64 `json:"stall"`
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
	Lost     *Lost             `json:"lost,omitempty"`
	Lacking  []phrase.Phrase   `json:"lacking,omitempty"` // what is given up now because too much arrives
	Stations []message.Station `json:"stations"`
}

// A Refused is a sender that was refused because there are as many stations as the setting max-stations allows.
type Refused struct {
	Address string `json:"address"`
	Senders int    `json:"senders"` // the limit
}

// A Lost counts the datagrams that the system dropped before the server could read them.
type Lost struct {
	Datagrams uint64 `json:"datagrams"` // since the server started
	Last      string `json:"last"`      // when that was noticed last, RFC 3339
}

func (s *Server) stations(w http.ResponseWriter, r *http.Request) error {
	mine, err := s.stationsFor(r)
	if err != nil {
		return err
	}
	if isOther(asks(r)) {
		for i, at := range mine {
			mine[i] = asOthersKnow(at)
		}
	}
	list := StationList{Version: apiVersion, Server: s.hub.Version(), Listen: s.cfg.Listen, Stations: mine}
	if s.cfg.Refused != nil && callerOf(r).May(permit.Fly) {
		list.Refused = s.cfg.Refused()
	}
	if s.cfg.Lost != nil && callerOf(r).May(permit.Fly) {
		list.Lost = s.cfg.Lost()
	}
	if s.cfg.Lacking != nil && callerOf(r).May(permit.Fly) {
		list.Lacking = s.cfg.Lacking()
	}
	return guard.WriteJSON(w, list)
}

func (s *Server) cards(w http.ResponseWriter, _ *http.Request) error {
	return guard.WriteJSON(w, s.desk.Cards())
}

func (s *Server) legs(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	if err := s.mayReach(asks(r), name); err != nil {
		return err
	}
	v, ok := s.desk.Legs(r.Context(), name)
	if !ok {
		return noStation(name)
	}
	return guard.WriteJSON(w, v)
}

func (s *Server) probe(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	if err := s.mayReach(asks(r), name); err != nil {
		return err
	}
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

// command has something done to a station, by whoever makes the request. The path names the command; the body is its
// form, which is also the answer.
func (s *Server) command(w http.ResponseWriter, r *http.Request) error {
	name, station := r.PathValue("command"), r.PathValue("name")
	form, says, ok := command.FormOf(name)
	if !ok {
		return noPage(r)
	}
	if err := s.may(r, command.RightOf(name), station); err != nil {
		return err
	}
	by := asks(r)
	if err := s.mayDo(by, station, command.Kind(name)); err != nil {
		return err
	}
	if err := guard.Body(guard.MaxBody, w, r, form, says); err != nil {
		return err
	}
	if !s.hub.Has(station) {
		return noStation(station)
	}
	action, err := form.Action()
	if err != nil {
		return guard.Misuse(http.StatusBadRequest, "the body "+err.Error()+": send "+says)
	}
	now := time.Now()
	c := command.New(ids.New(now), now, station, by, action)
	if err := s.desk.Do(r.Context(), c); err != nil {
		return refused(err)
	}
	return guard.WriteJSON(w, command.Answer(form, c))
}

// refused is why a command was not carried out, with words for whoever asked.
func refused(err error) error {
	var problem *guard.Problem
	if errors.As(err, &problem) {
		return err
	}
	return &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.OfError(err)}
}

func noStation(name string) error {
	return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoStation.Of(phrase.Name("name", name))}
}
