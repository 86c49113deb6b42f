package kinds_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// series makes the facts of a series that asks for two half turns; each leg is a direction, the headings
// it began and ended on, and the bank measured, NaN for none.
func series(cut bool, legs ...leg) *check.SeriesFacts {
	f := &check.SeriesFacts{Legs: 2, Turn: 180, Cut: cut}
	for _, l := range legs {
		heights := map[bool]float64{false: l.entry, true: l.exit}
		f.Finished = append(f.Finished, check.FinishedLeg{
			Direction: l.side,
			Entry:     l.entry,
			Exit:      l.exit,
			Value: func(id string) *float64 {
				if id != "bank" || math.IsNaN(l.bank) {
					return nil
				}
				return new(l.bank)
			},
			At: func(channel string, exit bool) (float64, bool) { return heights[exit], channel == "altitude" },
		})
	}
	return f
}

type leg struct {
	side              string
	entry, exit, bank float64
}

// everySeriesKind has checks of each kind that judges a series, with what they give.
var everySeriesKind = []struct {
	name   string
	check  check.Spec
	facts  *check.SeriesFacts
	want   float64
	reason string // part of why nothing is measured
}{
	{
		name:  "even",
		check: check.Spec{Kind: "symmetry", Of: "bank"},
		facts: series(false, leg{"right", 0, 180, 45}, leg{"left", 180, 0, 45}),
	},
	{
		name:  "the largest difference from one leg to the next",
		check: check.Spec{Kind: "symmetry", Of: "bank"},
		facts: series(false, leg{"right", 0, 180, 45}, leg{"left", 180, 0, 41}, leg{"right", 0, 180, 47}),
		want:  6,
	},
	{
		name:   "not measured on one",
		check:  check.Spec{Kind: "symmetry", Of: "bank"},
		facts:  series(false, leg{"right", 0, 180, 45}, leg{"left", 180, 0, none}),
		reason: "not measured on every leg",
	},
	{
		name:   "nothing to compare",
		check:  check.Spec{Kind: "symmetry", Of: "bank"},
		facts:  series(false, leg{"right", 0, 180, 45}),
		reason: "too few finished legs",
	},
	{
		name:  "one and the other",
		check: check.Spec{Kind: "directions"},
		facts: series(false, leg{side: "right"}, leg{side: "left"}, leg{side: "right"}),
	},
	{
		name:  "one again",
		check: check.Spec{Kind: "directions"},
		facts: series(false, leg{side: "right"}, leg{side: "left"}, leg{side: "left"}),
		want:  1,
	},
	{
		name:   "only one",
		check:  check.Spec{Kind: "directions"},
		facts:  series(true, leg{side: "right"}),
		reason: "too few finished legs",
	},
	{
		name:  "back through north",
		check: check.Spec{Kind: "return"},
		facts: series(false, leg{entry: 355, exit: 177}, leg{entry: 176, exit: 4}),
		want:  9,
	},
	{
		name:  "an odd number of half turns ends opposite",
		check: check.Spec{Kind: "return"},
		facts: series(false, leg{entry: 10, exit: 188}, leg{entry: 190, exit: 12}, leg{entry: 10, exit: 187}),
		want:  -3,
	},
	{
		name:   "not flown to the end",
		check:  check.Spec{Kind: "return"},
		facts:  series(false, leg{entry: 10, exit: 188}),
		reason: "too few finished legs",
	},
	{
		name:  "each leg 80 ft lower than the one before",
		check: check.Spec{Kind: "drift", Channel: "altitude"},
		facts: series(false, leg{entry: 5000, exit: 4920}, leg{entry: 4920, exit: 4840}),
		want:  -160,
	},
	{
		name:  "the first leg high, the second back",
		check: check.Spec{Kind: "drift", Channel: "altitude"},
		facts: series(false, leg{entry: 5000, exit: 5090}, leg{entry: 5090, exit: 4980}),
		want:  90,
	},
	{
		name:   "nothing to drift to",
		check:  check.Spec{Kind: "drift", Channel: "altitude"},
		facts:  series(false, leg{entry: 5000, exit: 5090}),
		reason: "too few finished legs",
	},
	{
		name:   "no such channel in the legs",
		check:  check.Spec{Kind: "drift", Channel: "airspeed"},
		facts:  series(false, leg{entry: 5000, exit: 5090}, leg{entry: 5090, exit: 4980}),
		reason: "no airspeed",
	},
	{name: "all legs", check: check.Spec{Kind: "legs"}, facts: series(false, leg{}, leg{}), want: 2},
	{name: "a leg is missing", check: check.Spec{Kind: "legs"}, facts: series(false, leg{}), want: 1},
	{name: "none", check: check.Spec{Kind: "legs"}, facts: series(false)},
	{name: "cut, but complete", check: check.Spec{Kind: "legs"}, facts: series(true, leg{}, leg{}), want: 2},
	{
		name:   "cut short",
		check:  check.Spec{Kind: "legs"},
		facts:  series(true, leg{}),
		reason: "it was ended before the rest could be flown",
	},
}

func TestSeriesKinds(t *testing.T) {
	tested := map[string]bool{}
	for _, c := range everySeriesKind {
		tested[c.check.Kind] = true
		t.Run(c.check.Kind+"/"+c.name, func(t *testing.T) {
			got := kinds.Of(&c.check).Series(&c.check, c.facts)
			if !math.IsNaN(got.At) {
				t.Errorf("at %g° of turn", got.At)
			}
			if c.reason != "" {
				if got.OK || !strings.Contains(got.Reason.String(), c.reason) {
					t.Errorf("got %+v, want nothing measured: %s", got, c.reason)
				}
				return
			}
			if !got.OK || math.Abs(got.Value-c.want) > 1e-9 {
				t.Errorf("got %+v, want %g", got, c.want)
			}
		})
	}
	for _, k := range kinds.All() {
		if k.OfSeries() && !tested[k.Name] {
			t.Errorf("kind %s has no check in everySeriesKind", k.Name)
		}
	}
}
