package main

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"halfturn/stream/trainer"
	"halfturn/stream/wire"
)

type flyCmd struct {
	To        string  `help:"Where to send: HOST:PORT." default:"127.0.0.1:7181" placeholder:"ADDR"`
	Format    string  `help:"Stream format: ${formats}." default:"labels"`
	Rate      float64 `help:"Datagrams a second of flight." default:"60"`
	Pace      float64 `help:"Seconds of flight a second of time." default:"1"`
	Maneuver  string  `help:"One of ${maneuvers}." default:"wing-over"`
	Direction string  `help:"One of ${directions}." default:"both"`
	Flaw      string  `help:"What is flown wrong in the first leg, one of ${flaws}." default:""`
	Strength  string  `help:"How strong the flaw is: ${strengths}, or a number of which 1 is medium." default:"medium"`
	Aircraft  string  `help:"One of ${airplanes}." default:"radial-trainer"`
	Wind      string  `help:"Wind as FROM/SPEED, in ° and kt: 270/15." placeholder:"WIND"`
	Legs      int     `help:"How many legs; 0 is as the direction asks." default:"0"`
	Stations  int     `help:"How many simulators to stand for." default:"1"`
	Seed      uint64  `help:"Of the pilot's small errors: the same seed flies the same flight." default:"1"`
}

// Help adds what a user needs to know beside the flags.
func (flyCmd) Help() string {
	return "The built-in aircraft flies the maneuver and sends what its instruments would say. Point it at halfturn serve, or at halfturn probe."
}

// choices fills the lists of names into the help.
func choices() map[string]string {
	return map[string]string{
		"formats": strings.Join(wire.Formats(), ", "), "maneuvers": strings.Join(trainer.Maneuvers(), ", "),
		"directions": strings.Join(trainer.Directions(), ", "), "flaws": strings.Join(trainer.Flaws(), ", "),
		"airplanes": strings.Join(trainer.Airplanes(), ", "), "strengths": strings.Join(trainer.Strengths(), ", "),
	}
}

// flight is what the flags ask for.
func (f *flyCmd) flight() (trainer.Flight, error) {
	t := trainer.Flight{Maneuver: f.Maneuver, Direction: f.Direction, Flaw: f.Flaw, Strength: f.Strength, Airplane: f.Aircraft, Legs: f.Legs, Seed: f.Seed}
	if f.Wind == "" {
		return t, nil
	}
	from, speed, ok := strings.Cut(f.Wind, "/")
	a, err := strconv.ParseFloat(from, 64)
	b, err2 := strconv.ParseFloat(speed, 64)
	if !ok || err != nil || err2 != nil || b < 0 || b > 200 {
		return t, fmt.Errorf("--wind is %q; wanted: FROM/SPEED in degrees and knots, such as 270/15", f.Wind)
	}
	t.WindFrom, t.WindSpeed = a, b
	return t, nil
}

// Run flies until the flight is over or it is interrupted.
func (f *flyCmd) Run(ctx context.Context, io streams) error {
	flight, err := f.flight()
	if err != nil {
		return usageError{err}
	}
	pilot, err := trainer.New(flight)
	if err != nil {
		return usageError{err}
	}
	counts, err := trainer.Send(ctx, trainer.SendOptions{To: f.To, Format: f.Format, Rate: f.Rate, Pace: f.Pace, Stations: f.Stations}, pilot)
	if err != nil && !errors.Is(err, context.Canceled) {
		return err
	}
	fmt.Fprintf(io.out, "%d datagrams sent to %s, %d refused, %d failed\n", counts.Datagrams, f.To, counts.Refused, counts.Failed)
	if counts.Datagrams == counts.Refused+counts.Failed && counts.Datagrams > 0 {
		return fmt.Errorf("nobody listens at %s; start halfturn serve first, or give another address with --to", f.To)
	}
	return nil
}
