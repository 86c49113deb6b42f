package airplane

import (
	"math"
	"testing"
)

// The standard atmosphere (U.S. Standard Atmosphere 1976, table I): temperature and density ratio by geopotential
// altitude.
func TestAtmosphere(t *testing.T) {
	for _, r := range []struct{ feet, theta, sigma float64 }{
		{0, 1, 1},
		{5000, 0.9656, 0.8617},
		{10000, 0.9312, 0.7385},
		{20000, 0.8625, 0.5328},
		{36089, 0.7519, 0.2971},
	} {
		if math.Abs(theta(r.feet)-r.theta) > 1e-4 || math.Abs(sigma(r.feet)-r.sigma) > 1e-4 {
			t.Errorf("at %v ft: theta %.4f, sigma %.4f; must be %v and %v", r.feet, theta(r.feet), sigma(r.feet),
				r.theta,
				r.sigma)
		}
	}
}

// Calibrated airspeed is true airspeed at sea level, and about TAS·√σ at low speed; the two conversions are inverse.
func TestAirspeeds(t *testing.T) {
	for _, kt := range []float64{50, 120, 250} {
		within(t, "at sea level", Calibrated(kt, 0)-kt, -1e-6, 1e-6)
		within(t, "at 10,000 ft, over the equivalent airspeed", Calibrated(kt, 10000)-kt*math.Sqrt(sigma(10000)), 0,
			1.5)
		for _, feet := range []float64{0, 4500, 18000} {
			within(t, "there and back", trueOf(Calibrated(kt, feet), feet)-kt, -1e-6, 1e-6)
		}
	}
}

func TestNamed(t *testing.T) {
	for _, name := range append(Names(), "") {
		a, err := Named(name)
		if err != nil || name != "" && a.Name != name || name == "" && a.Name != Names()[0] {
			t.Errorf("%q: %q, %v", name, a.Name, err)
		}
		if a.Stall >= a.Apex || a.Apex >= a.Entry {
			t.Errorf("%s: stall %v, apex %v and entry %v kt are not in this order", a.Name, a.Stall, a.Apex, a.Entry)
		}
	}
	const want = `aircraft is "kite"; must be radial-trainer, light-single or turboprop-trainer`
	if _, err := Named("kite"); err == nil || err.Error() != want {
		t.Errorf("%v; must be %s", err, want)
	}
	a, _ := Named("turboprop-trainer")
	if a.EntryFor("chandelle-civil") != 200 || a.EntryFor("wing-over") != 220 {
		t.Error("an entry airspeed is not that of the maneuver")
	}
}
