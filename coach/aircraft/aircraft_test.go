package aircraft

import "testing"

func TestFor(t *testing.T) {
	a, err := Load("x.toml", []byte(`name = "x"
title = "x"
source = "s"
stall = 50
entry = 105
apex = 78
power = "climb power"
[maneuver.chandelle-civil]
entry = 95
[maneuver.wing-over]
apex = 70
steepest = 65
power = "2400 rpm"
`))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		maneuver              string
		entry, apex, steepest float64
		power                 string
	}{
		{"chandelle-civil", 95, 78, 0, "climb power"},
		{"wing-over", 105, 70, 65, "2400 rpm"},
		{"steep-turn", 105, 78, 0, "climb power"},
	} {
		got := a.For(c.maneuver)
		if got.Entry != c.entry || got.Apex != c.apex || got.Steepest != c.steepest || got.Power != c.power || got.Stall != 50 {
			t.Errorf("%s: %+v", c.maneuver, got)
		}
	}
	if a.Entry != 105 || a.Steepest != 0 {
		t.Errorf("For changed the card: %+v", a)
	}
}
