package main

import (
	"context"
	"fmt"
	"path/filepath"

	"halfturn/coach/archive/play"
	"halfturn/coach/maneuver/draft"
	"halfturn/coach/session"
	"halfturn/configs/strict"
)

type cardsMeasure struct {
	common
	Recording string `arg:"" help:"${help_measured}" type:"path"`
	Name      string `help:"Name of the card; default: made from the file's." placeholder:"NAME"`
}

// Help says what to do with what is printed.
func (cardsMeasure) Help() string {
	return "Prints an aircraft card; what could not be found is a comment in it. Write it to a file (> " +
		"my-plane.toml), review it, and use it with --aircraft my-plane.toml. Of several senders the one with the " +
		"most samples counts."
}

// Run measures an aircraft in a recording and prints its card.
func (c *cardsMeasure) Run(ctx context.Context, io streams) error {
	cfg, err := loadConfig(&c.common, io.env)
	if err != nil {
		return err
	}
	opt, err := cfg.Stream()
	if err != nil {
		return err
	}
	rec, err := play.Open(ctx, c.Recording)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Recording, strict.WithoutName(err))
	}
	as, err := rec.Settle(session.Options{Station: opt})
	if err != nil {
		return fmt.Errorf("%s: %w", c.Recording, err)
	}
	m, err := draft.Measure(ctx, rec, as.Station)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Recording, strict.WithoutName(err))
	}
	if c.Name == "" {
		c.Name = draft.NameOf(c.Recording)
	}
	_, err = io.out.Write([]byte(draft.Aircraft(m, c.Name, filepath.Base(c.Recording))))
	return err
}
