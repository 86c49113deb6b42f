package timebase_test

import (
	"fmt"
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/timebase"
)

// What an aircraft can do, and what a stream can do to it, is no jump.
func TestTimebaseLegal(t *testing.T) {
	tests := []struct {
		name  string
		clock bool
		n     int
		bend  func(f *flyer, i int)
	}{
		{"roll at 400 °/s", true, 200, func(f *flyer, i int) { f.bank = stream.Wrap180(f.bank + 8) }},
		{"loop through the vertical at 60 °/s", true, 400, func(f *flyer, i int) {
			angle := math.Mod(float64(i)*1.2, 360)
			f.pitch = math.Asin(math.Sin(angle*math.Pi/180)) * 180 / math.Pi
			f.heading, f.bank = 90, 0
			if angle > 90 && angle < 270 {
				f.heading, f.bank = 270, 180
			}
		}},
		{"across longitude 180", true, 200, func(f *flyer, i int) {
			if i == 0 {
				f.lon = 179.999
			}
			f.altitude++
		}},
		{"four times the speed", true, 400, func(f *flyer, i int) { f.fly(0.06, 0); f.heading += 1.6 }},
		{"four times the speed, no clock", false, 400, func(f *flyer, i int) { f.fly(0.06, 0); f.heading += 1.6 }},
		{"position in steps of 1e-4°", true, 400, func(f *flyer, i int) { f.altitude++ }},
		{"stall that advances the clock by 1 s", true, 100, func(f *flyer, i int) {
			if i%10 == 9 {
				f.fly(0.98, 2.5)
			}
		}},
		// Measured at the start of a home simulator: from 0 to 3128 ft in one frame, then 826,
		// 588, 417 ... ft a frame.
		{"altimeter coming up", true, 40,
			func(f *flyer, i int) { f.altitude = 6000 * (1 - math.Pow(0.7, float64(i))) }},
		{"airspeed coming up", true, 40, func(f *flyer, i int) {
			if f.airspeed = 0; i > 5 {
				f.airspeed = 98
			}
		}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			f := newFlyer(test.clock)
			for i := range test.n {
				test.bend(f, i)
				f.heading = stream.Wrap360(f.heading)
				exact := f.lon
				f.lon = math.Round(f.lon*1e4) / 1e4
				f.fly(0, 0)
				f.want(t, timebase.Fresh)
				f.lon = exact
				f.fly(0.02, 0.02)
			}
		})
	}
}

// What no aircraft can do is a jump, with its reason, and one only.
func TestTimebaseImpossible(t *testing.T) {
	tests := []struct {
		reason string
		bend   func(f *flyer)
	}{
		{"position jumped", func(f *flyer) { f.lat += 0.01 }}, // 1.1 km
		{"position jumped", func(f *flyer) { f.lon -= 0.02 }},
		{"attitude jumped", func(f *flyer) { f.heading = 270 }},
		{"attitude jumped", func(f *flyer) { f.bank, f.pitch = 90, 45 }},
		{"altitude jumped", func(f *flyer) { f.altitude += 1000 }},
		{"airspeed jumped", func(f *flyer) { f.airspeed += 80 }},
	}
	for _, test := range tests {
		for _, clock := range []bool{true, false} {
			t.Run(fmt.Sprintf("%s/clock=%v", test.reason, clock), func(t *testing.T) {
				f := newFlyer(clock)
				f.cruise(t, 300)
				test.bend(f)
				f.fly(0.02, 0.02)
				f.want(t, timebase.Jump)
				if got := f.base.Reason().String(); got != test.reason {
					t.Errorf("reason %q; must be %q", got, test.reason)
				}
				f.cruise(t, 300)
			})
		}
	}
}
