package follow_test

import (
	"regexp"
	"strings"
	"testing"

	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream"
)

// With auto any maneuver may begin: at the entry speed of any, and with room below for the one that needs most. The
// speeds are those of the shipped card of the turboprop trainer: 200 kt for the chandelles, 220 kt for the others.
func TestGatesOfAuto(t *testing.T) {
	var plans []*plan.Plan
	most := ""
	for _, name := range []string{"chandelle-civil", "wing-over", "steep-turn"} {
		p := planOf(t, name, "turboprop-trainer")
		plans = append(plans, p)
		for _, g := range judge.Gates(p) {
			if g.ID == "hard-deck" && name == "wing-over" { // the one that goes below its entry height
				most = g.Want.String()
			}
		}
	}
	for _, c := range []struct {
		speed float64
		ok    bool
	}{{180, false}, {200, true}, {215, true}, {235, false}} {
		a := follow.NewAuto(judge.Options{}, plans, 0)
		var s stream.Sample
		for i := range 30 * 5 {
			s.Reset()
			for ch, v := range map[stream.Channel]float64{stream.Time: float64(i) / 30, stream.Heading: 90,
				stream.Pitch: 1, stream.Bank: 0, stream.Airspeed: c.speed, stream.Altitude: 5000} {
				s.Put(ch, v)
			}
			a.Step(&s)
			a.Take()
		}
		found := 0
		for _, g := range a.Frame().Gates {
			switch g.ID {
			case "entry-speed":
				found++
				if g.Want.String() != "200 kt or 220 kt, within 10 kt" || g.OK != c.ok {
					t.Errorf("at %g kt: %+v", c.speed, g)
				}
			case "hard-deck":
				found++
				if g.Want.String() != most {
					t.Errorf("room is wanted of %q, the wing-over needs %q", g.Want, most)
				}
			}
		}
		if found != 2 {
			t.Errorf("%d gates", found)
		}
	}
}

// Pages convert what a gate wants number by number, so each has to bring its unit.
func TestGateWantsCarryUnits(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	numbers := regexp.MustCompile(`\d[\d.,]*\d|\d`)
	for _, card := range lib.Cards() {
		for _, a := range append(lib.Aircraft(), nil) {
			for _, g := range judge.Gates(plan.New(card, a)) {
				if g.Unit == "balls" { // within 0.25 of a ball
					continue
				}
				for _, at := range numbers.FindAllStringIndex(g.Want.String(), -1) {
					if rest := strings.TrimPrefix(g.Want.String()[at[1]:], " "); !strings.HasPrefix(rest, g.Unit) {
						t.Errorf("%s, %s: %q has a number without %q", card.Name, g.ID, g.Want, g.Unit)
					}
				}
			}
		}
	}
}
