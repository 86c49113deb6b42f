package aero

import (
	"math"
	"strings"
	"testing"
)

// lazyEight is a program as taught: 15° of bank at 45°, 30° at 90°, and its mirror.
func lazyEight() Program {
	return Program{Turn: 180, Knots: []Knot{{45, 16, 1}, {90, 30, 0}, {135, 16, -1}}}
}

// Entry height and speed at 180°: FAA-S-ACS-7 CA.V.D.S5 within 100 ft and 10 kt; P-1212 p. 33 for the wing-over. The
// reference is to be in the middle of that, and never fast on the way: within 12 kt of the entry.
func TestRegainComesBack(t *testing.T) {
	for _, r := range []struct {
		name    string
		p       Program
		a       Airplane
		e       Entry
		slowest float64
	}{
		{"light single", lazyEight(), singleA, Entry{Airspeed: 100, Altitude: 5000}, 74},
		{"light single, fast", lazyEight(), singleB, Entry{Airspeed: 118, Altitude: 3000}, 91},
		{"turboprop", lazyEight(), turbopropB, Entry{Airspeed: 155, Altitude: 5000}, 112},
		{"fast turboprop", lazyEight(), turbopropA, Entry{Airspeed: 220, Altitude: 8000}, 148},
		{"radial", lazyEight(), Airplane{Stall: 59, MinDrag: 85, LiftToDrag: 9}, Entry{Airspeed: 130}, 70},
		{"jet", wingOver(78), jet, Entry{Airspeed: 220, Altitude: 10000}, 147},
		{"radial, steep", wingOver(75), Airplane{Stall: 59, MinDrag: 85, LiftToDrag: 9}, Entry{Airspeed: 130}, 70},
	} {
		t.Run(r.name, func(t *testing.T) {
			s, err := Regain(r.p, r.a, r.e, r.slowest, 0)
			if err != nil {
				t.Fatal(err)
			}
			end, fastest := s.Path.At(180), 0.0
			for _, q := range s.Path.Points {
				fastest = math.Max(fastest, q.Airspeed)
			}
			near(t, "height at the end, ft", end.Height, 0, 1)
			near(t, "airspeed at the end, kt", end.Airspeed, r.e.Airspeed, 0.1)
			near(t, "lowest airspeed, kt", s.Path.Slowest().Airspeed, r.slowest, 0.1)
			if fastest > r.e.Airspeed+12 {
				t.Errorf("%.0f kt on the way, entered at %g kt", fastest, r.e.Airspeed)
			}
		})
	}
}

// The last of a roll-out is as in the recorded lazy eights of a light single: they turn the last 10° in 7 to 9 s. The
// nose comes level with the wings: not before the last tenth of the turn.
func TestRollOutEndsWithTheTurn(t *testing.T) {
	s, err := Regain(lazyEight(), singleA, Entry{Airspeed: 99, Altitude: 4300}, 73.6, 0)
	if err != nil {
		t.Fatal(err)
	}
	path := s.Path
	near(t, "last 10°, s", path.Duration-path.At(168).Time, 8, 1.5)
	for turn := 135.0; turn < 180; turn++ {
		q, next := path.At(turn), path.At(turn+1)
		if next.Bank > q.Bank || next.Pitch < q.Pitch-1e-9 {
			t.Errorf("at %.0f° of turn bank goes from %.2f to %.2f°, nose from %.2f to %.2f°", turn, q.Bank, next.Bank,
				q.Pitch, next.Pitch)
		}
		if rate := 1 / (next.Time - q.Time); turn < 178 && rate < 0.5 {
			t.Errorf("at %.0f° it turns by %.2f°/s", turn, rate)
		}
	}
	if nose := path.At(162).Pitch; nose > -0.3 {
		t.Errorf("18° before the end the nose is at %.1f°", nose)
	}
}

