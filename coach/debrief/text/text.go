// Package text writes debriefs for a terminal, in English.
package text

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/check"
	"halfturn/coach/debrief"
	"halfturn/coach/kinds"
	"halfturn/coach/layout"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// Report writes a report with a table per leg.
func Report(w io.Writer, r *debrief.Report) error {
	p := newPrinter(w)
	for _, c := range r.Caution {
		p.line("%s", c)
	}
	if r.Session != nil {
		p.line("\nSession %s, %s to %s", r.Session.ID, r.Session.Began, r.Session.Ended)
	}
	for i := range r.Signed {
		p.line("%s", Signature(&r.Signed[i]))
	}
	for i := range r.Files {
		f := &r.Files[i]
		if f.File != "" {
			p.line("\n%s", f.File)
		}
		if f.Error != "" {
			p.line("  not read to its end: %s", f.Error)
		}
		if f.By != nil {
			p.line("  %s", JudgedBy(f.By))
		}
		for _, note := range f.Notes {
			p.line("  %s", note)
		}
		for j := range f.Stations {
			p.station(&f.Stations[j])
		}
	}
	return p.err
}

// JudgedBy names in one line the cards a recording was judged by, and where they were chosen.
func JudgedBy(b *debrief.JudgedBy) string {
	var parts []string
	for _, c := range []struct {
		kind string
		*debrief.UsedCards
	}{{"maneuver", &b.Maneuver}, {"standard", &b.Standard}, {"aircraft", &b.Aircraft}} {
		var names []string
		for _, n := range c.Names {
			if n == "" {
				n = "none"
			}
			names = append(names, n)
		}
		chosen := strings.Join(names, ", then ")
		parts = append(parts, fmt.Sprintf("%s %s (%s)", c.kind, chosen, Origin(c.UsedCards, c.kind)))
	}
	return "Judged by: " + strings.Join(parts, ", ")
}

// Origin says where cards of a kind were chosen.
func Origin(c *debrief.UsedCards, kind string) string {
	switch c.From {
	case debrief.FromFlag:
		return "--" + kind
	case debrief.FromRecord:
		return "as flown"
	case debrief.FromSession:
		return "as imported"
	}
	return "as configured"
}

// A printer keeps the first error of its writer.
type printer struct {
	w   *layout.Page
	err error
}

func newPrinter(w io.Writer) *printer { return &printer{w: layout.NewPage(w)} }

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// heading begins a part.
func (p *printer) heading(line string) { p.line("\n%s", layout.Heading(p.w, line)) }

func (p *printer) station(s *debrief.StationReport) {
	format := s.Format
	if format == "" {
		format = "not recognized"
	}
	p.line("\nStation %s: %s, %d samples, %.0f s", s.Station, format, s.Samples, s.Duration)
	if !s.Advice.IsZero() {
		p.line("  %s", s.Advice)
	}
	if len(s.Series) == 0 {
		p.line("  no leg was flown")
	}
	for i := range s.Series {
		p.series(&s.Series[i])
	}
	p.summary(s.Summary)
}

// Flown writes what a station flew, without what is known of its stream.
func Flown(w io.Writer, s *debrief.StationReport) error {
	p := newPrinter(w)
	for i := range s.Series {
		p.series(&s.Series[i])
	}
	p.summary(s.Summary)
	return p.err
}

func (p *printer) series(s *coach.Series) {
	aircraft := s.Aircraft
	if aircraft == "" {
		aircraft = "no aircraft card"
	}
	p.heading(fmt.Sprintf("  %s, %s standard, %s: %s", s.Maneuver, s.Standard, aircraft, result(s.Verdict, s.Grade,
		s.Score)))
	p.headline(s.Headline)
	p.judged(&s.Judged)
	if s.Headline.IsZero() && !s.Missing.IsZero() {
		p.line("  Not complete: %s.", s.Missing)
	}
	for i := range s.Legs {
		p.leg(&s.Legs[i])
	}
	if len(s.Checks) > 0 {
		p.line("\n  The legs together")
		p.causes(s.Causes)
		p.checks(s.Checks)
	}
}

