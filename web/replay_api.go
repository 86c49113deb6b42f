package web

import (
	"context"
	"net/http"

	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// Replays play recorded sessions again as stations of the hub. They are safe for concurrent
// use. An error that is a *guard.Problem is sent to the client.
type Replays interface {
	// Start begins to replay a session from a place, s since its first datagram, at a pace,
	// seconds of flight a second. A session that is being replayed goes there.
	Start(ctx context.Context, id string, from, pace float64) (ReplayState, error)
	// Control changes a replay.
	Control(ctx context.Context, id string, c ReplayControl) (ReplayState, error)
	// List returns those there are.
	List(ctx context.Context) []ReplayState
}

// A ReplayState is a replay as the pages see it.
type ReplayState struct {
	Station string `json:"station"` // its name on the live socket
	message.Replaying
}

// ReplayList is the answer to GET /api/replays.
type ReplayList struct {
	Version int           `json:"version"`
	Replays []ReplayState `json:"replays"`
}

// A ReplayStart is the body of POST /api/sessions/{id}/replay.
type ReplayStart struct {
	From float64 `json:"from"`           // s since the first datagram of the recording
	Pace float64 `json:"pace,omitempty"` // 0.25 to 8 seconds of flight a second; left out it is 1
}

// A ReplayControl is the body of POST /api/replays/{id}: what is left out stays.
type ReplayControl struct {
	Position *float64 `json:"position,omitempty"` // to go to, s
	Pace     *float64 `json:"pace,omitempty"`
	Paused   *bool    `json:"paused,omitempty"`
	Stop     bool     `json:"stop,omitempty"`
}

func (s *Server) replayRoutes() []route {
	return []route{
		{"GET /api/replays", permit.Watch, beside, s.listReplays},
		{"POST /api/sessions/{id}/replay", permit.Read, atSession, s.gates.work.Few(s.startReplay)},
		{"POST /api/replays/{id}", permit.Read, atSession, s.controlReplay},
	}
}

func (s *Server) listReplays(w http.ResponseWriter, r *http.Request) error {
	list := ReplayList{Version: apiVersion, Replays: []ReplayState{}}
	if s.cfg.Replays != nil {
		list.Replays = s.cfg.Replays.List(r.Context())
	}
	return guard.WriteJSON(w, list)
}

func (s *Server) startReplay(w http.ResponseWriter, r *http.Request) error {
	start := ReplayStart{Pace: 1}
	if err := guard.Body(guard.MaxBody, w, r, &start, `{"from": SECONDS, "pace": 0.25 to 8}`); err != nil {
		return err
	}
	if s.cfg.Replays == nil {
		return noRecordings()
	}
	state, err := s.cfg.Replays.Start(r.Context(), r.PathValue("id"), start.From, start.Pace)
	if err != nil {
		return err
	}
	return guard.WriteJSON(w, state)
}

func (s *Server) controlReplay(w http.ResponseWriter, r *http.Request) error {
	var c ReplayControl
	if err := guard.Body(guard.MaxBody, w, r, &c,
		`some of {"position": SECONDS, "pace": 0.25 to 8, "paused": true or false, "stop": true}`); err != nil {
		return err
	}
	if s.cfg.Replays == nil {
		return noRecordings()
	}
	state, err := s.cfg.Replays.Control(r.Context(), r.PathValue("id"), c)
	if err != nil {
		return err
	}
	return guard.WriteJSON(w, state)
}

// noRecordings is the answer of a server without recordings.
func noRecordings() error {
	return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoRecordings.Of()}
}
