package cards

import (
	"context"
	"fmt"
	"path/filepath"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive/play"
	"halfturn/coach/maneuver/draft"
	"halfturn/coach/session"
	"halfturn/configs/strict"
)

type measureCmd struct {
	base.Flags
	Recording string `arg:"" help:"${help_measured}" type:"path"`
	Name      string `help:"Name of the card; default: made from the file's." placeholder:"NAME"`
}

// Help says what to do with what is printed.
func (measureCmd) Help() string {
	return "Prints an aircraft card; what could not be found is a comment in it. Write it to a file (> " +
		"my-plane.toml), review it, and use it with --aircraft my-plane.toml. Of several senders the one with the " +
		"most samples counts."
}

// Run measures an aircraft in a recording and prints its card.
func (c *measureCmd) Run(ctx context.Context, io base.Streams) error {
	cfg, err := base.Load(&c.Flags, io.Env)
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
	_, err = io.Out.Write([]byte(draft.Aircraft(m, c.Name, filepath.Base(c.Recording))))
	return err
}
