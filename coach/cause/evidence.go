package cause

import (
	"cmp"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// Evidence is kept short.
const (
	mostOwn    = 2 // of the cause's own checks
	mostFollow = 2 // of those that follow from it
)

// evidence says in numbers what shows a cause, what was wanted, and what came with it.
func (f *ledger) evidence(x *finding) phrase.Phrase {
	own := f.worst(x, slices.Concat(x.rule.on, x.rule.own), nil, mostOwn)
	if x.rule.whole(f) {
		own = f.worst(x, []string{"exit-heading"}, nil, mostOwn)
	}
	follow := f.worst(x, x.rule.drags, own, mostFollow)
	var shown, came []phrase.Phrase
	if x.rule.evidence != nil {
		if p := x.rule.evidence(f); !p.IsZero() {
			shown = append(shown, p)
		}
	}
	for _, k := range own {
		if kinds.Named(k.Kind).Told != check.InWords {
			shown = append(shown, numbers(k))
		}
	}
	for _, k := range follow {
		came = append(came, numbers(k))
	}
	switch {
	case len(came) == 0:
		return phrase.Sentences(shown...)
	case len(shown) == 0:
		return phrase.OnlyWithIt.Of(phrase.Within("came", came...))
	}
	return phrase.WithIt.Of(phrase.Part("shown", phrase.Sentences(shown...)), phrase.Within("came", came...))
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
func numbers(k *coach.Check) phrase.Phrase {
	placed := k.At != nil && kinds.Named(k.Kind).Told == check.WithPlace
	k = wording.InPercent(k)
	unit, label, wanted := strings.TrimSpace(wording.Unit(k.Unit)), phrase.Plain(k.Label), wording.Band(k)
	switch digits := wording.DigitsOfValue(k); {
	case k.ID == "power-constant" && placed:
		return phrase.PowerMovedAt.Of(phrase.Number("share", *k.Value, 0, ""), phrase.Number("turn", *k.At, 0, "°"))
	case k.ID == "power-constant":
		return phrase.PowerMoved.Of(phrase.Number("share", *k.Value, 0, ""))
	case placed:
		return phrase.FlownAt.Of(phrase.Part("label", label), phrase.Number("flown", *k.Value, digits, unit),
			phrase.Number("turn", *k.At, 0, "°"), phrase.Part("wanted", wanted))
	default:
		return phrase.Flown.Of(phrase.Part("label", label), phrase.Number("flown", *k.Value, digits, unit),
			phrase.Part("wanted", wanted))
	}
}

// quicker says how long the turn took and how long it is meant to take.
func quicker(f *ledger) phrase.Phrase {
	k := f.checks["pace"]
	if k == nil || f.leg == nil || *k.Value <= 0 {
		return phrase.Phrase{}
	}
	took := f.leg.End - f.leg.Start
	return phrase.TurnTook.Of(phrase.Number("took", took, 0, "s"), phrase.Number("meant", took / *k.Value, 0, "s"))
}

// climbing says where the nose stood against the plan a little before it was highest.
func climbing(f *ledger) phrase.Phrase {
	t, ok := f.at(30)
	aim, width, known := 0.0, 0.0, false
	if ok && f.plan != nil {
		aim, width, known = f.plan.Aim("pitch", t.Turn)
	}
	if !known {
		return phrase.Phrase{}
	}
	nose := t.Pitch - f.leg.Entry.Values["pitch"]
	if off := nose - aim; off < width && off > -width {
		return phrase.Phrase{}
	}
	return phrase.NoseAtThirty.Of(phrase.Number("nose", nose, 0, "°"), phrase.Number("aim", aim, 0, "°"))
}

// stopped says why a leg has no exit, and where.
func stopped(f *ledger) phrase.Phrase {
	if f.leg == nil || f.leg.Outcome == coach.Finished {
		return phrase.Phrase{}
	}
	if f.leg.Outcome == coach.KnockOff {
		return phrase.KnockedOff.Of(phrase.Part("reason", f.leg.Reason))
	}
	return phrase.BrokenOff.Of(phrase.Part("reason", f.leg.Reason))
}
