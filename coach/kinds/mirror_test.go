package kinds_test

import (
	"testing"

	"halfturn/stream"
)

// A climb of 1,000 ft to 90° and back: symmetrical where it is as high at 135° as it was at 45°.
func TestHeightOfTheHalves(t *testing.T) {
	height := func(at ...float64) flight { return flight{signals: one(stream.Altitude, corners(at...))} }
	spec := over("mirror", "", 45, 135)
	for _, r := range []row{
		{name: "symmetrical", check: spec, flight: height(0, 5000, 90, 6000, 180, 5000), want: 0, at: none},
		{
			name:   "down early, and back up at the end",
			check:  spec,
			flight: height(0, 5000, 90, 6000, 135, 4500, 180, 4900),
			want:   -1,
			at:     none,
		},
		{
			name:   "still high",
			check:  spec,
			flight: height(0, 5000, 90, 6000, 135, 5900, 180, 5000),
			want:   0.4,
			at:     none,
		},
		{
			name:   "80 ft of 200 count as of 400",
			check:  spec,
			flight: height(0, 5000, 90, 5200, 135, 5020, 180, 5000),
			want:   -0.2,
			at:     none,
		},
		{
			name:   "given up before",
			check:  spec,
			flight: flight{signals: one(stream.Altitude, line(5000, 10)), end: 120},
			reason: "did not reach 135°",
		},
		{name: "no channel", check: spec, reason: "no altitude"},
	} {
		r.within = 0.01 // a sample may miss a corner by a little
		r.run(t)
	}
}
