package main

import (
	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/brief"
	"halfturn/coach/sheet"
)

type briefCmd struct {
	base.Flags
	Format string `help:"text or json." enum:"text,json" default:"text"`
}

// Help says where the same is drawn.
func (briefCmd) Help() string {
	return "The page /brief of a running Halfturn draws the same, and prints it."
}

// Run prints the brief of one maneuver in one aircraft.
func (b *briefCmd) Run(io base.Streams) error {
	cfg, err := base.Load(&b.Flags, io.Env)
	if err != nil {
		return err
	}
	if cfg.Maneuver == coach.AutoManeuver {
		err := cfg.Errorf("maneuver", "%s", io.Language.Wordf("is %s; a brief is of one maneuver: choose it with "+
			"--maneuver NAME (halfturn cards lists them)", cfg.Maneuver))
		return base.Usage(err)
	}
	opt, err := cfg.Session()
	if err != nil {
		return err
	}
	made := brief.New(opt.Coach.Plan)
	if b.Format == "json" {
		return base.Indented(io.Out, made)
	}
	return sheet.Brief(io.Out, made, io.Language)
}
