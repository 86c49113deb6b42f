package kinds_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// NewJudge makes a judge for each kind that judges a leg, none for those of a series, and each is
// under test here.
func TestEveryKind(t *testing.T) {
	all := everyKind()
	tested := map[string]bool{}
	for _, j := range all {
		tested[j.check.Kind] = true
	}
	for _, k := range kinds.All() {
		if tested[k.Name] == k.OfSeries() {
			t.Errorf("kind %s: has a check in everyKind %v, judges a series %v", k.Name, tested[k.Name], k.OfSeries())
		}
		if k.OfSeries() && kinds.NewJudge(&check.Spec{Kind: k.Name, Of: "x"}, &check.Facts{}) != nil {
			t.Errorf("kind %s has a judge of a leg", k.Name)
		}
	}
	for name, j := range all {
		f := wingOver()
		if got := f.measure(j.check); !got.OK || math.IsNaN(got.Value) || !got.Reason.IsZero() {
			t.Errorf("%s: %+v", name, got)
		}
	}
	if kinds.NewJudge(&check.Spec{Kind: "no such kind"}, &check.Facts{}) != nil {
		t.Error("a judge of no kind")
	}
}

// A leg to the left is judged as its mirror image to the right.
func TestMirror(t *testing.T) {
	for name, j := range everyKind() {
		if j.channel == stream.Latitude {
			continue // a mirror image goes about another point
		}
		right, left := wingOver(), wingOver()
		left.left = true
		a, b := right.measure(j.check), left.measure(j.check)
		if a.OK != b.OK || a.Value != b.Value || a.At != b.At && !math.IsNaN(a.At) {
			t.Errorf("%s: right %+v, left %+v", name, a, b)
		}
	}
}

// The channels that have a side are turned round, the others are not; what a sample lacks
// stays lacking.
func TestMomentSet(t *testing.T) {
	var s stream.Sample
	for c := range stream.NumChannels {
		s.Put(c, 0.5)
	}
	s.Drop(stream.Ball)
	var right, left check.Moment
	right.Set(&s, 12, 1)
	left.Set(&s, 12, -1)
	if right.Sample != s || right.Turn != 12 || left.Turn != 12 {
		t.Errorf("to the right %+v", right)
	}
	sided := []string{"bank", "sideslip", "lateral-load", "roll-rate", "yaw-rate", "aileron", "rudder"}
	for c := range stream.NumChannels {
		v, ok := left.Sample.Get(c)
		want := 0.5
		switch {
		case slices.Contains(sided, c.String()):
			want = -0.5
		case c.Info().Flag:
			want = 1
		}
		if ok != (c != stream.Ball) || ok && v != want {
			t.Errorf("%s to the left: %g, %v", c, v, ok)
		}
	}
	var back check.Moment
	back.Set(&left.Sample, 12, -1)
	if back.Sample != s {
		t.Error("turned round twice it is not what it was")
	}
}

// What was flown counts, not how often it was sampled.
func TestRateDoesNotMatter(t *testing.T) {
	for name, j := range everyKind() {
		slow, fast := wingOver(), wingOver()
		slow.rate, fast.rate = 20, 60
		a, b := slow.measure(j.check), fast.measure(j.check)
		if a.OK != b.OK || math.Abs(a.Value-b.Value) > j.rate {
			t.Errorf("%s: %g at 20 a second, %g at 60; may differ by %g", name, a.Value, b.Value, j.rate)
		}
	}
}

// A value at a turn angle is exact where the signals are straight, however uneven the samples.
func TestValueExactAnySpacing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		v, slope, turn := rnd.Float64()*100-50, rnd.Float64()-0.5, 5+rnd.Float64()*170
		f := flight{signals: one(stream.Pitch, line(v/10, slope/10))}
		j := kinds.NewJudge(at("pitch", turn), f.known())
		for x := 0.0; x < 185; x += 0.01 + rnd.Float64()*4 {
			m := f.moment(x)
			j.Step(&m)
		}
		if got := j.Measure(nil); !got.OK || math.Abs(got.Value-(v+slope*turn)/10) > 1e-9 || got.At != turn {
			t.Fatalf("at %g°: %+v, want %g", turn, got, (v+slope*turn)/10)
		}
	}
}

