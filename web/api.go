package web

import (
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"strconv"

	"halfturn/coach/session"
	"halfturn/configs/guide"
)

// maxBody bounds what a request may send, in bytes.
const maxBody = 4 << 10

// A Card is a maneuver or aircraft card as offered on a page.
type Card struct {
	Name    string `json:"name"`
	Title   string `json:"title"`
	Summary string `json:"summary,omitempty"`
}

// Cards is what can be chosen.
type Cards struct {
	Maneuvers []Card `json:"maneuvers"`
	Standards []Card `json:"standards"`
	Aircraft  []Card `json:"aircraft"`
}

// A Desk is what the pages need from the rest of the program. It is safe for concurrent use.
type Desk interface {
	// Cards lists what can be chosen.
	Cards() Cards
	// Choose sets what a station flies from now on, by card names: standard "" is the server's
	// own, aircraft "" is none. The error's words are shown to whoever chose.
	Choose(station string, c Choice) error
	// Legs returns the station's legs in the grade format, false when there is no such
	// station. The value is written as JSON.
	Legs(station string) (any, bool)
	// Probe returns everything known of the station's stream, false when there is no such
	// station. The value is written as JSON.
	Probe(station string) (any, bool)
}

// StationList is the answer to GET /api/stations.
type StationList struct {
	Version  int               `json:"version"`
	Server   string            `json:"server"`
	Listen   []string          `json:"listen"` // where simulators send to
	Stations []session.Station `json:"stations"`
}

// Choice is the body of POST /api/stations/{name}/choose.
type Choice struct {
	Maneuver string `json:"maneuver"`
	Standard string `json:"standard"`
	Aircraft string `json:"aircraft"`
}

func (s *Server) stations(w http.ResponseWriter, _ *http.Request) error {
	return writeJSON(w, StationList{
		Version: contractVersion, Server: s.hub.version, Listen: s.cfg.Listen, Stations: s.hub.Stations(),
	})
}

func (s *Server) cards(w http.ResponseWriter, _ *http.Request) error {
	return writeJSON(w, s.desk.Cards())
}

func (s *Server) legs(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	v, ok := s.desk.Legs(name)
	if !ok {
		return noStation(name)
	}
	return writeJSON(w, v)
}

func (s *Server) probe(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	v, ok := s.desk.Probe(name)
	if !ok {
		return noStation(name)
	}
	return writeJSON(w, v)
}

// guides are the steps that set up each simulator.
func (s *Server) guides(w http.ResponseWriter, _ *http.Request) error {
	list, err := guide.All()
	if err != nil {
		return err
	}
	return writeJSON(w, map[string]any{"version": contractVersion, "guides": list})
}

func (s *Server) choose(w http.ResponseWriter, r *http.Request) error {
	if err := s.cross.Check(r); err != nil || !sameOrigin(r) {
		return &Problem{http.StatusForbidden, "the request came from another site's page; choose on the panel itself"}
	}
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		return &Problem{http.StatusUnsupportedMediaType, "send the choice as Content-Type: application/json"}
	}
	name := r.PathValue("name")
	if !s.hub.Has(name) {
		return noStation(name)
	}
	choice, err := readChoice(http.MaxBytesReader(w, r.Body, maxBody))
	if err != nil {
		return err
	}
	if err := s.desk.Choose(name, choice); err != nil {
		return &Problem{http.StatusUnprocessableEntity, err.Error()}
	}
	return writeJSON(w, choice)
}

func readChoice(body io.Reader) (Choice, error) {
	var c Choice
	dec := json.NewDecoder(body)
	dec.DisallowUnknownFields()
	err := dec.Decode(&c)
	var big *http.MaxBytesError
	switch {
	case errors.As(err, &big):
		return c, &Problem{http.StatusRequestEntityTooLarge, "the choice is longer than " + strconv.Itoa(maxBody) + " bytes"}
	case err != nil:
		return c, &Problem{http.StatusBadRequest, `the choice is not as expected (` + err.Error() +
			`): send {"maneuver": "NAME", "aircraft": "NAME or empty"}`}
	case c.Maneuver == "":
		return c, &Problem{http.StatusBadRequest, `the choice names no maneuver: send {"maneuver": "NAME", "aircraft": "NAME or empty"}`}
	}
	return c, nil
}

func noStation(name string) error {
	return &Problem{http.StatusNotFound, "there is no station " + strconv.Quote(name) + "; GET /api/stations lists those there are"}
}
