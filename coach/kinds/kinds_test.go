package kinds_test

import (
	"math"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

func TestSetUp(t *testing.T) {
	known := flight{facts: check.Facts{Setup: map[string]float64{"bank": -3.5, "speed-spread": 0}}}
	for _, r := range []row{
		{name: "mean", check: &check.Spec{Kind: "set-up", Channel: "bank"}, flight: known, want: -3.5, at: none},
		{name: "a mean of 0", check: &check.Spec{Kind: "set-up", Channel: "speed-spread"}, flight: known, at: none},
		{name: "not in the stream", check: &check.Spec{Kind: "set-up", Channel: "ball"}, flight: known, reason: "no ball"},
		{name: "no set-up", check: &check.Spec{Kind: "set-up", Channel: "bank"}, reason: "no level flight came before"},
	} {
		r.run(t)
	}
}

func TestValue(t *testing.T) {
	exit := &check.Spec{Kind: "value", Channel: "airspeed", At: "exit"}
	bank := one(stream.Bank, line(0, 1.0/3))
	for _, r := range []row{
		{name: "on a sample", check: at("bank", 90), flight: flight{signals: bank, rate: 6}, want: 30, at: 90},
		{name: "between samples", check: at("bank", 91), flight: flight{signals: bank, rate: 1.7}, want: 91.0 / 3, at: 91},
		{name: "the first crossing", check: at("bank", 1), flight: flight{signals: bank}, want: 1.0 / 3, at: 1},
		{name: "at the last sample", check: at("bank", 180), flight: flight{signals: bank}, want: 60, at: 180},
		// A heading goes the short way round through north.
		{name: "through north", check: at("heading", 61), flight: flight{signals: one(stream.Heading, line(300, 1)), rate: 1}, want: 1, at: 61},
		{name: "through north to the left", check: at("heading", 31), flight: flight{signals: one(stream.Heading, line(30, -1)), rate: 1}, want: 359, at: 31},
		{name: "exit", check: exit, flight: flight{signals: one(stream.Airspeed, line(130, -0.1)), end: 178}, want: 112.2, at: 178},
		{name: "exit, to the left", check: exit, flight: flight{signals: one(stream.Airspeed, line(130, -0.1)), left: true}, want: 112, at: 180},
		{name: "turn at the exit", check: &check.Spec{Kind: "value", Channel: "turn", At: "exit"}, flight: flight{end: 171.5}, want: 171.5, at: 171.5},
		{name: "a flag is not interpolated", check: at("stall-warning", 90.5), flight: flight{rate: 6,
			signals: one(stream.StallWarning, func(turn float64) float64 { return math.Floor(turn / 91) })}, want: 0, at: 90.5},
		{name: "not reached", check: at("bank", 135), flight: flight{signals: bank, end: 120}, reason: "the turn did not reach 135°"},
		{name: "no channel", check: at("ball", 90), flight: flight{signals: bank}, reason: "no ball"},
		{name: "no channel at the exit", check: exit, flight: flight{signals: bank}, reason: "no airspeed"},
		{name: "no exit", check: exit, flight: flight{signals: one(stream.Airspeed, constant(130)), noExit: true}, reason: "no exit"},
		{name: "no exit is needed", check: at("bank", 90), flight: flight{signals: bank, noExit: true, end: 100}, want: 30, at: 90},
	} {
		r.run(t)
	}
}

func TestExtreme(t *testing.T) {
	hill := func(turn float64) float64 { return 20 - (turn-45)*(turn-45)/100 }
	spike := func(turn float64) float64 {
		if math.Abs(turn-60) < 0.01 {
			return 40
		}
		return 10
	}
	for _, r := range []row{
		{name: "highest", check: with(over("extreme", "pitch", 0, 90), highest), flight: flight{signals: one(stream.Pitch, hill)}, want: 20, within: 1e-4, at: 45},
		{name: "lowest", check: with(over("extreme", "airspeed", 45, 135), lowest), flight: flight{signals: one(stream.Airspeed, corners(0, 130, 90, 70, 180, 130))}, want: 70, at: 90},
		{name: "at the end of the span", check: with(over("extreme", "bank", 30, 60), highest), flight: flight{signals: one(stream.Bank, line(0, 0.5)), rate: 6}, want: 30, at: 60},
		{name: "at the start of the span", check: with(over("extreme", "bank", 30, 60), lowest), flight: flight{signals: one(stream.Bank, line(0, 0.5)), rate: 6}, want: 15, at: 30},
		{name: "below zero", check: with(over("extreme", "pitch", 90, 180), highest), flight: flight{signals: one(stream.Pitch, line(0, -0.1)), rate: 6}, want: -9, at: 90},
		{name: "the first of equals", check: with(over("extreme", "pitch", 10, 90), highest), flight: flight{signals: one(stream.Pitch, constant(7)), rate: 6}, want: 7, at: 10},
		// One sample in 0.02 s, through a first-order lag of 1 s: 10 + 30 (1 − e^−0.02).
		{name: "smoothed", check: with(over("extreme", "pitch", 0, 90), func(k *check.Spec) { highest(k); k.Smooth = 1 }),
			flight: flight{signals: one(stream.Pitch, spike)}, want: 10 + 30*(1-math.Exp(-0.02)), within: 1e-6, at: 60},
		{name: "not smoothed", check: with(over("extreme", "pitch", 0, 90), highest), flight: flight{signals: one(stream.Pitch, spike)}, want: 40, at: 60},
		{name: "no exit is needed", check: with(over("extreme", "pitch", 0, 90), highest), flight: flight{signals: one(stream.Pitch, hill), end: 50, noExit: true}, want: 20, within: 1e-4, at: 45},
		{name: "span not reached", check: with(over("extreme", "pitch", 120, 180), highest), flight: flight{signals: one(stream.Pitch, hill), end: 100}, reason: "did not reach 120°"},
		{name: "no channel", check: with(over("extreme", "pitch", 0, 90), highest), reason: "no pitch"},
	} {
		r.run(t)
	}
}

func TestExtremeAngle(t *testing.T) {
	within := func(w float64, extreme func(*check.Spec)) func(*check.Spec) {
		return func(k *check.Spec) { extreme(k); k.Within = w }
	}
	rough := func(base signal, size float64) signal { // bumps of 7° and 1.3° of turn
		return func(turn float64) float64 {
			return base(turn) + size*0.6*math.Sin(turn*2*math.Pi/7) + size*0.4*math.Cos(turn*2*math.Pi/1.3)
		}
	}
	flat := corners(0, 0, 40, 20, 70, 20, 110, 0)
	for _, r := range []row{
		{name: "hill", check: with(over("extreme-angle", "pitch", 0, 95), within(0.6, highest)),
			flight: flight{signals: one(stream.Pitch, corners(0, 0, 45, 25, 90, 0))}, want: 45, within: 0.5, at: 45},
		{name: "valley", check: with(over("extreme-angle", "airspeed", 0, 180), within(1, lowest)),
			flight: flight{signals: one(stream.Airspeed, corners(0, 130, 100, 70, 180, 120))}, want: 100, within: 0.5, at: 100},
		{name: "middle of a flat top", check: with(over("extreme-angle", "pitch", 0, 110), within(0.6, highest)),
			flight: flight{signals: one(stream.Pitch, flat)}, want: 55, within: 0.5, at: 55},
		{name: "flat top in rough air", check: with(over("extreme-angle", "pitch", 0, 110), within(0.6, highest)),
			flight: flight{signals: one(stream.Pitch, rough(flat, 0.25))}, want: 55, within: 1.5, at: 55, atNear: 1.5},
		{name: "at the end of the span", check: with(over("extreme-angle", "pitch", 0, 90), within(0, highest)),
			flight: flight{signals: one(stream.Pitch, line(0, 0.2))}, want: 90, within: 1, at: 90, atNear: 1},
		{name: "a second, lower hill does not count", check: with(over("extreme-angle", "pitch", 0, 180), within(1, highest)),
			flight: flight{signals: one(stream.Pitch, corners(0, 0, 40, 20, 80, 0, 120, 18, 180, 0))}, want: 40, within: 0.5, at: 40},
		{name: "in the third round", check: with(over("extreme-angle", "bank", 720, 1000), within(0.5, highest)),
			flight: flight{signals: one(stream.Bank, corners(0, 0, 760, 0, 900, 45, 1040, 0)), end: 1080}, want: 900, within: 0.5, at: 900},
		{name: "span not reached", check: with(over("extreme-angle", "pitch", 90, 180), within(1, highest)),
			flight: flight{signals: one(stream.Pitch, flat), end: 60}, reason: "did not reach 90°"},
		{name: "no channel", check: with(over("extreme-angle", "pitch", 0, 90), within(1, highest)), reason: "no pitch"},
	} {
		r.run(t)
	}
}

func TestCrossingAngle(t *testing.T) {
	falling := func(cross float64) func(*check.Spec) {
		return func(k *check.Spec) { k.Falling, k.Cross = true, cross }
	}
	rising := func(*check.Spec) {}
	down := one(stream.Pitch, line(30, -1.0/3))
	for _, r := range []row{
		{name: "line down", check: with(over("crossing-angle", "pitch", 45, 135), falling(0)), flight: flight{signals: down, rate: 6}, want: 90, at: 90},
		{name: "line down, between degrees", check: with(over("crossing-angle", "pitch", 45, 135), falling(0.1)), flight: flight{signals: down, rate: 6}, want: 89.7, at: 89.7},
		{name: "below zero", check: with(over("crossing-angle", "pitch", 45, 135), falling(-5)), flight: flight{signals: down, rate: 6}, want: 105, at: 105},
		{name: "line up", check: with(over("crossing-angle", "pitch", 0, 180), rising), flight: flight{signals: one(stream.Pitch, line(-30, 0.5)), rate: 6}, want: 60, at: 60},
		// A bin of a degree holds samples of a tenth of a degree apart: half a sample's spacing.
		{name: "many samples a degree", check: with(over("crossing-angle", "pitch", 45, 135), falling(0)), flight: flight{signals: down}, want: 90, within: 0.061, at: 90},
		{name: "one sample in three degrees", check: with(over("crossing-angle", "pitch", 45, 135), falling(0)), flight: flight{signals: down, rate: 2}, want: 90, at: 90},
		{name: "three crossings: between the first and the last", check: with(over("crossing-angle", "pitch", 0, 180), falling(0)),
			flight: flight{signals: one(stream.Pitch, corners(0, 20, 60, -20, 90, 20, 150, -20)), rate: 6}, want: (30 + 120) / 2, at: 75},
		{name: "outside the span", check: with(over("crossing-angle", "pitch", 100, 180), falling(0)), flight: flight{signals: down}, reason: "pitch did not pass 0"},
		{name: "the other way", check: with(over("crossing-angle", "pitch", 45, 135), rising), flight: flight{signals: down}, reason: "pitch did not pass 0"},
		{name: "span not reached", check: with(over("crossing-angle", "pitch", 45, 135), falling(0)), flight: flight{signals: down, end: 30}, reason: "did not reach 45°"},
		{name: "no channel", check: with(over("crossing-angle", "pitch", 45, 135), falling(0)), reason: "no pitch"},
	} {
		r.run(t)
	}
}

func TestRollOutAngle(t *testing.T) {
	// 6° of turn a second: bank over time is made of the same straight lines as over turn.
	for _, r := range []row{
		{name: "held, then out by a degree a degree", check: over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 120, 60, 180, 0))}, want: 120, within: 1, at: 120, atNear: 1},
		{name: "held, then out slowly", check: over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 95, 60, 180, 0))}, want: 95, within: 1, at: 95, atNear: 1},
		{name: "held a little uneven", check: over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 80, 58, 100, 61, 120, 60, 180, 0))}, want: 120, within: 1.5, at: 120, atNear: 1.5},
		// Rolled in from 51° and out to 48° of 60°, nothing held: level are the 9° before the peak
		// and as much after it.
		{name: "peak", check: over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, corners(0, 0, 90, 60, 180, 0)), left: true}, want: 94, within: 4, at: 94, atNear: 4},
		{name: "the leveling at the end does not count", check: over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 100, 60, 130, 30, 180, 0))}, want: 100, within: 1, at: 100, atNear: 1},
		{name: "never begun", check: over("roll-out-angle", "", 60, 180),
			flight: flight{signals: one(stream.Bank, constant(60)), noExit: true}, want: 180, within: 0.5, at: 180},
		{name: "not reached", check: over("roll-out-angle", "", 60, 180), flight: flight{signals: one(stream.Bank, constant(30)), end: 50}, reason: "did not reach 60°"},
		{name: "no bank", check: over("roll-out-angle", "", 60, 180), reason: "no bank"},
	} {
		r.run(t)
	}
}

