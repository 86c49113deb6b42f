package kinds_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/spectral"
	"halfturn/stream"
)

// Turbulence shakes the bank by degrees and its rate by far more than the roll-out's own; the
// change point stays. Gusts here are a random walk that is drawn back with a time constant of 1 s, 1.5° of bank
// r.m.s., at 30 samples a second.
func TestRollOutInTurbulence(t *testing.T) {
	const within = 5 // °
	rnd := rand.New(rand.NewPCG(11, 12))
	wide := 0
	for range 200 {
		held := 90 + rnd.Float64()*40
		clean := corners(0, 0, 60, 70, held, 75, 180, 0)
		gust := 0.0
		noisy := flight{rate: 30, signals: one(stream.Bank, func(turn float64) float64 {
			gust = gust*math.Exp(-1.0/30) + rnd.NormFloat64()*1.5*math.Sqrt(2.0/30)
			return clean(turn) + gust
		})}
		got := noisy.measure(over("roll-out-angle", "", 60, 180))
		if !got.OK || math.Abs(got.Value-held) > 2*within {
			t.Fatalf("roll-out from %.1f°: %+v", held, got)
		}
		if math.Abs(got.Value-held) > within {
			wide++
		}
	}
	if wide > 20 { // one in ten
		t.Errorf("%d of 200 are more than %d° off", wide, within)
	}
}

// A steady bank that comes off at one rate: the change point is exact wherever it lies,
// whatever the rate, and whatever the bank.
func TestRollOutExact(t *testing.T) {
	rnd := rand.New(rand.NewPCG(13, 14))
	for range 100 {
		at, bank, slope := math.Round(80+rnd.Float64()*60), 20+rnd.Float64()*60, 0.3+rnd.Float64()
		f := flight{rate: 24, signals: one(stream.Bank, func(turn float64) float64 {
			return math.Max(math.Min(math.Min(turn*2, bank), bank-slope*(turn-at)), 0)
		}), left: rnd.IntN(2) == 0}
		if got := f.measure(over("roll-out-angle", "", 60, 180)); !got.OK || math.Abs(got.Value-at) > 1 {
			t.Fatalf("%.0f° of bank, off by %.2f a degree from %g°: %+v", bank, slope, at, got)
		}
	}
}

func TestSmoothness(t *testing.T) {
	whole := over("smoothness", "roll-rate", 0, 180)
	wave := func(seconds float64) signal { // a rate that comes and goes
		return func(turn float64) float64 { return 8 * math.Sin(turn/pace*2*math.Pi/seconds) }
	}
	for _, r := range []row{
		// A constant faded in and out over 8 s is half a cosine wave: the window's own value.
		{name: "steady", check: whole, flight: flight{signals: one(stream.RollRate, constant(9))}, want: hann(8), within: 0.002, at: 24, atNear: 25},
		{name: "steady, the other way", check: whole, flight: flight{signals: one(stream.RollRate, constant(-9))}, want: hann(8), within: 0.002, at: 24, atNear: 25},
		{name: "a short leg is one window", check: whole, flight: flight{signals: one(stream.RollRate, constant(9)), end: 30}, want: hann(5), within: 0.002, at: 24, atNear: 1},
		{name: "nothing moves", check: whole, flight: flight{signals: one(stream.RollRate, constant(0.4))}, reason: "roll-rate hardly moved"},
		{name: "too short", check: whole, flight: flight{signals: one(stream.RollRate, constant(9)), end: 10}, reason: "too short"},
		{name: "span not reached", check: over("smoothness", "roll-rate", 90, 180), flight: flight{signals: one(stream.RollRate, wave(9)), end: 60}, reason: "did not reach 90°"},
		{name: "no channel", check: whole, reason: "no roll-rate"},
	} {
		r.run(t)
	}
}

// hann is the spectral arc length of a fade in and out over some seconds.
func hann(seconds float64) float64 {
	return spectral.ArcLength(sampled(func(t float64) float64 {
		return 0.5 - 0.5*math.Cos(2*math.Pi*t/seconds)
	}, 0.025, 20, int(seconds*20)), 20)
}

