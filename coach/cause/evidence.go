package cause

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/wording"
)

// Evidence is kept short.
const (
	mostOwn    = 2 // of the cause's own checks
	mostFollow = 2 // of those that follow from it
)

// evidence says in numbers what shows a cause, what was wanted, and what came with it.
func (f *ledger) evidence(x *finding) string {
	own := f.worst(x, slices.Concat(x.rule.on, x.rule.own), nil, mostOwn)
	if len(x.rule.on) == 0 {
		own = f.worst(x, []string{"exit-heading"}, nil, mostOwn)
	}
	follow := f.worst(x, x.rule.drags, own, mostFollow)
	parts := []string{}
	if x.rule.evidence != nil {
		if s := x.rule.evidence(f); s != "" {
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
		text += lead + wording.Lower(numbers(k))
	}
	return text
}

// worst lists the named checks that cost most, the dearest first, without those listed already.
func (f *ledger) worst(x *finding, words []string, but []*coach.Check, most int) []*coach.Check {
	var list []*coach.Check
	for _, w := range words {
		k := f.named(w)
		listed := slices.Contains(list, k) || slices.Contains(but, k)
		if k != nil && x.frees[k.ID] > 0 && k.Verdict != coach.Met && !listed {
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
		return fmt.Sprintf("Power moved by %s %%%s", wording.Signed(*k.Value*100, 0), at)
	}
	flown := wording.Outside(k) + wording.Unit(k.Unit) + at
	return fmt.Sprintf("%s: %s, wanted %s", k.Label, flown, wording.Wanted(k))
}

// at returns the trace at a turn angle.
func (f *ledger) at(turn float64) (coach.Trace, bool) {
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
func quicker(f *ledger) string {
	k := f.checks["pace"]
	if k == nil || f.leg == nil || *k.Value <= 0 {
		return ""
	}
	took := f.leg.End - f.leg.Start
	return fmt.Sprintf("The turn took %.0f s, the numbers give about %.0f s", took, took / *k.Value)
}

// climbing says where the nose stood against the plan a little before it was highest.
func climbing(f *ledger) string {
	t, ok := f.at(30)
	aim, width, known := 0.0, 0.0, false
	if ok && f.plan != nil {
		aim, width, known = f.plan.Aim("pitch", t.Turn)
	}
	if !known {
		return ""
	}
	nose := t.Pitch - f.leg.Entry.Values["pitch"]
	if off := nose - aim; off < width && off > -width {
		return ""
	}
	return fmt.Sprintf("The nose was %s° above level at 30° of turn, wanted %s°",
		wording.Signed(nose, 0), wording.Signed(aim, 0))
}

// stopped says why a leg has no exit, and where.
func stopped(f *ledger) string {
	if f.leg == nil || f.leg.Outcome == coach.Finished {
		return ""
	}
	outcome := strings.ReplaceAll(f.leg.Outcome, "-", " ")
	return fmt.Sprintf("%s: %s", strings.ToUpper(outcome[:1])+outcome[1:], f.leg.Reason)
}

// growth says how the bank changed from 25 to 85° of turn.
func growth(f *ledger) string {
	a, ok := f.at(25)
	b, ok2 := f.at(85)
	if !ok || !ok2 {
		return ""
	}
	return fmt.Sprintf("Bank went from %.0f° at 25° of turn to %.0f° at 85°", a.Bank, b.Bank)
}

// grew is by how much the bank grew from 25 to 85° of turn.
func grew(f *ledger) float64 {
	a, ok := f.at(25)
	b, ok2 := f.at(85)
	if !ok || !ok2 {
		return 0
	}
	return b.Bank - a.Bank
}