func TestRollRatio(t *testing.T) {
	ratio := &check.Spec{Kind: "roll-ratio"}
	for _, r := range []row{
		{name: "even", check: ratio, flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 120, 60, 180, 0))}, want: 1, within: 0.01, at: none},
		{name: "out twice as fast", check: ratio, flight: flight{signals: one(stream.Bank, corners(0, 0, 60, 60, 150, 60, 180, 0))}, want: 0.5, within: 0.02, at: none},
		{name: "in twice as fast", check: ratio, flight: flight{signals: one(stream.Bank, corners(0, 0, 30, 60, 120, 60, 180, 0)), left: true}, want: 2, within: 0.06, at: none},
		{name: "out of a bank at the entry", check: ratio, flight: flight{signals: one(stream.Bank, corners(0, 8, 30, 8, 82, 60, 120, 60, 180, 0))}, want: 56.0 / 47.5, within: 0.01, at: none},
		{name: "past the vertical", check: ratio, flight: flight{signals: one(stream.Bank, corners(0, 0, 80, 120, 100, 120, 180, 0))}, want: 1, within: 0.03, at: none},
		{name: "hardly a bank", check: ratio, flight: flight{signals: one(stream.Bank, corners(0, 0, 90, 9, 180, 0))}, reason: "no roll-in"},
		{name: "bank away from the turn", check: ratio, flight: flight{signals: one(stream.Bank, constant(-40))}, reason: "no roll-in"},
		{name: "no exit", check: ratio, flight: flight{signals: one(stream.Bank, constant(40)), noExit: true}, reason: "no exit"},
		{name: "no bank", check: ratio, reason: "no bank"},
	} {
		r.run(t)
	}
}

