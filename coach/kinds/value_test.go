package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/check"
	"halfturn/stream"
)

func TestValue(t *testing.T) {
	exit := &check.Spec{Kind: "value", Channel: "airspeed", At: "exit"}
	bank := one(stream.Bank, line(0, 1.0/3))
	for _, r := range []row{
		{name: "on a sample", check: at("bank", 90), flight: flight{signals: bank, rate: 6}, want: 30, at: 90},
		{
			name:   "between samples",
			check:  at("bank", 91),
			flight: flight{signals: bank, rate: 1.7},
			want:   91.0 / 3,
			at:     91,
		},
		{name: "the first crossing", check: at("bank", 1), flight: flight{signals: bank}, want: 1.0 / 3, at: 1},
		{name: "at the last sample", check: at("bank", 180), flight: flight{signals: bank}, want: 60, at: 180},
		// A heading goes the short way round through north.
		{
			name:   "through north",
			check:  at("heading", 61),
			flight: flight{signals: one(stream.Heading, line(300, 1)), rate: 1},
			want:   1,
			at:     61,
		},
		{
			name:   "through north to the left",
			check:  at("heading", 31),
			flight: flight{signals: one(stream.Heading, line(30, -1)), rate: 1},
			want:   359,
			at:     31,
		},
		{
			name:   "exit",
			check:  exit,
			flight: flight{signals: one(stream.Airspeed, line(130, -0.1)), end: 178},
			want:   112.2,
			at:     178,
		},
		{
			name:   "exit, to the left",
			check:  exit,
			flight: flight{signals: one(stream.Airspeed, line(130, -0.1)), left: true},
			want:   112,
			at:     180,
		},
		{
			name:   "turn at the exit",
			check:  &check.Spec{Kind: "value", Channel: "turn", At: "exit"},
			flight: flight{end: 171.5},
			want:   171.5,
			at:     171.5,
		},
		{name: "a flag is not interpolated", check: at("stall-warning", 90.5), flight: flight{rate: 6,
			signals: one(
				stream.StallWarning,
				func(turn float64) float64 { return math.Floor(turn / 91) },
			)}, want: 0, at: 90.5},
		{
			name:   "not reached",
			check:  at("bank", 135),
			flight: flight{signals: bank, end: 120},
			reason: "the turn did not reach 135°",
		},
		{name: "no channel", check: at("ball", 90), flight: flight{signals: bank}, reason: "no ball"},
		{name: "no channel at the exit", check: exit, flight: flight{signals: bank}, reason: "no airspeed"},
		{
			name:   "no exit",
			check:  exit,
			flight: flight{signals: one(stream.Airspeed, constant(130)), noExit: true},
			reason: "no exit",
		},
		{
			name:   "no exit is needed",
			check:  at("bank", 90),
			flight: flight{signals: bank, noExit: true, end: 100},
			want:   30,
			at:     90,
		},
	} {
		r.run(t)
	}
}
