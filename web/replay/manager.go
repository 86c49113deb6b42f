// Package replay plays recorded sessions again: at a pace, as stations of their own on the
// hub, for the live panel; and at once, for the pictures of the debrief. What was flown comes
// through the same session code as it did live.
package replay

import (
	"cmp"
	"context"
	"errors"
	"io"
	"math"
	"net/http"
	"slices"
	"sync"

	"github.com/rs/zerolog"

	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/guard"
	"halfturn/web/hub"
)

// A Library opens recorded sessions.
type Library interface {
	// Open begins to play a session from its first datagram. What comes of it goes to the output
	// under the station's name. The error is told to whoever asked.
	Open(id, station string, out session.Output) (Take, error)
	// Length returns how long the recording of a session is, s from its first datagram to its last.
	Length(ctx context.Context, id string) (float64, error)
}

// A Take is a recording on its way from its first datagram to its last. It is not safe for
// concurrent use.
type Take interface {
	// Next goes to the next datagram and returns its place, seconds since the first. The error is
	// io.EOF at the end.
	Next() (place float64, err error)
	// Feed hands the datagram to the coach.
	Feed()
	// End closes what is under way in the flight, unless the session still goes on: then a leg that has
	// begun is no leg yet.
	End(reason string)
	io.Closer
}

// A Stage is where replays are seen: the hub.
type Stage interface {
	session.Output
	// Show puts a scene in the place of all that is known of a station.
	Show(station string, s *hub.Scene)
	// Viewers tells how many look at a station.
	Viewers(station string) int
}

var _ Stage = (*hub.Hub)(nil)

// Bounds of a Manager.
const (
	mostReplays = 8
	slowest     = 0.25
	fastest     = 8
)

// A Manager owns the replays. It is safe for concurrent use, and is a web.Replays.
type Manager struct {
	recordings Library
	hub        Stage
	log        zerolog.Logger
	faults     *contain.Faults
	stop       context.CancelFunc
	ctx        context.Context // of all replays

	mu      sync.Mutex
	replays map[string]*replay // by session
	wait    sync.WaitGroup
}

var _ web.Replays = (*Manager)(nil)

// NewManager makes a manager of replays on the hub. Close ends them. A fault ends the replay in which it happens, and
// with nil for faults the program.
func NewManager(library Library, hub Stage, faults *contain.Faults, log zerolog.Logger) *Manager {
	ctx, stop := context.WithCancel(context.Background())
	return &Manager{
		recordings: library,
		hub:        hub,
		log:        log,
		faults:     faults,
		ctx:        ctx,
		stop:       stop,
		replays:    map[string]*replay{},
	}
}

// Close ends all replays and waits for them.
func (m *Manager) Close() {
	m.mu.Lock()
	m.stop()
	m.mu.Unlock()
	m.wait.Wait()
}

// Station returns the name of the station that a session's replay has.
func Station(id string) string { return "replay " + id }

// Start begins to replay a session from a place, or takes the replay it has there.
func (m *Manager) Start(ctx context.Context, id string, from, pace float64) (web.ReplayState, error) {
	if err := check(from, pace); err != nil {
		return web.ReplayState{}, err
	}
	off := false
	for length := -1.0; ; {
		r, c := m.find(id), web.ReplayControl{Position: &from, Pace: &pace, Paused: &off}
		if r == nil {
			var err error
			if length < 0 {
				if length, err = m.recordings.Length(ctx, id); err != nil {
					return web.ReplayState{}, err
				}
			}
			if r, err = m.begin(id, length, from, pace); err != nil {
				return web.ReplayState{}, err
			}
			c = web.ReplayControl{}
		}
		state, err := r.ask(ctx, c)
		if over := (*overError)(nil); errors.As(err, &over) && over.why == nil {
			continue // it was just being stopped: there is a place for another
		}
		return state, told(id, err)
	}
}

// told says of a replay that is over why it is.
func told(id string, err error) error {
	var over *overError
	switch {
	case !errors.As(err, &over):
		return err
	case over.why != nil:
		return over.why
	}
	return gone(id)
}

// begin makes the replay and starts its goroutine.
func (m *Manager) begin(id string, length, from, pace float64) (*replay, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.ctx.Err() != nil {
		return nil, &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.Stopping.Of()}
	}
	if r := m.replays[id]; r != nil {
		return r, nil // another one was faster
	}
	if len(m.replays) >= mostReplays {
		return nil, &guard.Problem{Status: http.StatusTooManyRequests, Phrase: phrase.TooManyReplays.Of(
			phrase.Int("most", mostReplays))}
	}
	r := newReplay(id, length, from, pace, m.recordings, m.hub, m.log)
	m.replays[id] = r
	m.wait.Go(func() {
		r.run(m.ctx, m.faults)
		m.mu.Lock()
		delete(m.replays, id)
		m.mu.Unlock()
		close(r.done) // when its place is free: whoever waits for it may begin another
	})
	return r, nil
}

func (m *Manager) find(id string) *replay {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.replays[id]
}

// Control changes a replay. One that is over is stopped: to stop it again is no error.
func (m *Manager) Control(ctx context.Context, id string, c web.ReplayControl) (web.ReplayState, error) {
	r := m.find(id)
	switch {
	case r == nil && c.Stop:
		return stopped(id), nil
	case r == nil:
		return web.ReplayState{}, gone(id)
	}
	from, pace := 0.0, 1.0
	if c.Position != nil {
		from = *c.Position
	}
	if c.Pace != nil {
		pace = *c.Pace
	}
	if err := check(from, pace); err != nil {
		return web.ReplayState{}, err
	}
	state, err := r.ask(ctx, c)
	if over := (*overError)(nil); c.Stop && errors.As(err, &over) {
		return stopped(id), nil
	}
	return state, told(id, err)
}

// stopped is the state of a replay that is over.
func stopped(id string) web.ReplayState {
	return web.ReplayState{
		Station:   Station(id),
		Replaying: message.Replaying{Session: id, Pace: 1, Paused: true, Over: true},
	}
}

// List returns the replays there are, by session.
func (m *Manager) List(ctx context.Context) []web.ReplayState {
	m.mu.Lock()
	all := make([]*replay, 0, len(m.replays))
	for _, r := range m.replays {
		all = append(all, r)
	}
	m.mu.Unlock()
	states := []web.ReplayState{}
	for _, r := range all {
		if s, err := r.ask(ctx, web.ReplayControl{}); err == nil {
			states = append(states, s)
		}
	}
	slices.SortFunc(states, func(a, b web.ReplayState) int { return cmp.Compare(a.Session, b.Session) })
	return states
}

func check(from, pace float64) error {
	switch {
	case !(pace >= slowest && pace <= fastest):
		return &guard.Problem{Status: http.StatusBadRequest, Phrase: phrase.BadPace.Of(
			phrase.Number("pace", pace, -1, ""), phrase.Number("least", slowest, -1, ""), phrase.Int("most", fastest))}
	case math.IsNaN(from) || from < 0:
		return &guard.Problem{Status: http.StatusBadRequest, Phrase: phrase.BadPlace.Of(
			phrase.Number("place", from, -1, "s"))}
	}
	return nil
}

func gone(id string) error {
	return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoReplay.Of(phrase.Name("session", id))}
}
