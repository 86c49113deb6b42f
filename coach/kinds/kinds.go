package kinds

import (
	"slices"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

// all are the kinds of check, in the order in which the handbook page lists them.
var all = []*check.Kind{
	setUpKind,
	valueKind,
	extremeKind,
	rangeKind,
	extremeAngleKind,
	crossingAngleKind,
	rollOutAngleKind,
	rollRatioKind,
	changeKind,
	departureKind,
	meanKind,
	steadyKind,
	roundKind,
	sightKind,
	abeamKind,
	apartKind,
	heldKind,
	rmsKind,
	shareKind,
	reversalKind,
	riseKind,
	evenRateKind,
	pauseKind,
	upDownKind,
	mirrorKind,
	gainKind,
	afterExitKind,
	keptKind,
	paceKind,
	smoothnessKind,
	rhythmKind,
	ballCenteredKind,
	symmetryKind,
	directionsKind,
	returnKind,
	driftKind,
	legsKind,
}

var byName = func() map[string]*check.Kind {
	m := make(map[string]*check.Kind, len(all))
	for _, k := range all {
		m[k.Name] = k
	}
	return m
}()

// unknown is returned for a kind that this version does not know, which a report of another version may hold: it
// answers nothing.
var unknown = &check.Kind{}

// All lists the kinds in the order in which the handbook page lists them.
func All() []*check.Kind { return slices.Clone(all) }

// Names lists the names of all kinds in that order.
func Names() []string {
	names := make([]string, len(all))
	for i, k := range all {
		names[i] = k.Name
	}
	return names
}

// Named returns the kind of a name, never nil: where there is no such kind, one that answers nothing.
func Named(name string) *check.Kind {
	if k := byName[name]; k != nil {
		return k
	}
	return unknown
}

// Of returns the kind of a check, as Named does.
func Of(s *check.Spec) *check.Kind { return Named(s.Kind) }

// Counting returns the first kind that asks for something of a whole series.
func Counting(what check.Count) *check.Kind {
	if i := slices.IndexFunc(all, func(k *check.Kind) bool { return k.Counts == what }); i >= 0 {
		return all[i]
	}
	return unknown
}

// NewJudge makes the judge of a check of a leg; nil for a check of a kind that judges a series.
func NewJudge(s *check.Spec, f *check.Facts) check.Judge {
	if k := Of(s); k.Leg != nil {
		return k.Leg(s, f)
	}
	return nil
}

// Where says in words of a language what a check measures: "highest nose from 0° to 90° of turn".
func Where(s *check.Spec, in *phrase.Language) string {
	k := Of(s)
	if k.Where == nil {
		return ""
	}
	if s.Smooth > 0 {
		return in.Wordf("%s, smoothed over %s s", k.Where(s, in), in.Number(s.Smooth, -1))
	}
	return k.Where(s, in)
}

// Unit names the unit of what a check measures; "" for one that compares another check, whose unit its card knows.
func Unit(s *check.Spec) string {
	k := Of(s)
	if k.Unit == nil {
		return ofQuantity(s)
	}
	return k.Unit(s)
}

// What follows are answers that several kinds give.

// ofQuantity is the unit of the check's quantity.
func ofQuantity(s *check.Spec) string { return s.Quantity().Unit }

// in is a unit that does not depend on the check.
func in(unit string) func(*check.Spec) string { return func(*check.Spec) string { return unit } }

// as says what a check measures in the words of its kind, with its quantity and span where it has them.
func as(says string) func(*check.Spec, *phrase.Language) string {
	return func(s *check.Spec, in *phrase.Language) string {
		words := in.Word(says)
		if s.Channel != "" {
			words = in.Wordf("%s, of %s", words, quantity(s, in))
		}
		return over(s, in, words)
	}
}

// over adds the span of a check to what it measures there.
func over(s *check.Spec, in *phrase.Language, words string) string {
	if s.From == nil || s.To == nil {
		return words
	}
	return in.Wordf("%s from %s° to %s° of turn", words, in.Number(*s.From, -1), in.Number(*s.To, -1))
}

// quantity is that of a check in words. A language has a word for its title or for its name.
func quantity(s *check.Spec, in *phrase.Language) string {
	q := s.Quantity()
	if words := in.Text(q.Title); in == nil || words != q.Title {
		return words
	}
	return in.Text(q.Name)
}

// peak is the highest or lowest value of a check's quantity, in words.
func peak(s *check.Spec, in *phrase.Language) string {
	if s.Sign() < 0 {
		return in.Wordf("lowest %s", quantity(s, in))
	}
	return in.Wordf("highest %s", quantity(s, in))
}

// unit is that of a check's quantity as it stands after a number.
func unit(s *check.Spec, in *phrase.Language) string {
	switch u := in.Unit(s.Quantity().Unit); u {
	case "", "°":
		return u
	default:
		return " " + u
	}
}
