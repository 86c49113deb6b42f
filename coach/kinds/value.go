package kinds

import (
	"halfturn/coach/check"
	"halfturn/coach/valid"
	"halfturn/stream/phrase"
)

var valueKind = &check.Kind{
	Name:   "value",
	Says:   "value at a turn angle, or at the exit",
	Needs:  []string{"channel"},
	Allows: []string{"turn", "at", "about"},
	Valid:  onePlace,
	Where: func(s *check.Spec, in *phrase.Language) string {
		if s.Turn == nil {
			return in.Wordf("%s at the exit", quantity(s, in))
		}
		return in.Wordf("%s at %s° of turn", quantity(s, in), in.Number(*s.Turn, -1))
	},
	Unit: ofQuantity,
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return newValueAt(s, f)
	},
	Bands:  check.Tolerances,
	Looks:  check.AtPlace,
	Known:  check.AtTurn,
	Doubt:  check.OneValue,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// valueAt gives a quantity at an exact turn angle, or at the exit. The first passing counts.
type valueAt struct {
	get     check.Reader
	name    string
	facts   *check.Facts
	seen    bool
	passing *check.Passing // nil: at the exit
}

func newValueAt(spec *check.Spec, f *check.Facts) *valueAt {
	v := &valueAt{get: check.Read(spec.Channel, f), name: spec.Channel, facts: f}
	if spec.Turn != nil {
		v.passing = f.Passing(*spec.Turn)
	}
	return v
}

func (v *valueAt) Step(m *check.Moment) {
	if !v.seen {
		_, v.seen = v.get(m)
	}
	if v.passing != nil {
		v.passing.Step(m)
	}
}

func (v *valueAt) Measure(exit *check.Moment) check.Measure {
	var m check.Moment
	switch {
	case v.passing == nil && exit == nil:
		return check.None(phrase.NoExit.Of())
	case v.passing == nil:
		m = *exit
	default:
		var ok bool
		if m, ok = v.passing.At(); !ok {
			return check.None(phrase.NotReached.Of(phrase.Number("turn", v.passing.Turn(), -1, "°")))
		}
	}
	x, ok := v.get(&m)
	if !ok {
		return check.Absent(v.name, v.facts, v.seen)
	}
	return check.Found(x, m.Turn)
}

// onePlace checks that a value is taken at a turn angle or at the exit.
func onePlace(v *valid.Validator, key string, s *check.Spec) {
	if (s.Turn == nil) == (s.At == "") {
		v.Fail(key+".turn", "is not one place; must be either turn, in °, or at = \"exit\"")
	}
	if s.At != "" {
		v.OneOf(key+".at", s.At, "exit")
	}
}
