package wording_test

import (
	"fmt"
	"halfturn/coach"
	"halfturn/coach/wording"
	"testing"
)

func TestWanted(t *testing.T) {
	for _, c := range []struct {
		low, high *float64
		unit      string
		want      string
	}{
		{new(60.0), new(88.0), "°", "60 to 88°"},
		{new(-6.5), new(6.5), "°", "−6.5 to 6.5°"},
		{new(-10.0), new(10.0), "kt", "−10 to 10 kt"},
		{new(0.65), new(1.55), "ratio", "0.65 to 1.55"},
		{new(5.0), nil, "kt", "at least 5 kt"},
		{nil, new(110.0), "ft", "at most 110 ft"},
		{new(0.0), new(0.0), "legs", "0 legs"},
		{new(-0.02), new(0.02), "", "−0.02 to 0.02"},
		{new(118.5), new(140.0), "kt", "118 to 140 kt"},
		{nil, nil, "kt", "–"},
	} {
		if got := wording.Wanted(&coach.Check{Met: [2]*float64{c.low, c.high}, Unit: c.unit}); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func TestSigned(t *testing.T) {
	for _, c := range []struct {
		v    float64
		d    int
		want string
	}{
		{-4.96, 1, "−5.0"},
		{-0.001, 2, "0.00"},
		{-0.4, 0, "0"},
		{0, 0, "0"},
		{12.345, 2, "12.35"},
		{-120, 0, "−120"},
		{1e6, 0, "1000000"},
	} {
		if got := wording.Signed(c.v, c.d); got != c.want {
			t.Errorf("Signed(%g, %d) = %q, want %q", c.v, c.d, got, c.want)
		}
	}
}

// A ratio is read in percent, with its aim and bands; what has a unit stays as it is.
func TestInPercent(t *testing.T) {
	k := &coach.Check{
		Value:   new(0.874),
		Verdict: coach.Met,
		Unit:    "ratio",
		Aim:     new(1.0),
		Met:     [2]*float64{new(0.65), nil},
	}
	shown := wording.InPercent(k)
	if got := wording.Value(nil, shown) + ", wanted " + wording.AimAndBand(nil, shown); got !=
		"87 %, wanted 100 (at least 65 %)" {
		t.Error(got)
	}
	if *k.Value != 0.874 || k.Unit != "ratio" {
		t.Errorf("the check was changed: %+v", k)
	}
	if knots := (&coach.Check{Value: new(1.0), Unit: "kt"}); wording.InPercent(knots) != knots {
		t.Error("knots became percent")
	}
}

// A share that binary fractions cannot hold is written as a card has it.
func TestWholePercent(t *testing.T) {
	for share, want := range map[float64]string{0.07: "at least 7%", 0.29: "at least 29%", 1.1: "at least 110%"} {
		k := wording.InPercent(&coach.Check{Met: [2]*float64{&share, nil}, Unit: "ratio"})
		if got := wording.Wanted(k); got != want {
			t.Errorf("%v is written %q; must be %q", share, got, want)
		}
	}
}

func ExampleWanted() {
	low := 5.0
	fmt.Println(wording.Wanted(&coach.Check{Met: [2]*float64{&low, nil}, Unit: "kt"}))
	// Output: at least 5 kt
}