// The same roll is rougher in steps, with a shake, or in gusts, and the more the rougher; it is
// as smooth twice as fast.
func TestRougherIsLess(t *testing.T) {
	k := over("smoothness", "roll-rate", 0, 180)
	roll := func(turn float64) float64 { return 9 * math.Cos(turn*math.Pi/180) }
	measure := func(v signal) float64 {
		f := flight{rate: 30, signals: one(stream.RollRate, v)}
		got := f.measure(k)
		if !got.OK {
			t.Fatalf("%+v", got)
		}
		return got.Value
	}
	rnd := rand.New(rand.NewPCG(15, 16))
	smooth := measure(roll)
	for name, rough := range map[string]func(size float64) signal{
		"steps": func(size float64) signal {
			return func(turn float64) float64 { return roll(turn) * (1 - size*(0.5+0.5*math.Sin(turn/pace*2*math.Pi))) }
		},
		"shake": func(size float64) signal {
			return func(turn float64) float64 { return roll(turn) + size*4*math.Sin(turn/pace*9) }
		},
		"gusts": func(size float64) signal {
			return func(turn float64) float64 { return roll(turn) + size*2*rnd.NormFloat64() }
		},
	} {
		some, much := measure(rough(0.35)), measure(rough(1))
		if !(some < smooth-0.02 && much < some-0.1) {
			t.Errorf("%s: %.3f smooth, %.3f, much %.3f", name, smooth, some, much)
		}
	}
	if twice := measure(func(turn float64) float64 { return 2 * roll(turn) }); math.Abs(twice-smooth) > 0.01 {
		t.Errorf("twice as fast %.3f, %.3f", twice, smooth)
	}
}

// A stop and go that a pilot makes once a second misses the cards' band; one smooth roll in and out is well in it.
func TestStopAndGoIsRough(t *testing.T) {
	k := over("smoothness", "roll-rate", 0, 180)
	for _, c := range []struct {
		name      string
		v         signal
		low, high float64
	}{
		{"one roll in, one out", func(turn float64) float64 { return 9 * math.Cos(turn*math.Pi/180) }, -1.9, -1.4},
		{"on and off each second", func(turn float64) float64 { return 12 * math.Max(0, math.Sin(turn/pace*2*math.Pi)) }, -9, -2.75},
	} {
		f := flight{signals: one(stream.RollRate, c.v)}
		if got := f.measure(k); !got.OK || got.Value < c.low || got.Value > c.high {
			t.Errorf("%s: %+v, want %g to %g", c.name, got, c.low, c.high)
		}
	}
}

// A leg of many minutes is judged by its first 204 s, in the same memory.
func TestSmoothnessIsBounded(t *testing.T) {
	f := flight{signals: one(stream.RollRate, constant(9)), end: 1000, rate: 5}
	slow := flight{facts: f.facts, signals: f.signals}
	j := kinds.NewJudge(over("smoothness", "roll-rate", 0, 2000), slow.known())
	for i := range 5 * 1200 {
		m := f.moment(float64(i) / 6)
		m.Sample.Put(stream.Time, begin+float64(i)/5)
		j.Step(&m)
	}
	if got := j.Measure(nil); !got.OK || math.Abs(got.Value-hann(8)) > 0.01 {
		t.Errorf("%+v", got)
	}
}

func TestRhythm(t *testing.T) {
	whole := over("rhythm", "", 0, 180)
	for _, r := range []row{
		{name: "even", check: whole, want: 1, at: 22.5, atNear: 200},
		{name: "exit 3° early: 42 of 45° in the last quarter", check: whole, flight: flight{end: 177}, want: 45.0 / 42, at: 157.5},
		{name: "past the end", check: whole, flight: flight{end: 185}, want: 1, at: 22.5, atNear: 200},
		{name: "another span", check: over("rhythm", "", 60, 160), flight: flight{end: 170}, want: 1, at: 72.5, atNear: 200},
		{name: "not far enough", check: whole, flight: flight{end: 130}, reason: "did not reach its last quarter"},
		{name: "no exit", check: whole, flight: flight{noExit: true}, reason: "no exit"},
	} {
		r.run(t)
	}
}

// Quarters of 10, 5, 6 and 9 s: 2 to 1, and the second is the odd one; by hand.
func TestRhythmByHand(t *testing.T) {
	ends := corners(0, 0, 10, 45, 15, 90, 21, 135, 30, 180)
	for _, rate := range []float64{4, 30} {
		f := flight{}
		j := kinds.NewJudge(over("rhythm", "", 0, 180), f.known())
		var m check.Moment
		for i := 0; float64(i) <= 30*rate; i++ {
			m.Turn = ends(float64(i) / rate)
			m.Sample.Put(stream.Time, begin+float64(i)/rate)
			j.Step(&m)
		}
		got := j.Measure(&m)
		if !got.OK || math.Abs(got.Value-2) > 1e-9 || got.At != 67.5 || got.Note != "the quarters of the turn took 33, 17, 20 and 30 % of the time" {
			t.Errorf("%+v", got)
		}
	}
}

