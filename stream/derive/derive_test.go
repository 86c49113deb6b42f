package derive_test

import (
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/derive"
	"halfturn/stream/streamtest"
	"halfturn/stream/timebase"
)

// The recordings have both what is derived and what the simulator says itself. The errors
// are root mean square and largest, in ft/min and °/s, and were measured: they are what a
// derived channel costs against one that is sent.
func TestDeriveRecorded(t *testing.T) {
	tests := []struct {
		file           string
		columns, truth []streamtest.Column
		rms, largest   map[stream.Channel]float64
	}{
		{"lazy-eight", streamtest.SimulatorColumns, streamtest.SimulatorTruth,
			// Twice in these 22 s the clock steps by 50 and then 17 ms while the aircraft moved on
			// evenly; the largest errors are there.
			map[stream.Channel]float64{stream.VerticalSpeed: 18, stream.RollRate: 0.02, stream.PitchRate: 0.035,
				stream.YawRate: 0.11},
			map[stream.Channel]float64{stream.VerticalSpeed: 100, stream.RollRate: 0.25, stream.PitchRate: 0.45,
				stream.YawRate: 1.2}},
		{"wing-over", streamtest.LibraryColumns, streamtest.LibraryTruth,
			map[stream.Channel]float64{stream.VerticalSpeed: 6, stream.RollRate: 0.35, stream.PitchRate: 0.1,
				stream.YawRate: 0.06},
			map[stream.Channel]float64{stream.VerticalSpeed: 16, stream.RollRate: 1.2, stream.PitchRate: 0.3,
				stream.YawRate: 0.2}},
	}
	for _, test := range tests {
		t.Run(test.file, func(t *testing.T) {
			var base timebase.Base
			var derive derive.Deriver
			square, largest := map[stream.Channel]float64{}, map[stream.Channel]float64{}
			lines := streamtest.Lines(t, test.file)
			for i, l := range lines {
				s := l.Sample(test.columns)
				base.Next(&s, l.Received)
				derive.Fill(&s)
				if i < 30 {
					continue
				}
				for _, c := range test.truth {
					got, ok := s.Get(c.Channel)
					if !ok || !s.Derived.Has(c.Channel) {
						t.Fatalf("line %d: %v not derived", i, c.Channel)
					}
					e := math.Abs(got - l.Value(c))
					square[c.Channel] += e * e
					largest[c.Channel] = max(largest[c.Channel], e)
				}
			}
			for c, sum := range square {
				rms := math.Sqrt(sum / float64(len(lines)-30))
				t.Logf("%v: %.3f rms, %.2f largest", c, rms, largest[c])
				if rms > test.rms[c] || largest[c] > test.largest[c] {
					t.Errorf("%v: error %.3f rms, %.2f largest; want within %v and %v", c, rms, largest[c], test.rms[c],
						test.largest[c])
				}
			}
		})
	}
}

// The simulator of the recording shows its ball with a lag of about a second; over the whole
// recording the gain must come out near BallPerG once that is taken into account. Column 26
// is the specific force to the right in ft/s², 28 the ball, positive to the left.
func TestBallAgainstRecorded(t *testing.T) {
	const lag, feetPerG = 1.0, 32.174
	ay, ball := streamtest.Column{Index: 26, Factor: 1 / feetPerG}, streamtest.Column{Index: 28, Factor: -1}
	var lagged, at, n, sx, sy, sxx, sxy, syy float64
	for i, l := range streamtest.Lines(t, "lazy-eight") {
		now := l.Value(streamtest.Column{Index: 0, Factor: 1})
		if i == 0 {
			lagged, at = l.Value(ay), now
		}
		lagged += (l.Value(ay) - lagged) * (1 - math.Exp((at-now)/lag))
		at = now
		if i < 120 { // 4 s for the lag to settle
			continue
		}
		x, y := lagged, l.Value(ball)
		n, sx, sy, sxx, sxy, syy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y, syy+y*y
	}
	gain := (n*sxy - sx*sy) / (n*sxx - sx*sx)
	match := (n*sxy - sx*sy) / math.Sqrt((n*sxx-sx*sx)*(n*syy-sy*sy))
	if math.Abs(gain/stream.BallPerG-1) > 0.15 || match > -0.97 {
		t.Errorf("ball per g %.2f, correlation %.3f; want about %v and −1", gain, match, stream.BallPerG)
	}
}

