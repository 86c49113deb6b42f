package replay

import (
	"context"
	"errors"
	"io"
	"net/http"
	"slices"
	"sync"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/guard"
)

// mostKept bounds the pictures kept ready, bytes over all sessions: some two thousand legs.
const mostKept = 64 << 20

// mostPlayed is how many recordings are played at once for their pictures.
const mostPlayed = 2

// Flights play recordings at full speed for the pictures of the debrief, and keep those of
// the sessions looked at last. They are a web.Flights.
type Flights struct {
	recordings Library
	stamp      func(id string) string
	graded     func(id string) []coach.Series
	turns      chan struct{} // has room for those that may play

	mu    sync.Mutex
	known []*flown // the one looked at last comes last
}

var _ web.Flights = (*Flights)(nil)

// NewFlights makes pictures of the library's sessions. What stamp says of a session changes whenever
// its recording does; nil stands for recordings that do not. A leg shows what it was graded when it was flown, as lists
// of sessions do: graded returns that, and nil where nothing is kept; nil stands for a library that keeps nothing.
func NewFlights(library Library, stamp func(id string) string, graded func(id string) []coach.Series) *Flights {
	if stamp == nil {
		stamp = func(string) string { return "" }
	}
	if graded == nil {
		graded = func(string) []coach.Series { return nil }
	}
	return &Flights{recordings: library, stamp: stamp, graded: graded, turns: make(chan struct{}, mostPlayed)}
}

// flown is one session's pictures. Ready is closed when they, or err, are there.
type flown struct {
	id    string
	stamp string // of the recording, before it was played
	ready chan struct{}
	list  web.FlownLegs
	legs  [][]byte
	bytes int
	err   error
}

// Legs lists the legs of a session.
func (f *Flights) Legs(ctx context.Context, id string) (web.FlownLegs, error) {
	s, err := f.session(ctx, id)
	if err != nil {
		return web.FlownLegs{}, err
	}
	return s.list, nil
}

// Leg returns one leg, as gzipped JSON.
func (f *Flights) Leg(ctx context.Context, id string, n int) ([]byte, error) {
	s, err := f.session(ctx, id)
	if err != nil {
		return nil, err
	}
	if n > len(s.legs) {
		return nil, &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoSuchLeg.Of(
			phrase.Int("legs", len(s.legs)), phrase.Int("leg", n))}
	}
	return s.legs[n-1], nil
}

// session returns a session's pictures. Who asks first plays the recording, the others wait.
func (f *Flights) session(ctx context.Context, id string) (*flown, error) {
	for {
		s, first := f.claim(id)
		if first {
			s.err = f.play(ctx, s)
			f.keep(s)
			close(s.ready)
			return s, s.err
		}
		select {
		case <-s.ready:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
		if !errors.Is(s.err, context.Canceled) { // else who asked first has left
			return s, s.err
		}
	}
}

// claim finds the session, or makes its place.
func (f *Flights) claim(id string) (s *flown, first bool) {
	stamp := f.stamp(id)
	f.mu.Lock()
	defer f.mu.Unlock()
	if i := slices.IndexFunc(f.known, func(s *flown) bool { return s.id == id }); i >= 0 && f.known[i].stamp != stamp {
		f.known = slices.Delete(f.known, i, i+1) // who waits for it still gets it
	} else if i >= 0 {
		s = f.known[i]
		f.known = append(slices.Delete(f.known, i, i+1), s)
		return s, false
	}
	s = &flown{id: id, stamp: stamp, ready: make(chan struct{})}
	f.known = append(f.known, s)
	return s, true
}

// keep drops what failed, and the oldest of what is too much.
func (f *Flights) keep(s *flown) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if s.err != nil {
		f.known = slices.DeleteFunc(f.known, func(o *flown) bool { return o == s })
		return
	}
	sum := 0
	for i := len(f.known) - 1; i >= 0; i-- {
		if o := f.known[i]; o != s && o.bytes == 0 {
			continue // being played
		} else if sum += o.bytes; sum > mostKept && o != s {
			f.known = slices.Delete(f.known, i, i+1)
		}
	}
}

// play plays the recording through the session code.
func (f *Flights) play(ctx context.Context, s *flown) error {
	select {
	case f.turns <- struct{}{}:
		defer func() { <-f.turns }()
	case <-ctx.Done():
		return ctx.Err()
	}
	c := &collector{
		session: s.id,
		graded:  f.graded(s.id),
		list: web.FlownLegs{
			Session: s.id,
			Plans:   []message.Chart{},
			Legs:    []web.FlownSheet{},
			Series:  []coach.Series{},
		},
	}
	take, err := f.recordings.Open(s.id, s.id, c)
	if err != nil {
		return err
	}
	defer take.Close() // it was only read
	for n := 0; ; n++ {
		if n%slice == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		place, err := take.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			c.list.Damage = phrase.OfError(err)
			break
		}
		c.place = place
		take.Feed()
	}
	take.End("the recording ended")
	c.flush()
	s.list, s.legs, s.bytes, err = c.list, c.legs, c.bytes+1, c.err
	s.list.Duration = c.place
	return err
}