// The angle of a crossing is exact for any straight line, one sample per degree.
func TestCrossingExact(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 200 {
		where, slope, cross := 25+rnd.Float64()*130, 0.02+rnd.Float64()*0.3, rnd.Float64()*20-10
		falling := rnd.IntN(2) == 0
		if falling {
			slope = -slope
		}
		f := flight{signals: one(stream.Pitch, line(cross-slope*where, slope)), rate: pace}
		k := with(over("crossing-angle", "pitch", 20, 160), func(k *check.Spec) { k.Falling, k.Cross = falling, cross })
		if got := f.measure(k); !got.OK || math.Abs(got.Value-where) > 1e-6 {
			t.Fatalf("line through %g at %g°: %+v", cross, where, got)
		}
		k.Falling = !falling
		if got := f.measure(k); got.OK {
			t.Fatalf("crossed the other way: %+v", got)
		}
	}
}

// Upside down, the highest is the lowest; nothing that only rises reverses; a reversal is the
// fall of what is turned upside down.
func TestUpsideDown(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for range 50 {
		at := []float64{0, 0}
		for turn := 15.0; turn <= 180; turn += 15 {
			at = append(at, turn, rnd.Float64()*60-30)
		}
		up := flight{signals: one(stream.Pitch, corners(at...)), rate: 20}
		down := flight{
			signals: one(stream.Pitch, func(turn float64) float64 { return -corners(at...)(turn) }),
			rate:    20,
		}
		high := up.measure(with(over("extreme", "pitch", 20, 160), highest))
		low := down.measure(with(over("extreme", "pitch", 20, 160), lowest))
		if high.Value != -low.Value || high.At != low.At {
			t.Fatalf("highest %+v, upside down lowest %+v", high, low)
		}
		high = up.measure(with(
			over("extreme-angle", "pitch", 20, 160),
			func(k *check.Spec) { highest(k); k.Within = 1 },
		))
		low = down.measure(with(
			over("extreme-angle", "pitch", 20, 160),
			func(k *check.Spec) { lowest(k); k.Within = 1 },
		))
		if high.Value != low.Value {
			t.Fatalf("highest at %+v, upside down lowest at %+v", high, low)
		}
		climbing := flight{signals: one(stream.Pitch, func(turn float64) float64 {
			sum := 0.0
			for i := 3; i < len(at) && at[i-1] <= turn; i += 2 {
				sum += math.Abs(at[i])
			}
			return sum / 6
		}), rate: 20}
		if got := climbing.measure(over("reversal", "pitch", 0, 180)); !got.OK || math.Abs(got.Value) > 1e-9 {
			t.Fatalf("what only rises reverses: %+v", got)
		}
	}
}

// Bumps on a flat top move the angle of the extreme by little, also when a degree has but one
// sample: the tolerance is for that, and the evening over the degrees beside.
func TestExtremeAngleInRoughAir(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	k := with(over("extreme-angle", "bank", 0, 180), func(k *check.Spec) { highest(k); k.Within = 1.5 })
	for _, rate := range []float64{50, pace} {
		for range 100 {
			f := flight{rate: rate, signals: one(stream.Bank, func(turn float64) float64 {
				return corners(0, 0, 70, 60, 110, 60, 180, 0)(turn) + rnd.Float64()*1.8 - 0.9
			})}
			if got := f.measure(k); !got.OK || math.Abs(got.Value-90) > 3 {
				t.Fatalf("flat from 70° to 110° within 0.9° of noise, %g samples a second: %+v", rate, got)
			}
		}
	}
}

