package kinds_test

import (
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/stream"
)

// The quantities that are worked out from channels.
func TestQuantities(t *testing.T) {
	climb := map[stream.Channel]signal{stream.Altitude: line(5000, 2)}
	margin := map[stream.Channel]signal{stream.Airspeed: constant(110), stream.NormalLoad: constant(4)}
	clean := check.Facts{Aircraft: aircraft.Aircraft{Stall: 50}}
	for _, r := range []row{
		{name: "climb", check: at("climb", 90), flight: flight{signals: climb}, want: 180, at: 90},
		{name: "climb without altitude", check: at("climb", 90), reason: "no climb"},
		{name: "turn", check: at("turn", 90.5), want: 90.5, at: 90.5},
		{
			name:   "stall margin",
			check:  at("stall-margin", 90),
			flight: flight{signals: margin, facts: clean},
			want:   10,
			at:     90,
		},
		{
			name:   "stall margin, speed not known",
			check:  at("stall-margin", 90),
			flight: flight{signals: margin},
			reason: "the aircraft card gives no stall speed",
		},
		{
			name:  "power: throttle first",
			check: at("power", 90),
			flight: flight{
				signals: map[stream.Channel]signal{
					stream.Throttle: constant(0.7),
					stream.Torque:   constant(50),
					stream.RPM:      line(1950, 1),
				},
			},
			want: 0.7,
			at:   90,
		},
		{
			name:   "power: torque",
			check:  at("power", 90),
			flight: flight{signals: map[stream.Channel]signal{stream.Torque: constant(50), stream.N1: constant(80)}},
			want:   0.5,
			at:     90,
		},
		{
			name:   "power: N1",
			check:  at("power", 90),
			flight: flight{signals: map[stream.Channel]signal{stream.N1: constant(80), stream.RPM: constant(1950)}},
			want:   0.8,
			at:     90,
		},
		{
			name:   "power: rpm alone says nothing",
			check:  at("power", 90),
			flight: flight{signals: one(stream.RPM, line(2000, -1))},
			reason: "no power",
		},
		{
			name:  "slip: the ball",
			check: at("slip", 90),
			flight: flight{
				signals: map[stream.Channel]signal{
					stream.Ball:        constant(0.5),
					stream.LateralLoad: constant(0.1),
					stream.Sideslip:    constant(8),
				},
			},
			want: 0.5,
			at:   90,
		},
		{
			name:  "slip: lateral load, 10 widths a g the other way",
			check: at("slip", 90),
			flight: flight{
				signals: map[stream.Channel]signal{stream.LateralLoad: constant(0.1), stream.Sideslip: constant(8)},
			},
			want: -1,
			at:   90,
		},
		{
			name:   "slip: sideslip, a quarter of a width per degree",
			check:  at("slip", 90),
			flight: flight{signals: one(stream.Sideslip, constant(8))},
			want:   2,
			at:     90,
		},
		{
			name:   "slip to the left",
			check:  at("slip", 90),
			flight: flight{left: true, signals: one(stream.Sideslip, constant(8))},
			want:   2,
			at:     90,
		},
		{name: "slip: none of them", check: at("slip", 90), reason: "no ball, lateral load or sideslip"},
		{name: "set-up only", check: at("speed-spread", 90), reason: "no speed-spread"},
	} {
		r.run(t)
	}
}
