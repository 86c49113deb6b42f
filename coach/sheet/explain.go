package sheet

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"halfturn/coach/check"
	"halfturn/coach/debrief"
	"halfturn/coach/kinds"
	"halfturn/coach/layout"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// aboutIn is a number of an aircraft card that bands may be counted from, in words.
func aboutIn(in *phrase.Language, about string) string {
	switch about {
	case "nose":
		return in.Word("highest nose that follows from the numbers")
	case "dive":
		return in.Word("lowest nose that follows from the numbers")
	case "entry":
		return in.Word("entry speed")
	case "apex":
		return in.Word("apex speed")
	}
	return in.Word("stall speed")
}

// Explain writes in a language what a check of the plan's card measures, what it asks for, what it says and how it
// scores.
func Explain(w io.Writer, p *plan.Plan, k *check.Spec, in *phrase.Language) {
	out := newPage(w, in)
	card := p.Card
	aim, met, near := bandCells(card, k, planFacts(p), in)
	kind := kinds.Of(k)
	out.line("%s", layout.Heading(w, fmt.Sprintf("%s: %s (%s)", in.Text(card.Title), in.Text(k.Label), k.ID)))
	t := layout.NewTable(out)
	row := func(title, text string) { fmt.Fprintf(t, "  %s\t%s\n", title, text) }
	row(in.Word("Measures"), kinds.Where(k, in))
	row(in.Word("Kind"), k.Kind+": "+in.Word(kind.Says))
	row(in.Word("Aim"), aim)
	row(in.Word("Met"), met)
	row(in.Word("Near"), near)
	switch k.About {
	case "":
	case "meant":
		row(in.Word("Counted from"), in.Word("the one of the card's banks or turns that was meant: the nearest"))
	default:
		aircraft := cmp.Or(in.Text(p.Aircraft.Title), in.Word("none chosen"))
		row(in.Word("Counted from"), in.Wordf("the %s of the aircraft card (%s)", aboutIn(in, k.About), aircraft))
	}
	row(in.Word("Weight"), weight(card, k, in))
	row(in.Word("Said when high"), cmp.Or(in.Text(k.High), in.Word("nothing")))
	row(in.Word("Said when low"), cmp.Or(in.Text(k.Low), in.Word("nothing")))
	row(in.Word("Source"), k.Source)
	_ = t.Flush() // the page keeps the error
	explainScore(out, card, k, planFacts(p))
	out.line("")
}

// weight is how much a check counts.
func weight(card *maneuver.Card, k *check.Spec, in *phrase.Language) string {
	total, series := 0.0, kinds.Of(k).OfSeries()
	for i := range card.Checks {
		if kinds.Of(&card.Checks[i]).OfSeries() == series {
			total += card.Checks[i].Weight
		}
	}
	share := in.Number(100*k.Weight/math.Max(total, 1e-9), 0)
	own, all := in.Number(k.Weight, -1), in.Number(total, -1)
	if series {
		return in.Wordf("%s of %s: %s %% of the series' own score when all is measured", own, all, share)
	}
	return in.Wordf("%s of %s: %s %% of the leg score when all is measured", own, all, share)
}

// explainScore writes the scores at the places where the rule bends.
func explainScore(out *page, card *maneuver.Card, k *check.Spec, f *check.Facts) {
	in := out.in
	out.line("  %s", in.Word("Score: 100 from the aim to half way to the edge of met, 85 at that edge, 60 at the edge "+
		"of near, 0 as far again beyond it."))
	b, reason := check.Resolve(k, f)
	if !reason.IsZero() {
		out.line("  %s", in.Wordf("Not measured here: %s. Choose an aircraft with --aircraft.", in.Say(reason)))
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
	unit, times := shown(card, k)
	unit = wording.UnitIn(in, unit)
	var cells []string
	for _, x := range slices.Compact(at) {
		verdict, score := b.Grade(x)
		words := in.Say(debrief.InWords(verdict))
		cells = append(cells, fmt.Sprintf("%s%s %s %.0f", short(in, times*x), unit, words, score))
	}
	out.line("  %s", in.Wordf("Here: %s", strings.Join(cells, " · ")))
}
