package xplane_test

import (
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/units"
	"halfturn/stream/wire/wiretest"
	"halfturn/stream/wire/xplane"
)

// flight makes samples of an aircraft whose attitude follows the given body rates in °/s, by
// the same kinematics as flight textbooks give, integrated in small steps.
func flight(n int, rates func(i int) (p, q, r float64)) []stream.Sample {
	const dt, fine = 1.0 / 60, 50
	pitch, bank, heading := 3.0, 0.0, 350.0
	var out []stream.Sample
	for i := range n {
		p, q, r := rates(i)
		for range fine {
			sp, cp := math.Sincos(bank / units.DegreesPerRadian)
			st, ct := math.Sincos(pitch / units.DegreesPerRadian)
			turn := (q*sp + r*cp) / ct
			bank += (p + turn*st) * dt / fine
			pitch += (q*cp - r*sp) * dt / fine
			heading += turn * dt / fine
		}
		out = append(out, *wiretest.SampleOf(stream.Time, float64(i+1)*dt, stream.Pitch, pitch, stream.Bank, bank,
			stream.Heading, heading, stream.RollRate, p, stream.PitchRate, q, stream.YawRate, r))
	}
	return out
}

// older lays row 16 out as versions 10 and 11 do.
func older(s stream.Sample) stream.Sample {
	p, q, r := s.Value(stream.RollRate), s.Value(stream.PitchRate), s.Value(stream.YawRate)
	s.Put(stream.RollRate, q/units.DegreesPerRadian)
	s.Put(stream.PitchRate, p/units.DegreesPerRadian)
	s.Put(stream.YawRate, r/units.DegreesPerRadian)
	return s
}

// TestRowsLayout: the layout of row 16 is found from the attitude, in either layout, in a
// turn and in a roll, and no rates are given before.
func TestRowsLayout(t *testing.T) {
	flights := map[string]func(i int) (p, q, r float64){
		"steady turn": func(int) (p, q, r float64) { return 0, 6.4, 6.4 },
		"rolling":     func(i int) (p, q, r float64) { return 15 * math.Sin(float64(i)/40), 1, 1 },
		"gentle": func(i int) (p, q, r float64) {
			return 4 * math.Sin(float64(i)/70), 2 + 2*math.Cos(float64(i)/90), 2
		},
	}
	for name, rates := range flights {
		for _, old := range []bool{false, true} {
			r := wire.NewReader(format.Options{})
			found := -1
			for i, in := range flight(900, rates) {
				sent := in
				if old {
					sent = older(in)
				}
				got := wiretest.Decode(t, r, wiretest.Encode(t, "rows", &sent))
				if !got.Has.Has(stream.RollRate) {
					if found >= 0 {
						t.Fatalf("%s: rates went away at %d", name, i)
					}
					continue
				}
				if found < 0 {
					found = i
				}
				for _, c := range []stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
					if !wiretest.Near(c, got.Value(c), in.Value(c), 1e-4) {
						t.Fatalf("%s, old %v, sample %d: %s is %v, not %v", name, old, i, c, got.Value(c), in.Value(c))
					}
				}
			}
			if found < 5 || found > 600 {
				t.Errorf("%s, old %v: found at sample %d", name, old, found)
			}
		}
	}
}

// TestRowsLayoutUndecided: what does not tell the layouts apart must not be guessed.
func TestRowsLayoutUndecided(t *testing.T) {
	for name, rates := range map[string]func(i int) (p, q, r float64){
		"level":      func(int) (p, q, r float64) { return 0, 0, 0 },
		"both alike": func(int) (p, q, r float64) { return 3, 3, 0 },
	} {
		r := wire.NewReader(format.Options{})
		for i, in := range flight(600, rates) {
			if name == "level" { // noise in the rates without any in the attitude
				in.Put(stream.RollRate, math.Sin(float64(i)))
			}
			if s := wiretest.Decode(t, r, wiretest.Encode(t, "rows", &in)); s.Has.Has(stream.RollRate) {
				t.Fatalf("%s: guessed at sample %d", name, i)
			}
		}
	}
}

