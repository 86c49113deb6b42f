package sampling

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/check"
)

// A gap is a hole when it is long, or wide in turn and longer than usual.
func TestWhatIsAHole(t *testing.T) {
	for _, c := range []struct {
		name               string
		dt, step, interval float64
		want               bool
	}{
		{"one sample per second", 1, 8, 1, false},
		{"more than a second", 1.1, 1, 0.05, true},
		{"wide for its stream", 0.5, 11, 0.05, true},
		{"wide, and so is every step", 0.5, 11, 0.5, false},
		{"wide to the other side", 0.5, -11, 0.05, true},
		{"narrow", 0.5, 9, 0.05, false},
	} {
		var h holes
		h.add(moment(10, 50, 0), moment(10+c.dt, 50+c.step, 0), c.interval)
		if (len(h.list) == 1) != c.want {
			t.Errorf("%s: %+v", c.name, h.list)
		}
	}
}

// Which checks a hole from 60° to 75° leaves without an answer. A mean tolerates it.
func TestWhatAHoleHides(t *testing.T) {
	h := holes{list: []hole{{60, 75}}}
	for _, c := range []struct {
		name string
		spec check.Spec
		exit *check.Moment
		want bool
	}{
		{"a value in it", check.Spec{Kind: "value", Turn: new(70.0)}, nil, true},
		{"a value beside it", check.Spec{Kind: "value", Turn: new(76.0)}, nil, false},
		{"a value at its edge", check.Spec{Kind: "value", Turn: new(60.0)}, nil, false},
		{"an exit in it", check.Spec{Kind: "value", At: "exit"}, moment(0, 70, 0), true},
		{"an exit beyond it", check.Spec{Kind: "value", At: "exit"}, moment(0, 180, 0), false},
		{"no exit yet", check.Spec{Kind: "value", At: "exit"}, nil, false},
		{"an extreme over it", check.Spec{Kind: "extreme", From: new(0.0), To: new(90.0)}, nil, true},
		{"an extreme before it", check.Spec{Kind: "extreme", From: new(0.0), To: new(60.0)}, nil, false},
		{"a departure of the whole leg", check.Spec{Kind: "departure"}, nil, true},
		{"a mean over it", check.Spec{Kind: "mean", From: new(0.0), To: new(90.0)}, nil, false},
		{"the set-up", check.Spec{Kind: "set-up"}, nil, false},
	} {
		if _, got := h.in(&c.spec, c.exit); got != c.want {
			t.Errorf("%s: hidden %v; must be %v", c.name, got, c.want)
		}
		if _, got := (&holes{}).in(&c.spec, c.exit); got {
			t.Errorf("%s: hidden without a hole", c.name)
		}
	}
	h.cut(100)
	if x, ok := h.over(170, 180); !ok || x.from != 100 || !math.IsInf(x.to, 1) {
		t.Errorf("a leg that was cut at 100° is seen at 180°: %+v", x)
	}
}

// Met from 10 to 20, near from 5 to 25: which other verdict the value could have.
func TestOtherVerdict(t *testing.T) {
	for _, c := range []struct {
		value, off float64
		verdict    string
		want       string
	}{
		{15, 4, coach.Met, ""},
		{15, 6, coach.Met, coach.Near},
		{11, 8, coach.Met, coach.Missed}, // 3
		{22, 1, coach.Near, ""},
		{22, 3, coach.Near, coach.Met},
		{22, 4, coach.Near, coach.Met}, // the lower end is looked at first
		{30, 4, coach.Missed, ""},
		{30, 6, coach.Missed, coach.Near},
		{15, 9, coach.NotMeasured, ""},
	} {
		k := coach.Check{
			Value:   &c.value,
			Verdict: c.verdict,
			Met:     [2]*float64{new(10.0), new(20.0)},
			Near:    [2]*float64{new(5.0), new(25.0)},
		}
		if got := otherVerdict(&k, c.off, slack{}); got != c.want {
			t.Errorf("%g ± %g, %s: %q; must be %q", c.value, c.off, c.verdict, got, c.want)
		}
	}
}

// An eighth of h²·f″ is the error of a straight line between two samples (the interpolation error of any text on
// numerical analysis); twice that is allowed for, and never more than the fastest change makes.
func TestOff(t *testing.T) {
	for _, c := range []struct {
		m         motion
		gap, want float64
	}{
		{motion{rate: 100, bend: 8}, 0.5, 0.5},
		{motion{rate: 100, bend: 8}, 1, 2},
		{motion{rate: 1, bend: 8}, 1, 1},
		{motion{}, 1, 0},
	} {
		if got := c.m.off(c.gap); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v over %g s: %g; must be %g", c.m, c.gap, got, c.want)
		}
	}
}
