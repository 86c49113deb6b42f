package text

import (
	"fmt"

	"halfturn/coach"
	"halfturn/coach/debrief"
)

// judged says who overruled a verdict, and what was computed; nothing where nobody did.
func (p *printer) judged(j *coach.Judged) {
	if o := j.Overruled; o != nil {
		p.line("  Overruled by %s%s: %s", o.By, after(o.After), o.Reason)
	}
	if c := j.Computed; c != nil {
		p.line("  Computed: %s", result(c.Verdict, c.Grade, c.Score))
	}
}

// overruled is a note on a check that was overruled; "" on any other.
func overruled(k *coach.Check) string {
	if k.Overruled == nil || k.Computed == nil {
		return ""
	}
	computed := k.Computed.Verdict
	if computed == coach.NotMeasured {
		computed = "not measured"
	}
	return fmt.Sprintf("overruled by %s%s: %s (computed: %s)", k.Overruled.By, after(k.Overruled.After),
		k.Overruled.Reason, computed)
}

func after(signing bool) string {
	if signing {
		return " after signing"
	}
	return ""
}

// Signature says who signed a session, and whether it is as it was then.
func Signature(s *debrief.Signature) string {
	words := fmt.Sprintf("Signed by %s, %s, SHA-256 %s", s.By, s.At, s.Hash)
	if s.Holds {
		words += ": as it was signed"
	} else {
		words += ": NOT as it was signed, something was changed since"
	}
	if s.After > 0 {
		words += fmt.Sprintf("; added after signing: %d", s.After)
	}
	if s.Removed > 0 {
		words += fmt.Sprintf("; names removed since: %d", s.Removed)
	}
	return words + "."
}
