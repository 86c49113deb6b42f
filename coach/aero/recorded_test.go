package aero

import (
	"math"
	"testing"
)

// recorded is a leg as it was flown. Source of all numbers: recorded flights of a
// flight-dynamics library, model classes (turboprop trainers, a jet, light singles) flown by a
// closed-loop pilot; they are the simulation's own truth, interpolated at the turn angles.
type recorded struct {
	name     string
	airplane Airplane
	entry    Entry
	trim     float64 // ° pitch over the two seconds before the leg
	highest  float64 // ° highest pitch
	bank     [3]float64
	pitch    [3]float64
	airspeed [3]float64 // kt at 45, 90 and 135° of turn, like the arrays beside it
	height   [3]float64 // ft since entry
	time     [3]float64 // s since the start
	duration float64    // s to the exit
	slowest  float64    // kt
}

var (
	turbopropA = Airplane{Stall: 84}
	turbopropB = Airplane{Stall: 66}
	jet        = Airplane{Stall: 78, Engine: Jet}
	singleA    = Airplane{Stall: 49}
	singleB    = Airplane{Stall: 52}
)

// The first one gave the shape of the roll-in; the others did not.
var wingOvers = []recorded{
	{"turboprop-a right", turbopropA, Entry{Airspeed: 220.5, Altitude: 7999},
		-0.76, 21.8, [3]float64{42.47, 79.49, 47.3},
		[3]float64{21.76, 0.3, -25.19},
		[3]float64{172.22, 148.94, 195.07}, [3]float64{1056, 1602, 858}, [3]float64{15.29, 23.03, 31.08}, 45.47, 148.6},
	{"turboprop-a left", turbopropA, Entry{Airspeed: 216.3, Altitude: 8000},
		-0.3, 22.3, [3]float64{43.03, 79.78, 47.24},
		[3]float64{22.33, -0.23, -25.79},
		[3]float64{165.86, 142.72, 188.31}, [3]float64{990, 1478, 748}, [3]float64{15.16, 22.5, 30.42}, 43.18, 142.5},
	{"turboprop-a nose high", turbopropA, Entry{Airspeed: 191.5, Altitude: 7999},
		0.28, 43, [3]float64{42.03, 77.52, 46.27},
		[3]float64{42.89, -0.44, -35.64},
		[3]float64{134.7, 91.1, 144.5}, [3]float64{830, 1525, 894}, [3]float64{9.55, 17.47, 24.28}, 33, 91},
	{"turboprop-b right", turbopropB, Entry{Airspeed: 154.6, Altitude: 6496},
		-0.93, 16.6, [3]float64{42.36, 77.66, 47.23},
		[3]float64{16.51, 0.59, -17.54},
		[3]float64{126.73, 113.29, 131.02}, [3]float64{400, 587, 358}, [3]float64{12.32, 17.35, 21.89}, 31.85, 113.2},
	{"turboprop-b by hand", turbopropB, Entry{Airspeed: 151.9, Altitude: 6004},
		-0.99, 17.1, [3]float64{42.89, 77.96, 43.52},
		[3]float64{16.95, 1.26, -16.1},
		[3]float64{123.69, 110.93, 127.36}, [3]float64{407, 579, 376}, [3]float64{11.93, 16.57, 20.92}, 31.73, 110.9},
	{"jet right", jet, Entry{Airspeed: 221.9, Altitude: 9993},
		0.79, 21.5, [3]float64{43.64, 78.93, 48.07}, [3]float64{21.45, 0.72, -23.22},
		[3]float64{170.7, 148.75, 190.22}, [3]float64{1076, 1584, 871}, [3]float64{15.98, 23.57, 31.55}, 45.75, 148.6},
	{"single-b by hand right", singleB, Entry{Airspeed: 117.7, Altitude: 4295},
		-0.4, 12.4, [3]float64{45.19, 70.18, 48.5},
		[3]float64{12.31, 2.69, -12.51},
		[3]float64{100.51, 92.82, 101.85}, [3]float64{174, 256, 171}, [3]float64{10.41, 13.86, 17.43}, 24.16, 92.8},
	{"single-b by hand left", singleB, Entry{Airspeed: 112.5, Altitude: 4315},
		0.1, 13.6, [3]float64{43.12, 69.95, 46.9},
		[3]float64{13.62, -0.37, -14.19},
		[3]float64{95.45, 89.67, 103.66}, [3]float64{189, 261, 134}, [3]float64{10.16, 13.85, 17.7}, 24.94, 89.5},
}