// The pull-out is not heavier than 2.5 g, or the pull by a fifth, whatever the airplane.
func TestPullOutIsBounded(t *testing.T) {
	for slowest := 62.0; slowest <= 110; slowest += 8 {
		radial := Airplane{Stall: 59, MinDrag: 85, LiftToDrag: 9}
		s, err := Regain(wingOver(75), radial, Entry{Airspeed: 130}, slowest, 0)
		if err != nil {
			t.Fatal(err)
		}
		out, bound := pulls(s.Path)
		if out > bound+0.15 {
			t.Errorf("down to %g kt it pulls out at %.2f g, %.2f g at most", slowest, out, bound)
		}
		if end := s.Path.At(180); math.Abs(end.Height) > 1 || math.Abs(end.Airspeed-130) > 0.1 {
			t.Errorf("down to %g kt it ends %.0f ft off at %.1f kt", slowest, end.Height, end.Airspeed)
		}
	}
}

// Source: P-1212 p. 33: a jet trainer enters at 300 kt, its nose is at most 45° up at 45° of turn, and it is back near
// entry height and speed; 150 to 170 kt at the top stands in student notes only.
func TestStatedNose(t *testing.T) {
	s, err := Regain(wingOver(85), Airplane{Stall: 95, Engine: Jet}, Entry{Airspeed: 300, Altitude: 8000}, 0, 45)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "highest nose, °", s.Path.At(45).Pitch, 45, 0.1)
	near(t, "airspeed at the top, kt", s.Path.At(90).Airspeed, 150, 20)
	near(t, "height at the end, ft", s.Path.At(180).Height, 0, 1)
	near(t, "airspeed at the end, kt", s.Path.At(180).Airspeed, 300, 0.1)
}

// More power gains more height, and thrust that comes with the nose does no more than thrust from the start.
func TestPowerGainsHeight(t *testing.T) {
	p := Program{Turn: 180, Knots: []Knot{{10, 30, 0.05}, {90, 30, 1}, {150, 14, 1}, {180, 0, 1}}}
	var gains []float64
	for _, e := range []Entry{{Airspeed: 105}, {Airspeed: 105, Added: 0.3}, {Airspeed: 105, Power: 1.3}} {
		nose, err := SolveNose(p, singleA, e, 55)
		if err != nil {
			t.Fatal(err)
		}
		path, err := Fly(p, singleA, e, nose)
		if err != nil {
			t.Fatal(err)
		}
		gains = append(gains, path.At(180).Height)
	}
	if !(gains[0] < gains[1] && gains[1] < gains[2]) {
		t.Errorf("gains of %.0f ft", gains)
	}
}

func TestRegainRefuses(t *testing.T) {
	at := Entry{Airspeed: 220, Altitude: 8000}
	for _, r := range []struct {
		name    string
		p       Program
		a       Airplane
		e       Entry
		slowest float64
		want    string
	}{
		{"power", wingOver(75), turbopropA, Entry{Airspeed: 220, Power: -1}, 148, "power is -1"},
		{"added power", wingOver(75), turbopropA, Entry{Airspeed: 220, Added: -2}, 148, "-2 more"},
		{"level", Program{Turn: 180, Knots: []Knot{{45, 45, 1}}, Level: 1}, turbopropA, at, 148, "level is 1"},
		{"stalls", wingOver(75), Airplane{Stall: 140}, at, 141, "stalls at"},
		{"too heavy", wingOver(75), Airplane{Stall: 84, LoadLimit: 1.5}, at, 148, "over the limit of 1.5 g"},
		{"apex over entry", wingOver(75), turbopropA, at, 230, "apex airspeed is 230"},
	} {
		t.Run(r.name, func(t *testing.T) {
			if _, err := Regain(r.p, r.a, r.e, r.slowest, 0); err == nil || !strings.Contains(err.Error(), r.want) {
				t.Errorf("error %v; must have %q", err, r.want)
			}
		})
	}
}

// BenchmarkRegain is what choosing a card costs.
func BenchmarkRegain(b *testing.B) {
	for b.Loop() {
		if _, err := Regain(wingOver(75), turbopropA, Entry{Airspeed: 220, Altitude: 8000}, 148, 0); err != nil {
			b.Fatal(err)
		}
	}
}
