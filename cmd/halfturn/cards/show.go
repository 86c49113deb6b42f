package cards

import (
	"halfturn/cmd/halfturn/base"
	"halfturn/coach/sheet"
)

type showCmd struct {
	base.Flags
	Name string `arg:"" help:"Name of a card of a maneuver, a standard or an aircraft, or a maneuver card file."`
	Raw  bool   `help:"Print the file as it is written."`
}

// Help says what is shown.
func (showCmd) Help() string {
	return "Every check with what it measures, its bands in numbers for the aircraft chosen with --aircraft, its " +
		"weight and its source. --raw prints the file, to see how a card is written."
}

// Run prints a card: its numbers as they stand for an aircraft, or its text.
func (c *showCmd) Run(io base.Streams) error {
	cfg, err := base.Load(&c.Flags, io.Env)
	if err != nil {
		return err
	}
	lib, err := cfg.Library()
	if err != nil {
		return err
	}
	if err := cfg.CardFile(lib, "maneuvers", "", &c.Name); err != nil {
		return err
	}
	kind, o, err := findCard(io.Language, lib, c.Name)
	if err != nil {
		return err
	}
	if c.Raw || kind != "maneuvers" {
		_, err = io.Out.Write(o.Text)
		return err
	}
	plan, err := planFor(lib, c.Name, cfg.Aircraft)
	if err != nil {
		return cfg.Blame("aircraft", err)
	}
	return sheet.Card(io.Out, plan, io.Language)
}
