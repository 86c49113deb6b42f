package print

import (
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
)

// Worked out by hand: a third of the range, rounded up to 1, 2 or 5 times a power of ten, is the step.
func TestScale(t *testing.T) {
	band := []message.Corridor{{Turn: 0, Low: -5, High: 5}, {Turn: 180, Low: -5, High: 5}}
	tests := []struct {
		name      string
		lane      message.Lane
		flown     []float64
		low, high float64
		ticks     []float64
	}{
		{"as on the panel", message.Lane{Channel: "bank", Low: -8, High: 95, Ticks: []float64{0, 45, 90},
			Corridor: band}, []float64{0, 80}, -8, 95, []float64{0, 45, 90}},
		{"beyond the panel", message.Lane{Channel: "bank", Low: -8, High: 95, Ticks: []float64{0, 45, 90},
			Corridor: band}, []float64{0, 120}, -5, 150, []float64{0, 50, 100, 150}},
		{"no corridor", message.Lane{Channel: "airspeed", Low: 40, High: 160, Ticks: []float64{60, 120}}, []float64{220,
			140}, 140, 250, []float64{150, 200, 250}},
		{"a little under", message.Lane{Channel: "height", Low: 0, High: 500}, []float64{-20, 1600}, -20, 2000,
			[]float64{0, 1000, 2000}},
		{"steady", message.Lane{Channel: "airspeed", Low: 40, High: 160}, []float64{120, 120}, 120, 121, []float64{120,
			121}},
		{"nothing flown", message.Lane{Channel: "airspeed", Low: 40, High: 160, Ticks: []float64{60}}, nil, 40, 160,
			[]float64{60}},
	}
	for _, test := range tests {
		l := &Leg{Leg: coach.Leg{Entry: coach.Point{Values: map[string]float64{}}}}
		for _, v := range test.flown {
			l.Trace = append(l.Trace, coach.Trace{Bank: v, Airspeed: &v, Height: &v})
		}
		low, high, ticks := scale(l, &test.lane)
		if low != test.low || high != test.high || !slices.Equal(ticks, test.ticks) {
			t.Errorf("%s: %v to %v, ruled at %v; want %v to %v, %v", test.name, low, high, ticks, test.low, test.high,
				test.ticks)
		}
	}
}
