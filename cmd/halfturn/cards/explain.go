package cards

import (
	"fmt"
	"slices"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/layout"
	"halfturn/coach/maneuver"
	"halfturn/coach/sheet"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
)

type explainCmd struct {
	base.Flags
	Name  string `arg:"" help:"Name of a maneuver card, or a maneuver card file, as for cards show."`
	Check string `arg:"" optional:"" help:"Id of a check, such as bank-at-90; halfturn cards show NAME lists them."`
}

// Help says what else can be written.
func (explainCmd) Help() string {
	return "Example: halfturn cards explain wing-over bank-at-90. The id of a check alone explains it for every " +
		"card that has it, or for the card named with --maneuver."
}

// Run explains a check.
func (c *explainCmd) Run(io base.Streams) error {
	cfg, err := base.Load(&c.Flags, io.Env)
	if err != nil {
		return err
	}
	lib, cards, err := c.meant(cfg, io.Language)
	if err != nil {
		return err
	}
	page := layout.NewPage(io.Out)
	var ids []string
	found := false
	for _, card := range cards {
		plan, err := planFor(lib, card.Name, cfg.Aircraft)
		if err != nil {
			return cfg.Blame("aircraft", err)
		}
		for i := range card.Checks {
			ids = append(ids, card.Checks[i].ID)
			if card.Checks[i].ID == c.Check {
				sheet.Explain(page, plan, &card.Checks[i], io.Language)
				found = true
			}
		}
	}
	if !found {
		slices.Sort(ids)
		checks := strings.Join(slices.Compact(ids), ", ")
		if c.Check == "" {
			return base.Usagef(io.Language, "which check is meant is missing; there are: %s", checks)
		}
		return base.Usagef(io.Language, "there is no check %q; there are: %s", c.Check, checks)
	}
	for _, line := range coach.Cautions {
		fmt.Fprintln(page, io.Language.Text(line))
	}
	return page.Err()
}

// meant finds out which of the words is the card and which is the check, and returns the cards that are meant.
func (c *explainCmd) meant(
	cfg *settings.Config, in *phrase.Language,
) (*maneuver.Library, []*maneuver.Card, error) {
	lib, err := cfg.Library()
	if err != nil {
		return nil, nil, err
	}
	isCard := func(word string) bool {
		named := func(k *maneuver.Card) bool { return k.Name == word }
		return strings.HasSuffix(word, ".toml") || slices.ContainsFunc(lib.Cards(), named)
	}
	name := ""
	switch {
	case c.Check != "" && isCard(c.Check) && !isCard(c.Name):
		name, c.Check = c.Check, c.Name
	case c.Check != "" || isCard(c.Name): // a card alone: its checks are listed
		name = c.Name
	default:
		c.Check = c.Name
	}
	switch {
	case name != "" && c.Maneuver != nil && name != *c.Maneuver:
		return nil, nil, base.Usagef(in, "two cards are named: %q, and %q by --maneuver; leave one out", name,
			*c.Maneuver)
	case name == "" && c.Maneuver == nil:
		return lib, lib.Cards(), nil
	case name == "":
		name = cfg.Maneuver
	}
	if err := cfg.CardFile(lib, "maneuvers", "", &name); err != nil {
		return nil, nil, err
	}
	card, err := lib.Card(name)
	if err != nil {
		return nil, nil, base.Usage(err)
	}
	return lib, []*maneuver.Card{card}, nil
}
