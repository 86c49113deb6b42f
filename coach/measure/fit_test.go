package measure_test

import (
	"math"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/measure"
)

// The numbers of the shipped cards, and of one that is like another.
func TestFits(t *testing.T) {
	single := &aircraft.Aircraft{Name: "single", Entry: 105, Stall: 49}
	radial := &aircraft.Aircraft{Name: "radial", Entry: 130, Stall: 59}
	turboprop := &aircraft.Aircraft{
		Name: "turboprop", Entry: 220, Stall: 84,
		Speeds: map[string]aircraft.Speeds{"chandelle-civil": {Entry: 200}},
	}
	twin := &aircraft.Aircraft{Name: "twin", Entry: 128, Stall: 68}
	blank := &aircraft.Aircraft{Name: "blank"}
	all := []*aircraft.Aircraft{single, radial, turboprop, twin, blank}
	for _, c := range []struct {
		name, maneuver string
		flown          measure.Flown
		want           string
	}{
		{"at the entry speed", "wing-over", measure.Flown{Entry: 218, Lowest: 130}, "turboprop"},
		{"at the entry speed of the maneuver", "chandelle-civil", measure.Flown{Entry: 203, Lowest: 90}, "turboprop"},
		{"no card is as fast", "wing-over", measure.Flown{Entry: 180, Lowest: 100}, ""},
		{"two cards are alike", "wing-over", measure.Flown{Entry: 129, Lowest: 90}, ""},
		{"the stall tells them apart", "wing-over", measure.Flown{Entry: 129, Stall: 60, Lowest: 60}, "radial"},
		{"slower than the other can fly", "wing-over", measure.Flown{Entry: 129, Lowest: 61}, "radial"},
		{"another stall", "wing-over", measure.Flown{Entry: 106, Stall: 60, Lowest: 60}, ""},
		{"no load factor in the stream", "wing-over", measure.Flown{Entry: 106, Lowest: math.Inf(1)}, "single"},
	} {
		got := ""
		if a := measure.Fits(all, c.maneuver, c.flown); a != nil {
			got = a.Name
		}
		if got != c.want {
			t.Errorf("%s: %q; must be %q", c.name, got, c.want)
		}
	}
	if measure.Fits(nil, "wing-over", measure.Flown{Entry: 100}) != nil {
		t.Error("without a card one fits")
	}
}
