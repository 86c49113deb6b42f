package check_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

// The stall speed grows with the root of the load factor. Published: 50 kt at 1 g is 100 kt at
// 4 g and 150 kt at 9 g; 60 kt at 1 g is 102 kt at 2.89 g (Pilot's Handbook of Aeronautical
// Knowledge, load factors in aircraft design).
func TestStallMargin(t *testing.T) {
	for _, c := range []struct{ stall, load, stalls float64 }{{50, 1, 50}, {50, 4, 100}, {50, 9, 150}, {60, 2.89, 102}} {
		var s stream.Sample
		s.Put(stream.Airspeed, c.stalls+7)
		s.Put(stream.NormalLoad, c.load)
		if got, ok := check.StallMarginAt(&s, c.stall); !ok || math.Abs(got-7) > 1e-9 {
			t.Errorf("%g kt at %g g: margin %g, %v; want 7", c.stall, c.load, got, ok)
		}
	}
	var s stream.Sample
	s.Put(stream.Airspeed, 60)
	if _, ok := check.StallMarginAt(&s, 50); ok {
		t.Error("a margin without a load factor")
	}
	for _, load := range []float64{0.25, 0, -1} { // no margin over half the stall speed is promised
		s.Put(stream.NormalLoad, load)
		if got, ok := check.StallMarginAt(&s, 50); !ok || got != 35 {
			t.Errorf("at %g g: %g, %v; want 35", load, got, ok)
		}
	}
	if _, ok := check.StallMarginAt(&s, 0); ok {
		t.Error("a margin over an unknown stall speed")
	}
}

func TestQuantities(t *testing.T) {
	for _, name := range check.QuantityNames() {
		q, ok := check.QuantityNamed(name)
		if !ok || q.Name != name || q.Title == "" || q.Unit == "" {
			t.Errorf("%s: %+v, %v", name, q, ok)
		}
	}
	if q, ok := check.QuantityNamed("roll"); ok {
		t.Errorf("roll: %+v", q)
	}
}
