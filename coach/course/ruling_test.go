package course

import (
	"testing"
	"time"
)

// What a person says of a step counts from when it is said: between the legs before and after it, in the same session
// too. A step that was passed so slips by the rule, and one that is not passed yet is passed by the tries from then on.
func TestRulings(t *testing.T) {
	c := &Course{Name: "c", Pass: Rule{Good: 2, Of: 3, Sides: EitherSide}, Slip: Slip{Missed: 2}, Steps: []Step{
		{ID: "a", Maneuver: "m", Standard: "practice", Unlocks: []string{"b"}},
		{ID: "b", Maneuver: "n", Standard: "practice"},
	}}
	c.fill()
	began := time.Date(2031, 5, 4, 10, 0, 0, 0, time.UTC)
	fly := func(legs string) (list []Flown) { // sessions by spaces
		day, n := 0, 0
		for _, l := range legs {
			if n++; l == ' ' {
				day, n = day+1, 0
				continue
			}
			side := 'R'
			if l == 'x' {
				side = 'r'
			}
			leg := Flown{Aircraft: "radial-trainer", Leg: legOf(side)}
			leg.Session, leg.Number, leg.Began = string(rune('A'+day)), n, began.AddDate(0, 0, day)
			leg.Maneuver, leg.Standard = "m", "practice"
			list = append(list, leg)
		}
		return list
	}
	ruling := func(day, n int, passed bool) Ruling {
		return Ruling{Step: "a", Passed: passed, By: "Bo Example", Session: string(rune('A' + day)), Number: n,
			Began: began.AddDate(0, 0, day)}
	}
	for _, x := range []struct {
		legs     string
		said     []Ruling
		a, b     string
		passedBy int
	}{
		{"o", nil, Open, Locked, 0},
		{"o", []Ruling{ruling(0, 1, true)}, Passed, Open, 1},
		{"oxx", []Ruling{ruling(0, 1, true)}, Slipped, Open, 1},
		{"oxx", []Ruling{ruling(0, 3, true)}, Passed, Open, 3},
		{"oxx", []Ruling{ruling(0, 2, true)}, Passed, Open, 2},
		{"oo", nil, Passed, Open, 2},
		{"oo", []Ruling{ruling(0, 2, false)}, Open, Open, 0},
		{"oo o", []Ruling{ruling(0, 2, false)}, Open, Open, 0},
		{"oo oo", []Ruling{ruling(0, 2, false)}, Passed, Open, 2},
		{"oo oo", []Ruling{ruling(1, 1, false)}, Open, Open, 0},
		{"o", []Ruling{ruling(0, 1, false)}, Open, Locked, 0},
		{"o o", []Ruling{ruling(0, 1, false)}, Open, Locked, 0},
		{"o", []Ruling{ruling(0, 1, true), ruling(0, 1, false)}, Open, Open, 0},
		{"", []Ruling{ruling(0, 0, true)}, Passed, Open, 0},
	} {
		p := Follow(c, fly(x.legs), x.said...)
		if a, b := p.Step("a"), p.Step("b"); a.State != x.a || b.State != x.b || len(a.PassedBy) != x.passedBy {
			t.Errorf("%s, %+v: %s by %d, %s; must be %s by %d, %s", x.legs, x.said, a.State, len(a.PassedBy), b.State,
				x.a, x.passedBy, x.b)
		} else if k := len(x.said); (a.Ruled == nil) != (k == 0) || k > 0 && *a.Ruled != x.said[k-1] || b.Ruled != nil {
			t.Errorf("%s: ruled %+v, %+v", x.legs, a.Ruled, b.Ruled)
		}
	}
	// one that is still locked is open to those who come after it
	if p := Follow(c, nil, Ruling{Step: "b", Passed: true}); p.Step("b").State != Passed || p.Now != "a" {
		t.Errorf("%+v", p)
	}
}