// TestRowsSplit: the rows of one tick may come in several datagrams, in any order. Only the
// attitude makes a sample, and a row that no longer comes goes away.
func TestRowsSplit(t *testing.T) {
	whole := wiretest.Encode(t, "rows", wiretest.SampleOf(stream.Time, 1, stream.Airspeed, 100, stream.Pitch, 2,
		stream.Latitude, 3, stream.Throttle, 0.5))
	part := func(rows ...int) []byte {
		b := []byte("DATA*")
		for i := 5; i < len(whole); i += xplane.RowLength {
			for _, row := range rows {
				if int(whole[i]) == row {
					b = append(b, whole[i:i+xplane.RowLength]...)
				}
			}
		}
		return b
	}
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	for range 3 {
		if err := r.Decode(part(xplane.RowTimes, xplane.RowSpeeds), 0, &s); err != fault.ErrPart || s.Has != 0 {
			t.Fatal(err, s.Has.Names())
		}
		s = wiretest.Decode(t, r, part(xplane.RowAttitude, xplane.RowPosition))
		if s.Value(stream.Airspeed) != 100 || s.Value(stream.Time) != 1 || s.Value(stream.Latitude) != 3 {
			t.Fatalf("%+v", s)
		}
		if err := r.Decode(part(xplane.RowLever, xplane.RowThrottle), 0, &s); err != fault.ErrPart {
			t.Fatal(err)
		}
	}
	if s = wiretest.Decode(t, r, part(xplane.RowAttitude)); s.Value(stream.Throttle) != 0.5 {
		t.Error("a row after the attitude was not kept for the next sample")
	}
	for range 2 + 1 {
		s = wiretest.Decode(t, r, part(xplane.RowAttitude))
	}
	if s.Has != stream.Set(0).With(stream.Pitch) {
		t.Errorf("stale rows are still used: %v", s.Has.Names())
	}
	if r.Format() != "DATA rows" || !r.Advice().IsZero() {
		t.Error(r.Format(), r.Advice())
	}
}

// TestRowsFallback: ground and vertical speed come from the local velocity where their own
// columns are unused, and a row number from another version is skipped.
func TestRowsFallback(t *testing.T) {
	b := []byte("DATA*")
	row := func(n uint32, v ...float32) {
		b = append(b, byte(n), byte(n>>8), byte(n>>16), byte(n>>24))
		for i := range 8 {
			x := float32(xplane.Filler)
			if i < len(v) {
				x = v[i]
			}
			u := math.Float32bits(x)
			b = append(b, byte(u), byte(u>>8), byte(u>>16), byte(u>>24))
		}
	}
	row(1<<31, 7, 7)
	row(500, 7, 7)
	row(xplane.RowAttitude, 1, 2, 3)
	row(xplane.RowVelocity, 0, 0, 0, 30, 5.08, -40)
	row(xplane.RowThrottle, 0.75)
	row(xplane.RowEngine, 2400)
	s := wiretest.Decode(t, wire.NewReader(format.Options{}), b)
	for c, want := range map[stream.Channel]float64{
		stream.GroundSpeed: 50 * 3600 / 1852.0, stream.VerticalSpeed: 1000, stream.Throttle: 0.75, stream.RPM: 2400,
		stream.Heading: 3,
	} {
		if !wiretest.Near(c, s.Value(c), want, 1e-4) {
			t.Errorf("%s = %v; must be %v", c, s.Value(c), want)
		}
	}
}

// Which layout of row 16 was decided is said, and why.
func TestRowsDetail(t *testing.T) {
	turn := flight(600, func(i int) (p, q, r float64) { return 15 * math.Sin(float64(i)/40), 1, 1 })
	for want, o := range map[string]format.Options{
		"row 16 is roll, pitch, yaw in °/s (version 12), found from the change of attitude": {},
		"row 16 is roll, pitch, yaw in °/s (version 12), as told":                           {Rows: format.RowsNew},
		"row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), as told":                 {Rows: format.RowsOld},
	} {
		r := wire.NewReader(o)
		for i := range turn {
			wiretest.Decode(t, r, wiretest.Encode(t, "rows", &turn[i]))
			if i == 2 && o.Rows == format.RowsAuto && !r.Detail().Is(phrase.RowsUnknown) {
				t.Errorf("at first: %q", r.Detail())
			}
		}
		if r.Detail().String() != want {
			t.Errorf("%q; must be %q", r.Detail(), want)
		}
	}
}