// After a pull with the wings level, rolls of 6 s to 60° and back, even or in half the time out, are what they are
// without it, whichever way the hand is off in the pull; so are the pace, and the rhythm of quarters of 10, 5, 6 and 9
// s.
func TestPullBeforeTheRoll(t *testing.T) {
	quarters := corners(0, 0, 10, 45, 15, 90, 21, 135, 30, 180)
	for _, pull := range []float64{0, 3, 8} {
		for _, held := range []float64{0, 1.5, -2} { // ° of bank in the pull
			for _, c := range []struct {
				check *check.Spec
				bank  signal // by the time since the roll began
				want  float64
			}{
				{&check.Spec{Kind: "roll-ratio"}, corners(0, 0, 6, 60, 24, 60, 30, 0), 1},
				{&check.Spec{Kind: "roll-ratio"}, corners(0, 0, 6, 60, 27, 60, 30, 0), 0.5},
				{&check.Spec{Kind: "pace"}, corners(0, 0, 6, 60, 24, 60, 30, 0), 1.5},
				{over("rhythm", "", 0, 180), corners(0, 0, 6, 60, 24, 60, 30, 0), 2},
			} {
				facts := check.Facts{Duration: 20}
				facts.Entry.Sample.Put(stream.Time, begin)
				facts.Entry.Sample.Put(stream.Bank, held)
				j := kinds.NewJudge(c.check, &facts)
				var m check.Moment
				for i := 0; float64(i) <= (pull+30)*50; i++ {
					t := float64(i)/50 - pull
					m.Turn = quarters(math.Max(0, t))
					m.Sample.Put(stream.Time, begin+float64(i)/50)
					m.Sample.Put(stream.Bank, math.Max(c.bank(math.Max(0, t)), held*math.Min(1, math.Max(0, -t))))
					j.Step(&m)
				}
				if got := j.Measure(&m); !got.OK || math.Abs(got.Value-c.want) > 0.05*c.want {
					t.Errorf("%s after %g s at %g° of bank: %+v, want %g", c.check.Kind, pull, held, got, c.want)
				}
			}
		}
	}
}