// In a steady turn only the heading changes. The body rates are then p = −ψ' sin θ,
// q = ψ' cos θ sin φ, r = ψ' cos θ cos φ (the Euler relations of any text on flight
// dynamics; Etkin, Dynamics of Atmospheric Flight, from memory).
func TestDeriveSteadyTurn(t *testing.T) {
	for _, turn := range []float64{-6, 3, 20} {
		for _, pitch := range []float64{-40, 0, 10, 70} {
			for _, bank := range []float64{-60, 0, 45, 120} {
				var d derive.Deriver
				var s stream.Sample
				for i := range 60 {
					now := float64(i) / 60
					s = stream.Sample{}
					s.Put(stream.Time, now)
					s.Put(stream.Heading, 350+turn*now)
					s.Put(stream.Pitch, pitch)
					s.Put(stream.Bank, bank)
					d.Fill(&s)
				}
				sp, cp := math.Sincos(pitch * math.Pi / 180)
				sb, cb := math.Sincos(bank * math.Pi / 180)
				want := [3]float64{-turn * sp, turn * cp * sb, turn * cp * cb}
				for i, c := range []stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
					// Over 0.1 s the attitude turns by 2° at most: the mean body rate is not quite
					// the one of now.
					if got := s.Value(c); math.Abs(got-want[i]) > 1e-9+0.02*math.Abs(turn) {
						t.Errorf("turn %v °/s, pitch %v, bank %v: %v %.4f; must be %.4f", turn, pitch, bank, c, got,
							want[i])
					}
				}
			}
		}
	}
}

// A loop at a constant pitch rate passes the vertical, where heading and bank change by 180°
// at once.
func TestDeriveThroughVertical(t *testing.T) {
	var d derive.Deriver
	for i := range 400 {
		angle := float64(i) * 30 / 60 // 30 °/s
		up := math.Mod(angle, 360)
		var s stream.Sample
		s.Put(stream.Time, float64(i)/60)
		s.Put(stream.Pitch, math.Asin(math.Sin(up*math.Pi/180))*180/math.Pi)
		s.Put(stream.Heading, 90)
		s.Put(stream.Bank, 0)
		if up > 90 && up < 270 {
			s.Put(stream.Heading, 270)
			s.Put(stream.Bank, 180)
		}
		d.Fill(&s)
		if i < 2 {
			continue
		}
		p, q, r := s.Value(stream.RollRate), s.Value(stream.PitchRate), s.Value(stream.YawRate)
		if math.Abs(q-30) > 1e-6 || math.Abs(p)+math.Abs(r) > 1e-6 {
			t.Fatalf("%v° round: rates %v %v %v; must be 0 30 0", up, p, q, r)
		}
	}
}

// Altitude in steps of 25 ft (a coded altimeter) at five samples a second still gives a
// usable climb rate; so does altitude that comes once a second.
func TestDeriveCoarseAltitude(t *testing.T) {
	tests := []struct {
		name     string
		altitude func(now float64) float64
	}{
		{"25 ft steps", func(now float64) float64 { return math.Round((3000+20*now)/25) * 25 }},
		{"once a second", func(now float64) float64 { return 3000 + 20*math.Floor(now) }},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var d derive.Deriver
			for i := range 100 {
				var s stream.Sample
				s.Put(stream.Time, float64(i)/5)
				s.Put(stream.Altitude, test.altitude(float64(i)/5))
				d.Fill(&s)
				if got := s.Value(stream.VerticalSpeed); i > 40 && math.Abs(got-1200) > 500 {
					t.Errorf("at %v s: %v ft/min, want about 1200", float64(i)/5, got)
				}
			}
		})
	}
}

func TestDeriveLeavesAlone(t *testing.T) {
	full := func(now float64) stream.Sample {
		var s stream.Sample
		for c := range stream.NumChannels {
			s.Put(c, 0.5)
		}
		s.Put(stream.Time, now)
		return s
	}
	d := derive.Deriver{GroundSpeedAsAirspeed: true}
	for i := range 60 {
		s := full(float64(i) / 60)
		want := s
		if d.Fill(&s); s != want {
			t.Fatalf("a complete sample was changed: derived %v", s.Derived.Names())
		}
	}
	var s stream.Sample
	s.Put(stream.Time, 0)
	s.Put(stream.Ball, 0.5)
	s.Put(stream.Altitude, 5000)
	s.Put(stream.GroundSpeed, 100)
	off := derive.Deriver{}
	for i := range 60 {
		s.Drop(stream.VerticalSpeed)
		s.Put(stream.Time, float64(i)/60)
		off.Fill(&s)
	}
	for _, c := range []stream.Channel{stream.LateralLoad, stream.Height, stream.Airspeed, stream.RollRate} {
		if s.Has.Has(c) {
			t.Errorf("%v made up: %v", c, s.Value(c))
		}
	}
}

