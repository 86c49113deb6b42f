// Package show flies demonstrations: the built-in aircraft flies a maneuver well, over UDP to the server's own port, so
// that it goes through the same coach, panel and voice as a student's flight. One is flown at a time, at a station of
// its own of which nothing is kept.
package show

import (
	"cmp"
	"context"
	"errors"
	"math"
	"net/netip"
	"slices"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
	"halfturn/stream/trainer/option"
	"halfturn/stream/trainer/send"
)

// A Host is the server that is flown for.
type Host interface {
	// Expect says that datagrams from an address are a demonstration of a choice, and returns the name of its station.
	Expect(address netip.AddrPort, c maneuver.Choice) (station string, err error)
	// Leave ends that station.
	Leave(ctx context.Context, address netip.AddrPort)
	// Aircraft lists the cards that can be chosen.
	Aircraft() []*aircraft.Aircraft
}

// A Showing is a demonstration that is flown.
type Showing struct {
	Station string `json:"station"`
	maneuver.Choice
	Title string `json:"title"` // of the aircraft that flies
}

// Options say how demonstrations are flown.
type Options struct {
	Host Host
	To   netip.AddrPort // where the server receives datagrams
	Log  zerolog.Logger
	// Faults contains those of demonstrations; nil: they end the program.
	Faults *contain.Faults
}

// A Show flies demonstrations. It is safe for concurrent use.
type Show struct {
	o Options

	begins sync.Mutex // held while one gives way to the next
	mu     sync.Mutex
	now    *flight // the last; nil before the first
	closed bool
}

// A flight is one demonstration in the air.
type flight struct {
	Showing
	stop context.CancelFunc
	over chan struct{} // closed when its station has ended
}

// otherwise is flown where the choice leaves the maneuver open.
const otherwise = "wing-over"

// leaveWait is how long the station of a demonstration may take to end.
const leaveWait = 5 * time.Second

// New makes a show.
func New(o Options) *Show { return &Show{o: o} }

// Paces are the seconds of flight per second of time that can be asked for: those of a replay.
var Paces = option.Range{Low: 0.25, High: 8}

// Begin flies a choice at a pace, seconds of flight per second of time, and ends the demonstration before. The aircraft
// is the built-in one that is most like the chosen one. The error is worded for whoever asks.
func (s *Show) Begin(c maneuver.Choice, pace float64) (Showing, error) {
	if c.Maneuver == coach.AutoManeuver || c.Maneuver == "" {
		c.Maneuver = otherwise
	}
	if !slices.Contains(trainer.Maneuvers(), c.Maneuver) {
		return Showing{}, phrase.NotDemonstrated.Error(phrase.Name("maneuver", c.Maneuver))
	}
	plane := s.like(c.Aircraft)
	c.Aircraft = plane.Name
	pilot, err := trainer.New(trainer.Flight{Maneuver: c.Maneuver, Direction: "right", Airplane: plane.Name, Seed: 3})
	if err != nil {
		return Showing{}, err
	}
	s.begins.Lock()
	defer s.begins.Unlock()
	s.End()
	ctx, stop := context.WithCancel(context.Background())
	f := &flight{Showing: Showing{Choice: c, Title: plane.Title}, stop: stop, over: make(chan struct{})}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		stop()
		return Showing{}, phrase.Stopping.Error()
	}
	ready := make(chan error, 1)
	s.now = f
	go func() {
		if !s.o.Faults.Run("demonstration", c.Maneuver, func() { s.fly(ctx, f, pilot, pace, ready) }) {
			select {
			case ready <- phrase.InternalError.Error():
			default: // it was in the air already
			}
		}
	}()
	if err := <-ready; err != nil {
		s.now = nil
		stop()
		<-f.over
		return Showing{}, err
	}
	return f.Showing, nil
}

// like returns the built-in aircraft that is most like the one of a card, or the first.
func (s *Show) like(card string) airplane.Airplane {
	names := airplane.Names()
	best, _ := airplane.Named(names[0])
	i := slices.IndexFunc(s.o.Host.Aircraft(), func(a *aircraft.Aircraft) bool { return a.Name == card })
	if i < 0 {
		return best
	}
	wanted := s.o.Host.Aircraft()[i]
	off := func(name string) float64 {
		a, _ := airplane.Named(name)
		if a.Name == card {
			return -1
		}
		if wanted.Entry == 0 {
			return 0
		}
		return math.Abs(math.Log(wanted.Entry / a.Entry))
	}
	best, _ = airplane.Named(slices.MinFunc(names, func(a, b string) int { return cmp.Compare(off(a), off(b)) }))
	return best
}

// fly sends a flight until it is over or stopped, and ends its station. It says through ready that the station is
// expected, or why nothing is flown.
func (s *Show) fly(ctx context.Context, f *flight, pilot *trainer.Pilot, pace float64, ready chan<- error) {
	defer close(f.over)
	var from netip.AddrPort
	defer func() { // also after a fault
		if !from.IsValid() {
			return
		}
		leaving, done := context.WithTimeout(context.WithoutCancel(ctx), leaveWait)
		defer done()
		s.o.Host.Leave(leaving, from)
	}()
	opened := func(a netip.AddrPort) {
		var err error
		from = a
		if f.Station, err = s.o.Host.Expect(a, f.Choice); err != nil {
			f.stop()
		}
		ready <- err
	}
	_, err := send.Send(ctx, send.Options{To: s.o.To.String(), Pace: pace, Opened: opened}, pilot)
	if err != nil && !errors.Is(err, context.Canceled) {
		s.o.Log.Warn().Err(err).Msg("the demonstration cannot be flown")
	}
	if !from.IsValid() {
		ready <- err
	}
}

// End ends the demonstration that is flown, and returns when its station has ended.
func (s *Show) End() {
	s.mu.Lock()
	f := s.now
	s.now = nil
	s.mu.Unlock()
	if f != nil {
		f.stop()
		<-f.over
	}
}

// Now returns the demonstration that is flown; ok is false when none is.
func (s *Show) Now() (now Showing, ok bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.now == nil {
		return Showing{}, false
	}
	select {
	case <-s.now.over: // of itself
		return Showing{}, false
	default:
		return s.now.Showing, true
	}
}

// Close ends the demonstration for good.
func (s *Show) Close() {
	s.mu.Lock()
	s.closed = true
	s.mu.Unlock()
	s.End()
}
