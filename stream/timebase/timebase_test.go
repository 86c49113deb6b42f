package timebase_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/streamtest"
	"halfturn/stream/timebase"
)

// order runs lines through a time base and returns the counts by status, the accepted
// stream times, and the reasons of the jumps.
func order(lines []streamtest.Line, columns []streamtest.Column) (counts [5]int, times []float64, reasons []string) {
	var base timebase.Base
	for _, l := range lines {
		s := l.Sample(columns)
		status := base.Next(&s, l.Received)
		counts[status]++
		if status <= timebase.Jump {
			times = append(times, s.Value(stream.Time))
		}
		if status == timebase.Jump {
			reasons = append(reasons, base.Reason().String())
		}
	}
	return counts, times, reasons
}

// The recorded streams hold what a receiver meets in practice: a start with the clock at 0,
// stalls of the simulator, a clock reset, a hold in which nothing is sent.
func TestTimebaseRecorded(t *testing.T) {
	tests := []struct {
		file    string
		clock   bool
		want    [5]int // fresh, jump, still, duplicate, late
		reasons string
	}{
		// The first 25 datagrams carry t = 0, sent for 1.6 s. Stalls of up to 3.3 s of wall time
		// advance the clock by exactly 1 s.
		{"startup-stutter", true, [5]int{169, 0, 18, 6, 0}, ""},
		{"startup-stutter", false, [5]int{166, 3, 18, 6, 0},
			"gap of 2.8 s in the stream|gap of 2.3 s in the stream|gap of 3.2 s in the stream"},
		{"lazy-eight", true, [5]int{650, 0, 0, 0, 0}, ""},
		{"lazy-eight", false, [5]int{650, 0, 0, 0, 0}, ""},
		// Two datagrams carry time 0 after the reset; the aircraft stands elsewhere.
		{"reset", true, [5]int{156, 1, 0, 0, 2}, "clock went back"},
		{"reset", false, [5]int{157, 1, 0, 1, 0}, "attitude jumped"},
		// Held for 10 s of wall time: the clock goes on as if nothing had been.
		{"held", true, [5]int{160, 0, 0, 0, 0}, ""},
		{"held", false, [5]int{159, 1, 0, 0, 0}, "gap of 10.0 s in the stream"},
		{"wing-over", true, [5]int{600, 0, 0, 0, 0}, ""},
		{"wing-over", false, [5]int{600, 0, 0, 0, 0}, ""},
	}
	for _, test := range tests {
		t.Run(fmt.Sprintf("%s/clock=%v", test.file, test.clock), func(t *testing.T) {
			columns := streamtest.LibraryColumns
			if test.file == "startup-stutter" || test.file == "lazy-eight" {
				columns = streamtest.SimulatorColumns
			}
			if !test.clock {
				columns = columns[1:]
			}
			got, times, reasons := order(streamtest.Lines(t, test.file), columns)
			if got != test.want || strings.Join(reasons, "|") != test.reasons {
				t.Errorf("got %v %q; must be %v %q", got, reasons, test.want, test.reasons)
			}
			for i := 1; i < len(times); i++ {
				if times[i] <= times[i-1] && test.want[timebase.Jump] == 0 {
					t.Fatalf("time %v after %v", times[i], times[i-1])
				}
			}
		})
	}
}

// A flyer makes samples of steady flight east, to be bent by a test.
type flyer struct {
	base     timebase.Base
	time     float64 // of the simulator
	received float64
	clock    bool
	heading  float64
	pitch    float64
	bank     float64
	altitude float64
	airspeed float64
	lat, lon float64
	paused   float64
}

func newFlyer(clock bool) *flyer {
	return &flyer{received: 1.7e9, clock: clock, heading: 90, altitude: 5000, airspeed: 120, lat: 40, lon: 10}
}

// fly moves on by dt seconds of simulator time, received wall seconds later.
func (f *flyer) fly(dt, wall float64) {
	f.time += dt
	f.received += wall
	f.lon += dt * f.airspeed / 3600 / 60 / math.Cos(f.lat*math.Pi/180)
	if f.lon >= 180 {
		f.lon -= 360
	}
}

