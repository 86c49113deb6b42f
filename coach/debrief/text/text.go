// Package text writes debriefs for a terminal, in the language that is asked for.
package text

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// Report writes a report in a language with a table per leg.
func Report(w io.Writer, r *debrief.Report, in *phrase.Language) error {
	p := newPrinter(w, in)
	for _, c := range r.Caution {
		p.line("%s", in.Text(c))
	}
	if r.Session != nil {
		p.line("\n%s", p.wordf("Session %s, %s to %s", r.Session.ID, r.Session.Began, r.Session.Ended))
	}
	for i := range r.Signed {
		p.line("%s", Signature(&r.Signed[i], in))
	}
	for i := range r.Files {
		f := &r.Files[i]
		if f.File != "" {
			p.line("\n%s", f.File)
		}
		if f.Error != "" {
			p.line("  %s", p.wordf("not read to its end: %s", in.Told(f.Error)))
		}
		if f.By != nil {
			p.line("  %s", JudgedBy(f.By, in))
		}
		for _, note := range f.Notes {
			p.line("  %s", in.Say(note))
		}
		for j := range f.Stations {
			p.station(&f.Stations[j])
		}
	}
	return p.err
}

// JudgedBy names in one line the cards a recording was judged by, and where they were chosen.
func JudgedBy(b *debrief.JudgedBy, in *phrase.Language) string {
	var parts []string
	for _, c := range []struct {
		flag, kind string
		*debrief.UsedCards
	}{
		{"maneuver", in.Word("maneuver"), &b.Maneuver},
		{"standard", in.Word("standard"), &b.Standard},
		{"aircraft", in.Word("aircraft"), &b.Aircraft},
	} {
		var names []string
		for _, n := range c.Names {
			if n == "" {
				n = in.Word("none")
			}
			names = append(names, n)
		}
		chosen := strings.Join(names, in.Word(", then "))
		parts = append(parts, fmt.Sprintf("%s %s (%s)", c.kind, chosen, Origin(c.UsedCards, c.flag, in)))
	}
	return in.Wordf("Judged by: %s", strings.Join(parts, ", "))
}

// Origin says where cards of a kind were chosen: by the flag of that name, or elsewhere.
func Origin(c *debrief.UsedCards, flag string, in *phrase.Language) string {
	switch c.From {
	case debrief.FromFlag:
		return "--" + flag
	case debrief.FromRecord:
		return in.Word("as flown")
	case debrief.FromSession:
		return in.Word("as imported")
	}
	return in.Word("as configured")
}

// A printer keeps the first error of its writer.
type printer struct {
	w      *layout.Page
	in     *phrase.Language
	err    error
	smooth bool // what a figure of smoothness is has been said
}