func TestChange(t *testing.T) {
	height := &check.Spec{Kind: "change", Channel: "altitude"}
	for _, r := range []row{
		{name: "gain", check: height, flight: flight{signals: one(stream.Altitude, line(5000, 2))}, want: 360, at: 180},
		{name: "loss, only the ends count", check: height, flight: flight{signals: one(stream.Altitude, corners(0, 5000, 90, 6000, 180, 4900))}, want: -100, at: 180},
		{name: "none", check: height, flight: flight{signals: one(stream.Altitude, constant(5000)), end: 175}, want: 0, at: 175},
		{name: "no exit", check: height, flight: flight{signals: one(stream.Altitude, constant(5000)), noExit: true}, reason: "no exit"},
		{name: "no channel", check: height, reason: "no altitude"},
	} {
		r.run(t)
	}
}

func TestDeparture(t *testing.T) {
	throttle := func(at ...float64) flight { return flight{signals: one(stream.Throttle, corners(at...))} }
	power := &check.Spec{Kind: "departure", Channel: "power"}
	for _, r := range []row{
		{name: "none", check: power, flight: flight{signals: one(stream.Throttle, constant(0.6))}, want: 0, at: 0},
		{name: "taken off and put back", check: power, flight: throttle(0, 0.6, 100, 0.6, 110, 0.5, 120, 0.6), want: -0.1, within: 0.002, at: 110},
		{name: "more above than below", check: power, flight: throttle(0, 0.6, 50, 0.55, 100, 0.68, 180, 0.6), want: 0.08, within: 0.002, at: 100},
		{name: "only in its span", check: over("departure", "altitude", 0, 90), flight: flight{signals: one(stream.Altitude, line(5000, -1)), rate: 6}, want: -90, at: 90},
		{name: "from where its span begins", check: over("departure", "altitude", 20, 90), flight: flight{signals: one(stream.Altitude, line(5000, -1)), rate: 6}, want: -70, at: 90},
		{name: "past the turn", check: power, flight: flight{signals: one(stream.Throttle, corners(0, 0.6, 190, 0.6, 200, 0.9)), end: 200}, want: 0.3, within: 1e-6, at: 200},
		{name: "no channel", check: power, reason: "no power"},
	} {
		r.run(t)
	}
	// Not there at the entry, there later: from the first moment that has it.
	f := flight{signals: one(stream.Throttle, line(0.5, 0.001))}
	facts := f.known()
	facts.Entry.Sample.Drop(stream.Throttle)
	j := kinds.NewJudge(power, facts)
	for turn := 10.0; turn <= 110; turn += 10 {
		m := f.moment(turn)
		j.Step(&m)
	}
	if got := j.Measure(nil); !got.OK || math.Abs(got.Value-0.1) > 1e-9 || got.At != 110 {
		t.Errorf("no power at the entry: %+v", got)
	}
}

