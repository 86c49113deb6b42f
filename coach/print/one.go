package print

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// weakest is the leg that one page is of: the one with the lowest score of those that were judged, else the last one;
// -1 when none was flown.
func (d *Debrief) weakest() int {
	at := -1
	for i := range d.Legs {
		l := &d.Legs[i]
		judged := l.Outcome == coach.Finished && l.Verdict != coach.NotMeasured
		if judged && (at < 0 || l.Score < d.Legs[at].Score) {
			at = i
		}
	}
	if at < 0 {
		return len(d.Legs) - 1
	}
	return at
}

// one is a leg on one page: its picture, verdict, the one thing to change, and as many of its checks as there is room
// for, the worst first.
func (p *sheet) one(i int) {
	l := &p.d.Legs[i]
	p.AddPage()
	p.title(p.toward(l.Plan.Title, l.Direction))
	p.oneFacts(i)
	p.oneVerdict(l)
	p.oneThing(l)
	p.oneOverruled(l)
	p.lanes(l)
	p.worstFirst(l)
	p.oneFoot(i)
}

// oneFacts says who flew, when, and by which cards.
func (p *sheet) oneFacts(i int) {
	l := &p.d.Legs[i]
	facts := []string{
		p.wordf("%s standard", l.Plan.Standard),
		p.word(orNone(l.Plan.Aircraft)),
		p.date() + " UTC",
	}
	if p.d.Student != "" {
		facts = append([]string{p.d.Student}, facts...)
	}
	if n := len(p.d.Legs); n > 1 {
		facts = append(facts, p.wordf("leg %d of %d", i+1, n))
	}
	p.font("", 9.5)
	p.ink(softInk)
	p.MultiCell(0, 5, joined(facts), "", "L", false)
	if len(p.d.Holes) > 0 {
		p.font("", 8.5)
		p.MultiCell(0, 4.2, p.lost(oneHoles), "", "L", false)
	}
}

func (p *sheet) oneVerdict(l *Leg) {
	y := p.GetY() + 6
	p.mark(margin+2.4, y, 2.4, l.Verdict)
	p.SetXY(margin+7, y-3.5)
	p.font("B", 13)
	p.ink(ink)
	p.MultiCell(0, 6.5, headline(&l.Leg), "", "L", false)
}

// oneThing is what to change; for a leg that was stopped for safety, what stopped it goes before, unless the headline
// says it.
func (p *sheet) oneThing(l *Leg) {
	thing, of := l.Change.String(), "The one thing to change"
	if thing == "" && l.Verdict == coach.Met {
		thing, of = p.d.Language.Say(phrase.AgainTheSame.Of()), "The one thing"
	}
	if len(l.Causes) > 0 && l.Causes[0].Advice.String() != "" {
		thing = strings.TrimSpace(sentence(thing) + " " + sentence(l.Causes[0].Advice.String()))
	}
	reason := l.Reason.String()
	if reason != "" && l.Outcome != coach.Finished && !strings.Contains(headline(&l.Leg), reason) {
		thing = sentence(phrase.Capital(reason)) + " " + thing
	}
	if thing == "" {
		return
	}
	p.SetX(margin + 7)
	p.font("", 10)
	p.ink(softInk)
	p.CellFormat(p.GetStringWidth(of)+3, 5, of, "", 0, "L", false, 0, "")
	p.ink(ink)
	p.font("B", 10)
	p.MultiCell(0, 5, thing, "", "L", false)
}

// mostOverruled is how many lines of what was overruled have room on one page.
const mostOverruled = 3

// oneOverruled says what was overruled, as much as there is room for.
func (p *sheet) oneOverruled(l *Leg) {
	lines := p.overruled(l)
	for i, line := range lines {
		p.SetX(margin + 7)
		p.font("", 9)
		p.ink(softInk)
		if i == mostOverruled-1 && len(lines) > mostOverruled {
			p.CellFormat(0, 4.6, p.wordf("overruled besides: %d", len(lines)-i), "", 1, "L", false, 0, "")
			return
		}
		p.twoLines(phrase.Capital(line), p.inner()-7)
	}
}