func TestDeriveBall(t *testing.T) {
	for load, want := range map[float64]float64{0: 0, 0.1: -1, -0.05: 0.5} {
		var s stream.Sample
		s.Put(stream.Time, 1)
		s.Put(stream.LateralLoad, load)
		var d derive.Deriver
		d.Fill(&s)
		if got, ok := s.Get(stream.Ball); !ok || math.Abs(got-want) > 1e-12 || !s.Derived.Has(stream.Ball) {
			t.Errorf("lateral load %v g: ball %v; must be %v", load, got, want)
		}
	}
}

// The density ratios are of the International Standard Atmosphere (ISO 2533; the table of
// its values against altitude in feet, from memory).
func TestDeriveAirspeed(t *testing.T) {
	for altitude, ratio := range map[float64]float64{0: 1, 5000: 0.8617, 10000: 0.7385, 20000: 0.5328, 36089: 0.2971,
		40000: 0.2462} {
		var s stream.Sample
		s.Put(stream.Time, 1)
		s.Put(stream.TrueAirspeed, 200)
		s.Put(stream.Altitude, altitude)
		var d derive.Deriver
		d.Fill(&s)
		if got, want := s.Value(stream.Airspeed), 200*math.Sqrt(ratio); math.Abs(got-want) > 0.02 ||
			!s.Derived.Has(stream.Airspeed) {
			t.Errorf("200 kt true at %v ft: %.3f kt; must be %.3f", altitude, got, want)
		}
	}
	// 80 kt over the ground, climbing at 6076 ft/min (60 kt): 100 kt along the path.
	var s stream.Sample
	s.Put(stream.Time, 1)
	s.Put(stream.GroundSpeed, 80)
	s.Put(stream.VerticalSpeed, 6076.12)
	s.Put(stream.Altitude, 0)
	d := derive.Deriver{GroundSpeedAsAirspeed: true}
	d.Fill(&s)
	if got := s.Value(stream.Airspeed); math.Abs(got-100) > 0.01 || !s.Derived.Has(stream.Airspeed) {
		t.Errorf("estimated airspeed %v kt; must be 100", got)
	}
}

func TestDeriveReset(t *testing.T) {
	var d derive.Deriver
	put := func(now, altitude, bank float64) stream.Sample {
		var s stream.Sample
		s.Put(stream.Time, now)
		s.Put(stream.Altitude, altitude)
		s.Put(stream.Heading, 90)
		s.Put(stream.Pitch, 0)
		s.Put(stream.Bank, bank)
		d.Fill(&s)
		return s
	}
	for i := range 60 {
		put(float64(i)/60, 5000, 0)
	}
	d.Reset()
	s := put(0.01, 9000, 80)
	if s.Has.Has(stream.VerticalSpeed) || s.Has.Has(stream.RollRate) {
		t.Errorf("derived across a reset: %v", s.Derived.Names())
	}
	for i := range 60 {
		s = put(0.02+float64(i)/60, 9000, 80)
	}
	if got := s.Value(stream.VerticalSpeed); math.Abs(got) > 1e-6 {
		t.Errorf("vertical speed %v after a reset in level flight", got)
	}
}

func TestDeriveAllocates(t *testing.T) {
	var d derive.Deriver
	now := 0.0
	if n := testing.AllocsPerRun(1000, func() {
		var s stream.Sample
		now += 0.016
		s.Put(stream.Time, now)
		s.Put(stream.Altitude, 5000+now)
		s.Put(stream.Heading, now)
		s.Put(stream.Pitch, 1)
		s.Put(stream.Bank, 2)
		d.Fill(&s)
	}); n != 0 {
		t.Errorf("%v allocations a sample", n)
	}
}

// go test -bench Derive -benchmem ./stream
func BenchmarkDerive(b *testing.B) {
	samples := streamtest.Samples(b, "wing-over", streamtest.LibraryColumns)
	var d derive.Deriver
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		s := samples[i%len(samples)]
		s.Put(stream.Time, float64(i)*0.033)
		d.Fill(&s)
	}
}
