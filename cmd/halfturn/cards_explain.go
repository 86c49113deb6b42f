package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"text/tabwriter"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/debrief"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
)

type cardsExplain struct {
	common
	Name  string `arg:"" help:"Name of a maneuver card, or a maneuver card file, as for cards show."`
	Check string `arg:"" optional:"" help:"Id of a check, as halfturn cards show NAME lists them: bank-at-90."`
}

// Help says what else can be written.
func (cardsExplain) Help() string {
	return "halfturn cards explain wing-over bank-at-90. With the id of a check alone: of every card that has one of that id, or of the card named with --maneuver."
}

// Run explains a check.
func (c *cardsExplain) Run(io streams) error {
	cfg, err := loadConfig(&c.common, io.env)
	if err != nil {
		return err
	}
	lib, cards, err := c.meant(cfg)
	if err != nil {
		return err
	}
	var b strings.Builder
	var ids []string
	for _, card := range cards {
		plan, err := planFor(lib, card.Name, cfg.Aircraft)
		if err != nil {
			return cfg.from.wrap("aircraft", err)
		}
		for i := range card.Checks {
			ids = append(ids, card.Checks[i].ID)
			if card.Checks[i].ID == c.Check {
				explain(&b, plan, &card.Checks[i])
			}
		}
	}
	if b.Len() == 0 {
		slices.Sort(ids)
		if c.Check == "" {
			return usagef("which check is meant is missing; there are: %s", strings.Join(slices.Compact(ids), ", "))
		}
		return usagef("there is no check %q; there are: %s", c.Check, strings.Join(slices.Compact(ids), ", "))
	}
	for _, line := range coach.Cautions {
		fmt.Fprintln(&b, line)
	}
	_, err = io.out.Write([]byte(b.String()))
	return err
}

// meant finds out which of the words is the card and which is the check, and returns the cards that are meant.
func (c *cardsExplain) meant(cfg *config) (*maneuver.Library, []*maneuver.Card, error) {
	lib, err := cfg.readCards()
	if err != nil {
		return nil, nil, err
	}
	isCard := func(word string) bool {
		return strings.HasSuffix(word, ".toml") || slices.ContainsFunc(lib.Cards(), func(k *maneuver.Card) bool { return k.Name == word })
	}
	name := ""
	switch {
	case c.Check != "" && isCard(c.Check) && !isCard(c.Name):
		name, c.Check = c.Check, c.Name
	case c.Check != "" || isCard(c.Name): // a card alone: its checks are told
		name = c.Name
	default:
		c.Check = c.Name
	}
	switch {
	case name != "" && c.Maneuver != nil && name != *c.Maneuver:
		return nil, nil, usagef("two cards are named: %q, and %q by --maneuver; leave one out", name, *c.Maneuver)
	case name == "" && c.Maneuver == nil:
		return lib, lib.Cards(), nil
	case name == "":
		name = cfg.Maneuver
	}
	if err := cfg.cardFile(lib, "maneuvers", "", &name); err != nil {
		return nil, nil, err
	}
	card, err := lib.Card(name)
	if err != nil {
		return nil, nil, usageError{err}
	}
	return lib, []*maneuver.Card{card}, nil
}

// explain writes what a check is, what it wants, what it says and how it scores.
func explain(w io.Writer, p *coach.Plan, k *check.Spec) {
	card := p.Card
	aim, met, near := bandCells(card, k, planFacts(p))
	kind := kinds.Of(k)
	fmt.Fprintf(w, "%s: %s (%s)\n", card.Title, k.Label, k.ID)
	t := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	fmt.Fprintf(t, "  Measures\t%s\n", kinds.Where(k))
	fmt.Fprintf(t, "  Kind\t%s: %s\n", k.Kind, kind.Says)
	fmt.Fprintf(t, "  Aim\t%s\n  Met\t%s\n  Near\t%s\n", aim, met, near)
	if k.About != "" {
		fmt.Fprintf(t, "  Counted from\tthe %s of the aircraft card (%s)\n", map[string]string{"nose": "highest nose that follows from the numbers", "entry": "entry speed", "apex": "apex speed", "stall": "stall speed"}[k.About], or(p.Aircraft.Title, "none chosen"))
	}
	total := 0.0
	for i := range card.Checks {
		if kinds.Of(&card.Checks[i]).OfSeries() == kind.OfSeries() {
			total += card.Checks[i].Weight
		}
	}
	of := "leg"
	if kind.OfSeries() {
		of = "series' own"
	}
	fmt.Fprintf(t, "  Weight\t%g of %g: %.0f%% of the %s score when all is measured\n", k.Weight, total, 100*k.Weight/math.Max(total, 1e-9), of)
	fmt.Fprintf(t, "  Said when high\t%s\n  Said when low\t%s\n", or(k.High, "nothing"), or(k.Low, "nothing"))
	fmt.Fprintf(t, "  Source\t%s\n", k.Source)
	t.Flush()
	explainScore(w, card, k, planFacts(p))
	fmt.Fprintln(w)
}

// explainScore writes the scores at the places where the rule bends.
func explainScore(w io.Writer, card *maneuver.Card, k *check.Spec, f *check.Facts) {
	fmt.Fprintln(w, "  Score: 100 from the aim to half way to the edge of met, 85 at that edge, 60 at the edge of near, 0 as far again beyond it.")
	b, reason := check.Resolve(k, f)
	if reason != "" {
		fmt.Fprintf(w, "  Not measured here: %s. Choose an aircraft with --aircraft.\n", reason)
		return
	}
	var at []float64
	add := func(edge, outer *float64) {
		if edge == nil {
			return
		}
		at = append(at, *edge)
		if b.Aim != nil {
			at = append(at, (*b.Aim+*edge)/2)
		}
		if outer != nil {
			at = append(at, *outer, 2**outer-*edge)
		}
	}
	add(b.Met.Low, b.Near.Low)
	add(b.Met.High, b.Near.High)
	if b.Aim != nil {
		at = append(at, *b.Aim)
	}
	slices.Sort(at)
	unit := debrief.Unit(card.UnitOf(k))
	var cells []string
	for _, x := range slices.Compact(at) {
		verdict, score := b.Grade(x)
		cells = append(cells, fmt.Sprintf("%s%s %s %.0f", short(x), unit, verdict, score))
	}
	fmt.Fprintf(w, "  Here: %s\n", strings.Join(cells, " · "))
}
