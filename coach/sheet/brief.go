package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"halfturn/coach/brief"
	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

// errorsPrinted is how many of the expected errors fit on a screen; the page shows all.
const errorsPrinted = 12

// Brief prints the brief of a maneuver in a language: its numbers, the set-up, the checkpoints, what is said, and the
// usual errors.
func Brief(w io.Writer, b *brief.Sheet, in *phrase.Language) error {
	out := newPage(w, in)
	out.line("%s\n%s\n", layout.Heading(w, in.Text(b.Maneuver.Title)), in.Text(b.Maneuver.Summary))
	for _, c := range b.Cautions {
		out.line("%s", in.Text(c))
	}
	legs := in.Wordf("One leg, %s standard", in.Text(b.Standard.Title))
	if b.Plan.Legs > 1 {
		legs = in.Wordf("A series of %d legs, %s standard", b.Plan.Legs, in.Text(b.Standard.Title))
	}
	if b.Aircraft != nil {
		legs += ", " + in.Text(b.Aircraft.Title)
	}
	out.line("\n%s\n", legs)
	out.table(func(t io.Writer) {
		for i := range b.Numbers {
			n := &b.Numbers[i]
			fmt.Fprintf(t, "  %s\t%s\n", in.Say(n.Label), n.In(in))
		}
	})
	for i, says := range slices.Concat(b.Plan.Warnings, b.Notes) {
		if i == 0 {
			out.heading("Notes")
		}
		out.line("  %s", in.Say(says))
	}
	briefPath(out, b)
	out.heading("Before you begin")
	out.table(func(t io.Writer) {
		for i := range b.Gates {
			fmt.Fprintf(t, "  %s\t%s\n", in.Say(b.Gates[i].Label), in.Say(b.Gates[i].Want))
		}
	})
	briefTurn(out, b)
	briefErrors(out, b)
	out.line("\n%s", in.Word("Sources"))
	out.line("  %s", in.Wordf("Maneuver: %s", b.Sources[0]))
	if len(b.Sources) > 1 {
		out.line("  %s", in.Wordf("Aircraft: %s", b.Sources[1]))
	}
	return out.Err()
}

// briefTurn prints what there is to see at the checkpoints, and what is said before them.
func briefTurn(out *page, b *brief.Sheet) {
	in := out.in
	out.heading("What to see, and what is said")
	out.table(func(t io.Writer) {
		for _, k := range b.Plan.Checkpoints {
			fmt.Fprintf(t, "  %s\t%s\t%s\n", in.Word(k.Label), in.Text(k.Words), in.Say(k.Want))
		}
	})
	for _, s := range b.Said {
		out.line("  %s", in.Wordf("before %s: “%s”", in.Word(s.Label), in.Say(s.Words)))
	}
}

// briefErrors prints the card's own list of errors, and those that can cost most.
func briefErrors(out *page, b *brief.Sheet) {
	in := out.in
	out.heading("Usual errors")
	for _, e := range b.Usual {
		out.line("  %s", in.Text(e))
	}
	out.heading("Errors that cost most, and what to change")
	for _, e := range b.Errors[:min(errorsPrinted, len(b.Errors))] {
		out.line("  %s\n    %s", in.Word(e.Seen), in.Say(e.Advice))
	}
}

// briefPath prints the reference path at the checkpoints, or why there is none.
func briefPath(out *page, b *brief.Sheet) {
	in := out.in
	if b.Path == nil {
		out.line("\n%s", in.Wordf("There is no reference path: %s. Choose an aircraft with --aircraft (halfturn cards "+
			"lists them).", in.Say(b.Problem)))
		return
	}
	out.heading("Reference path, no wind")
	t := layout.NewFigures(out)
	for _, title := range []string{
		in.Word("turn"),
		in.Word("time"),
		in.Word("bank"),
		in.Word("nose"),
		in.Word("speed"),
		in.Word("height"),
		in.Word("load"),
		in.Word("over the stall"),
		in.Word("along"),
		in.Word("across"),
	} {
		fmt.Fprintf(t, "%s\t", title)
	}
	fmt.Fprintln(t)
	turns := []float64{0}
	for _, k := range b.Plan.Checkpoints {
		turns = append(turns, k.Turn)
	}
	for _, turn := range turns {
		q := b.At(turn)
		stall := "–"
		if q.Stall != nil {
			stall = in.Number(*q.Stall, 0) + " kt"
		}
		fmt.Fprintf(t, "%s°\t%s s\t%s°\t%s°\t%s kt\t%s ft\t%s g\t%s\t%s ft\t%s ft\t\n",
			in.Number(q.Turn, -1), in.Number(q.Time, 1), in.Number(q.Bank, 0), plus(in, q.Pitch),
			in.Number(q.Airspeed, 0), plus(in, q.Height), in.Number(q.Load, 1), stall, in.Number(q.Along, 0),
			in.Number(q.Across, 0))
	}
	_ = t.Flush() // the page keeps the error
}

// plus writes a whole number with its sign.
func plus(in *phrase.Language, v float64) string {
	s := in.Number(v, 0)
	if strings.HasPrefix(s, "−") {
		return s
	}
	return "+" + s
}
