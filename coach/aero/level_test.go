package aero

import (
	"math"
	"testing"
)

// levelCircle is a full circle at a bank, rolled in and out over 20°.
func levelCircle(t *testing.T, bank, speed float64) *Path {
	t.Helper()
	p := Program{Turn: 360, Knots: []Knot{{20, bank, 0}, {340, bank, 0}}}
	path, err := Level(p, Airplane{Stall: 45},
		Entry{Airspeed: speed}) // at sea level the true airspeed is the calibrated
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// Source: Pilot's Handbook of Aeronautical Knowledge (FAA-H-8083-25), aerodynamics of flight: at
// 120 kt and 30° of bank the rate is 5.25°/s and the radius 2,214 ft; twice the speed gives half
// the rate and four times the radius.
func TestLevelTurnsAsPublished(t *testing.T) {
	tests := []struct{ speed, rate, radius float64 }{{120, 5.25, 2214}, {240, 5.25 / 2, 2214 * 4}}
	for _, tt := range tests {
		path := levelCircle(t, 30, tt.speed)
		a, b := path.At(60), path.At(240)
		if rate := 180 / (b.Time - a.Time); math.Abs(rate-tt.rate) > 0.005*tt.rate {
			t.Errorf("at %.0f kt: %.3f°/s, published %.3f", tt.speed, rate, tt.rate)
		}
		if r := math.Hypot(b.Along-a.Along, b.Across-a.Across) / 2; math.Abs(r-tt.radius) > 0.005*tt.radius {
			t.Errorf("at %.0f kt: half a circle is %.0f ft wide, published %.0f", tt.speed, 2*r, 2*tt.radius)
		}
		if math.Abs(a.Radius-tt.radius) > 0.005*tt.radius {
			t.Errorf("at %.0f kt: radius %.0f ft, published %.0f", tt.speed, a.Radius, tt.radius)
		}
	}
}

// With dψ/dt = g·tan(bank)/V and a steady rate of roll p, a roll-out turns −g/(p·V)·ln cos(bank)
// and takes bank/p: the integral of the handbook's turn rate. The roll-in is brisker than that.
func TestLevelRollsTakeTheirTime(t *testing.T) {
	for _, bank := range []float64{45, 50, 60} {
		path := levelCircle(t, bank, 110)
		v := 110 * FeetPerSecond
		p := -Gravity * math.Log(math.Cos(bank*rad)) / (v * 20 * rad)
		want := bank * rad / p
		if out := path.Points[360].Time - path.At(340).Time; math.Abs(out-want) > 0.002*want {
			t.Errorf("rolling out of %.0f° takes %.3f s, the integral %.3f", bank, out, want)
		}
		if in := path.At(20).Time; in >= want || in < want/2 {
			t.Errorf("rolling in to %.0f° takes %.3f s, a steady roll %.3f", bank, in, want)
		}
	}
}

func TestLevelRefuses(t *testing.T) {
	tests := []struct {
		name string
		p    Program
		e    Entry
	}{
		{"bank past level flight", Program{Turn: 360, Knots: []Knot{{20, 85, 0}, {340, 85, 0}}}, Entry{Airspeed: 110}},
		{"stalled: √2·45 kt at 60°", Program{Turn: 360, Knots: []Knot{{20, 60, 0}, {340, 60, 0}}}, Entry{Airspeed: 60}},
	}
	for _, tt := range tests {
		if path, err := Level(tt.p, Airplane{Stall: 45}, tt.e); err == nil {
			t.Errorf("%s: %.1f s of flight, wanted an error", tt.name, path.Duration)
		}
	}
}