// twoLines are words of a person, of which two lines have room on one page.
func (p *sheet) twoLines(text string, w float64) {
	lines := p.SplitText(p.word(text), w)
	for i, line := range lines {
		p.SetX(p.width - margin - w)
		if i == 1 && len(lines) > 2 {
			line = p.fitted(line+"…", w)
		}
		p.CellFormat(0, 4.2, line, "", 1, "L", false, 0, "")
		if i == 1 {
			return
		}
	}
}

// order is how badly a check went. One that does not count toward the score and was not measured is the least to say.
func order(c *coach.Check) int {
	switch c.Verdict {
	case coach.Missed:
		return 0
	case coach.Near:
		return 1
	case coach.Met:
		return 3
	}
	if c.Weight == 0 {
		return 4
	}
	return 2
}

// oneRows is what the rows of checks leave free above the cautions, mm: for the signatures and a line of the other
// legs.
const oneRows = 27.0

// worstFirst is the table of checks: all that were not met, then those that were met as long as there is room.
func (p *sheet) worstFirst(l *Leg) {
	checks := slices.Clone(l.Checks)
	if len(checks) == 0 {
		return
	}
	slices.SortStableFunc(checks, func(a, b coach.Check) int {
		return cmp.Or(cmp.Compare(order(&a), order(&b)), cmp.Compare(b.Weight, a.Weight))
	})
	p.Ln(2)
	widths := []float64{55, 22, 20, 46, 0}
	p.row(rowHeight, true, widths, "check, worst first", "flown", "aim", "met within", "verdict")
	last := p.height - foot - oneRows - rowHeight
	for i := range checks {
		if p.GetY()+rowHeight > last && i < len(checks)-1 {
			p.font("", 9)
			p.ink(softInk)
			p.CellFormat(0, rowHeight, p.more(checks[i:]), "", 1, "R", false, 0, "")
			return
		}
		c := wording.InPercent(&checks[i])
		p.mark(margin+55+22+20+46+2, p.GetY()+rowHeight/2, 1.4, c.Verdict)
		p.row(rowHeight, false, widths, c.Label, figure(c.Value, c.Unit), figure(c.Aim, c.Unit), p.wanted(c),
			"      "+words(c.Verdict))
	}
}

// more counts the checks that have no room: "12 more, all met".
func (p *sheet) more(rest []coach.Check) string {
	var parts []string
	for _, v := range []string{coach.Missed, coach.Near, coach.NotMeasured, coach.Met} {
		n := 0
		for i := range rest {
			if rest[i].Verdict == v {
				n++
			}
		}
		switch {
		case n == len(rest):
			return p.wordf("%d more, all %s", n, p.word(words(v)))
		case n > 0:
			parts = append(parts, fmt.Sprintf("%d %s", n, p.word(words(v))))
		}
	}
	return p.wordf("%d more: %s", len(rest), strings.Join(parts, ", "))
}

// oneFoot names the other legs with their verdicts, and has room for signatures.
func (p *sheet) oneFoot(i int) {
	p.SetY(p.height - foot - oneRows + 2)
	var others []string
	for k := range p.d.Legs {
		if l := &p.d.Legs[k]; k != i {
			leg := p.toward(p.wordf("Leg %d", k+1), l.Direction)
			others = append(others, leg+": "+p.word(words(l.Verdict)))
		}
	}
	p.font("", 8.5)
	p.ink(softInk)
	if len(others) > 0 {
		also := p.wordf("Also flown: %s", strings.Join(others, " · "))
		p.CellFormat(0, 4.6, p.fitted(also, p.inner()), "", 1, "L", false, 0, "")
	}
	if p.d.Damage != "" {
		p.CellFormat(0, 4.6, p.fitted(p.wordf("Not all of it: %s.", p.d.Damage), p.inner()), "", 1, "L", false, 0, "")
	}
	if lines := p.signedLines(); len(lines) > 0 {
		p.font("", 7)
		for line := range strings.Lines(lines[len(lines)-1]) {
			p.CellFormat(0, 3.2, p.fitted(strings.TrimSpace(line), p.inner()), "", 1, "L", false, 0, "")
		}
	}
	p.SetY(p.height - foot - 9)
	p.signLines()
}
