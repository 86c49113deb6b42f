package check_test

import (
	"testing"

	"halfturn/coach/check"
)

func TestBand(t *testing.T) {
	at := func(x float64) *float64 { return &x }
	for _, c := range []struct {
		band    check.Band
		text    string
		in, out []float64
	}{
		{check.Band{at(60), at(90)}, "60 to 90", []float64{60, 75, 90}, []float64{59.999, 90.001}},
		{check.Band{at(-6.5), at(6.5)}, "−6.5 to 6.5", []float64{-6.5, 0, 6.5}, []float64{-7, 7}},
		{check.Band{nil, at(5)}, "at most 5", []float64{-1e9, 5}, []float64{5.001}},
		{check.Band{at(-1.234), nil}, "at least −1.23", []float64{-1.234, 1e9}, []float64{-1.235}},
		{check.Band{nil, nil}, "any", []float64{-1e9, 1e9}, nil},
		{check.Band{at(0), at(0)}, "0 to 0", []float64{0}, []float64{-1e-9, 1e-9}},
	} {
		if got := c.band.String(); got != c.text {
			t.Errorf("%q, want %q", got, c.text)
		}
		for _, x := range c.in {
			if !c.band.Contains(x) {
				t.Errorf("%s does not contain %g", c.text, x)
			}
		}
		for _, x := range c.out {
			if c.band.Contains(x) {
				t.Errorf("%s contains %g", c.text, x)
			}
		}
	}
}
