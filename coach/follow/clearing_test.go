package follow_test

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
)

// gateOf is the last reported state of a gate at the end of level flight with a bank program.
func gateOf(t *testing.T, id string, seconds float64, line *coach.LineChoice,
	bank func(float64) float64) (g coach.Gate, ready, told bool) {
	t.Helper()
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "")})
	if line != nil {
		if err := c.SetLine(*line); err != nil {
			t.Fatal(err)
		}
	}
	for _, e := range level(c, seconds, bank) {
		if s, ok := e.(*coach.Setup); ok {
			told, ready = false, s.Ready
			for _, k := range s.Gates {
				if k.ID == id {
					g, told = k, true
				}
			}
		}
	}
	return g, ready, told
}

// Level turns at 45° of bank and 150 kt come round by 7.28° a second (g·tan(bank)/V): 12.4 s are
// a quarter of a circle, 24.7 s a half. What counts as clearing turns is CNATRA P-330 par. 1005: 180° of
// heading, or two opposite turns of 90°.
func TestClearingTurns(t *testing.T) {
	const quarter, half = 12.4, 24.7
	turn := func(spans ...float64) func(float64) float64 { // from, to (negative from: to the left)
		return func(now float64) float64 {
			for i := 0; i+1 < len(spans); i += 2 {
				from, side := spans[i], 1.0
				if from < 0 {
					from, side = -from, -1
				}
				if now > from && now < from+spans[i+1] {
					return 45 * side
				}
			}
			return 0
		}
	}
	for name, c := range map[string]struct {
		seconds float64
		bank    func(float64) float64
		want    bool
	}{
		"none":                       {60, turn(), false},
		"one of 180":                 {60, turn(10, half), true},
		"one of 180 to the left":     {60, turn(-10, half), true},
		"one of 90":                  {60, turn(10, quarter), false},
		"90 each way":                {80, turn(10, quarter, -30, quarter), true},
		"90 twice the same way":      {80, turn(10, quarter, 30, quarter), true},
		"45 each way":                {80, turn(10, quarter/2, -30, quarter/2), false},
		"too long ago":               {260, turn(10, half), false},
		"wandering by a few degrees": {120, func(now float64) float64 { return 8 - 16*float64(int(now/2)%2) }, false},
	} {
		t.Run(name, func(t *testing.T) {
			g, _, told := gateOf(t, "clearing-turns", c.seconds, nil, c.bank)
			if !told || g.OK != c.want || !g.Optional {
				t.Errorf("told %v: %+v, want %v", told, g, c.want)
			}
		})
	}
}

// Within 5° of the chosen line, in either direction of it; without a line there is no such gate.
func TestOnTheLine(t *testing.T) {
	for _, c := range []struct {
		heading float64
		want    bool
	}{{100, true}, {104, true}, {95.5, true}, {280, true}, {276, true}, {106, false}, {94, false}, {190, false},
		{286, false}} {
		g, ready, told := gateOf(t, "on-the-line", 20, &coach.LineChoice{Heading: &c.heading},
			func(float64) float64 { return 0 })
		if !told || g.OK != c.want || ready != c.want {
			t.Errorf("line %g, flown 100: told %v, ready %v, %+v", c.heading, told, ready, g)
		}
	}
	if _, ready, told := gateOf(t, "on-the-line", 20, nil, func(float64) float64 { return 0 }); told || !ready {
		t.Errorf("without a line: told %v, ready %v", told, ready)
	}
}
