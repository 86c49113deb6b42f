package main

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/browser"
	"halfturn/cmd/halfturn/demo"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer/airplane"
)

type demoCmd struct {
	base.Flags
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

// check refuses flags that the demonstration cannot use.
func (d *demoCmd) check(in *phrase.Language) error {
	switch {
	case !demo.Paces.Contains(d.Pace):
		return base.Usagef(in, "%s is %v; must be between %v and %v", "--pace", d.Pace, demo.Paces.Low, demo.Paces.High)
	case d.Maneuver != nil:
		return base.Usagef(in, "%s: the demonstration chooses what it flies; halfturn fly --maneuver NAME flies one "+
			"for halfturn serve", "--maneuver")
	case d.Aircraft != nil && !slices.Contains(airplane.Names(), *d.Aircraft):
		return base.Usagef(in, "%s is %q; must be %s", "--aircraft", *d.Aircraft, in.OneOf(airplane.Names()))
	}
	return nil
}

// config is the configuration of the demonstration.
func (d *demoCmd) config(io base.Streams) (*settings.Config, error) {
	cfg, err := base.Load(&d.Flags, io.Env, d.listening.apply)
	if err != nil {
		return nil, err
	}
	cfg.Subscribe.Nearby = false // the built-in aircraft is the one simulator
	if d.Data == nil {
		dir, err := cfg.DataDir()
		if err != nil {
			return nil, err
		}
		cfg.Data = filepath.Join(dir, "demo") // a student's own sessions and trends stay theirs
	}
	if !slices.Contains(airplane.Names(), cfg.Aircraft) {
		cfg.Aircraft = demo.Airplane
	}
	return cfg, nil
}

// Run serves with the built-in aircraft flying.
func (d *demoCmd) Run(ctx context.Context, io base.Streams) error {
	if err := d.check(io.Language); err != nil {
		return err
	}
	cfg, err := d.config(io)
	if err != nil {
		return err
	}
	show := demo.New(cfg.Aircraft, d.Once, d.Pace)
	first := &show.Flights[0].Maneuver
	cfg.SetChoice(first, nil, nil)
	again := func() (*settings.Config, error) {
		cfg, err := d.config(io)
		if err == nil {
			cfg.SetChoice(first, nil, nil)
		}
		return cfg, err
	}
	l, end, err := start(ctx, starting{Config: cfg, again: again, show: show}, io)
	if err != nil {
		return err
	}
	defer end()
	show.Forget()
	fmt.Fprintln(io.Err, io.Language.Wordf("The page: %s", l.URL()))
	if !d.NoOpen {
		browser.Open(ctx, l.URL())
	}
	return show.Run(ctx, l)
}
