package print

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/message"
)

func ptr(v float64) *float64 { return &v }

// TestNumber: a minus sign is one (U+2212), and nothing is minus zero.
func TestNumber(t *testing.T) {
	for _, c := range []struct {
		v      float64
		digits int
		want   string
	}{
		{0, 0, "0"}, {12.34, 1, "12.3"}, {-12.34, 1, "−12.3"}, {-0.04, 1, "0.0"}, {-0.4, 0, "0"}, {-0.5, 1, "−0.5"},
		{math.Copysign(0, -1), 0, "0"}, {1500, 0, "1500"}, {-1500, 0, "−1500"},
	} {
		if got := number(c.v, c.digits); got != c.want {
			t.Errorf("%g to %d digits is %q; must be %q", c.v, c.digits, got, c.want)
		}
	}
}

// TestMeasured: three figures or so are enough, and a value that was not measured is a dash.
func TestMeasured(t *testing.T) {
	for _, c := range []struct {
		v    *float64
		want string
	}{
		{nil, "–"}, {ptr(0), "0.0°"}, {ptr(0.25), "0.25°"}, {ptr(-0.25), "−0.25°"}, {ptr(1), "1.0°"},
		{ptr(99.94), "99.9°"}, {ptr(100.4), "100°"}, {ptr(-1234.5), "−1234°"},
	} {
		if got := measured(c.v, "°"); got != c.want {
			t.Errorf("it is %q; must be %q", got, c.want)
		}
	}
}

// TestLegWords: what is printed of a leg of which little is known.
func TestLegWords(t *testing.T) {
	for _, c := range []struct {
		leg          coach.Leg
		score, grade string
	}{
		{coach.Leg{Verdict: coach.Met, Score: 91.5, Grade: coach.Good}, "92", coach.Good},
		{coach.Leg{Verdict: coach.Missed}, "0", "no grade"},
		{coach.Leg{Verdict: coach.NotMeasured, Score: 91.5}, "–", "no grade"},
	} {
		if s, g := score(&c.leg), grade(&c.leg); s != c.score || g != c.grade {
			t.Errorf("%+v: %q, %q; must be %q, %q", c.leg, s, g, c.score, c.grade)
		}
	}
	for in, want := range map[string]string{"": "", "More bank": "More bank.", "More bank.": "More bank."} {
		if got := sentence(in); got != want {
			t.Errorf("%q ends as %q; must be %q", in, got, want)
		}
	}
	if orNone("") != "no aircraft card" || orNone("trainer") != "trainer" || words("wing-over") != "wing over" {
		t.Error("an identifier is not read")
	}
}

// TestListed: each plan says its part once, in the order flown.
func TestListed(t *testing.T) {
	title := func(c *message.Chart) string { return c.Title }
	wingOver, lazyEight := &message.Chart{Title: "Wing-over"}, &message.Chart{Title: "Lazy eight"}
	for want, legs := range map[string][]Leg{
		"none flown":            nil,
		"Wing-over":             {{Plan: wingOver}, {Plan: wingOver}},
		"Lazy eight, Wing-over": {{Plan: lazyEight}, {Plan: wingOver}, {Plan: lazyEight}},
	} {
		if got := listed(legs, title); got != want {
			t.Errorf("%q; must be %q", got, want)
		}
	}
}

// TestRoundStep: the steps of a scale are 1, 2 and 5 times a power of ten, and the least of them that is wide enough.
func TestRoundStep(t *testing.T) {
	steps := []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000}
	least := 0.0
	for _, step := range steps {
		for _, width := range []float64{least + 1e-9, (least + step) / 2, step} {
			if got := roundStep(width); got != step {
				t.Errorf("for %g it is %g; must be %g", width, got, step)
			}
		}
		least = step
	}
}

// TestVerdictAt: the verdict at a checkpoint is the one that the leg gives it, and not that of the whole leg.
func TestVerdictAt(t *testing.T) {
	at := func(turn float64, verdict string) coach.Post { return coach.Post{Turn: ptr(turn), Verdict: verdict} }
	whole := coach.Post{Verdict: coach.Missed}
	for name, c := range map[string]struct {
		posts []coach.Post
		turn  *float64
		want  string
	}{
		"none":         {nil, ptr(90), ""},
		"elsewhere":    {[]coach.Post{at(45, coach.Missed)}, ptr(90), ""},
		"there":        {[]coach.Post{at(45, coach.Missed), at(90, coach.Near)}, ptr(90), coach.Near},
		"of the whole": {[]coach.Post{whole}, ptr(90), ""},
		"the whole":    {[]coach.Post{at(90, coach.Met), whole}, nil, coach.Missed},
	} {
		if got := verdictAt(c.posts, c.turn); got != c.want {
			t.Errorf("%s: %q; must be %q", name, got, c.want)
		}
	}
}

// TestOrder: the worst comes first, and a check that counts for nothing and was not measured last: the headline says
// nothing of it either.
func TestOrder(t *testing.T) {
	checks := []coach.Check{
		{Verdict: coach.Missed, Weight: 1},
		{Verdict: coach.Near, Weight: 1},
		{Verdict: coach.NotMeasured, Weight: 1},
		{Verdict: coach.Met},
		{Verdict: coach.NotMeasured},
	}
	for i := range checks[1:] {
		if a, b := &checks[i], &checks[i+1]; order(a) >= order(b) {
			t.Errorf("%s of weight %g does not come before %s of weight %g", a.Verdict, a.Weight, b.Verdict, b.Weight)
		}
	}
}
