package cause

import (
	"testing"

	"halfturn/coach"
)

// A rule names the side of a check with + and −: that of the aim, or of the middle of the band where there is no aim,
// or beyond the band's one edge.
func TestSideOfACheck(t *testing.T) {
	for _, c := range []struct {
		name  string
		value float64
		aim   *float64
		met   [2]*float64
		high  bool // exactly on the aim or middle is low
	}{
		{"over the aim", 1, ptr(0), [2]*float64{ptr(-10), ptr(30)}, true},
		{"under the aim", -1, ptr(0), [2]*float64{ptr(-30), ptr(10)}, false},
		{"on the aim", 0, ptr(0), [2]*float64{ptr(-30), ptr(10)}, false},
		{"over the middle", 16, nil, [2]*float64{ptr(10), ptr(20)}, true},
		{"under the middle", 14, nil, [2]*float64{ptr(10), ptr(20)}, false},
		{"on the middle", 15, nil, [2]*float64{ptr(10), ptr(20)}, false},
		{"over the most", 21, nil, [2]*float64{nil, ptr(20)}, true},
		{"under the most", 19, nil, [2]*float64{nil, ptr(20)}, false},
		{"under the least", 9, nil, [2]*float64{ptr(10), nil}, false},
		{"over the least", 11, nil, [2]*float64{ptr(10), nil}, false},
		{"without a band", 5, nil, [2]*float64{}, false},
	} {
		k := &coach.Check{ID: "bank", Value: &c.value, Aim: c.aim, Met: c.met, Verdict: coach.Missed}
		f := &ledger{checks: map[string]*coach.Check{"bank": k}}
		if f.named("bank") != k {
			t.Errorf("%s: without a side it is not found", c.name)
		}
		if got := f.named("+bank") != nil; got != c.high {
			t.Errorf("%s: +bank is %v; must be %v", c.name, got, c.high)
		}
		if got := f.named("-bank") != nil; got == c.high {
			t.Errorf("%s: -bank is %v; must be %v", c.name, got, !c.high)
		}
		if f.named("+pitch") != nil {
			t.Errorf("%s: a check that is not there is found", c.name)
		}
	}
}

// off counts what is near or missed, missed only what is missed.
func TestOffAndMissed(t *testing.T) {
	for verdict, want := range map[string][2]bool{
		coach.Met:         {false, false},
		coach.Near:        {true, false},
		coach.Missed:      {true, true},
		coach.NotMeasured: {false, false},
	} {
		k := &coach.Check{ID: "bank", Value: ptr(12), Aim: ptr(0), Verdict: verdict}
		f := &ledger{checks: map[string]*coach.Check{"bank": k}}
		if got := [2]bool{f.off("+bank"), f.missed("+bank")}; got != want {
			t.Errorf("%s: off and missed are %v; must be %v", verdict, got, want)
		}
		if f.off("-bank") || f.missed("-bank") {
			t.Errorf("%s: it is off to the other side", verdict)
		}
	}
}

// The evidence for the pace gives the time flown, and the time that the pace makes of it.
func TestPaceInSeconds(t *testing.T) {
	pace := func(v float64) map[string]*coach.Check {
		return map[string]*coach.Check{"pace": {ID: "pace", Value: &v}}
	}
	leg := &coach.Leg{Start: 100, End: 124}
	for _, c := range []struct {
		name string
		f    ledger
		want string
	}{
		{"twice as long", ledger{leg: leg, checks: pace(2)}, "The turn took 24 s, the numbers give about 12 s"},
		{"quick", ledger{leg: leg, checks: pace(0.6)}, "The turn took 24 s, the numbers give about 40 s"},
		{"no pace", ledger{leg: leg}, ""},
		{"no leg", ledger{checks: pace(2)}, ""},
		{"no time", ledger{leg: leg, checks: pace(0)}, ""},
	} {
		if got := quicker(&c.f).String(); got != c.want {
			t.Errorf("%s: %q; must be %q", c.name, got, c.want)
		}
	}
}