func newPrinter(w io.Writer, in *phrase.Language) *printer {
	return &printer{w: layout.NewPage(w), in: in}
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

// wordf formats words in the language.
func (p *printer) wordf(format string, args ...any) string { return p.in.Wordf(format, args...) }

// begin begins a part.
func (p *printer) begin(title string) { p.line("\n%s", layout.Heading(p.w, "  "+title)) }

func (p *printer) station(s *debrief.StationReport) {
	format := p.in.Text(s.Format)
	if format == "" {
		format = p.in.Word("not recognized")
	}
	p.line("\n%s", p.wordf("Station %s: %s, %d samples, %s s", s.Station, format, s.Samples,
		p.in.Number(s.Duration, 0)))
	if !s.Advice.IsZero() {
		p.line("  %s", p.in.Say(s.Advice))
	}
	if len(s.Series) == 0 {
		p.line("  %s", p.in.Word("no leg was flown"))
	}
	for i := range s.Series {
		p.series(&s.Series[i])
	}
	p.summary(s.Summary)
}

// Flown writes what a station flew, without what is known of its stream.
func Flown(w io.Writer, s *debrief.StationReport, in *phrase.Language) error {
	p := newPrinter(w, in)
	for i := range s.Series {
		p.series(&s.Series[i])
	}
	p.summary(s.Summary)
	return p.err
}

func (p *printer) series(s *coach.Series) {
	aircraft := s.Aircraft
	if aircraft == "" {
		aircraft = p.in.Word("no aircraft card")
	}
	p.begin(p.wordf("%s, %s standard, %s: %s", s.Maneuver, s.Standard, aircraft, p.result(s.Verdict, s.Grade, s.Score)))
	p.headline(s.Headline)
	p.judged(&s.Judged)
	if s.Headline.IsZero() && !s.Missing.IsZero() {
		p.line("  %s", p.wordf("Not complete: %s.", p.in.Say(s.Missing)))
	}
	for i := range s.Legs {
		p.leg(&s.Legs[i])
	}
	if len(s.Checks) > 0 {
		p.line("\n  %s", p.in.Word("The legs together"))
		p.causes(s.Causes)
		p.checks(s.Checks)
	}
}

// causes prints why score was lost, the costliest cause first.
func (p *printer) causes(list []coach.Cause) {
	for i := range list {
		c := &list[i]
		meaning, share, evidence := cause.MeaningOf(p.in, c.ID), p.in.Number(c.Share*100, 0), p.in.Say(c.Evidence)
		because := p.wordf("Because: %s (%s %% of what was lost). %s", meaning, share, evidence)
		if c.Minor {
			because = p.wordf("Because: %s (%s %% of what was lost, minor). %s", meaning, share, evidence)
		}
		p.line("  %s", because)
		p.line("    %s", p.in.Say(c.Advice))
	}
}

// summary prints what the session shows as a whole.
func (p *printer) summary(s *debrief.Summary) {
	if s == nil {
		return
	}
	all := p.wordf("In all: %s, %d finished", legs(p.in, s.Legs), s.Finished)
	if b := &s.Best; b.Leg > 0 && s.Legs > 1 {
		best := p.wordf("best leg %d of series %d to the right, %s of 100", b.Leg, b.Series, p.in.Number(b.Score, 0))
		if b.Direction == "left" {
			best = p.wordf("best leg %d of series %d to the left, %s of 100", b.Leg, b.Series, p.in.Number(b.Score, 0))
		}
		all += "; " + best
	}
	p.line("\n  %s", all)
	for i := range s.Trend {
		p.trend(&s.Trend[i])
	}
	if s.Cause != "" {
		p.line("  %s", p.wordf("Most frequent cause: %s (in %s)", cause.MeaningOf(p.in, s.Cause), legs(p.in, s.Times)))
	}
	if !s.Change.IsZero() {
		p.line("  %s", p.wordf("The one thing: %s.", p.in.Say(s.Change)))
	}
}

// trend prints how a check moved.
func (p *printer) trend(t *debrief.Progress) {
	label := p.in.Text(t.Label)
	if p.in == nil { // in others a noun may begin it
		label = phrase.Lower(label)
	}
	end := func(value float64) *coach.Check {
		return wording.InPercent(&coach.Check{Verdict: coach.Met, Unit: t.Unit, Value: &value})
	}
	first, last := end(t.First), end(t.Last)
	way := p.in.Word("better")
	if t.Way == "worse" {
		way = p.in.Word("worse")
	}
	from := p.in.Number(*first.Value, wording.DigitsOfValue(first))
	p.line("  %s", p.wordf("From the first leg to the last: %s %s to %s, %s", label, from,
		wording.Value(p.in, last), way))
}

// legs is a number of legs in words.
func legs(in *phrase.Language, n int) string {
	if n == 1 {
		return in.Word("one leg")
	}
	return in.Wordf("%d legs", n)
}

func (p *printer) leg(l *coach.Leg) {
	how := p.in.Say(debrief.InWords(l.Outcome))
	if !l.Reason.IsZero() {
		how += " (" + p.in.Say(l.Reason) + ")"
	}
	result := p.result(l.Verdict, l.Grade, l.Score)
	if l.Direction == "left" {
		p.begin(p.wordf("Leg %d to the left, %s: %s", l.Number, how, result))
	} else {
		p.begin(p.wordf("Leg %d to the right, %s: %s", l.Number, how, result))
	}
	p.headline(l.Headline)
	p.judged(&l.Judged)
	switch {
	case !l.Change.IsZero():
		p.line("  %s", p.wordf("Change one thing: %s.", p.in.Say(l.Change)))
	case l.Verdict == coach.Met:
		p.line("  %s.", p.in.Say(phrase.AgainTheSame.Of()))
	}
	p.causes(l.Causes)
	p.points(l)
	p.checks(l.Checks)
}

// result writes a grade with its score, or the verdict where a report of an earlier version has no grade.
func (p *printer) result(verdict, grade string, score float64) string {
	words := p.in.Say(debrief.InWords(cmp.Or(grade, verdict)))
	if verdict == coach.NotMeasured {
		return p.in.Say(debrief.InWords(verdict))
	}
	return p.wordf("%s, %s of 100", words, p.in.Number(score, 0))
}

// headline says what a verdict rests on; a report of an earlier version says nothing.
func (p *printer) headline(h phrase.Phrase) {
	if !h.IsZero() {
		p.line("  %s.", p.in.Say(h))
	}
}

// points prints the numbers at the checkpoints side by side.
func (p *printer) points(l *coach.Leg) {
	t := layout.NewFigures(p.w)
	all := append([]coach.Point{l.Entry}, l.Points...)
	head := []string{p.in.Word("entry")}
	for _, q := range l.Points {
		head = append(head, p.in.Number(q.Turn, -1)+"°")
	}
	if l.Exit != nil {
		all = append(all, *l.Exit)
		head = append(head, p.wordf("out at %s°", p.in.Number(l.Exit.Turn, 0)))
	}
	fmt.Fprintf(t, "    \t%s\t\n", strings.Join(head, "\t"))
	for _, row := range []struct{ channel, title, unit string }{
		{"bank", p.in.Word("bank"), "°"},
		{"pitch", p.in.Word("nose"), "°"},
		{"airspeed", p.in.Word("speed"), " kt"},
		{"altitude", p.in.Word("altitude"), " ft"},
	} {
		cells := []string{}
		for _, q := range all {
			v, ok := q.Values[row.channel]
			if !ok {
				cells = append(cells, "–")
				continue
			}
			cells = append(cells, p.in.Number(v, 0)+row.unit)
		}
		fmt.Fprintf(t, "    %s\t%s\t\n", row.title, strings.Join(cells, "\t"))
	}
	if err := t.Flush(); err != nil && p.err == nil {
		p.err = err
	}
}

// Differences writes in what a second grading differs from the first.
func Differences(out io.Writer, list []debrief.Difference, in *phrase.Language) error {
	w := layout.NewPage(out)
	if len(list) == 0 {
		fmt.Fprintln(w, in.Word("Nothing differs."))
		return w.Err()
	}
	for i := range list {
		d := &list[i]
		sign := " "
		if d.Turned {
			sign = "*"
		}
		differs := in.Wordf("leg %d  %s: was %s; is %s", d.Leg, in.Say(d.Label), in.Say(d.Before()), in.Say(d.After()))
		fmt.Fprintf(w, "%s %s\n", sign, differs)
	}
	fmt.Fprintf(w, "* %s\n", in.Word("a verdict or grade changed"))
	return w.Err()
}
