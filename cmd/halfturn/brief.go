package main

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"halfturn/coach"
	"halfturn/coach/aero"
)

type briefCmd struct {
	common
}

// Run prints the numbers of one maneuver in one aircraft.
func (b *briefCmd) Run(io streams) error {
	cfg, err := loadConfig(&b.common, io.env)
	if err != nil {
		return err
	}
	opt, err := cfg.session()
	if err != nil {
		return err
	}
	return brief(io.out, opt.Coach.Plan)
}

func brief(w io.Writer, p *coach.Plan) error {
	var b strings.Builder
	card := p.Card
	fmt.Fprintf(&b, "%s\n%s\n\n", card.Title, card.Summary)
	for _, c := range coach.Cautions {
		fmt.Fprintln(&b, c)
	}
	if p.Known {
		fmt.Fprintf(&b, "\n%s: entry %s, lowest %s, stall %s, power %s\n", p.Aircraft.Title, knots(p.Aircraft.Entry), knots(p.Aircraft.Apex), knots(p.Aircraft.Stall), or(p.Aircraft.Power, "not given"))
	}
	legs := "One leg"
	if card.Series.Legs > 1 {
		legs = fmt.Sprintf("A series of %d legs", card.Series.Legs)
	}
	fmt.Fprintf(&b, "%s, %s standard. Hard deck %.0f ft above the ground.\n", legs, card.Standard, card.Deck.Height)
	switch {
	case p.Path == nil && p.Problem == "":
		b.WriteString("\nHeight and airspeed are held: no reference path is needed.\n")
	case p.Path == nil:
		fmt.Fprintf(&b, "\nThere is no reference path: %s. Choose an aircraft with --aircraft (halfturn cards lists them).\n", p.Problem)
	default:
		briefPath(&b, p)
	}
	b.WriteString("\nWhat to see\n")
	t := tabwriter.NewWriter(&b, 0, 8, 2, ' ', 0)
	for _, k := range card.Checkpoints {
		fmt.Fprintf(t, "  %s\t%s\t%s\n", p.Label(k.Turn), k.Words, p.Want(k.Turn))
	}
	t.Flush()
	b.WriteString("\nUsual errors\n")
	for _, e := range card.Errors {
		fmt.Fprintf(&b, "  %s\n", e)
	}
	fmt.Fprintf(&b, "\nSource: %s\n", card.Source)
	_, err := io.WriteString(w, b.String())
	return err
}

// briefPath prints the reference path at the checkpoints.
func briefPath(b *strings.Builder, p *coach.Plan) {
	path := p.Path
	fmt.Fprintf(b, "\nReference path: highest nose %.0f° above level, %.0f s, at most %.1f g, from 5,000 ft\n", p.Nose, path.Duration, path.Heaviest().LoadFactor)
	t := tabwriter.NewWriter(b, 0, 8, 2, ' ', tabwriter.AlignRight)
	fmt.Fprint(t, "  turn\ttime\tbank\tnose\tspeed\theight\tload\tradius\tover the stall\t\n")
	for _, turn := range turns(p) {
		q := path.At(turn)
		fmt.Fprintf(t, "  %g°\t%.1f s\t%.0f°\t%+.0f°\t%.0f kt\t%+.0f ft\t%.1f g\t%s\t%.0f kt\t\n", turn, q.Time, q.Bank, q.Pitch, q.Airspeed, q.Height, q.LoadFactor, radius(q), q.StallMargin)
	}
	t.Flush()
	top := 0.0
	for _, q := range path.Points {
		top = math.Max(top, q.Height)
	}
	lowest := aero.LowestStart(path, p.Card.Deck.Height)
	fmt.Fprintf(b, "Height needed above the entry %.0f ft; start no lower than %.0f ft above the ground.\n", top, math.Ceil(lowest/100)*100)
}

func turns(p *coach.Plan) []float64 {
	list := []float64{0}
	for _, k := range p.Card.Checkpoints {
		list = append(list, k.Turn)
	}
	return list
}

func radius(q aero.Point) string {
	if math.IsInf(q.Radius, 0) || q.Radius > 60000 {
		return "–"
	}
	return fmt.Sprintf("%.0f ft", math.Round(q.Radius/10)*10)
}

func knots(v float64) string {
	if v == 0 {
		return "not given"
	}
	return fmt.Sprintf("%g kt", v)
}

func or(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}
