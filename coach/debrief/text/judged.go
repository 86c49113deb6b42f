package text

import (
	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/stream/phrase"
)

// judged says who overruled a verdict, and what was computed; nothing where nobody did.
func (p *printer) judged(j *coach.Judged) {
	if o := j.Overruled; o != nil {
		p.line("  %s", p.wordf(overruledBy(o), p.in.Word("as a whole"), o.By, o.Reason))
	}
	if c := j.Computed; c != nil {
		p.line("  %s", p.wordf("Computed: %s", p.result(c.Verdict, c.Grade, c.Score)))
	}
}

// overruledBy says who overruled something: what it is, by whom, and why.
func overruledBy(o *coach.Overruled) string {
	if o.After {
		return "%s: overruled by %s after signing: %s"
	}
	return "%s: overruled by %s: %s"
}

// overruled is a note on a check that was overruled; "" on any other.
func (p *printer) overruled(k *coach.Check) string {
	if k.Overruled == nil || k.Computed == nil {
		return ""
	}
	computed := k.Computed.Verdict
	if computed == coach.NotMeasured {
		computed = "not measured"
	}
	return p.wordf(overruledBy(k.Overruled), p.in.Text(k.Label), k.Overruled.By, k.Overruled.Reason) + " " +
		p.wordf("(computed: %s)", p.in.Word(computed))
}

// Signature says who signed a session, and whether it is as it was then.
func Signature(s *debrief.Signature, in *phrase.Language) string {
	words := in.Wordf("Signed by %s, %s UTC", s.By, s.At) + " · SHA-256 " + s.Hash + " · "
	if s.Holds {
		words += in.Word("as it was signed")
	} else {
		words += in.Word("not as it was signed")
	}
	if s.After > 0 {
		words += " · " + in.Wordf("added after signing: %d", s.After)
	}
	if s.Removed > 0 {
		words += " · " + in.Wordf("names removed since: %d", s.Removed)
	}
	return words
}
