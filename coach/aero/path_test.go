package aero

import (
	"math"
	"strings"
	"testing"
)

// wingOver is a program as taught: 45° of bank at 45°, steepest at 90°, and its mirror.
func wingOver(steepest float64) Program {
	return Program{Turn: 180, Knots: []Knot{{45, 45, 1}, {90, steepest, 0}, {135, 45, -1}}}
}

func lossless(t *testing.T, p Program, e Entry, nose float64) *Path {
	t.Helper()
	c, err := p.compile()
	if err != nil {
		t.Fatal(err)
	}
	m, err := newModel(c, Airplane{MinDrag: 100}, e, nose)
	if err != nil {
		t.Fatal(err)
	}
	m.ld, m.thrust0 = 1e12, 0
	path, err := m.fly(p.Turn)
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// Without losses energy is kept, and dividing dV/dt by the turn rate gives the law
// ln(V entry/V apex) = ∫ sin γ / tan(bank) dθ between points of level flight path.
func TestLawsWithoutLosses(t *testing.T) {
	for _, r := range []struct{ steepest, nose, speed float64 }{{80, 22, 220}, {70, 13, 118}, {75, 30, 130}} {
		path := lossless(t, wingOver(r.steepest), Entry{Airspeed: r.speed, Altitude: 8000}, r.nose)
		first, apex := path.At(0), path.At(90)
		sum, from := 0.0, 6
		for a := 0.005; a < 90; a += 0.01 {
			i := int(a)
			p, q := path.Points[i], path.Points[i+1]
			if i < from { // the bank leaves zero too steeply there for straight lines between degrees
				continue
			}
			f := a - float64(i)
			g, b := p.Climb+f*(q.Climb-p.Climb), p.Bank+f*(q.Bank-p.Bank)
			sum += math.Sin(g*rad) / math.Tan(b*rad) * 0.01 * rad
		}
		p := path.Points[from]
		lost := math.Log(p.TrueAirspeed/apex.TrueAirspeed) + math.Log(math.Cos(p.Climb*rad)/math.Cos(apex.Climb*rad))
		if math.Abs(sum-lost) > 0.004*lost {
			t.Errorf("∫ sin γ/tan bank = %.4f, ln of the speeds %.4f", sum, lost)
		}
		for _, q := range path.Points {
			gained := EnergyHeight(q.Height, q.TrueAirspeed) - EnergyHeight(0, first.TrueAirspeed)
			if math.Abs(gained) > 1 {
				t.Fatalf("at %.0f° energy height changed by %.2f ft", q.Turn, gained)
			}
		}
	}
}

// A level turn held at a bank must show the load factor, rate and radius of the handbook formulas.
func TestLevelTurn(t *testing.T) {
	p := Program{Turn: 360, Knots: []Knot{{10, 50, 0}, {340, 50, 0}}}
	path, err := Fly(p, Airplane{Stall: 52, LiftToDrag: 80}, Entry{Airspeed: 118, Altitude: 4500}, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, b := path.At(179), path.At(180)
	relative(t, "load factor", a.LoadFactor, LoadFactor(50), 0.01)
	relative(t, "rate", 1/(b.Time-a.Time), turnRate(a.TrueAirspeed, 50), 0.01)
	relative(t, "radius", a.Radius, TurnRadius(a.TrueAirspeed, 50), 0.01)
	relative(t, "stall margin", a.StallMargin, a.Airspeed-StallSpeed(52, a.LoadFactor), 1e-9)
}

func TestPathIsSmoothAndOrdered(t *testing.T) {
	path, err := Fly(wingOver(75), Airplane{Stall: 84}, Entry{Airspeed: 220, Altitude: 8000}, 22)
	if err != nil {
		t.Fatal(err)
	}
	if len(path.Points) != 181 || path.Points[0].Time != 0 || path.Duration >= path.Points[180].Time {
		t.Fatalf("want one point per degree from time 0, got %d", len(path.Points))
	}
	for i, q := range path.Points[1:] {
		p := path.Points[i]
		if q.Time <= p.Time || math.Abs(q.Airspeed-p.Airspeed) > 4 || math.Abs(q.LoadFactor-p.LoadFactor) > 0.6 {
			t.Errorf("jump from %+v to %+v", p, q)
		}
	}
	relative(t, "bank at 45°", path.At(45).Bank, 45, 1e-6)
	relative(t, "bank at 90°", path.At(90).Bank, 75, 1e-6)
	relative(t, "highest nose at 45°", path.At(45).Pitch, 22, 1e-6)
	if path.At(-5) != path.Points[0] || path.At(500).Turn != 180 {
		t.Error("beyond its ends the path is held")
	}
	if !math.IsInf(path.Points[0].Radius, 1) || math.IsNaN(path.At(0).Radius) {
		t.Error("with wings level the radius is infinite")
	}
}

// The lower the apex, the higher the nose, and the path solved for must get there.
func TestLowerApexNeedsHigherNose(t *testing.T) {
	last := 0.0
	for apex := 170.0; apex >= 110; apex -= 10 {
		p := wingOver(75)
		p.Level = 0.25 // so that the dive, which gives back more than the height here, can be flown
		nose, err := SolveNose(p, Airplane{Stall: 84}, Entry{Airspeed: 220, Altitude: 8000}, apex)
		if err != nil {
			t.Fatal(err)
		}
		if nose <= last {
			t.Errorf("apex %v kt: nose %v° is not above %v°", apex, nose, last)
		}
		path, err := Fly(p, Airplane{Stall: 84}, Entry{Airspeed: 220, Altitude: 8000}, nose)
		if err != nil {
			t.Fatal(err)
		}
		relative(t, "slowest", path.Slowest().Airspeed, apex, 1e-3)
		last = nose
	}
}

func TestErrorsSayWhatLimits(t *testing.T) {
	ok := wingOver(75)
	good, at := Airplane{Stall: 84}, Entry{Airspeed: 220, Altitude: 8000}
	for _, r := range []struct {
		name string
		p    Program
		a    Airplane
		e    Entry
		apex float64
		want string
	}{
		{"turn", Program{Turn: 5}, good, at, 148, "turn is 5°"},
		{"no knots", Program{Turn: 180}, good, at, 148, "no knot between"},
		{"order", Program{Turn: 180, Knots: []Knot{{90, 60, 0}, {45, 45, 1}}}, good, at, 148, "knot 2 is at 45°"},
		{"not a number", Program{Turn: 180, Knots: []Knot{{90, math.NaN(), 0}}}, good, at, 148, "bank is NaN"},
		{"nose share", Program{Turn: 180, Knots: []Knot{{90, 60, 1.2}}}, good, at, 148, "nose is 1.2"},
		{"banked start", Program{Turn: 180, Knots: []Knot{{0, 10, 0}, {90, 60, 0}}}, good, at, 148, "starts level"},
		{"banked exit", Program{Turn: 180, Knots: []Knot{{90, 60, 0}, {180, 10, 0}}}, good, at, 148, "wings level"},
		{"roll-in past 90", Program{Turn: 180, Knots: []Knot{{90, 100, 0}}}, good, at, 148, "at most 89"},
		{"entry speed", ok, good, Entry{Airspeed: 0, Altitude: 8000}, 148, "entry airspeed is 0 kt; must be between"},
		{"entry altitude", ok, good, Entry{Airspeed: 220, Altitude: 1e6}, 148, "entry altitude"},
		{"stall over entry", ok, Airplane{Stall: 230}, at, 148, "stall speed is 230 kt; must be 0"},
		{"polar", ok, Airplane{LiftToDrag: -1}, at, 148, "lift-to-drag"},
		{"apex over entry", ok, good, at, 230, "apex airspeed is 230 kt; must be more than 0"},
		{"apex under half the stall", ok, good, at, 30, "check the aircraft card"},
		{"apex out of reach", ok, Airplane{Stall: 120}, at, 62, "reference path: "},
		{"stalls", ok, Airplane{Stall: 140}, at, 130, "stalls at"},
		{"too heavy", ok, Airplane{Stall: 84, LoadLimit: 1.5}, at, 148, "over the limit of 1.5 g"},
		{"too little power", Program{Turn: 360, Knots: []Knot{{10, 60, 0}, {350, 60, 0}}}, Airplane{LiftToDrag: 5},
			at, 215, "under the apex"},
	} {
		t.Run(r.name, func(t *testing.T) {
			_, err := SolveNose(r.p, r.a, r.e, r.apex)
			if err == nil || !strings.Contains(err.Error(), r.want) {
				t.Errorf("error %v, want one with %q", err, r.want)
			}
		})
	}
	if _, err := Fly(ok, good, at, 80); err == nil || !strings.Contains(err.Error(), "at 80°; must be between") {
		t.Errorf("a nose of 80° must be refused, got %v", err)
	}
	if _, err := Fly(Program{Turn: 180, Knots: []Knot{{20, 80, 1}, {90, 85, 1}}}, good, at, 60); err == nil ||
		!strings.Contains(err.Error(), "cannot be flown past") {
		t.Errorf("a program no lift can follow must be refused, got %v", err)
	}
}

// What may be asked for goes up to its limits, and no further.
func TestLimitsOfAsking(t *testing.T) {
	c, err := wingOver(75).compile()
	if err != nil {
		t.Fatal(err)
	}
	plane, entry := Airplane{Stall: 10, LiftToDrag: 10, MinDrag: 100}, Entry{Airspeed: 220, Altitude: 8000}
	for name, r := range map[string]struct {
		set       func(a *Airplane, e *Entry, nose *float64, x float64)
		low, high float64
		want      string
	}{
		"entry airspeed": {func(_ *Airplane, e *Entry, _ *float64, x float64) { e.Airspeed = x }, 20, 600,
			"entry airspeed"},
		"entry altitude": {func(_ *Airplane, e *Entry, _ *float64, x float64) { e.Altitude = x }, -2000, 36000,
			"entry altitude"},
		"nose": {func(_ *Airplane, _ *Entry, nose *float64, x float64) { *nose = x }, -75, 75, "nose"},
		"stall": {func(a *Airplane, _ *Entry, _ *float64, x float64) { a.Stall = x }, 0,
			math.Nextafter(220, 0), "stall speed"},
		"lift-to-drag": {func(a *Airplane, _ *Entry, _ *float64, x float64) { a.LiftToDrag = x }, 0, 80,
			"lift-to-drag"},
		"speed of most lift": {func(a *Airplane, _ *Entry, _ *float64, x float64) { a.MinDrag = x }, 0, 600,
			"lift-to-drag"},
	} {
		ask := func(x float64) error {
			a, e, nose := plane, entry, 20.0
			r.set(&a, &e, &nose, x)
			_, err := newModel(c, a, e, nose)
			return err
		}
		for _, x := range []float64{r.low, r.high} {
			if err := ask(x); err != nil {
				t.Errorf("%s of %g: %v", name, x, err)
			}
		}
		for _, x := range []float64{math.Nextafter(r.low, -1e9), math.Nextafter(r.high, 1e9), math.NaN()} {
			if err := ask(x); err == nil || !strings.Contains(err.Error(), r.want) {
				t.Errorf("%s of %g: %v, want an error with %q", name, x, err, r.want)
			}
		}
	}
}

// A program turns by 10° at least and three times round at most.
func TestLimitsOfTurn(t *testing.T) {
	for turn, ok := range map[float64]bool{10: true, 1080: true, math.Nextafter(10, 0): false,
		math.Nextafter(1080, 2000): false} {
		if _, err := (Program{Turn: turn, Knots: []Knot{{5, 30, 1}}}).compile(); (err == nil) != ok {
			t.Errorf("%g°: %v", turn, err)
		}
	}
}

// Whatever numbers a card holds, the path is finite or an error.
func FuzzFly(f *testing.F) {
	f.Add(45.0, 45.0, 1.0, 75.0, 220.0, 84.0, 22.0)
	f.Add(8.0, 30.0, 0.1, 30.0, 105.0, 49.0, 12.0)
	f.Add(90.0, 89.0, -2.0, 120.0, 60.0, 0.0, -40.0)
	f.Fuzz(func(t *testing.T, turn, bank, share, steepest, speed, stall, nose float64) {
		p := Program{Turn: 180, Knots: []Knot{{turn, bank, share}, {100, steepest, 0}, {150, bank, -share}}}
		path, err := Fly(p, Airplane{Stall: stall}, Entry{Airspeed: speed, Altitude: 5000}, nose)
		if err != nil {
			return
		}
		for _, q := range path.Points {
			sum := q.Time + q.Bank + q.Pitch + q.Climb + q.Airspeed + q.TrueAirspeed +
				q.Height + q.LoadFactor + q.StallMargin
			if math.IsNaN(sum) || math.IsInf(sum, 0) || math.IsNaN(q.Radius) {
				t.Fatalf("not a number at %+v", q)
			}
		}
	})
}

func BenchmarkFly(b *testing.B) {
	p := wingOver(75)
	for b.Loop() {
		if _, err := Fly(p, Airplane{Stall: 84}, Entry{Airspeed: 220, Altitude: 8000}, 22); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSolveNose is what choosing a card costs.
func BenchmarkSolveNose(b *testing.B) {
	p := wingOver(75)
	for b.Loop() {
		if _, err := SolveNose(p, Airplane{Stall: 84}, Entry{Airspeed: 220, Altitude: 8000}, 148); err != nil {
			b.Fatal(err)
		}
	}
}
