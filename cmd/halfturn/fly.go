package main

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/option"
	"halfturn/stream/trainer/send"
)

type flyCmd struct {
	To        string  `help:"Address to send to: HOST:PORT." default:"127.0.0.1:7181" placeholder:"ADDR"`
	Format    string  `help:"Stream format: ${formats}." default:"labels"`
	Rate      float64 `help:"Datagrams per second of flight, ${rates}." default:"60"`
	Pace      float64 `help:"Speed factor, ${paces}; 2 flies twice as fast." default:"1"`
	Maneuver  string  `help:"One of ${maneuvers}." default:"wing-over"`
	Direction string  `help:"One of ${directions}." default:"both"`
	Flaw      string  `help:"Flaw of the first leg, one of ${flaws}." default:""`
	Strength  string  `help:"${help_strength}" default:"medium"`
	Aircraft  string  `help:"One of ${airplanes}." default:"radial-trainer"`
	Wind      string  `help:"Wind as FROM/SPEED, in ° and kt: 270/15; the speed ${winds}." placeholder:"WIND"`
	Legs      int     `help:"Number of legs, ${legs}; 0 is as the direction asks." default:"0"`
	Stations  int     `help:"Number of simulators to play, ${stations}." default:"1"`
	Seed      uint64  `help:"Random seed; the same seed repeats the flight." default:"1"`
}

// Help says what else there is to know.
func (flyCmd) Help() string {
	return "The built-in aircraft flies the maneuver and sends what its instruments would show, to halfturn serve " +
		"or to halfturn probe."
}

// flight is what the flags ask for.
func (f *flyCmd) flight() (trainer.Flight, error) {
	t := trainer.Flight{
		Maneuver:  f.Maneuver,
		Direction: f.Direction,
		Flaw:      f.Flaw,
		Strength:  f.Strength,
		Airplane:  f.Aircraft,
		Legs:      f.Legs,
		Seed:      f.Seed,
	}
	if f.Wind == "" {
		return t, nil
	}
	var err error
	t.WindFrom, t.WindSpeed, err = trainer.ParseWind(f.Wind)
	return t, err
}

// numbers checks the flags for which 0 would mean the default.
func (f *flyCmd) numbers(in *phrase.Language) error {
	for _, n := range []struct {
		flag   string
		value  float64
		within option.Range
	}{
		{"--rate", f.Rate, send.RateRange},
		{"--pace", f.Pace, send.PaceRange},
		{"--stations", float64(f.Stations), send.StationRange},
	} {
		if !n.within.Contains(n.value) {
			return base.Usagef(in, "%s is %v; must be between %v and %v", n.flag, n.value, n.within.Low, n.within.High)
		}
	}
	return nil
}

// Run flies until the flight is over or it is interrupted.
func (f *flyCmd) Run(ctx context.Context, io base.Streams) error {
	in := io.Language
	if err := f.numbers(in); err != nil {
		return err
	}
	flight, err := f.flight()
	if err != nil {
		return badOption(in, err)
	}
	pilot, err := trainer.New(flight)
	if err != nil {
		return badOption(in, err)
	}
	began := time.Now()
	o := send.Options{To: f.To, Format: f.Format, Rate: f.Rate, Pace: f.Pace, Stations: f.Stations}
	o.Told = func(why error) {
		page := layout.NewPage(io.Err)
		after := in.Number(time.Since(began).Seconds(), 1)
		fmt.Fprintf(page, "halfturn: %s\n", in.Wordf("after %s s %s", after, f.fate(in, why)))
		_ = page.Err() // nowhere is left to say it
	}
	counts, err := send.Send(ctx, o, pilot)
	if err != nil && !errors.Is(err, context.Canceled) {
		return badOption(in, err)
	}
	_, err = fmt.Fprintln(io.Out, in.Wordf("%d datagrams sent to %s, %d refused, %d failed",
		counts.Datagrams, f.To, counts.Refused, counts.Failed))
	switch {
	case err != nil:
		return err
	case counts.Arrived || counts.Datagrams+counts.Failed == 0: // interrupted before the first
		return nil
	case counts.Datagrams == 0:
		return base.Failf(in, "nothing could be sent to %s: %w; give another address with --to", f.To,
			counts.LastError)
	}
	return base.Failf(in, "nobody listens at %s; start halfturn serve first, or give another address with --to", f.To)
}

// fate says what becomes of the datagrams.
func (f *flyCmd) fate(in *phrase.Language, why error) string {
	switch {
	case why == nil:
		return in.Wordf("a program listens at %s again", f.To)
	case errors.Is(why, send.ErrNobody):
		return in.Wordf("nobody listens at %s; start halfturn serve, or give another address with --to; "+
			"sending goes on", f.To)
	}
	return in.Wordf("datagrams to %s cannot be sent: %v; sending goes on", f.To, why)
}

// badOption turns an error about an option into one about its flag.
func badOption(in *phrase.Language, err error) error {
	var wrong *option.Error
	if !errors.As(err, &wrong) {
		return err
	}
	flag := "--" + wrong.Option
	if part, ok := strings.CutPrefix(wrong.Option, "wind "); ok {
		the := map[string]string{"direction": in.Word("the direction"), "speed": in.Word("the speed")}
		flag = "--wind: " + the[part]
	}
	return base.Usage(fmt.Errorf("%s %s", flag, wrong.What(in)))
}
