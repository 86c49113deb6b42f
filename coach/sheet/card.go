// Package sheet prints cards and briefs as text: what a card asks for in the numbers of an aircraft, how one of its
// checks scores, and what to know before a maneuver is flown.
package sheet

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/layout"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/wording"
)

// planFacts is what is known of a leg before it is flown. The nose is counted from level here, because the pitch of
// level flight is measured at the entry.
func planFacts(p *plan.Plan) *check.Facts {
	return &check.Facts{Aircraft: p.Aircraft, Known: p.Known, Nose: p.Nose, Dive: p.Dive()}
}

// Card prints the card of a plan: every check with its bands in numbers, its weight and its source.
func Card(w io.Writer, p *plan.Plan) error {
	b := layout.NewPage(w)
	card := p.Card
	aircraft := "no aircraft card"
	if p.Known {
		aircraft = p.Aircraft.Title
	}
	title := fmt.Sprintf("%s (%s), %s standard, %s", card.Title, card.Name, card.Standard, aircraft)
	fmt.Fprintf(b, "%s\n%s\nSource: %s\n\n", layout.Heading(w, title), card.Summary, card.Source)
	for _, c := range coach.Cautions {
		fmt.Fprintln(b, c)
	}
	fmt.Fprintln(b)
	t := layout.NewTable(b, layout.Below{Column: 6, Title: "source: "}, layout.Below{Column: 1})
	fmt.Fprintln(t, "CHECK\tMEASURES\tAIM\tMET\tNEAR\tWEIGHT\tSOURCE")
	for i := range card.Checks {
		k := &card.Checks[i]
		aim, met, near := bandCells(card, k, planFacts(p))
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%g\t%s\n", k.ID, kinds.Where(k), aim, met, near, k.Weight, k.Source)
	}
	_ = t.Flush() // the page keeps the error
	if slices.ContainsFunc(card.Checks, func(k check.Spec) bool { return k.About == "nose" || k.About == "dive" }) {
		fmt.Fprint(b, "\nThe nose is counted from the pitch of level flight, measured at the entry.\n")
	}
	published(b, card.Task)
	fmt.Fprintf(b, "\nMore on one: halfturn cards explain %s %s\n", card.Name, card.Checks[0].ID)
	return b.Err()
}

// published prints the published test that a standard judges by, element by element.
func published(b *layout.Page, task *maneuver.Task) {
	switch {
	case task == nil:
		return
	case !task.Published():
		fmt.Fprint(b, "\nNo test of this maneuver is published.\n")
		return
	}
	fmt.Fprintln(b)
	t := layout.NewTable(b, layout.Below{Column: 4, Title: "why: "}, layout.Below{Column: 3, Title: "checks: "})
	fmt.Fprintf(t, "%s %s\tASKS\tIN A STREAM\tCHECKS\tWHY\n", task.Document, task.Name)
	for i := range task.Elements {
		e := &task.Elements[i]
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\n", e.ID, e.Asks, e.Stream, strings.Join(e.Checks, ", "), e.Reason)
	}
	_ = t.Flush() // the page keeps the error
}

// bandCells are aim and bands in numbers, or as counted from what is not known.
func bandCells(card *maneuver.Card, k *check.Spec, f *check.Facts) (aim, met, near string) {
	b, reason := check.Resolve(k, f)
	unit, about := wording.Unit(card.UnitOf(k)), ""
	if !reason.IsZero() {
		b, about = check.Bands{Aim: k.Aim, Met: k.MetBand, Near: k.NearBand}, " from the "+k.About+" (not known)"
	}
	aim = "–"
	if b.Aim != nil {
		aim = short(*b.Aim) + unit
	}
	return aim, band(b.Met) + unit + about, band(b.Near) + unit
}

// band writes a band with rounded ends; one of a single number as that.
func band(b check.Band) string {
	if b.Low != nil && b.High != nil && *b.Low == *b.High {
		return short(*b.Low)
	}
	return b.String()
}

// short writes a number to two places, with a true minus sign.
func short(x float64) string {
	return strings.Replace(fmt.Sprintf("%g", math.Round(x*100)/100), "-", "−", 1)
}
