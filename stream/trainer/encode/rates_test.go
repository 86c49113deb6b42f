package encode

import (
	"math"
	"testing"

	"halfturn/stream/wire/fdm"
	"halfturn/stream/wire/units"
)

// Euler rates to body rates and back, and a steady level turn by hand: bank 60, turning 10°/s:
// q = 10 sin 60, r = 10 cos 60.
func TestBodyRates(t *testing.T) {
	p, q, r := fdm.BodyRates(60/units.DegreesPerRadian, 0, 0, 0, 10)
	if math.Abs(p) > 1e-12 || math.Abs(q-8.660254037844386) > 1e-12 || math.Abs(r-5) > 1e-12 {
		t.Error(p, q, r)
	}
	for _, pitch := range []float64{-80, -10, 0, 35, 85} {
		for _, bank := range []float64{-170, -45, 0, 30, 120} {
			b, th := bank/units.DegreesPerRadian, pitch/units.DegreesPerRadian
			f, d, h := eulerRates(b, th, 1, 2, 3)
			if p, q, r := fdm.BodyRates(b, th, f, d, h); math.Abs(p-1)+math.Abs(q-2)+math.Abs(r-3) > 1e-12 {
				t.Errorf("pitch %v, bank %v: %v %v %v", pitch, bank, p, q, r)
			}
		}
	}
}
