package debrief

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// Evidence is kept short: so many of the cause's own checks, and of those that follow from it.
const (
	ownTold    = 2
	followTold = 2
)

// evidence says in numbers what shows a cause, what was wanted, and what came with it.
func (f *flown) evidence(x *finding) string {
	own := f.worst(x, slices.Concat(x.rule.on, x.rule.own), nil, ownTold)
	if len(x.rule.on) == 0 {
		own = f.worst(x, []string{"exit-heading"}, nil, ownTold)
	}
	follow := f.worst(x, x.rule.drags, own, followTold)
	parts := []string{}
	if x.rule.told != nil {
		if s := x.rule.told(f); s != "" {
			parts = append(parts, s)
		}
	}
	for _, k := range own {
		if kinds.Named(k.Kind).Told != check.InWords {
			parts = append(parts, numbers(k))
		}
	}
	text := strings.Join(parts, "; ")
	for i, k := range follow {
		lead := ", "
		if i == 0 {
			lead = "; with it came "
		}
		text += lead + lower(numbers(k))
	}
	return text
}

// worst lists the named checks that cost most, the dearest first, without those listed already.
func (f *flown) worst(x *finding, words []string, but []*coach.Check, most int) []*coach.Check {
	var list []*coach.Check
	for _, w := range words {
		k := f.named(w)
		if k != nil && x.frees[k.ID] > 0 && k.Score < closeCall && !slices.Contains(list, k) && !slices.Contains(but, k) {
			list = append(list, k)
		}
	}
	slices.SortStableFunc(list, func(a, b *coach.Check) int {
		return cmp.Compare(b.Weight*(100-b.Score), a.Weight*(100-a.Score))
	})
	return list[:min(most, len(list))]
}

// numbers writes a check as what was flown and what was wanted.
func numbers(k *coach.Check) string {
	at := ""
	if k.At != nil && kinds.Named(k.Kind).Told == check.WithPlace {
		at = fmt.Sprintf(" at %.0f° of turn", *k.At)
	}
	if k.ID == "power-constant" {
		return fmt.Sprintf("Power moved by %s %%%s", signed(*k.Value*100, 0), at)
	}
	return fmt.Sprintf("%s: %s%s%s, wanted %s", k.Label, outside(k), Unit(k.Unit), at, Wanted(k))
}

// outside writes the value of a check with so many digits that it can be seen to be outside.
func outside(k *coach.Check) string {
	d := digits(*k.Value)
	if k.Verdict != coach.Met {
		for ; d < 2; d++ {
			shown := math.Round(*k.Value*math.Pow10(d)) / math.Pow10(d)
			if k.Met[0] != nil && shown < *k.Met[0] || k.Met[1] != nil && shown > *k.Met[1] {
				break
			}
		}
	}
	return signed(*k.Value, d)
}

// lower makes a label go on in a sentence; one that begins with more than one capital or a figure, as N1 or RPM, stays.
func lower(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[n:]); n == 0 || unicode.IsUpper(next) || unicode.IsDigit(next) {
		return s
	}
	return string(unicode.ToLower(first)) + s[n:]
}

// at returns the trace at a turn angle.
func (f *flown) at(turn float64) (coach.Trace, bool) {
	if f.leg == nil {
		return coach.Trace{}, false
	}
	for _, t := range f.leg.Trace {
		if t.Turn >= turn {
			return t, t.Turn < turn+3
		}
	}
	return coach.Trace{}, false
}

// quicker says how long the turn took and how long it is meant to take.
func quicker(f *flown) string {
	k := f.checks["pace"]
	if k == nil || f.leg == nil || *k.Value <= 0 {
		return ""
	}
	took := f.leg.End - f.leg.Start
	return fmt.Sprintf("The turn took %.0f s, the numbers give about %.0f s", took, took / *k.Value)
}

// climbing says where the nose stood against the plan a little before it was highest.
func climbing(f *flown) string {
	t, ok := f.at(30)
	aim, width, known := 0.0, 0.0, false
	if ok && f.plan != nil {
		aim, width, known = f.plan.Aim("pitch", t.Turn)
	}
	off := t.Pitch - f.leg.Entry.Values["pitch"] - aim
	if !known || off < width && off > -width {
		return ""
	}
	return fmt.Sprintf("The nose was %s° above level at 30° of turn, wanted %s°", signed(t.Pitch-f.leg.Entry.Values["pitch"], 0), signed(aim, 0))
}

// stopped says why a leg has no exit, and where.
func stopped(f *flown) string {
	if f.leg == nil || f.leg.Outcome == coach.Finished {
		return ""
	}
	return fmt.Sprintf("%s: %s", strings.ReplaceAll(strings.ToUpper(f.leg.Outcome[:1])+f.leg.Outcome[1:], "-", " "), f.leg.Reason)
}

// growth says how the bank changed from 25 to 85° of turn.
func growth(f *flown) string {
	a, ok := f.at(25)
	b, ok2 := f.at(85)
	if !ok || !ok2 {
		return ""
	}
	return fmt.Sprintf("Bank went from %.0f° at 25° of turn to %.0f° at 85°", a.Bank, b.Bank)
}

// grew is by how much the bank grew from 25 to 85° of turn.
func grew(f *flown) float64 {
	a, ok := f.at(25)
	b, ok2 := f.at(85)
	if !ok || !ok2 {
		return 0
	}
	return b.Bank - a.Bank
}