func TestBallCentered(t *testing.T) {
	quarter := with(over("ball-centered", "slip", 0, 180), func(k *check.Spec) { k.Within = 0.25 })
	ball := func(at ...float64) map[stream.Channel]signal { return one(stream.Ball, corners(at...)) }
	for _, r := range []row{
		{name: "in the middle", check: quarter, flight: flight{signals: ball(0, 0.1, 180, -0.1)}, want: 1, at: 0},
		{name: "half the time, by hand", check: quarter, flight: flight{signals: ball(0, 0, 90, 0, 90.001, 1, 180, 1)}, want: 0.5, within: 0.001, at: 90},
		{name: "worst at 120°", check: quarter, flight: flight{signals: ball(0, 0.3, 60, 0.3, 120, -0.9, 150, 0, 180, 0)}, want: (12.5*2 + 25.0/3 + 30) / 180, within: 0.002, at: 120},
		{name: "from the lateral load", check: quarter, flight: flight{signals: one(stream.LateralLoad, corners(0, 0, 90, 0, 90.001, 0.03, 180, 0.03))}, want: 0.5, within: 0.001, at: 90},
		{name: "from the sideslip", check: quarter, flight: flight{signals: one(stream.Sideslip, corners(0, 0.9, 90, 0.9, 90.001, 1.1, 180, 1.1))}, want: 0.5, within: 0.001, at: 90},
		{name: "none of them", check: quarter, reason: "no ball, lateral load or sideslip"},
	} {
		r.run(t)
	}
}

// Ball to the inside is a slip, to the outside a skid, and the pedal on the ball's side is
// pressed (Pilot's Handbook of Aeronautical Knowledge; Instrument Flying Handbook). Right
// rudder rises as the speed falls with a clockwise propeller (Airplane Flying Handbook, ch. 10, chandelle). left is a turn to
// the left; ball, airspeed and roll are as the stream has them at the worst moment, at 90°.
func TestWhichRudder(t *testing.T) {
	quarter := with(over("ball-centered", "slip", 0, 180), func(k *check.Spec) { k.Within = 0.25 })
	for _, c := range []struct {
		name           string
		left           bool
		ball           float64
		slow           bool
		roll           float64 // toward the turn
		rotation, jets string
		want           []string
		not            string
	}{
		{"right turn, ball right", false, 0.5, false, 0, "", "", []string{"at 90°: slip", "half its width to the right", "more right rudder"}, "propeller"},
		{"right turn, ball left", false, -1, false, 0, "", "", []string{"skid", "its width to the left", "more left rudder"}, "propeller"},
		{"left turn, ball left", true, -0.3, false, 0, "", "", []string{"slip", "a quarter of its width to the left", "more left rudder"}, "propeller"},
		{"left turn, ball right", true, 2.04, false, 0, "", "", []string{"skid", "2.0 widths to the right", "more right rudder"}, "propeller"},
		{"climbing right turn, slow", false, 0.8, true, 3, "clockwise", "propeller", []string{"more right rudder. The propeller asks for more right rudder as the speed falls, most in climbing turns to the right"}, "lot of"},
		{"the same, fast", false, 0.8, false, 3, "clockwise", "propeller", []string{"three quarters", "more right rudder"}, "propeller"},
		{"the same, a jet", false, 0.8, true, 3, "clockwise", "jet", []string{"more right rudder"}, "propeller"},
		{"rolling out of a left turn, slow", true, 0.8, true, -5, "clockwise", "propeller", []string{"skid", "more right rudder. Rolling out of this side takes a lot of right rudder"}, "climbing turns"},
		{"left turn, slow", true, 0.8, true, 0, "clockwise", "propeller", []string{"asks for right rudder as the speed falls, also in this turn"}, "lot of"},
		{"right turn, too much held", false, -0.8, true, 0, "clockwise", "", []string{"skid", "more left rudder. Ease the right rudder"}, "asks for"},
		{"the mirror", true, -0.8, true, 3, "counterclockwise", "propeller", []string{"slip", "more left rudder. The propeller asks for more left rudder as the speed falls, most in climbing turns to the left"}, "right"},
		{"no propeller", false, 0.8, true, 3, "none", "", []string{"more right rudder"}, "propeller"},
	} {
		side := 1.0
		if c.left {
			side = -1
		}
		f := flight{left: c.left, facts: check.Facts{Side: side, Aircraft: aircraft.Aircraft{Rotation: c.rotation, Engine: c.jets}},
			signals: map[stream.Channel]signal{
				stream.Ball:     corners(0, 0, 80, 0, 90, c.ball*side, 100, 0, 180, 0), // turned round by the flight
				stream.RollRate: constant(c.roll),
				stream.Airspeed: func(turn float64) float64 {
					if c.slow {
						return 120 - turn/3
					}
					return 120
				}}}
		got := f.measure(quarter)
		for _, w := range c.want {
			if !strings.Contains(got.Note, w) {
				t.Errorf("%s: %q does not say %q", c.name, got.Note, w)
			}
		}
		if c.not != "" && strings.Contains(got.Note, c.not) {
			t.Errorf("%s: %q says %q", c.name, got.Note, c.not)
		}
	}
	calm := flight{signals: one(stream.Ball, constant(0.2))}
	if got := calm.measure(quarter); got.Note != "" {
		t.Errorf("a ball in the middle: %q", got.Note)
	}
}

// sampled takes n samples of a signal, fs per second, from t on.
func sampled(v func(t float64) float64, t, fs float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v(t + float64(i)/fs)
	}
	return out
}
