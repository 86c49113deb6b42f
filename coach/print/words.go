package print

import (
	"math"
	"strconv"
	"strings"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// words writes an identifier as it is read.
func words(id string) string { return strings.ReplaceAll(id, "-", " ") }

// score is that of a leg in figures; one of which nothing was measured has none.
func score(l *coach.Leg) string {
	if l.Verdict == coach.NotMeasured {
		return "–"
	}
	return number(l.Score, 0)
}

func grade(l *coach.Leg) string {
	if l.Grade == "" {
		return "no grade"
	}
	return l.Grade
}

// headline says what the verdict of a leg rests on; one of an earlier version has only its verdict.
func headline(l *coach.Leg) string {
	if l.Headline.IsZero() {
		return words(l.Verdict)
	}
	return phrase.Capital(l.Headline.String())
}

func orNone(aircraft string) string {
	if aircraft == "" {
		return "no aircraft card"
	}
	return aircraft
}

// listed is what the legs' plans say, each once.
func listed(legs []Leg, say func(*message.Chart) string) string {
	var all []string
	seen := map[string]bool{}
	for _, l := range legs {
		if s := say(l.Plan); !seen[s] {
			seen[s] = true
			all = append(all, s)
		}
	}
	if len(all) == 0 {
		return "none flown"
	}
	return strings.Join(all, ", ")
}

// joined puts facts into one paragraph that is broken only between them.
func joined(facts []string) string {
	whole := make([]string, len(facts))
	for i, fact := range facts {
		whole[i] = strings.ReplaceAll(fact, " ", "\u00a0")
	}
	return strings.Join(whole, " · ")
}

// number writes a number with a true minus sign.
func number(v float64, digits int) string {
	s := strconv.FormatFloat(v, 'f', digits, 64)
	if rest, ok := strings.CutPrefix(s, "-"); ok {
		if strings.Trim(rest, "0.") == "" {
			return rest
		}
		return "−" + rest
	}
	return s
}

// measured writes a value with its unit, "–" when there is none.
func measured(v *float64, unit string) string {
	if v == nil {
		return "–"
	}
	digits := 1
	if a := math.Abs(*v); a >= 100 || unit == "%" {
		digits = 0
	} else if a > 0 && a < 1 {
		digits = 2
	}
	return number(*v, digits) + wording.Unit(unit)
}

// figure is measured, but without a unit that is a word: the limits beside it have it.
func figure(v *float64, unit string) string {
	if unit == "balls" {
		unit = ""
	}
	return measured(v, unit)
}

// sentence ends what is said with a period.
func sentence(s string) string {
	if s == "" || strings.HasSuffix(s, ".") {
		return s
	}
	return s + "."
}
