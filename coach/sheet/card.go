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
	"halfturn/stream/phrase"
)

// planFacts is what is known of a leg before it is flown. The nose is counted from level here, because the pitch of
// level flight is measured at the entry.
func planFacts(p *plan.Plan) *check.Facts {
	return &check.Facts{Aircraft: p.Aircraft, Known: p.Known, Nose: p.Nose, Dive: p.Dive()}
}

// Card prints the card of a plan in a language: every check with its bands in numbers, its weight and its source.
// Sources are citations, and stay as the card has them.
func Card(w io.Writer, p *plan.Plan, in *phrase.Language) error {
	b := newPage(w, in)
	card := p.Card
	aircraft := in.Word("no aircraft card")
	if p.Known {
		aircraft = in.Text(p.Aircraft.Title)
	}
	title := in.Wordf("%s (%s), %s standard, %s", in.Text(card.Title), card.Name, in.Text(card.Standard), aircraft)
	b.line("%s\n%s", layout.Heading(w, title), in.Text(card.Summary))
	b.line("%s\n", in.Wordf("Source: %s", card.Source))
	for _, c := range coach.Cautions {
		b.line("%s", in.Text(c))
	}
	b.line("")
	t := layout.NewTable(b, layout.Below{Column: 6, Title: in.Word("source: ")}, layout.Below{Column: 1})
	fmt.Fprintln(t, strings.Join([]string{
		in.Word("CHECK"),
		in.Word("MEASURES"),
		in.Word("AIM"),
		in.Word("MET"),
		in.Word("NEAR"),
		in.Word("WEIGHT"),
		in.Word("SOURCE"),
	}, "\t"))
	for i := range card.Checks {
		k := &card.Checks[i]
		aim, met, near := bandCells(card, k, planFacts(p), in)
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\n", k.ID, kinds.Where(k, in), aim, met, near,
			in.Number(k.Weight, -1), k.Source)
	}
	_ = t.Flush() // the page keeps the error
	if slices.ContainsFunc(card.Checks, func(k check.Spec) bool { return k.About == "nose" || k.About == "dive" }) {
		b.line("\n%s", in.Word("The nose is counted from the pitch of level flight, measured at the entry."))
	}
	published(b, card.Task)
	b.line("\n%s", in.Wordf("More on one: halfturn cards explain %s %s", card.Name, card.Checks[0].ID))
	return b.Err()
}

// published prints the published test that a standard judges by, element by element, in the words of its document.
func published(b *page, task *maneuver.Task) {
	switch {
	case task == nil:
		return
	case !task.Published():
		b.line("\n%s", b.in.Word("No test of this maneuver is published."))
		return
	}
	b.line("")
	t := layout.NewTable(b, layout.Below{Column: 4, Title: b.in.Word("why: ")},
		layout.Below{Column: 3, Title: b.in.Word("checks: ")})
	fmt.Fprintf(t, "%s %s\t%s\t%s\t%s\t%s\n", task.Document, task.Name, b.in.Word("ASKS"), b.in.Word("IN A STREAM"),
		b.in.Word("CHECKS"), b.in.Word("WHY"))
	for i := range task.Elements {
		e := &task.Elements[i]
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\n", e.ID, e.Asks, b.in.Word(e.Stream), strings.Join(e.Checks, ", "),
			e.Reason)
	}
	_ = t.Flush() // the page keeps the error
}

// bandCells are aim and bands in numbers, or as counted from what is not known.
func bandCells(card *maneuver.Card, k *check.Spec, f *check.Facts, in *phrase.Language) (aim, met, near string) {
	b, reason := check.Resolve(k, f)
	about := ""
	if !reason.IsZero() {
		b = check.Bands{Aim: k.Aim, Met: k.MetBand, Near: k.NearBand}
		about = k.About
		if in != nil {
			about = aboutIn(in, about)
		}
		about = " " + in.Wordf("from the %s (not known)", about)
		if k.About == "meant" {
			about = " " + in.Word("from what was meant")
		}
	}
	unit, times := shown(card, k)
	b = b.Times(times)
	unit = wording.UnitIn(in, unit)
	aim = "–"
	if b.Aim != nil {
		aim = short(in, *b.Aim) + unit
	}
	return aim, band(in, b.Met) + unit + about, band(in, b.Near) + unit
}

// shown is the unit in which the numbers of a check are printed, and by what they are multiplied for it: a ratio is
// percent, as in reports.
func shown(card *maneuver.Card, k *check.Spec) (unit string, times float64) {
	if unit = card.UnitOf(k); unit == "ratio" {
		return "%", 100
	}
	return unit, 1
}

// band writes a band with rounded ends; one of a single number as that.
func band(in *phrase.Language, b check.Band) string {
	low, high := b.Low, b.High
	switch {
	case low != nil && high != nil && *low == *high:
		return in.Say(phrase.Exactly.Of(phrase.Number("value", round(*low), -1, "")))
	case low != nil && high != nil:
		return in.Say(phrase.Between.Of(phrase.Number("low", round(*low), -1, ""),
			phrase.Number("high", round(*high), -1, "")))
	case low != nil:
		return in.Say(phrase.AtLeast.Of(phrase.Number("low", round(*low), -1, "")))
	case high != nil:
		return in.Say(phrase.AtMost.Of(phrase.Number("high", round(*high), -1, "")))
	}
	return in.Say(phrase.AnyValue.Of())
}

// short writes a number to two places, with a true minus sign.
func short(in *phrase.Language, x float64) string { return in.Number(round(x), -1) }

// round cuts a number to two places.
func round(x float64) float64 { return math.Round(x*100) / 100 }
