package sheet

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/layout"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/wording"
)

// abouts are the numbers of an aircraft card that bands may be counted from, in words.
var abouts = map[string]string{
	"nose":  "highest nose that follows from the numbers",
	"dive":  "lowest nose that follows from the numbers",
	"entry": "entry speed",
	"apex":  "apex speed",
	"stall": "stall speed",
}

// Explain writes what a check of the plan's card measures, what it asks for, what it says and how it scores.
func Explain(w io.Writer, p *plan.Plan, k *check.Spec) {
	page := layout.NewPage(w)
	card := p.Card
	aim, met, near := bandCells(card, k, planFacts(p))
	kind := kinds.Of(k)
	fmt.Fprintln(page, layout.Heading(w, fmt.Sprintf("%s: %s (%s)", card.Title, k.Label, k.ID)))
	t := layout.NewTable(page)
	fmt.Fprintf(t, "  Measures\t%s\n", kinds.Where(k))
	fmt.Fprintf(t, "  Kind\t%s: %s\n", k.Kind, kind.Says)
	fmt.Fprintf(t, "  Aim\t%s\n  Met\t%s\n  Near\t%s\n", aim, met, near)
	if k.About != "" {
		fmt.Fprintf(t, "  Counted from\tthe %s of the aircraft card (%s)\n", abouts[k.About],
			cmp.Or(p.Aircraft.Title, "none chosen"))
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
	fmt.Fprintf(t, "  Weight\t%g of %g: %.0f%% of the %s score when all is measured\n",
		k.Weight, total, 100*k.Weight/math.Max(total, 1e-9), of)
	fmt.Fprintf(t, "  Said when high\t%s\n  Said when low\t%s\n", cmp.Or(k.High, "nothing"), cmp.Or(k.Low, "nothing"))
	fmt.Fprintf(t, "  Source\t%s\n", k.Source)
	_ = t.Flush() // the page keeps the error
	explainScore(page, card, k, planFacts(p))
	fmt.Fprintln(page)
}

// explainScore writes the scores at the places where the rule bends.
func explainScore(w io.Writer, card *maneuver.Card, k *check.Spec, f *check.Facts) {
	fmt.Fprintln(w, "  Score: 100 from the aim to half way to the edge of met, 85 at that edge, "+
		"60 at the edge of near, 0 as far again beyond it.")
	b, reason := check.Resolve(k, f)
	if !reason.IsZero() {
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
	unit := wording.Unit(card.UnitOf(k))
	var cells []string
	for _, x := range slices.Compact(at) {
		verdict, score := b.Grade(x)
		cells = append(cells, fmt.Sprintf("%s%s %s %.0f", short(x), unit, verdict, score))
	}
	fmt.Fprintf(w, "  Here: %s\n", strings.Join(cells, " · "))
}