// A channel that the stream lacks is named; one that drops out for a while costs nothing but
// the while.
func TestMissingChannel(t *testing.T) {
	for name, j := range everyKind() {
		if j.channel == stream.NumChannels {
			continue
		}
		f := wingOver()
		delete(f.signals, j.channel)
		want := j.check.Channel
		switch j.check.Kind {
		case "roll-out-angle", "roll-ratio":
			want = "bank"
		case "gain":
			want = "altitude"
		case "ball-centered": // one of three will do
			delete(f.signals, stream.LateralLoad)
			want = "ball, lateral load or sideslip"
		}
		if got := f.measure(j.check); got.OK || !strings.Contains(got.Reason.String(), want) || !math.IsNaN(got.At) {
			t.Errorf("%s without %s: %+v", name, j.channel, got)
		}
	}
}

func TestChannelDropsOut(t *testing.T) {
	for name, j := range everyKind() {
		if j.channel == stream.NumChannels {
			continue
		}
		f := wingOver()
		want := f.measure(j.check)
		// Gone from before the entry heading to just past it, and for 2° on the way.
		judge := kinds.NewJudge(j.check, f.known())
		moments := f.moments(j.check)
		for turn := -5.0; turn < 0; turn += 0.12 {
			m := f.moment(turn)
			m.Sample.Drop(j.channel)
			judge.Step(&m)
		}
		for i := range moments {
			m := moments[i]
			if m.Turn < 0.4 || m.Turn > 63 && m.Turn < 65 {
				m.Sample.Drop(j.channel)
			}
			judge.Step(&m)
		}
		got := judge.Measure(&moments[len(moments)-1])
		if !got.OK || math.Abs(got.Value-want.Value) > math.Max(j.rate*3, math.Abs(want.Value)*0.03) {
			t.Errorf("%s with %s away for a while: %+v, want %+v", name, j.channel, got, want)
		}
	}
}

// A sample without the channel just before the span adds nothing to it.
func TestDropOutBeforeTheSpan(t *testing.T) {
	f := flight{signals: one(stream.Pitch, constant(10)), rate: 20}
	j := kinds.NewJudge(over("rise", "pitch", 90, 180), f.known())
	for turn := 80.0; turn <= 180; turn += 0.3 {
		m := f.moment(turn)
		if turn > 85 && turn < 90 {
			m.Sample.Drop(stream.Pitch)
		}
		j.Step(&m)
	}
	if got := j.Measure(nil); !got.OK || math.Abs(got.Value) > 1e-9 {
		t.Errorf("rise of a constant: %+v", got)
	}
}

// A leg that never came to its end: only what needs the exit is not measured.
func TestNoExit(t *testing.T) {
	needs := map[string]bool{"value at exit": true, "roll-ratio": true, "change": true, "pace": true, "rhythm": true,
		"even-rate": true, "gain": true, "after-exit": true, "kept": true}
	for name, j := range everyKind() {
		f := wingOver()
		f.noExit = true
		got := f.measure(j.check)
		if got.OK == needs[name] || needs[name] && !got.Reason.Is(phrase.NoExit) {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// Measure may be asked on the way, and asking changes nothing.
func TestMeasureOnTheWay(t *testing.T) {
	for name, j := range everyKind() {
		f := wingOver()
		want := f.measure(j.check)
		judge := kinds.NewJudge(j.check, f.known())
		if j.channel != stream.NumChannels {
			if got := judge.Measure(nil); got.OK || got.Reason.IsZero() {
				t.Errorf("%s before the first moment: %+v", name, got)
			}
		}
		m := f.moments(j.check)
		for i := range m {
			judge.Step(&m[i])
			if i%100 == 0 {
				judge.Measure(nil)
				judge.Measure(&m[i])
			}
		}
		got := judge.Measure(&m[len(m)-1])
		if got.OK != want.OK || got.Value != want.Value {
			t.Errorf("%s: %+v, without asking %+v", name, got, want)
		}
	}
}
