package print

import (
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// spoken is a copy of the debrief whose phrases and texts of cards are in its language.
func (d *Debrief) spoken() *Debrief {
	l := d.Language
	if l == nil {
		return d
	}
	c := *d
	c.Series = slices.Clone(d.Series)
	for i := range c.Series {
		s := &c.Series[i]
		s.Missing, s.Headline, s.Change = l.In(s.Missing), l.In(s.Headline), l.In(s.Change)
	}
	if d.Summary != nil {
		s := *d.Summary
		s.Change = l.In(s.Change)
		s.Trend = slices.Clone(s.Trend)
		for i := range s.Trend {
			s.Trend[i].Label = l.Text(s.Trend[i].Label)
		}
		c.Summary = &s
	}
	c.Legs = slices.Clone(d.Legs)
	for i := range c.Legs {
		c.Legs[i].speak(l)
	}
	return &c
}

// speak puts a leg into a language.
func (l *Leg) speak(in *phrase.Language) {
	l.Headline, l.Change, l.Reason = in.In(l.Headline), in.In(l.Change), in.In(l.Reason)
	l.Causes = slices.Clone(l.Causes)
	for i := range l.Causes {
		c := &l.Causes[i]
		c.Evidence, c.Advice = in.In(c.Evidence), in.In(c.Advice)
	}
	l.Checks = slices.Clone(l.Checks)
	for i := range l.Checks {
		c := &l.Checks[i]
		c.Label, c.Words = in.Text(c.Label), in.Text(c.Words)
		c.Reason, c.Note = in.In(c.Reason), in.In(c.Note)
	}
	l.Callouts = slices.Clone(l.Callouts)
	for i := range l.Callouts {
		c := &l.Callouts[i]
		if c.Phrase.IsZero() {
			c.Words = in.Text(c.Words)
		} else {
			c.Words = in.Say(c.Phrase)
		}
	}
	if l.Plan != nil {
		l.Plan = spokenPlan(l.Plan, in)
	}
}

func spokenPlan(q *message.Chart, in *phrase.Language) *message.Chart {
	c := *q
	c.Title, c.Standard, c.Aircraft = in.Text(q.Title), in.Text(q.Standard), in.Text(q.Aircraft)
	c.Lanes = slices.Clone(q.Lanes)
	for i := range c.Lanes {
		c.Lanes[i].Title = in.In(c.Lanes[i].Title)
	}
	c.Checkpoints = slices.Clone(q.Checkpoints)
	for i := range c.Checkpoints {
		c.Checkpoints[i].Label = in.Word(c.Checkpoints[i].Label)
	}
	return &c
}

// word puts what is written into the language: words that stand alone, and the marks of numbers.
func (p *sheet) word(text string) string {
	in := p.d.Language
	text = printable(text)
	words := strings.TrimLeft(text, " ")
	if said := in.Word(words); said != words {
		return text[:len(text)-len(words)] + said
	}
	return in.Figures(text)
}

// A box stands for a character that no font of the print has.
const box = '□'

// printable puts a box in the place of characters beyond the basic plane, pictographs above all, which the library
// refuses together with the whole document. What only varies the character before it goes.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\ufe0e', r == '\ufe0f', r == '\u200d', r >= '\U0001f3fb' && r <= '\U0001f3ff':
			return -1
		case r > '\uffff':
			return box
		}
		return r
	}, text)
}

// wordf formats words that are put together.
func (p *sheet) wordf(format string, args ...any) string { return p.d.Language.Wordf(format, args...) }

// cautions stand on every page.
func (p *sheet) cautions() string {
	all := make([]string, len(coach.Cautions))
	for i, c := range coach.Cautions {
		all[i] = p.d.Language.Text(c)
	}
	return strings.Join(all, " ")
}

// toward is a maneuver with its side.
func (p *sheet) toward(title, direction string) string {
	if direction == "left" {
		return p.wordf("%s to the left", title)
	}
	return p.wordf("%s to the right", title)
}

// wanted is what a check asks for.
func (p *sheet) wanted(c *coach.Check) string { return p.d.Language.Say(wording.Band(c)) }

// date is a day and time as the language writes them; in others than English, as ISO 8601 does.
func (p *sheet) date() string {
	if p.d.Language == nil {
		return p.d.Began.UTC().Format("January 2, 2006, 15:04")
	}
	return p.d.Began.UTC().Format("2006-01-02 15:04")
}

// CellFormat writes a cell in the language.
func (p *sheet) CellFormat(
	w, h float64, text, border string, ln int, align string, fill bool, link int, address string,
) {
	p.Fpdf.CellFormat(w, h, p.word(text), border, ln, align, fill, link, address)
}

// MultiCell writes a paragraph in the language.
func (p *sheet) MultiCell(w, h float64, text, border, align string, fill bool) {
	p.Fpdf.MultiCell(w, h, p.word(text), border, align, fill)
}

// Text writes words at a place, in the language.
func (p *sheet) Text(x, y float64, text string) { p.Fpdf.Text(x, y, p.word(text)) }

// GetStringWidth is the width of words in the language.
func (p *sheet) GetStringWidth(text string) float64 { return p.Fpdf.GetStringWidth(p.word(text)) }