func (f *flyer) sample() stream.Sample {
	var s stream.Sample
	for c, v := range map[stream.Channel]float64{
		stream.Heading: f.heading, stream.Pitch: f.pitch, stream.Bank: f.bank, stream.Altitude: f.altitude,
		stream.Airspeed: f.airspeed, stream.Latitude: f.lat, stream.Longitude: f.lon, stream.Paused: f.paused,
	} {
		s.Put(c, v)
	}
	if f.clock {
		s.Put(stream.Time, f.time)
	}
	return s
}

// next sends the state as it is.
func (f *flyer) next() (timebase.Status, float64) {
	s := f.sample()
	status := f.base.Next(&s, f.received)
	return status, s.Value(stream.Time)
}

func (f *flyer) want(t *testing.T, want timebase.Status) float64 {
	t.Helper()
	status, at := f.next()
	if status != want {
		t.Fatalf("at %.3f s, received %.3f s: %v (%s); must be %v", f.time, f.received-1.7e9, status, f.base.Reason(),
			want)
	}
	return at
}

// cruise flies steadily for n samples at 50 a second.
func (f *flyer) cruise(t *testing.T, n int) (at float64) {
	t.Helper()
	for range n {
		f.fly(0.02, 0.02)
		at = f.want(t, timebase.Fresh)
	}
	return at
}

func TestTimebaseClock(t *testing.T) {
	t.Run("duplicate and late", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 100)
		f.want(t, timebase.Duplicate)
		for _, back := range []float64{0.02, 0.5, 1.0} {
			now := f.time
			f.time -= back
			f.want(t, timebase.Late)
			f.time = now
			f.cruise(t, 1)
		}
	})
	t.Run("pause", func(t *testing.T) {
		f := newFlyer(true)
		before := f.cruise(t, 10)
		for i := range 100 { // datagrams keep coming, for 2 s
			f.received += 0.02
			f.want(t, map[bool]timebase.Status{true: timebase.Duplicate, false: timebase.Still}[i < 25])
		}
		if after := f.cruise(t, 1); math.Abs(after-before-0.02) > 1e-9 {
			t.Errorf("stream time %v after a pause at %v", after, before)
		}
	})
	t.Run("a flag that lies", func(t *testing.T) {
		f := newFlyer(true)
		f.paused = 1
		f.fly(0.02, 0.02)
		f.want(t, timebase.Fresh)
		f.fly(0.02, 0.02)
		s := f.sample()
		if status := f.base.Next(&s, f.received); status != timebase.Fresh || s.Value(stream.Paused) != 0 {
			t.Errorf("flag set in flight: %v, paused %v", status, s.Value(stream.Paused))
		}
	})
	t.Run("reset by much", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 100)
		f.time = 0
		f.want(t, timebase.Late) // held until a second one follows
		f.fly(0.02, 0.02)
		if at := f.want(t, timebase.Jump); at != 0.02 || f.base.Reason().String() != "clock went back" {
			t.Errorf("at %v: %q", at, f.base.Reason())
		}
		f.cruise(t, 10)
	})
	t.Run("one stray datagram from long ago", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 100)
		now := f.time
		f.time = 0.1
		f.want(t, timebase.Late)
		f.want(t, timebase.Late) // captured twice
		f.time = now
		f.cruise(t, 10)
	})
	t.Run("reset by little", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 100)
		f.time -= 0.8
		for range 26 {
			f.fly(0.02, 0.02)
			f.want(t, timebase.Late)
		}
		f.fly(0.02, 0.02)
		f.want(t, timebase.Jump)
		f.cruise(t, 10)
	})
	t.Run("a burst of 0.4 s that comes behind others at its own pace", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 100)
		now := f.time
		f.time -= 0.8
		for range 20 {
			f.fly(0.02, 0.02)
			f.want(t, timebase.Late)
		}
		f.time = now + 0.4
		f.cruise(t, 10)
	})
	t.Run("a burst that was held up", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 100)
		now := f.time
		for i := range 10 { // ten datagrams overtaken by another, all at once
			f.time = now - 0.2 + 0.02*float64(i)
			f.want(t, timebase.Late)
		}
		f.time = now
		f.cruise(t, 10)
	})
	t.Run("gap", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 10)
		f.fly(2, 2)
		f.want(t, timebase.Fresh)
		f.fly(3.2, 3.2)
		f.want(t, timebase.Jump)
		if got := f.base.Reason().String(); got != "gap of 3.2 s in the stream" {
			t.Errorf("reason %q", got)
		}
	})
	t.Run("clock no longer sent", func(t *testing.T) {
		f := newFlyer(true)
		f.cruise(t, 10)
		f.clock = false
		for range 100 {
			f.fly(0.02, 0.02)
			f.want(t, timebase.Duplicate)
		}
		f.fly(0.02, 0.02)
		f.want(t, timebase.Jump)
		f.cruise(t, 10)
		f.clock = true
		f.fly(0.02, 0.02)
		f.want(t, timebase.Jump)
		if got := f.base.Reason().String(); got != "simulator clock appeared in the stream" {
			t.Errorf("reason %q", got)
		}
		f.cruise(t, 10)
	})
}

