package check_test

import (
	"testing"

	"halfturn/coach/check"
)

func TestWiden(t *testing.T) {
	for _, c := range []struct {
		name      string
		bounds    check.Bounds
		band      check.Band
		aim       *float64
		by        float64
		low, high *float64
	}{
		{"about the aim", check.Tolerances, band(ptr(170), ptr(200)), ptr(180), 1.5, ptr(165), ptr(210)},
		{"about the middle", check.Tolerances, band(ptr(10), ptr(20)), nil, 2, ptr(5), ptr(25)},
		{"narrower", check.Tolerances, band(ptr(-10), ptr(10)), ptr(0), 0.5, ptr(-5), ptr(5)},
		{"as it is", check.Tolerances, band(ptr(1), ptr(2)), nil, 1, ptr(1), ptr(2)},
		{"open above", check.Tolerances, band(ptr(5), nil), nil, 2, ptr(5), nil},
		{"open below", check.Tolerances, band(nil, ptr(5)), ptr(1), 2, nil, ptr(5)},
		{"by a factor", check.Ratios, band(ptr(0.5), ptr(4)), ptr(1), 2, ptr(0.25), ptr(16)},
		{"a ratio that begins at 0", check.Ratios, band(ptr(0), ptr(2)), ptr(1), 1.5, ptr(-0.5), ptr(2.5)},
		{"never below one", check.FromOne, band(ptr(1), ptr(3)), ptr(2), 1.5, ptr(1), ptr(3.5)},
		{"exact", check.Exact, band(ptr(0), ptr(2)), ptr(1), 2, ptr(0), ptr(2)},
	} {
		got := c.bounds.Widen(c.band, c.aim, c.by)
		if want := band(c.low, c.high); got.String() != want.String() {
			t.Errorf("%s: %v, want %v", c.name, got, want)
		}
	}
}

func TestKnownOn(t *testing.T) {
	turn, span := &check.Spec{Turn: ptr(90)}, &check.Spec{From: ptr(0), To: ptr(135)}
	for _, c := range []struct {
		name  string
		known check.Known
		spec  *check.Spec
		want  float64
		ok    bool
	}{
		{"at a turn angle", check.AtTurn, turn, 90, true},
		{"at the exit", check.AtTurn, &check.Spec{At: "exit"}, 0, false},
		{"at the end of a span", check.AtSpanEnd, span, 135, true},
		{"without a span", check.AtSpanEnd, turn, 0, false},
		{"at the end", check.AtEnd, span, 0, false},
		{"unanswered", 0, span, 0, false},
	} {
		if got, ok := c.known.On(c.spec); got != c.want || ok != c.ok {
			t.Errorf("%s: %g, %v; want %g, %v", c.name, got, ok, c.want, c.ok)
		}
	}
}
