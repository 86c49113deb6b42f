package aero

import (
	"math"
	"testing"
)

func relative(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: got %v, want %v within %.2g %%", what, got, want, share*100)
	}
}

// Density ratios: Aeronautical Engineer's Data Book, table 3.5. Densities: a table of the 1976
// standard atmosphere in 1e-4 slug/ft³. Temperature and pressure ratios: computed from the
// 1976 formulas.
func TestStandardAtmosphere(t *testing.T) {
	for _, r := range []struct{ feet, delta, sigma float64 }{
		{0, 1, 1}, {1000, 0.9644, 0.9711}, {2000, 0.9298, 0.9428}, {3000, 0.8962, 0.9151},
		{5000, 0.83205, 0.8617}, {8000, 0.7428, 0.7860}, {10000, 0.6877, 0.7385},
		{15000, 0.5643, 0.6292}, {20000, 0.4595, 0.5328},
	} {
		relative(t, "delta", Delta(r.feet), r.delta, 1.5e-4)
		relative(t, "sigma", Sigma(r.feet), r.sigma, 1.5e-4)
	}
	for _, r := range []struct{ feet, slugs float64 }{{5000, 20.48}, {10000, 17.56}, {15000, 14.96}, {20000, 12.67}} {
		relative(t, "density", 23.77*Sigma(r.feet), r.slugs, 6e-4)
	}
	for _, r := range []struct{ feet, celsius float64 }{{0, 15}, {5000, 5.09}, {10000, -4.81}, {20000, -24.62}} {
		if got := 288.15*Theta(r.feet) - 273.15; math.Abs(got-r.celsius) > 0.01 {
			t.Errorf("temperature at %v ft: %v, want %v", r.feet, got, r.celsius)
		}
	}
	if Theta(1e9) != Theta(topFeet) || Theta(-1e9) <= 1 {
		t.Error("altitudes beyond the model must be held at its ends")
	}
}

// Source: computed from the definition of calibrated airspeed, compressible; no printed table.
func TestTrueAirspeed(t *testing.T) {
	for _, r := range []struct{ cas, at2000, at5000, at10000 float64 }{
		{100, 102.97, 107.67, 116.22}, {150, 154.41, 161.39, 174.05},
		{200, 205.81, 214.98, 231.57}, {300, 308.41, 321.63, 345.37},
	} {
		relative(t, "2,000 ft", TrueAirspeed(r.cas, 2000), r.at2000, 1e-4)
		relative(t, "5,000 ft", TrueAirspeed(r.cas, 5000), r.at5000, 1e-4)
		relative(t, "10,000 ft", TrueAirspeed(r.cas, 10000), r.at10000, 1e-4)
	}
	for cas := 0.0; cas < 400; cas += 13 {
		for feet := -1000.0; feet < 30000; feet += 3100 {
			if back := CalibratedAirspeed(TrueAirspeed(cas, feet), feet); math.Abs(back-cas) > 1e-6*cas+1e-9 {
				t.Fatalf("%v kt at %v ft comes back as %v", cas, feet, back)
			}
		}
	}
}

// Source: Pilot's Handbook of Aeronautical Knowledge, aerodynamics of flight: 120 kt and 240 kt
// at 30°; its constants 1,091 and 11.26 are 0.11 and 0.30 % off exact physics, hence 0.35 %.
func TestTurnAgainstHandbook(t *testing.T) {
	relative(t, "rate, 120 kt, 30°", turnRate(120, 30), 5.25, 3.5e-3)
	relative(t, "time for 360°", 360/turnRate(120, 30), 68.6, 3.5e-3)
	relative(t, "rate, 240 kt, 30°", turnRate(240, 30), 2.63, 3.5e-3)
	relative(t, "radius, 120 kt, 30°", TurnRadius(120, 30), 2214, 3.5e-3)
	relative(t, "circumference", 2*math.Pi*TurnRadius(120, 30), 13912, 3.5e-3)
	for _, r := range []struct{ kt, bank float64 }{{120, 30}, {240, 30}, {100, 45}, {100, 60}, {120, 45}, {120, 50},
		{120, 60}} {
		relative(t, "handbook rate formula", turnRate(r.kt, r.bank), 1091*math.Tan(r.bank*rad)/r.kt, 3.5e-3)
		relative(t, "handbook radius formula", TurnRadius(r.kt, r.bank), r.kt*r.kt/(11.26*math.Tan(r.bank*rad)), 3.5e-3)
	}
	// Bank for 3°/s at 100 and 120 kt, computed: 15.36° and 18.24°.
	relative(t, "standard rate, 100 kt", turnRate(100, 15.36), 3, 1e-3)
	relative(t, "standard rate, 120 kt", turnRate(120, 18.24), 3, 1e-3)
}

// Source: the load-factor figure of the FAA knowledge-test supplement (its values are cut, not
// rounded, and the one for 80° is 0.2 % low); stall speeds: Pilot's Handbook of Aeronautical
// Knowledge: 50 kt becomes 100 kt at 4 g and 150 kt at 9 g, and 60 kt becomes 102 kt at 2.89 g.
func TestLoadFactorAndStall(t *testing.T) {
	for _, r := range []struct{ bank, n float64 }{
		{0, 1}, {10, 1.015}, {30, 1.154}, {45, 1.414}, {60, 2}, {70, 2.923}, {80, 5.747}, {85, 11.473},
	} {
		relative(t, "load factor", LoadFactor(r.bank), r.n, 3e-3)
	}
	relative(t, "stall at 4 g", StallSpeed(50, 4), 100, 1e-12)
	relative(t, "stall at 9 g", StallSpeed(50, 9), 150, 1e-12)
	relative(t, "stall at 2.89 g", StallSpeed(60, 2.89), 102, 1e-12)
	relative(t, "stall at 60° of bank (140 % in a European theory text)", StallSpeed(100, LoadFactor(60)), 140, 0.011)
	if !math.IsInf(LoadFactor(90), 1) || !math.IsInf(LoadFactor(120), 1) || StallSpeed(50, -1) != 0 {
		t.Error("no level turn exists at 90° and beyond; an unloaded wing does not stall")
	}
}

// Source: Airplane Flying Handbook, Es = h + V²/2g; the numbers are computed from it.
func TestEnergyHeight(t *testing.T) {
	for _, r := range []struct{ kt, feet float64 }{{60, 159}, {80, 283}, {100, 443}, {120, 638}, {150, 996},
		{200, 1771}, {220, 2143}, {300, 3984}} {
		if got := EnergyHeight(0, r.kt); math.Abs(got-r.feet) > 0.6 {
			t.Errorf("%v kt: %v ft, want %v", r.kt, got, r.feet)
		}
	}
	relative(t, "altitude adds", EnergyHeight(5000, 100)-EnergyHeight(0, 100), 5000, 1e-12)
}

// Source: D = W/(2E)·(u² + n²/u²) of a formula sheet on flight performance; the points follow
// from it: best glide, Carson's speed, least power, and turns.
func TestDragPolar(t *testing.T) {
	for _, r := range []struct{ u, n, want float64 }{
		{1, 1, 1}, {1.31607, 1, 1.15470}, {0.75984, 1, 1.15470}, {1, 2, 2.5}, {1, math.Sqrt2, 1.5},
		{1.41421, 2, 2}, {2, 1, 2.125}, {0.5, 1, 2.125}, {1.5, 1, 1.34722}, {1.5, 2, 2.01389},
	} {
		relative(t, "E·D/W", 10.62*Drag(r.u, r.n, 10.62), r.want, 1e-5)
	}
}
