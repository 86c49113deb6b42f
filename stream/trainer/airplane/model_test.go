package airplane

import (
	"math"
	"testing"

	"halfturn/stream"
)

func level(name string, wind [2]float64) *Model {
	a, err := Named(name)
	if err != nil {
		panic(err)
	}
	return NewModel(&a, 40, -100, 30, 5000, wind)
}

func hold(p *Model) Controls { return Controls{Load: 1, Throttle: p.Airplane.Throttle, Feet: 1} }

// Unaccelerated level flight with hands off stays what it is.
func TestLevelFlightStaysLevel(t *testing.T) {
	for _, name := range Names() {
		p := level(name, [2]float64{})
		v, h, psi := p.Speed, p.Altitude, p.Euler[0]
		for range 5 * 60 * 60 {
			p.Step(1.0/60, hold(p))
		}
		if math.Abs(p.Altitude-h) > 0.1 || math.Abs(p.Speed-v)/Knot > 0.01 || math.Abs(p.Euler[0]-psi)/rad > 0.05 ||
			math.Abs(p.Euler[2]) > 0.01*rad {
			t.Errorf("%s after five minutes: %.2f ft, %.3f kt, %.3f° of heading, %.3f° of bank", name, p.Altitude-h,
				(p.Speed-v)/Knot, (p.Euler[0]-psi)/rad, p.Euler[2]/rad)
		}
		var s stream.Sample
		p.Fill(&s)
		within(t, "normal load", s.Value(stream.NormalLoad), 0.99, 1.01)
		within(t, "axial load less the sine of the pitch",
			s.Value(stream.AxialLoad)-math.Sin(s.Value(stream.Pitch)*rad), -0.002, 0.002)
		within(t, "pitch", s.Value(stream.Pitch), 0.9, 1.1)
		within(t, "calibrated airspeed", s.Value(stream.Airspeed), p.Airplane.Entry-0.1, p.Airplane.Entry+0.1)
	}
}

// Energy height h + V²/2g changes by V(T−D)/W and by nothing else, whatever is flown (Airplane
// Flying Handbook: Es = h + V²/2g; its rate is the definition of specific excess power).
func TestEnergyComesFromThrustAndDragOnly(t *testing.T) {
	for _, name := range Names() {
		p := level(name, [2]float64{30, -20})
		sum := 0.0
		start := p.Altitude + p.Speed*p.Speed/(2*Gravity)
		const dt = 1.0 / 60
		power := func() float64 { return p.Speed * (p.thrust(p.Speed) - p.Drag(p.Speed, p.lift(p.Speed, p.alpha))) }
		for i := range 60 * 60 {
			s := float64(i) * dt
			before := power()
			p.Step(dt, Controls{Load: 1.3 + 0.8*math.Sin(s/3), Roll: 0.5 * math.Sin(s/5),
				Throttle: 0.6 + 0.3*math.Sin(s/7), Feet: 1})
			sum += dt * (before + power()) / 2
			gained := p.Altitude + p.Speed*p.Speed/(2*Gravity) - start
			if math.Abs(gained-sum) > 3+0.005*math.Abs(sum) {
				t.Fatalf("%s at %.1f s: energy height %+.1f ft, thrust and drag account for %+.1f", name, s, gained,
					sum)
			}
		}
	}
}

// A coordinated level turn turns at g·tan(bank)/V (Pilot's Handbook of Aeronautical Knowledge).
func TestCoordinatedTurnRate(t *testing.T) {
	for _, name := range Names() {
		for _, bank := range []float64{-60, -30, 15, 30, 45, 60} {
			p := level(name, [2]float64{})
			p.mu = bank * rad
			c := hold(p)
			c.Load = 1 / math.Cos(bank*rad)
			for range 120 {
				p.Step(1.0/60, c)
			}
			var turned, want float64
			for range 120 {
				was := p.chi
				p.Step(1.0/60, c)
				turned += math.Remainder(p.chi-was, 2*math.Pi)
				want += Gravity * math.Tan(p.mu) / p.Speed / 60
			}
			// Flight is level only nearly: hands hold the load factor, not the altitude.
			if math.Abs(turned/want-1) > 0.015 {
				t.Errorf("%s at %v°: turned %.3f°; must be %.3f°", name, bank, turned/rad, want/rad)
			}
		}
	}
}

