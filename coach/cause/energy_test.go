package cause

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream/phrase"
)

// A leg along the reference path has no energy to speak of; one that loses some within one stretch of the turn is told
// how much, and where. What goes from height to airspeed is neither lost nor gained.
func TestEnergySpent(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	plane, err := lib.AircraftNamed("light-single")
	if err != nil {
		t.Fatal(err)
	}
	p := plan.New(card, plane)
	for _, c := range []struct {
		name     string
		from, to float64 // ° of turn
		height   float64 // ft that are gained there beside the path
		speed    bool    // and paid for in airspeed
		want     *phrase.Definition
	}{
		{"along the path", 0, 45, 0, false, nil},
		{"little lost", 45, 90, -30, false, nil},
		{"lost", 45, 90, -120, false, phrase.EnergyShort},
		{"lost in the descent", 90, 135, -200, false, phrase.EnergyShort},
		{"gained", 135, 180, 150, false, phrase.EnergyOver},
		{"height for airspeed", 135, 180, -100, true, nil},
	} {
		f := &ledger{plan: p, leg: along(p, c.from, c.to, c.height, c.speed)}
		said := []phrase.Phrase{short(f), over(f)}
		for i, how := range []*phrase.Definition{phrase.EnergyShort, phrase.EnergyOver} {
			if got := said[i].Is(how); got != (c.want == how) {
				t.Errorf("%s: %q", c.name, said[i])
			}
		}
		e, ok := f.spent()
		off := c.height
		if c.speed {
			off = 0
		}
		if !ok && off != 0 || math.Abs(e.off-off) > 3 {
			t.Errorf("%s: %.0f ft, %v; must be %.0f", c.name, e.off, ok, off)
		}
		if c.want != nil && (e.from != c.from || e.to != c.to) {
			t.Errorf("%s: from %g° to %g°", c.name, e.from, e.to)
		}
	}
}

// along is a leg along the reference path but for a height that comes in between two turn angles.
func along(p *plan.Plan, from, to, height float64, paid bool) *coach.Leg {
	l := &coach.Leg{Outcome: coach.Finished}
	path := p.Reference()
	l.Entry.Values = map[string]float64{"airspeed": path.Points[0].Airspeed, "altitude": plan.Altitude}
	for _, q := range path.Points {
		add := height * max(0, min(1, (q.Turn-from)/(to-from)))
		tas := q.TrueAirspeed
		if paid {
			v := tas * aero.FeetPerSecond
			tas = math.Sqrt(v*v-2*aero.Gravity*add) / aero.FeetPerSecond
		}
		h := q.Height + add
		kt := aero.CalibratedAirspeed(tas, plan.Altitude+h)
		l.Trace = append(l.Trace, coach.Trace{Turn: q.Turn, Airspeed: &kt, Height: &h})
	}
	return l
}
