package timebase_test

import (
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/timebase"
)

func TestTimebaseReceipt(t *testing.T) {
	t.Run("starts at 0 and is marked derived", func(t *testing.T) {
		f := newFlyer(false)
		s := f.sample()
		if f.base.Next(&s, f.received); s.Value(stream.Time) != 0 || !s.Derived.Has(stream.Time) {
			t.Errorf("time %v, derived %v", s.Value(stream.Time), s.Derived.Names())
		}
		f.fly(0.25, 0.25)
		if at := f.want(t, timebase.Fresh); at != 0.25 {
			t.Errorf("time %v", at)
		}
	})
	t.Run("pause without a flag", func(t *testing.T) {
		f := newFlyer(false)
		before := f.cruise(t, 10)
		for i := range 500 { // 10 s
			f.received += 0.02
			f.want(t, map[bool]timebase.Status{true: timebase.Duplicate, false: timebase.Still}[i < 25])
		}
		after := f.cruise(t, 1)
		if math.Abs(after-before-0.02) > 1e-6 {
			t.Errorf("stream time %v after a pause at %v", after, before)
		}
	})
	t.Run("pause by flag", func(t *testing.T) {
		f := newFlyer(false)
		before := f.cruise(t, 10)
		f.paused = 1
		for range 500 {
			f.received += 0.02
			f.want(t, timebase.Still)
		}
		f.paused = 0
		if after := f.cruise(t, 1); math.Abs(after-before-0.02) > 1e-6 {
			t.Errorf("stream time %v after a pause at %v", after, before)
		}
	})
	t.Run("simulator slower than its stream", func(t *testing.T) {
		f := newFlyer(false)
		f.cruise(t, 10)
		for range 50 { // 10 pictures a second, sent 50 times
			f.fly(0.1, 0.02)
			f.want(t, timebase.Fresh)
			for range 4 {
				f.received += 0.02
				f.want(t, timebase.Duplicate)
			}
		}
		f.fly(0.1, 0.02)
		if at := f.want(t, timebase.Fresh); math.Abs(at-f.received+1.7e9+0.02) > 1e-6 {
			t.Errorf("stream time %v, received after %v", at, f.received-1.7e9)
		}
	})
	t.Run("a burst", func(t *testing.T) {
		f := newFlyer(false)
		last := f.cruise(t, 10)
		for range 20 { // all in the same microsecond
			f.fly(0.02, 0)
			at := f.want(t, timebase.Fresh)
			if at <= last {
				t.Fatalf("time %v after %v", at, last)
			}
			last = at
		}
	})
	t.Run("receive clock set back", func(t *testing.T) {
		f := newFlyer(false)
		f.cruise(t, 10)
		f.fly(0.02, -0.001)
		f.want(t, timebase.Late)
		f.fly(0.02, -3600)
		f.want(t, timebase.Jump)
		f.cruise(t, 10)
	})
	// Bridges send position once a second and rounded attitude five times: level flight
	// stands still in between, and is no pause.
	t.Run("position once a second", func(t *testing.T) {
		f := newFlyer(false)
		lon := f.lon
		var last float64
		for i := range 100 {
			f.fly(0.2, 0.2)
			if i%5 == 0 {
				lon = f.lon
			}
			exact := f.lon
			f.lon = lon
			status, at := f.next()
			f.lon = exact
			if status == timebase.Jump {
				t.Fatalf("jump: %s", f.base.Reason())
			}
			if status == timebase.Fresh {
				last = at
			}
		}
		// The first second, before the pace of the positions is known, may pass as a pause.
		if lost := 19.2 - last; lost > 1 {
			t.Errorf("%.1f s of 19 taken for pauses", lost)
		}
	})
}
