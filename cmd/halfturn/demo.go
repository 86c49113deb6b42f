package main

import (
	"context"
	"errors"
	"fmt"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/configs/settings"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
	"halfturn/stream/trainer/option"
	"halfturn/stream/trainer/send"
)

type demoCmd struct {
	common
	listening
	Once   bool    `help:"Fly a right and a left wing-over and a chandelle, print the summary, and end."`
	NoOpen bool    `help:"Do not open the page in a browser."`
	Pace   float64 `help:"Speed factor, ${demo_paces}; 2 flies twice as fast." default:"1"`
}

// Help says what is seen.
func (demoCmd) Help() string {
	return "The built-in aircraft sends its stream over UDP to the server in the same program, as a simulator " +
		"would. Without --once it keeps flying, some legs with a flaw, to show what is said about it. Its sessions " +
		"are kept in the folder demo of the data directory, apart from your own, unless --data names a folder."
}

// demoPaces is how fast the demonstration may fly: at 60 datagrams a second of flight the fastest is still below
// max-rate.
var demoPaces = option.Range{Low: send.PaceRange.Low, High: 100}

// demoAircraft flies the demonstration unless another of the built-in ones is chosen.
const demoAircraft = "radial-trainer"

// Run serves with the built-in aircraft flying.
func (d *demoCmd) Run(ctx context.Context, io streams) error {
	if !demoPaces.Contains(d.Pace) {
		return usagef("--pace is %g; must be between %g and %g", d.Pace, demoPaces.Low, demoPaces.High)
	}
	if d.Maneuver != nil {
		return usagef("--maneuver: the demonstration chooses what it flies; halfturn fly --maneuver NAME flies one " +
			"for halfturn serve")
	}
	if d.Aircraft != nil && !slices.Contains(airplane.Names(), *d.Aircraft) {
		return usagef("--aircraft is %q; must be %s", *d.Aircraft, settings.OneOf(airplane.Names()))
	}
	cfg, err := loadConfig(&d.common, io.env, d.listening.apply)
	if err != nil {
		return err
	}
	if d.Data == nil {
		dir, err := cfg.DataDir()
		if err != nil {
			return err
		}
		cfg.Data = filepath.Join(dir, "demo") // a student's own sessions and trends stay theirs
	}
	if !slices.Contains(airplane.Names(), cfg.Aircraft) {
		cfg.Aircraft = demoAircraft
	}
	flights := demonstration(cfg.Aircraft, d.Once)
	cfg.SetChoice(&flights[0].Maneuver, nil, nil)
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	print := printer{io: io}
	done := make(chan string, 16) // stations whose series is over
	l, err := start(ctx, cfg, io, print.session, func(next session.Output) session.Output {
		return seriesListener{next, done}
	})
	if err != nil {
		return err
	}
	for len(done) > 0 { // those of a session that the last run left
		<-done
	}
	fmt.Fprintf(io.err, "The page: %s\n", l.url())
	if !d.NoOpen {
		openBrowser(ctx, l.url())
	}
	var wait sync.WaitGroup
	wait.Go(func() { d.follow(ctx, l, done, flights, cfg.Aircraft) })
	flown := make(chan error, 1)
	wait.Go(func() {
		flown <- d.fly(ctx, l, flights)
		stop()
	})
	err = l.serve(ctx)
	wait.Wait()
	return errors.Join(err, <-flown)
}

// A seriesListener names the stations whose series is over.
type seriesListener struct {
	session.Output
	over chan<- string
}

// Event passes a message on.
func (s seriesListener) Event(m message.Message) {
	s.Output.Event(m)
	if m.Type() != message.TypeSeries {
		return
	}
	select {
	case s.over <- m.Station:
	default: // the server is stopping
	}
}

// demonstration is what is flown: once, or for hours.
func demonstration(aircraft string, once bool) []trainer.Flight {
	good := []trainer.Flight{
		{Maneuver: "wing-over", Direction: "both", Airplane: aircraft, Seed: 3},
		{Maneuver: "chandelle-civil", Direction: "right", Airplane: aircraft},
	}
	if once {
		return good
	}
	lesson := append(good,
		trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: "overbanked", Airplane: aircraft},
		trainer.Flight{Maneuver: "chandelle-traditional", Direction: "left", Airplane: aircraft},
		trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: "late-nose", Airplane: aircraft},
		trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: "height-lost", Airplane: aircraft},
	)
	return slices.Repeat(lesson, 25)
}

// fly sends the flights to the server's own UDP port.
func (d *demoCmd) fly(ctx context.Context, l *live, flights []trainer.Flight) error {
	pilot, err := trainer.NewSequence(flights...)
	if err != nil {
		return err
	}
	_, err = send.Send(ctx, send.Options{To: l.listener.Addresses()[0].String(), Pace: d.Pace}, pilot)
	if errors.Is(err, context.Canceled) {
		return nil
	}
	return err
}

// follow chooses the next maneuver for the station whenever a series is over, as a student
// does on the page.
func (d *demoCmd) follow(ctx context.Context, l *live, done <-chan string, flights []trainer.Flight, aircraft string) {
	for i := 1; i < len(flights); i++ {
		select {
		case <-ctx.Done():
			return
		case station := <-done:
			if flights[i].Maneuver == flights[i-1].Maneuver {
				continue
			}
			if !pause(ctx, time.Duration(float64(readResult)/d.Pace)) {
				return
			}
			now := time.Now()
			next := command.Choose{Choice: maneuver.Choice{Maneuver: flights[i].Maneuver, Aircraft: aircraft}}
			if err := l.desk.Do(ctx, command.New(ids.New(now), now, station, who.Owner(), next)); err != nil {
				l.log.Warn().Err(err).Msg("the demonstration goes on with the maneuver before")
			}
		}
	}
}

// readResult is how long a result is left to be read before the next maneuver is chosen; the
// pilot flies level for longer than that.
const readResult = 6 * time.Second

// pause waits, and tells whether the wait was not cut short.
func pause(ctx context.Context, d time.Duration) bool {
	t := time.NewTimer(d)
	defer t.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-t.C:
		return true
	}
}

// openBrowser shows the page if this machine has a way to; the address is printed anyway.
func openBrowser(ctx context.Context, url string) {
	name, args := "xdg-open", []string{url}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", url}
	}
	cmd := exec.CommandContext(ctx, name, args...)
	if cmd.Start() == nil {
		go func() { _ = cmd.Wait() }() // ends with the command, at the latest with ctx
	}
}