// asFlown is the program of the attitudes the leg passed at 45, 90 and 135°.
func (r *recorded) asFlown() Program {
	p := Program{Turn: 180}
	for i, turn := range []float64{45, 90, 135} {
		share := (r.pitch[i] - r.trim) / (r.highest - r.trim)
		p.Knots = append(p.Knots, Knot{turn, r.bank[i], math.Min(1, share)})
	}
	return p
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.2f, want %.2f within %.2f", what, got, want, within)
	} else {
		t.Logf("%s: %.2f, recorded %.2f", what, got, want)
	}
}

// Given the attitudes that were flown and the lowest airspeed, the path tells the nose, the times and the heights.
func TestWingOversAsRecorded(t *testing.T) {
	for _, r := range wingOvers {
		t.Run(r.name, func(t *testing.T) {
			p, highest := r.asFlown(), r.highest-r.trim
			s, err := Regain(p, r.airplane, r.entry, r.slowest, 0)
			if err != nil {
				t.Fatal(err)
			}
			path := s.Path
			near(t, "highest nose, °", path.Nose, highest, 3)
			near(t, "lowest nose, °", s.Program.Knots[2].Nose*path.Nose, r.pitch[2]-r.trim, 4.5)
			for i, turn := range []float64{45, 90} {
				near(t, "airspeed, kt", path.At(turn).Airspeed, r.airspeed[i], 0.05*r.entry.Airspeed)
				near(t, "time, s", path.At(turn).Time, r.time[i], 0.16*r.time[i]) // theirs runs before the bank
			}
			near(t, "airspeed at 90°, kt", path.At(90).Airspeed, r.airspeed[1], 4)
			near(t, "height at 90°, ft", path.At(90).Height, r.height[1], math.Max(25, 0.08*r.height[1]))
			near(t, "duration, s", path.Duration, r.duration, 0.08*r.duration)
			end := path.At(180)
			near(t, "height at the exit, ft", end.Height, 0, 1)
			near(t, "airspeed at the exit, kt", end.Airspeed, r.entry.Airspeed, 0.1)
			if s.Power < 0.8 || s.Power > 1.1 {
				t.Errorf("power of %.2f", s.Power)
			}
		})
	}
}

// A civil and a traditional chandelle as recorded (same source): pitch and bank as passed, the
// nose held in the second half, airspeed falling to just above the stall.
func TestChandellesAsRecorded(t *testing.T) {
	for _, r := range []struct {
		name           string
		airplane       Airplane
		entry          Entry
		nose           float64
		knots          []Knot
		speed90, end   float64 // kt
		height90, gain float64 // ft
		duration       float64 // s
	}{
		{"civil, single-a", singleA, Entry{Airspeed: 104.9, Altitude: 4501}, 12.3,
			[]Knot{{10, 30, 0.05}, {30, 29.6, 0.32}, {60, 30, 0.81}, {90, 28.65, 1}, {180, 0, 1}},
			82.84, 54.5, 217, 496, 34.88},
		{"traditional, turboprop-a", turbopropA, Entry{Airspeed: 201.7, Altitude: 8002}, 23.9,
			[]Knot{{45, 50.54, 0.29}, {90, 61.28, 0.53}, {120, 48, 0.83}, {180, 0, 1}},
			179.44, 90.0, 574, 2122, 41.91},
	} {
		t.Run(r.name, func(t *testing.T) {
			path, err := Fly(Program{Turn: 180, Knots: r.knots}, r.airplane, r.entry, r.nose)
			if err != nil {
				t.Fatal(err)
			}
			end := path.At(180)
			near(t, "airspeed at 90°, kt", path.At(90).Airspeed, r.speed90, 0.05*r.speed90)
			near(t, "airspeed at the exit, kt", end.Airspeed, r.end, 0.12*r.end)
			near(t, "height at 90°, ft", path.At(90).Height, r.height90, 0.15*r.height90)
			near(t, "gain of height, ft", end.Height, r.gain, 0.15*r.gain)
			near(t, "duration, s", path.Duration, r.duration, 0.15*r.duration)
			nose, err := SolveNose(Program{Turn: 180, Knots: r.knots}, r.airplane, r.entry, r.end)
			if err != nil {
				t.Fatal(err)
			}
			near(t, "nose for the exit airspeed, °", nose, r.nose, 3)
		})
	}
}
