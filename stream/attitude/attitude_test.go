package attitude_test

import (
	"math"
	"testing"

	"halfturn/stream/attitude"
)

// Rotations between two attitudes, worked out by hand: one angle changed in level flight turns about one body axis;
// nose up by 90° and heading around by 90° change places with a roll.
func TestTo(t *testing.T) {
	for name, tt := range map[string]struct{ from, to, want [3]float64 }{
		"none":              {[3]float64{10, 20, 30}, [3]float64{10, 20, 30}, [3]float64{}},
		"roll":              {[3]float64{70, 0, 0}, [3]float64{70, 0, 25}, [3]float64{25, 0, 0}},
		"pitch":             {[3]float64{70, -5, 0}, [3]float64{70, 10, 0}, [3]float64{0, 15, 0}},
		"yaw":               {[3]float64{350, 0, 0}, [3]float64{10, 0, 0}, [3]float64{0, 0, 20}},
		"banked 90, pull":   {[3]float64{0, 0, 90}, [3]float64{30, 0, 90}, [3]float64{0, 30, 0}},
		"over the top":      {[3]float64{0, 85, 0}, [3]float64{180, 85, 180}, [3]float64{0, 10, 0}},
		"the short way":     {[3]float64{0, 0, 170}, [3]float64{0, 0, -170}, [3]float64{20, 0, 0}},
		"heading is a roll": {[3]float64{0, 90, 0}, [3]float64{40, 90, 0}, [3]float64{-40, 0, 0}},
	} {
		t.Run(name, func(t *testing.T) {
			x, y, z := attitude.Of(tt.from[0], tt.from[1], tt.from[2]).To(attitude.Of(tt.to[0], tt.to[1], tt.to[2]))
			for i, got := range [3]float64{x, y, z} {
				if math.Abs(got-tt.want[i]) > 1e-9 {
					t.Errorf("got %.6f %.6f %.6f; must be %v", x, y, z, tt.want)
					break
				}
			}
		})
	}
}
