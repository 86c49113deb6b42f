package sheet

import (
	"fmt"
	"io"
	"slices"

	"halfturn/coach/brief"
	"halfturn/coach/layout"
)

// errorsPrinted is how many of the expected errors fit on a screen; the page shows all.
const errorsPrinted = 12

// Brief prints the brief of a maneuver: its numbers, the set-up, the checkpoints, what is said, and the usual errors.
func Brief(w io.Writer, b *brief.Sheet) error {
	out := layout.NewPage(w)
	fmt.Fprintf(out, "%s\n%s\n\n", layout.Heading(w, b.Maneuver.Title), b.Maneuver.Summary)
	for _, c := range b.Cautions {
		fmt.Fprintln(out, c)
	}
	legs := "One leg"
	if b.Plan.Legs > 1 {
		legs = fmt.Sprintf("A series of %d legs", b.Plan.Legs)
	}
	fmt.Fprintf(out, "\n%s, %s standard", legs, b.Standard.Title)
	if b.Aircraft != nil {
		fmt.Fprintf(out, ", %s", b.Aircraft.Title)
	}
	fmt.Fprint(out, "\n\n")
	table(out, func(t io.Writer) {
		for i := range b.Numbers {
			fmt.Fprintf(t, "  %s\t%s\n", b.Numbers[i].Label, &b.Numbers[i])
		}
	})
	for i, says := range slices.Concat(b.Plan.Warnings, b.Notes) {
		if i == 0 {
			heading(out, "Notes")
		}
		fmt.Fprintf(out, "  %s\n", says)
	}
	briefPath(out, b)
	heading(out, "Before you begin")
	table(out, func(t io.Writer) {
		for i := range b.Gates {
			fmt.Fprintf(t, "  %s\t%s\n", b.Gates[i].Label, b.Gates[i].Want)
		}
	})
	heading(out, "What to see, and what is said")
	table(out, func(t io.Writer) {
		for _, k := range b.Plan.Checkpoints {
			fmt.Fprintf(t, "  %s\t%s\t%s\n", k.Label, k.Words, k.Want)
		}
	})
	for _, s := range b.Said {
		fmt.Fprintf(out, "  before %s: “%s”\n", s.Label, s.Words)
	}
	heading(out, "Usual errors")
	for _, e := range b.Usual {
		fmt.Fprintf(out, "  %s\n", e)
	}
	heading(out, "Errors that cost most, and what to change")
	for _, e := range b.Errors[:min(errorsPrinted, len(b.Errors))] {
		fmt.Fprintf(out, "  %s\n    %s\n", e.Seen, e.Advice)
	}
	fmt.Fprintf(out, "\nSources\n  Maneuver: %s\n", b.Sources[0])
	if len(b.Sources) > 1 {
		fmt.Fprintf(out, "  Aircraft: %s\n", b.Sources[1])
	}
	return out.Err()
}

// briefPath prints the reference path at the checkpoints, or why there is none.
func briefPath(out *layout.Page, b *brief.Sheet) {
	if b.Path == nil {
		fmt.Fprintf(out, "\nThere is no reference path: %s. Choose an aircraft with --aircraft (halfturn cards lists "+
			"them).\n",
			b.Problem)
		return
	}
	heading(out, "Reference path, no wind")
	t := layout.NewFigures(out)
	fmt.Fprint(t, "turn\ttime\tbank\tnose\tspeed\theight\tload\tover the stall\talong\tacross\t\n")
	turns := []float64{0}
	for _, k := range b.Plan.Checkpoints {
		turns = append(turns, k.Turn)
	}
	for _, turn := range turns {
		q := b.At(turn)
		stall := "–"
		if q.Stall != nil {
			stall = fmt.Sprintf("%.0f kt", *q.Stall)
		}
		fmt.Fprintf(t, "%g°\t%.1f s\t%.0f°\t%+.0f°\t%.0f kt\t%+.0f ft\t%.1f g\t%s\t%.0f ft\t%.0f ft\t\n",
			q.Turn, q.Time, q.Bank, q.Pitch, q.Airspeed, q.Height, q.Load, stall, q.Along, q.Across)
	}
	_ = t.Flush() // the page keeps the error
}

// heading begins a part of a page.
func heading(out *layout.Page, title string) { fmt.Fprintf(out, "\n%s\n", layout.Heading(out, title)) }

// table lines columns up.
func table(out *layout.Page, write func(io.Writer)) {
	t := layout.NewTable(out)
	write(t)
	_ = t.Flush() // the page keeps the error
}
