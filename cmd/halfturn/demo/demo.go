// Package demo flies the demonstration: the built-in aircraft sends to a server, and the next maneuver is chosen
// whenever a series is over, as a student does on the page.
package demo

import (
	"context"
	"errors"
	"net/netip"
	"slices"
	"sync"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/option"
	"halfturn/stream/trainer/send"
)

// Paces is how fast the demonstration may fly: at 60 datagrams a second of flight the fastest is still below max-rate.
var Paces = option.Range{Low: send.PaceRange.Low, High: 100}

// Airplane flies the demonstration unless another of the built-in ones is chosen.
const Airplane = "radial-trainer"

// readResult is how long a result is left to be read before the next maneuver is chosen; the pilot flies level for
// longer than that.
const readResult = 6 * time.Second

// mostWaiting is how many ends of series may wait to be followed by the next maneuver.
const mostWaiting = 16

// A Host is the server that is flown for.
type Host interface {
	Addresses() []netip.AddrPort
	Do(context.Context, command.Command) error
	Serve(context.Context) error
}

// A Show is one demonstration.
type Show struct {
	Flights []trainer.Flight // at least one
	Pace    float64          // speed factor; 2 flies twice as fast
	Warn    func(error)      // takes why a maneuver cannot be chosen; the one before goes on
	over    chan string      // stations whose series is over
}

// New prepares a demonstration in an airplane: each kind of maneuver once, or for hours, some legs with a flaw.
func New(airplane string, once bool, pace float64) *Show {
	return &Show{
		Flights: flights(airplane, once),
		Pace:    pace,
		Warn:    func(error) {},
		over:    make(chan string, mostWaiting),
	}
}

// Output has the demonstration notice the ends of series on the way to the next output.
func (s *Show) Output(next session.Output) session.Output { return watch{next, s.over} }

// Forget drops the ends of series so far: those of a session that the last run left.
func (s *Show) Forget() {
	for len(s.over) > 0 {
		<-s.over
	}
}

// Run has the host serve while the flights are flown, until these are over or the context ends.
func (s *Show) Run(ctx context.Context, host Host) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	var wait sync.WaitGroup
	wait.Go(func() { s.follow(ctx, host) })
	flown := make(chan error, 1)
	wait.Go(func() {
		flown <- s.fly(ctx, host)
		stop()
	})
	err := host.Serve(ctx)
	stop()
	wait.Wait()
	return errors.Join(err, <-flown)
}

// fly sends the flights to the host's own UDP port.
func (s *Show) fly(ctx context.Context, host Host) error {
	pilot, err := trainer.NewSequence(s.Flights...)
	if err != nil {
		return err
	}
	_, err = send.Send(ctx, send.Options{To: host.Addresses()[0].String(), Pace: s.Pace}, pilot)
	if errors.Is(err, context.Canceled) {
		return nil
	}
	return err
}

// follow chooses the next maneuver for the station whenever a series is over.
func (s *Show) follow(ctx context.Context, host Host) {
	for i := 1; i < len(s.Flights); i++ {
		select {
		case <-ctx.Done():
			return
		case station := <-s.over:
			next := s.Flights[i]
			if next.Maneuver == s.Flights[i-1].Maneuver {
				continue
			}
			if !Pause(ctx, time.Duration(float64(readResult)/s.Pace)) {
				return
			}
			now := time.Now()
			choose := command.Choose{Choice: maneuver.Choice{Maneuver: next.Maneuver, Aircraft: next.Airplane}}
			if err := host.Do(ctx, command.New(ids.New(now), now, station, who.Owner(), choose)); err != nil {
				s.Warn(err)
			}
		}
	}
}

// Pause waits, and reports whether the full time has passed; it is false when ctx ended first.
func Pause(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}

// A watch names the stations whose series is over.
type watch struct {
	session.Output
	over chan<- string
}

// Event passes a message on.
func (w watch) Event(m message.Message) {
	w.Output.Event(m)
	if m.Type() != message.TypeSeries {
		return
	}
	select {
	case w.over <- m.Station:
	default: // the server is stopping
	}
}

// flights is what is flown: once, or for hours.
func flights(airplane string, once bool) []trainer.Flight {
	good := []trainer.Flight{
		{Maneuver: "wing-over", Direction: "both", Airplane: airplane, Seed: 3},
		{Maneuver: "chandelle-civil", Direction: "right", Airplane: airplane},
	}
	if once {
		return good
	}
	lesson := append(good,
		trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: "overbanked", Airplane: airplane},
		trainer.Flight{Maneuver: "chandelle-traditional", Direction: "left", Airplane: airplane},
		trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: "late-nose", Airplane: airplane},
		trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: "height-lost", Airplane: airplane},
	)
	return slices.Repeat(lesson, 25)
}