func TestMean(t *testing.T) {
	for _, r := range []row{
		{name: "constant", check: over("mean", "bank", 20, 85), flight: flight{signals: one(stream.Bank, constant(30))}, want: 30, at: none},
		{name: "line: half a sample late at most", check: over("mean", "bank", 20, 80), flight: flight{signals: one(stream.Bank, line(0, 1))}, want: 50, within: 0.07, at: none},
		{name: "only its span", check: over("mean", "bank", 90, 180), flight: flight{signals: one(stream.Bank, corners(0, 80, 89, 80, 89.5, 10, 180, 10))}, want: 10, at: none},
		{name: "not reached", check: over("mean", "bank", 90, 180), flight: flight{signals: one(stream.Bank, constant(30)), end: 80}, reason: "did not reach 90°"},
		{name: "no channel", check: over("mean", "bank", 20, 85), reason: "no bank"},
	} {
		r.run(t)
	}
}

// By time, not by sample: dense samples over the first half weigh no more than thin ones over
// the second.
func TestMeanIsOverTime(t *testing.T) {
	f := flight{signals: one(stream.Bank, func(turn float64) float64 { return 10 + 20*math.Floor(turn/90) })}
	for kind, want := range map[string]float64{"mean": 20, "rms": math.Sqrt((100 + 900) / 2), "share": 0.5} {
		j := kinds.NewJudge(with(over(kind, "bank", 0, 179.999), func(k *check.Spec) { k.Within = 20 }), f.known())
		for turn, step := 0.0, 0.01; turn < 180; turn += step {
			if turn >= 90 {
				step = 0.5
			}
			m := f.moment(turn)
			j.Step(&m)
		}
		if got := j.Measure(nil); !got.OK || math.Abs(got.Value-want) > want*0.01 {
			t.Errorf("%s: %+v, want %g", kind, got, want)
		}
	}
}

