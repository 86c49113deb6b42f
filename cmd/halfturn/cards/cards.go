// Package cards holds the commands for cards: one file per command.
package cards

import (
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/maneuver"
	"halfturn/coach/maneuver/draft"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// Command is what is done with cards.
type Command struct {
	List    listCmd    `cmd:"" default:"1" help:"List the cards."`
	Show    showCmd    `cmd:"" help:"Show a card: every check with its numbers for an aircraft, and sources."`
	Explain explainCmd `cmd:"" help:"Explain one check: what it measures, asks for and says, and how it scores."`
	New     newCmd     `cmd:"" help:"Begin a card of your own from another."`
	Measure measureCmd `cmd:"" help:"Make an aircraft card from a recording."`
	Check   checkCmd   `cmd:"" help:"Check card files, and say what is wrong with them."`
	Copy    copyCmd    `cmd:"" help:"Copy a shipped card into a folder of your own, to change it."`
	Kinds   kindsCmd   `cmd:"" help:"List the kinds of check a card can ask for."`
}

// libraryOf reads the cards that the flags name.
func libraryOf(c *base.Flags, io base.Streams) (*maneuver.Library, error) {
	cfg, err := base.Load(c, io.Env)
	if err != nil {
		return nil, err
	}
	return cfg.Library()
}

// findCard finds a card of any kind.
func findCard(
	in *phrase.Language, lib *maneuver.Library, name string,
) (kind string, o maneuver.Origin, err error) {
	kind, o, ok := draft.Find(lib, name)
	if !ok {
		err = base.Usagef(in, "there is no card %q; halfturn cards lists them", name)
	}
	return kind, o, err
}

// written says where a card was written, and what is done with it next.
func written(io base.Streams, path, use string) error {
	_, err := fmt.Fprintf(io.Out, "%s\n%s\n%s\n", path,
		io.Language.Wordf("Change it, check it with: halfturn cards check %s", path),
		io.Language.Wordf("and use it with: %s", use))
	return err
}

// planFor is a maneuver in an aircraft, both by the names of their cards.
func planFor(lib *maneuver.Library, name, aircraft string) (*plan.Plan, error) {
	card, err := lib.Card(name)
	if err != nil {
		return nil, base.Usage(err)
	}
	a, err := lib.AircraftNamed(aircraft)
	if err != nil {
		return nil, base.Usage(err)
	}
	return plan.New(card, a), nil
}
