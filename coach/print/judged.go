package print

import (
	"strings"

	"halfturn/coach"
)

// overruledLine says who overruled a leg or one of its checks, and what was computed; "" where nobody did.
func (p *sheet) overruledLine(label string, j *coach.Judged) string {
	o, c := j.Overruled, j.Computed
	if o == nil {
		return ""
	}
	words := p.wordf("%s: overruled by %s: %s", label, o.By, o.Reason)
	if o.After {
		words = p.wordf("%s: overruled by %s after signing: %s", label, o.By, o.Reason)
	}
	if c != nil {
		words += " " + p.wordf("(computed: %s)", p.computed(c))
	}
	return words
}

// computed is a verdict or grade as it was computed.
func (p *sheet) computed(c *coach.Computed) string {
	if c.Grade != "" {
		return p.wordf("%s, %s of 100", p.word(c.Grade), number(c.Score, 0))
	}
	return p.word(words(c.Verdict))
}

// overruled lists what was overruled in a leg.
func (p *sheet) overruled(l *Leg) (lines []string) {
	if line := p.overruledLine(p.word("leg"), &l.Judged); line != "" {
		lines = append(lines, line)
	} else if l.Computed != nil {
		lines = append(lines, p.wordf("Computed: %s", p.computed(l.Computed)))
	}
	for i := range l.Checks {
		if line := p.overruledLine(l.Checks[i].Label, &l.Checks[i].Judged); line != "" {
			lines = append(lines, line)
		}
	}
	return lines
}

// signedLines say who signed, and whether everything is as it was then.
func (p *sheet) signedLines() (lines []string) {
	for i := range p.d.Signed {
		s := &p.d.Signed[i]
		parts := []string{p.wordf("Signed by %s, %s UTC", s.By, s.At.UTC().Format("2006-01-02 15:04"))}
		if s.Holds {
			parts = append(parts, p.word("as it was signed"))
		} else {
			parts = append(parts, p.word("not as it was signed"))
		}
		if s.After > 0 {
			parts = append(parts, p.wordf("added after signing: %d", s.After))
		}
		if s.Removed > 0 {
			parts = append(parts, p.wordf("names removed since: %d", s.Removed))
		}
		lines = append(lines, strings.Join(parts, " · ")+"\nSHA-256 "+s.Hash)
	}
	return lines
}

// signed is what is known of signatures.
func (p *sheet) signed() {
	lines := p.signedLines()
	if len(lines) == 0 {
		return
	}
	p.heading("Signature", 20)
	for _, line := range lines {
		p.para(line)
	}
}