func TestRMS(t *testing.T) {
	for _, r := range []row{
		{name: "constant", check: over("rms", "ball", 0, 180), flight: flight{signals: one(stream.Ball, constant(0.3))}, want: 0.3, at: none},
		{name: "constant, the other way", check: over("rms", "ball", 0, 180), flight: flight{signals: one(stream.Ball, constant(-0.3))}, want: 0.3, at: none},
		{name: "none", check: over("rms", "ball", 0, 180), flight: flight{signals: one(stream.Ball, constant(0))}, want: 0, at: none},
		{name: "sine of whole periods", check: over("rms", "ball", 0, 180), flight: flight{signals: one(stream.Ball, func(turn float64) float64 { return math.Sin(turn * math.Pi / 30) })}, want: math.Sqrt(0.5), within: 1e-6, at: none},
		// A sine of period 5 s through a lag of 1 s: 1 over the root of 1 + (2π/5)².
		{name: "smoothed sine", check: with(over("rms", "ball", 60, 180), func(k *check.Spec) { k.Smooth = 1 }),
			flight: flight{signals: one(stream.Ball, func(turn float64) float64 { return math.Sin(turn * math.Pi / 15) })}, want: math.Sqrt(0.5 / (1 + 4*math.Pi*math.Pi/25)), within: 0.01, at: none},
		{name: "no channel", check: over("rms", "ball", 0, 180), reason: "no ball"},
	} {
		r.run(t)
	}
}

func TestShare(t *testing.T) {
	quarter := func(k *check.Spec) { k.Within = 0.25 }
	ball := func(at ...float64) flight { return flight{signals: one(stream.Ball, corners(at...))} }
	for _, r := range []row{
		{name: "all", check: with(over("share", "ball", 0, 180), quarter), flight: ball(0, 0.2, 180, 0.2), want: 1, at: 0},
		{name: "at the edge", check: with(over("share", "ball", 0, 180), quarter), flight: ball(0, -0.25, 180, -0.25), want: 1, at: 0},
		{name: "none", check: with(over("share", "ball", 0, 180), quarter), flight: ball(0, -0.6, 180, -0.6), want: 0, at: 0},
		{name: "half", check: with(over("share", "ball", 0, 180), quarter), flight: ball(0, 0, 90, 0, 90.001, 1, 180, 1), want: 0.5, within: 0.001, at: 90},
		{name: "a third, worst at 120°", check: with(over("share", "ball", 0, 180), quarter), flight: ball(0, 0.3, 60, 0.3, 120, -0.9, 150, 0, 180, 0), want: (12.5*2 + 25.0/3 + 30) / 180, within: 0.002, at: 120},
		{name: "no channel", check: with(over("share", "ball", 0, 180), quarter), reason: "no ball"},
	} {
		r.run(t)
	}
}

func TestReversal(t *testing.T) {
	pitch := func(at ...float64) flight { return flight{signals: one(stream.Pitch, corners(at...))} }
	for _, r := range []row{
		{name: "only rises", check: over("reversal", "pitch", 0, 180), flight: pitch(0, 0, 60, 5, 180, 30), want: 0, at: 0},
		{name: "level", check: over("reversal", "pitch", 0, 180), flight: pitch(0, 12, 180, 12), want: 0, at: 0},
		{name: "sinks by 3° and rises again", check: over("reversal", "pitch", 0, 180), flight: pitch(0, 0, 60, 20, 70, 20, 80, 17, 100, 17, 180, 25), want: 3, at: 80, atNear: 3},
		{name: "the largest, not the sum", check: over("reversal", "pitch", 0, 180), flight: pitch(0, 10, 20, 10, 30, 8, 50, 8, 60, 15, 80, 15, 90, 11, 180, 11), want: 4, at: 90, atNear: 3},
		{name: "outside the span", check: over("reversal", "pitch", 90, 180), flight: pitch(0, 20, 60, 5, 80, 5, 180, 5), want: 0, at: 90},
		{name: "not reached", check: over("reversal", "pitch", 90, 180), flight: flight{signals: one(stream.Pitch, constant(1)), end: 60}, reason: "did not reach 90°"},
		{name: "no channel", check: over("reversal", "pitch", 90, 180), reason: "no pitch"},
	} {
		r.run(t)
	}
}

