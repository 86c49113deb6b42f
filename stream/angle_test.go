package stream_test

import (
	"math"
	"testing"

	"halfturn/stream"
)

func TestWrap(t *testing.T) {
	tests := []struct{ in, in360, in180 float64 }{
		{0, 0, 0},
		{359.5, 359.5, -0.5},
		{360, 0, 0},
		{-0.25, 359.75, -0.25},
		{180, 180, -180},
		{-180, 180, -180},
		{725, 5, 5},
		{-541, 179, 179},
		{-1e-15, 0, 0},
	}
	for _, test := range tests {
		if got := stream.Wrap360(test.in); math.Abs(got-test.in360) > 1e-9 || got < 0 || got >= 360 {
			t.Errorf("Wrap360(%v) = %v; must be %v", test.in, got, test.in360)
		}
		if got := stream.Wrap180(test.in); math.Abs(got-test.in180) > 1e-9 || got < -180 || got >= 180 {
			t.Errorf("Wrap180(%v) = %v; must be %v", test.in, got, test.in180)
		}
	}
}