// A clock in whole seconds (a column whose decimals were lost) must not thin the stream to
// one sample a second.
func TestTimebaseCoarseClock(t *testing.T) {
	f := newFlyer(true)
	var fresh int
	var last float64
	for i := range 500 { // 10 s
		f.fly(0.02, 0.02)
		f.bank = float64(i%50) / 10
		exact := f.time
		f.time = math.Floor(f.time)
		status, at := f.next()
		f.time = exact
		if status == timebase.Jump {
			t.Fatalf("jump: %s", f.base.Reason())
		}
		if status == timebase.Fresh {
			if fresh++; at <= last && last > 0 {
				t.Fatalf("time %v after %v", at, last)
			}
			last = at
		}
	}
	if fresh < 300 || math.Abs(last-f.time) > 0.05 || f.base.BySimulator() {
		t.Errorf("%d samples, stream time %v at %v", fresh, last, f.time)
	}
	f.time = 0
	f.bank = 1
	f.received += 0.02
	f.want(t, timebase.Jump)
}

func TestTimebaseAllocates(t *testing.T) {
	for _, clock := range []bool{true, false} {
		f := newFlyer(clock)
		s := f.sample()
		if n := testing.AllocsPerRun(1000, func() {
			f.fly(0.02, 0.02)
			f.bank = math.Mod(f.bank+30, 180) // the long way through the plausibility checks, jumps too
			s.Put(stream.Bank, f.bank)
			s.Put(stream.Longitude, f.lon)
			if clock {
				s.Put(stream.Time, f.time)
			} else {
				s.Drop(stream.Time)
			}
			f.base.Next(&s, f.received)
		}); n != 0 {
			t.Errorf("clock=%v: %v allocations a sample", clock, n)
		}
	}
}

// Whatever comes, an accepted sample has a finite time, and one that is Fresh a later time
// than the one before.
func FuzzTimebase(f *testing.F) {
	f.Add([]byte{1, 2, 3, 4, 5, 6, 7, 8})
	f.Add([]byte("\x00\x80\xff\x00\x40\x40\x00\x00\x00\x10\x90\x20"))
	f.Add([]byte(strings.Repeat("\x10\x10\x80\x01", 40)))
	f.Fuzz(func(t *testing.T, script []byte) {
		fl := newFlyer(true)
		last := math.Inf(-1)
		for ; len(script) >= 4; script = script[4:] {
			fl.time = math.Max(0, fl.time+(float64(script[0])-64)/64)
			fl.received += (float64(script[1]) - 32) / 64
			fl.bank = float64(int8(script[2]))
			fl.clock = script[3]&1 == 0
			fl.paused = float64(script[3] >> 1 & 1)
			fl.lat = 40 + float64(script[3]>>2)/1e4
			status, at := fl.next()
			if status > timebase.Jump {
				continue
			}
			if math.IsNaN(at) || math.IsInf(at, 0) {
				t.Fatalf("time %v", at)
			}
			if status == timebase.Fresh && at <= last {
				t.Fatalf("fresh at %v after %v", at, last)
			}
			if status == timebase.Jump && fl.base.Reason().IsZero() {
				t.Fatal("jump without a reason")
			}
			last = at
		}
	})
}

// go test -bench Timebase -benchmem ./stream
func BenchmarkTimebase(b *testing.B) {
	samples := streamtest.Samples(b, "wing-over", streamtest.LibraryColumns)
	var base timebase.Base
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		s := samples[i%len(samples)]
		base.Next(&s, float64(i)*0.033)
	}
}