func TestRise(t *testing.T) {
	pitch := func(at ...float64) flight { return flight{signals: one(stream.Pitch, corners(at...))} }
	for _, r := range []row{
		{name: "held", check: over("rise", "pitch", 95, 176), flight: pitch(0, 0, 90, 20, 180, 20), want: 0, at: 95},
		{name: "sinks", check: over("rise", "pitch", 95, 176), flight: pitch(0, 0, 90, 20, 180, 10), want: 0, at: 95},
		{name: "raised by 3°", check: over("rise", "pitch", 95, 176), flight: pitch(0, 0, 80, 15, 110, 15, 125, 18, 180, 18), want: 3, at: 125, atNear: 3},
		{name: "above the start, not above the lowest", check: over("rise", "pitch", 95, 176), flight: pitch(0, 15, 100, 15, 120, 10, 130, 10, 150, 17, 180, 17), want: 2, at: 150, atNear: 3},
		{name: "no channel", check: over("rise", "pitch", 90, 180), reason: "no pitch"},
	} {
		r.run(t)
	}
}

func TestPace(t *testing.T) {
	k := &check.Spec{Kind: "pace"}
	for _, r := range []row{ // 180° take 30 s
		{name: "as the reference path", check: k, flight: flight{facts: check.Facts{Duration: 30}}, want: 1, at: none},
		{name: "slow", check: k, flight: flight{facts: check.Facts{Duration: 20}}, want: 1.5, at: none},
		{name: "rushed", check: k, flight: flight{facts: check.Facts{Duration: 40}, end: 120}, want: 0.5, at: none},
		{name: "no reference path", check: k, flight: flight{facts: check.Facts{Duration: none}}, reason: "aircraft card"},
		{name: "none either", check: k, reason: "aircraft card"},
		{name: "no exit", check: k, flight: flight{facts: check.Facts{Duration: 30}, noExit: true}, reason: "no exit"},
	} {
		r.run(t)
	}
}

// The quantities that are worked out from channels.
func TestQuantities(t *testing.T) {
	climb := map[stream.Channel]signal{stream.Altitude: line(5000, 2)}
	margin := map[stream.Channel]signal{stream.Airspeed: constant(110), stream.NormalLoad: constant(4)}
	clean := check.Facts{Aircraft: aircraft.Aircraft{Stall: 50}}
	for _, r := range []row{
		{name: "climb", check: at("climb", 90), flight: flight{signals: climb}, want: 180, at: 90},
		{name: "climb without altitude", check: at("climb", 90), reason: "no climb"},
		{name: "turn", check: at("turn", 90.5), want: 90.5, at: 90.5},
		{name: "stall margin", check: at("stall-margin", 90), flight: flight{signals: margin, facts: clean}, want: 10, at: 90},
		{name: "stall margin, speed not known", check: at("stall-margin", 90), flight: flight{signals: margin}, reason: "the aircraft card gives no stall speed"},
		{name: "power: throttle first", check: at("power", 90), flight: flight{signals: map[stream.Channel]signal{stream.Throttle: constant(0.7), stream.Torque: constant(50), stream.RPM: line(1950, 1)}}, want: 0.7, at: 90},
		{name: "power: torque", check: at("power", 90), flight: flight{signals: map[stream.Channel]signal{stream.Torque: constant(50), stream.N1: constant(80)}}, want: 0.5, at: 90},
		{name: "power: N1", check: at("power", 90), flight: flight{signals: map[stream.Channel]signal{stream.N1: constant(80), stream.RPM: constant(1950)}}, want: 0.8, at: 90},
		{name: "power: rpm alone says nothing", check: at("power", 90), flight: flight{signals: one(stream.RPM, line(2000, -1))}, reason: "no power"},
		{name: "slip: the ball", check: at("slip", 90), flight: flight{signals: map[stream.Channel]signal{stream.Ball: constant(0.5), stream.LateralLoad: constant(0.1), stream.Sideslip: constant(8)}}, want: 0.5, at: 90},
		{name: "slip: lateral load, 10 widths a g the other way", check: at("slip", 90), flight: flight{signals: map[stream.Channel]signal{stream.LateralLoad: constant(0.1), stream.Sideslip: constant(8)}}, want: -1, at: 90},
		{name: "slip: sideslip, a quarter of a width a degree", check: at("slip", 90), flight: flight{signals: one(stream.Sideslip, constant(8))}, want: 2, at: 90},
		{name: "slip to the left", check: at("slip", 90), flight: flight{left: true, signals: one(stream.Sideslip, constant(8))}, want: 2, at: 90},
		{name: "slip: none of them", check: at("slip", 90), reason: "no ball, lateral load or sideslip"},
		{name: "set-up only", check: at("speed-spread", 90), reason: "no speed-spread"},
	} {
		r.run(t)
	}
}