// causes prints why score was lost, the costliest cause first.
func (p *printer) causes(list []coach.Cause) {
	for i := range list {
		c := &list[i]
		minor := ""
		if c.Minor {
			minor = ", minor"
		}
		p.line("  Because: %s (%.0f %% of what was lost%s). %s", cause.MeaningOf(c.ID), c.Share*100, minor, c.Evidence)
		p.line("    %s", c.Advice)
	}
}

// summary prints what the session shows as a whole.
func (p *printer) summary(s *debrief.Summary) {
	if s == nil {
		return
	}
	best := ""
	if b := &s.Best; b.Leg > 0 && s.Legs > 1 {
		best = fmt.Sprintf("; best leg %d of series %d to the %s, %.0f of 100", b.Leg, b.Series, b.Direction, b.Score)
	}
	p.line("\n  In all: %s, %d finished%s", legs(s.Legs), s.Finished, best)
	for _, t := range s.Trend {
		p.line(
			"  From the first leg to the last: %s %s to %s%s, %s",
			phrase.Lower(t.Label),
			wording.Signed(t.First, wording.DigitsIn(t.Unit, t.First)),
			wording.Signed(t.Last, wording.DigitsIn(t.Unit, t.Last)),
			wording.Unit(t.Unit),
			t.Way,
		)
	}
	if s.Cause != "" {
		p.line("  Most frequent cause: %s (in %s)", cause.MeaningOf(s.Cause), legs(s.Times))
	}
	if !s.Change.IsZero() {
		p.line("  The one thing: %s.", s.Change)
	}
}

// legs is a number of legs in words.
func legs(n int) string {
	if n == 1 {
		return "one leg"
	}
	return fmt.Sprintf("%d legs", n)
}

func (p *printer) leg(l *coach.Leg) {
	how := l.Outcome
	if !l.Reason.IsZero() {
		how += " (" + l.Reason.String() + ")"
	}
	verdict := result(l.Verdict, l.Grade, l.Score)
	p.heading(fmt.Sprintf("  Leg %d to the %s, %s: %s", l.Number, l.Direction, how, verdict))
	p.headline(l.Headline)
	p.judged(&l.Judged)
	switch {
	case !l.Change.IsZero():
		p.line("  Change one thing: %s.", l.Change)
	case l.Verdict == coach.Met:
		p.line("  %s.", phrase.AgainTheSame.Of())
	}
	p.causes(l.Causes)
	p.points(l)
	p.checks(l.Checks)
}

// result writes a grade with its score, or the verdict where a report of an earlier version has no grade.
func result(verdict, grade string, score float64) string {
	if verdict == coach.NotMeasured {
		return "not measured"
	}
	return fmt.Sprintf("%s, %.0f of 100", cmp.Or(grade, verdict), score)
}

// headline says what a verdict rests on; a report of an earlier version says nothing.
func (p *printer) headline(h phrase.Phrase) {
	if !h.IsZero() {
		p.line("  %s.", h)
	}
}

// points prints the numbers at the checkpoints side by side.
func (p *printer) points(l *coach.Leg) {
	t := layout.NewFigures(p.w)
	all := append([]coach.Point{l.Entry}, l.Points...)
	head := []string{"entry"}
	for _, q := range l.Points {
		head = append(head, fmt.Sprintf("%g°", q.Turn))
	}
	if l.Exit != nil {
		all = append(all, *l.Exit)
		head = append(head, fmt.Sprintf("out at %.0f°", l.Exit.Turn))
	}
	fmt.Fprintf(t, "    \t%s\t\n", strings.Join(head, "\t"))
	for _, row := range []struct{ channel, title, unit string }{
		{"bank", "bank", "°"},
		{"pitch", "nose", "°"},
		{"airspeed", "speed", " kt"},
		{"altitude", "altitude", " ft"},
	} {
		cells := []string{}
		for _, q := range all {
			v, ok := q.Values[row.channel]
			if !ok {
				cells = append(cells, "–")
				continue
			}
			cells = append(cells, wording.Signed(v, 0)+row.unit)
		}
		fmt.Fprintf(t, "    %s\t%s\t\n", row.title, strings.Join(cells, "\t"))
	}
	if err := t.Flush(); err != nil && p.err == nil {
		p.err = err
	}
}

