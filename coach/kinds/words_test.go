package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// What a check measures, in words and units. Every kind is here.
func TestWhere(t *testing.T) {
	tested := map[string]bool{}
	for _, c := range []struct {
		check       *check.Spec
		where, unit string
	}{
		{&check.Spec{Kind: "set-up", Channel: "airspeed"}, "airspeed over the set-up, mean", "kt"},
		{at("bank", 90), "bank at 90° of turn", "°"},
		{&check.Spec{Kind: "value", Channel: "turn", At: "exit"}, "turn at the exit", "°"},
		{with(over("extreme", "bank", 0, 90), highest), "highest bank from 0° to 90° of turn", "°"},
		{
			check: with(over("extreme-angle", "bank", 0, 90), highest),
			where: "where the highest bank is from 0° to 90° of turn",
			unit:  "°",
		},
		{
			check: with(
				over("crossing-angle", "climb", 45, 135),
				func(k *check.Spec) { k.Falling, k.Cross = true, 20 },
			),
			where: "where height since entry goes down through 20 ft from 45° to 135° of turn",
			unit:  "°",
		},
		{
			check: over("roll-out-angle", "", 60, 180),
			where: "turn angle where the roll-out starts: change point of the bank rate from 60° to 180° of turn",
			unit:  "°",
		},
		{&check.Spec{Kind: "roll-ratio"}, "rate of the roll-in over rate of the roll-out", "ratio"},
		{&check.Spec{Kind: "change", Channel: "airspeed"}, "change of airspeed from entry to exit", "kt"},
		{&check.Spec{Kind: "departure", Channel: "power"}, "largest departure of power from the entry", "ratio"},
		{
			check: over("departure", "bank", 30, 90),
			where: "largest departure of bank from the start of the span from 30° to 90° of turn",
			unit:  "°",
		},
		{over("mean", "bank", 20, 85), "mean bank from 20° to 85° of turn", "°"},
		{over("rms", "ball", 0, 180), "root mean square of ball from 0° to 180° of turn", "balls"},
		{
			check: with(over("share", "ball", 0, 180), func(k *check.Spec) { k.Within, k.Smooth = 0.5, 2 }),
			where: "share of time with ball within 0.5 balls from 0° to 180° of turn, smoothed over 2 s",
			unit:  "ratio",
		},
		{
			check: over("reversal", "bank", 0, 90),
			where: "largest reversal of what should only rise, of bank from 0° to 90° of turn",
			unit:  "°",
		},
		{
			check: over("rise", "bank", 0, 90),
			where: "largest rise above the value at the start of a span, of bank from 0° to 90° of turn",
			unit:  "°",
		},
		{
			check: with(over("reversal", "airspeed", 15, 90), func(k *check.Spec) { k.Falling = true }),
			where: "largest reversal of what should only fall, of airspeed from 15° to 90° of turn",
			unit:  "kt",
		},
		{
			check: over("held", "bank", 30, 330),
			where: "bank farthest from the aim: steepest in the leg, shallowest from 30° to 330° of turn",
			unit:  "°",
		},
		{
			check: over("round", "", 45, 1060),
			where: "largest departure of the distance from the point that is flown round, over its mean " +
				"from 45° to 1060° of turn",
			unit: "ratio",
		},
		{
			check: over("sight", "", 30, 225),
			where: "mean angle by which the pylon was ahead of the wing line or behind it from 30° to 225° of turn",
			unit:  "°",
		},
		{
			check: over("abeam", "", 30, 225),
			where: "time until the pylon would be abeam, in the middle of the roll-in from 30° to 225° of turn",
			unit:  "s",
		},
		{
			check: over("apart", "", 30, 225),
			where: "distance from the pylon where the turn began, in the middle of the roll-in " +
				"from 30° to 225° of turn",
			unit: "ft",
		},
		{
			check: over("range", "height", 30, 225),
			where: "highest less lowest height above ground from 30° to 225° of turn",
			unit:  "ft",
		},
		{&check.Spec{Kind: "steady", Channel: "bank"}, "mean bank between roll-in and roll-out, of bank", "°"},
		{
			check: over("even-rate", "bank", 90, 185),
			where: "largest departure from a constant rate between the start of a span and the exit, of bank " +
				"from 90° to 185° of turn",
			unit: "°",
		},
		{
			check: with(over("pause", "airspeed", 10, 170), func(k *check.Spec) { k.Within = 2 }),
			where: "longest time with airspeed within 2 kt of one value, as a share of the time " +
				"from 10° to 170° of turn",
			unit: "ratio",
		},
		{
			check: over("up-down", "pitch", 0, 180),
			where: "depth below the value of the entry over height above it, of nose from 0° to 180° of turn",
			unit:  "ratio",
		},
		{
			check: over("mirror", "", 45, 135),
			where: "height at the end of a span less that at its start, over the greatest height gained " +
				"from 45° to 135° of turn",
			unit: "ratio",
		},
		{&check.Spec{Kind: "gain"}, "height gained from entry to exit over what the reference path gains", "ratio"},
		{
			check: with(&check.Spec{Kind: "after-exit", Channel: "altitude"}, lowest),
			where: "lowest altitude in the recovery after the exit, less that at the exit",
			unit:  "ft",
		},
		{
			check: &check.Spec{Kind: "kept", Channel: "bank", Within: 5},
			where: "time after the exit for which bank stays within 5° of its value there",
			unit:  "s",
		},
		{
			check: &check.Spec{Kind: "drift", Channel: "altitude"},
			where: "largest departure of altitude at the end of any leg from the first entry",
			unit:  "ft",
		},
		{&check.Spec{Kind: "pace"}, "time of the leg over the time of the reference path", "ratio"},
		{
			check: over("smoothness", "roll-rate", 0, 180),
			where: "smoothness of roll rate from 0° to 180° of turn (−1.4 is one smooth movement, less is rougher)",
			unit:  "",
		},
		{
			check: over("rhythm", "", 0, 180),
			where: "time of the slowest quarter of a span over that of the quickest from 0° to 180° of turn",
			unit:  "ratio",
		},
		{
			check: with(over("ball-centered", "slip", 0, 180), func(k *check.Spec) { k.Within = 0.25 }),
			where: "share of time with the ball within 0.25 balls of the middle from 0° to 180° of turn",
			unit:  "ratio",
		},
		{&check.Spec{Kind: "symmetry", Of: "bank-at-90"}, "difference of bank-at-90 from leg to leg", ""},
		{&check.Spec{Kind: "directions"}, "legs flown the same way as the one before", "legs"},
		{&check.Spec{Kind: "return"}, "heading at the end against the first entry heading", "°"},
		{&check.Spec{Kind: "legs"}, "finished legs", "legs"},
	} {
		tested[c.check.Kind] = true
		if got := kinds.Where(c.check, nil); got != c.where {
			t.Errorf("%s: %q, want %q", c.check.Kind, got, c.where)
		}
		if got := kinds.Unit(c.check); got != c.unit {
			t.Errorf("%s: unit %q, want %q", c.check.Kind, got, c.unit)
		}
	}
	for _, name := range kinds.Names() {
		if !tested[name] {
			t.Errorf("kind %s is not tested", name)
		}
	}
	none := &check.Spec{Kind: "no such kind"}
	if k := kinds.Of(none); kinds.Where(none, nil) != "" || kinds.Unit(none) != "" || k.OfSeries() || k.Leg != nil {
		t.Errorf("an unknown kind answers: %+v", k)
	}
}
