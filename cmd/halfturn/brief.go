package main

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"halfturn/coach"
	"halfturn/coach/brief"
)

type briefCmd struct {
	common
	Format string `help:"text or json." enum:"text,json" default:"text"`
}

// Help says where the same is drawn.
func (briefCmd) Help() string {
	return "The same as the page /brief of a running Halfturn, which draws it and prints it."
}

// Run prints the sheet of one maneuver in one aircraft.
func (b *briefCmd) Run(io streams) error {
	cfg, err := loadConfig(&b.common, io.env)
	if err != nil {
		return err
	}
	if cfg.Maneuver == coach.AutoManeuver {
		return usageError{cfg.from.Errorf("maneuver", "is %s; a brief is of one: choose it with --maneuver NAME (halfturn cards lists them)", cfg.Maneuver)}
	}
	opt, err := cfg.session()
	if err != nil {
		return err
	}
	sheet := brief.New(opt.Coach.Plan)
	if b.Format == "json" {
		e := json.NewEncoder(io.out)
		e.SetIndent("", "  ")
		return e.Encode(sheet)
	}
	return printBrief(io.out, sheet)
}

// errorsPrinted is how many errors to expect fit a screen; the page has all.
const errorsPrinted = 12

func printBrief(w io.Writer, b *brief.Sheet) error {
	var out strings.Builder
	fmt.Fprintf(&out, "%s\n%s\n\n", b.Maneuver.Title, b.Maneuver.Summary)
	for _, c := range b.Cautions {
		fmt.Fprintln(&out, c)
	}
	legs := "One leg"
	if b.Plan.Legs > 1 {
		legs = fmt.Sprintf("A series of %d legs", b.Plan.Legs)
	}
	fmt.Fprintf(&out, "\n%s, %s standard", legs, b.Standard.Title)
	if b.Aircraft != nil {
		fmt.Fprintf(&out, ", %s", b.Aircraft.Title)
	}
	out.WriteString("\n\n")
	table(&out, func(t io.Writer) {
		for _, n := range b.Numbers {
			fmt.Fprintf(t, "  %s\t%s\n", n.Label, n.Words)
		}
	})
	briefPath(&out, b)
	out.WriteString("\nBefore you begin\n")
	table(&out, func(t io.Writer) {
		for i := range b.Gates {
			fmt.Fprintf(t, "  %s\t%s\n", b.Gates[i].Label, b.Gates[i].Want)
		}
	})
	out.WriteString("\nWhat to see, and what is said\n")
	table(&out, func(t io.Writer) {
		for _, k := range b.Plan.Checkpoints {
			fmt.Fprintf(t, "  %s\t%s\t%s\n", k.Label, k.Words, k.Want)
		}
	})
	for _, s := range b.Said {
		fmt.Fprintf(&out, "  before %s: “%s”\n", s.Label, s.Words)
	}
	out.WriteString("\nUsual errors\n")
	for _, e := range b.Usual {
		fmt.Fprintf(&out, "  %s\n", e)
	}
	out.WriteString("\nErrors that cost most, and what to change\n")
	for _, e := range b.Errors[:min(errorsPrinted, len(b.Errors))] {
		fmt.Fprintf(&out, "  %s\n    %s\n", e.Seen, e.Advice)
	}
	fmt.Fprintf(&out, "\nSources: %s\n", strings.Join(b.Sources, "; "))
	_, err := io.WriteString(w, out.String())
	return err
}

// briefPath prints the reference path at the checkpoints, or why there is none.
func briefPath(out *strings.Builder, b *brief.Sheet) {
	if b.Path == nil {
		fmt.Fprintf(out, "\nThere is no reference path: %s. Choose an aircraft with --aircraft (halfturn cards lists them).\n", b.Problem)
		return
	}
	out.WriteString("\nReference path, no wind\n")
	var lines strings.Builder
	t := tabwriter.NewWriter(&lines, 0, 8, 2, ' ', tabwriter.AlignRight)
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
		fmt.Fprintf(t, "%g°\t%.1f s\t%.0f°\t%+.0f°\t%.0f kt\t%+.0f ft\t%.1f g\t%s\t%.0f ft\t%.0f ft\t\n", q.Turn, q.Time, q.Bank, q.Pitch, q.Airspeed, q.Height, q.Load, stall, q.Along, q.Across)
	}
	_ = t.Flush() // into memory
	out.WriteString(lines.String())
}

// table lines columns up; what it writes to is memory.
func table(out *strings.Builder, write func(io.Writer)) {
	t := tabwriter.NewWriter(out, 0, 8, 2, ' ', 0)
	write(t)
	_ = t.Flush()
}

func or(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

func knots(v float64) string {
	if v == 0 {
		return "not given"
	}
	return fmt.Sprintf("%g kt", v)
}