// The wind carries the airplane and changes nothing else.
func TestWind(t *testing.T) {
	still, blown := level("light-single", [2]float64{}), level("light-single", [2]float64{0, 40 * Knot})
	for range 60 * 60 {
		still.Step(1.0/60, hold(still))
		blown.Step(1.0/60, hold(blown))
	}
	if still.Altitude != blown.Altitude || still.Speed != blown.Speed || still.Euler != blown.Euler {
		t.Error("wind changed the flight through the air")
	}
	east := (blown.lon - still.lon) * math.Cos(still.lat) * (earth + still.Altitude)
	if want := 40 * Knot * 60; math.Abs(east/want-1) > 1e-3 {
		t.Errorf("blown %.0f ft; must be %.0f", east, want)
	}
	north := (still.lat - 40*rad) * (earth + still.Altitude)
	if want := still.Speed * 60 * math.Cos(30*rad); math.Abs(north/want-1) > 2e-3 {
		t.Errorf("flown %.0f ft north; must be %.0f", north, want)
	}
	var s stream.Sample
	blown.Fill(&s)
	n, e := blown.Speed*math.Cos(30*rad), blown.Speed*math.Sin(30*rad)+40*Knot
	within(t, "track", s.Value(stream.Track)-math.Atan2(e, n)/rad, -0.1, 0.1)
	within(t, "ground speed", s.Value(stream.GroundSpeed)-math.Hypot(n, e)/Knot, -0.1, 0.1)
}

// Pulled to the stalling angle the airplane warns, its nose drops though the stick is held back,
// and it flies again once it is let go.
func TestStall(t *testing.T) {
	for _, name := range Names() {
		p := level(name, [2]float64{})
		var s stream.Sample
		warned, broke, highest := 0.0, 0.0, 0.0
		for p.Time < 120 && broke == 0 {
			p.Step(1.0/60, Controls{Load: math.Min(1.05, 1+(p.Airplane.Entry-p.EquivalentAirspeed())*0.01), Throttle: 0,
				Feet: 1})
			p.Fill(&s)
			if s.Value(stream.StallWarning) == 1 && warned == 0 {
				warned = s.Value(stream.Airspeed)
			}
			if p.Stalled {
				broke, highest = s.Value(stream.Airspeed), s.Value(stream.Pitch)
			}
		}
		within(t, name+": warning before the stall, kt", warned-broke, 0.5, 12)
		within(t, name+": stall speed", broke, p.Airplane.Stall*0.95, p.Airplane.Stall*1.06)
		for range 180 {
			p.Step(1.0/60, Controls{Load: 1, Throttle: 0, Feet: 1})
		}
		p.Fill(&s)
		within(t, name+": nose drops, °", s.Value(stream.Pitch)-highest, -60, -3)
		for range 600 {
			p.Step(1.0/60, Controls{Load: 0.8, Throttle: p.Airplane.Throttle, Feet: 1})
		}
		if p.Stalled {
			t.Errorf("%s does not come out of the stall", name)
		}
	}
}

// Without rudder the ball lies right of the middle at low speed and high power (torque effect, clockwise
// propeller) and on the inside while rolling in (adverse yaw).
func TestFeetOnTheFloor(t *testing.T) {
	p := level("light-single", [2]float64{})
	var s stream.Sample
	c := hold(p)
	c.Feet, c.Roll = 0, 20*rad
	for range 60 {
		p.Step(1.0/60, c)
	}
	p.Fill(&s)
	within(t, "ball while rolling right", s.Value(stream.Ball), 0.1, 3)
	p = level("light-single", [2]float64{})
	c.Roll, c.Load = 0, 1
	for p.EquivalentAirspeed() > 65 {
		c.Load = (1 + p.Speed/Gravity*(12*rad-p.Climb)*0.8)
		p.Step(1.0/60, c)
	}
	p.Fill(&s)
	within(t, "ball slow and climbing", s.Value(stream.Ball), 0.5, 3)
}

func within(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	if !(got >= low && got <= high) {
		t.Errorf("%s: %.2f; must be between %g and %g", what, got, low, high)
	}
}
