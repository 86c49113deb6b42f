package main

import (
	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/coach/sheet"
)

type briefCmd struct {
	common
	Format string `help:"text or json." enum:"text,json" default:"text"`
}

// Help says where the same is drawn.
func (briefCmd) Help() string {
	return "The page /brief of a running Halfturn draws the same, and prints it."
}

// Run prints the brief of one maneuver in one aircraft.
func (b *briefCmd) Run(io streams) error {
	cfg, err := loadConfig(&b.common, io.env)
	if err != nil {
		return err
	}
	if cfg.Maneuver == coach.AutoManeuver {
		err := cfg.Errorf("maneuver", "is %s; a brief is of one maneuver: choose it with --maneuver NAME "+
			"(halfturn cards lists them)", cfg.Maneuver)
		return usageError{err}
	}
	opt, err := cfg.Session()
	if err != nil {
		return err
	}
	brief := session.NewBrief(opt.Coach.Plan)
	if b.Format == "json" {
		return writeIndented(io.out, brief)
	}
	return sheet.Brief(io.out, brief)
}