// checks prints one check per line, and those that were not measured in a line for each reason.
func (p *printer) checks(list []coach.Check) {
	t := layout.NewTable(p.w, layout.Below{Column: 4})
	why, reasons := map[string][]string{}, []string{}
	for _, k := range worstFirst(list) {
		value, note := value(k), k.Reason.String()
		if said := overruled(k); said != "" && value == "" {
			fmt.Fprintf(t, "    %s\t%s\tnot measured\t\t%s\n", p.mark(k.Verdict), k.Label, said)
			continue
		}
		if value == "" {
			if why[note] == nil {
				reasons = append(reasons, note)
			}
			why[note] = append(why[note], k.Label)
			continue
		}
		if k.Verdict == coach.Near || k.Verdict == coach.Missed {
			note = k.Words
		}
		if said := overruled(k); said != "" {
			note = said
		}
		if !k.Note.IsZero() && note != "" {
			note += "; " + k.Note.String()
		} else if !k.Note.IsZero() {
			note = k.Note.String()
		}
		fmt.Fprintf(t, "    %s\t%s\t%s\twanted %s\t%s\n",
			p.mark(k.Verdict), k.Label, value, wording.AimAndBand(k), note)
	}
	if err := t.Flush(); err != nil && p.err == nil {
		p.err = err
	}
	for _, reason := range reasons {
		p.line("    %s  %s: not measured, %s", p.mark(coach.NotMeasured), strings.Join(why[reason], "; "), reason)
	}
}

// worstFirst lists the missed checks before the near ones, and those before the met ones, each in the order of the
// card.
func worstFirst(list []coach.Check) []*coach.Check {
	rank := map[string]int{coach.Missed: 0, coach.Near: 1, coach.Met: 2, coach.NotMeasured: 3}
	all := make([]*coach.Check, len(list))
	for i := range list {
		all[i] = &list[i]
	}
	slices.SortStableFunc(all, func(a, b *coach.Check) int { return rank[a.Verdict] - rank[b.Verdict] })
	return all
}

// mark is the mark of a verdict, with its shape where the screen shows it.
func (p *printer) mark(verdict string) string { return layout.Mark(p.w, verdict, mark(verdict)) }

// value writes what was measured with its unit, and the place where it is one of those that have one; "" is nothing.
func value(k *coach.Check) string {
	if k.Value == nil {
		return ""
	}
	if k.Unit == "legs" && *k.Value == 1 {
		return "1 leg"
	}
	v := wording.Signed(*k.Value, wording.DigitsOfValue(k)) + wording.Unit(k.Unit)
	if placed := kinds.Named(k.Kind).Told == check.WithPlace || k.Unit != "°"; placed && k.At != nil && k.Turn == nil {
		v += fmt.Sprintf(" at %.0f° of turn", *k.At)
	}
	return v
}

func mark(verdict string) string {
	return map[string]string{
		coach.Met:         "met   ",
		coach.Near:        "near  ",
		coach.Missed:      "MISSED",
		coach.NotMeasured: "–     ",
	}[verdict]
}

// Differences writes in what a second grading differs from the first.
func Differences(out io.Writer, list []debrief.Difference) error {
	w := layout.NewPage(out)
	if len(list) == 0 {
		fmt.Fprintln(w, "Nothing differs.")
		return w.Err()
	}
	for _, d := range list {
		sign := " "
		if d.Turned {
			sign = "*"
		}
		fmt.Fprintf(w, "%s leg %d  %s: was %s; is %s\n", sign, d.Leg, d.Label, d.Before(), d.After())
	}
	fmt.Fprintln(w, "* a verdict or grade changed")
	return w.Err()
}
