package coach

import (
	"math"
	"testing"
)

// TestDecide: what stands out is claimed, what does not is unclear and names the best first.
func TestDecide(t *testing.T) {
	for _, c := range []struct {
		name   string
		fits   []Fit
		want   string
		margin float64
	}{
		{"clear", []Fit{{"b", 0.9}, {"a", 0.2}}, "a", 0.7},
		{"at the margin", []Fit{{"a", 0.2}, {"b", 0.5}}, "a", 0.3},
		{"below the margin", []Fit{{"a", 0.2}, {"b", 0.49}}, Unclear, 0.29},
		{"nothing fits", []Fit{{"a", 1.2}, {"b", 2}}, Unclear, 0.8},
		{"alone and off", []Fit{{"a", 1.2}}, Unclear, 2.2},
		{"alone", []Fit{{"a", 0.4}}, "a", 2.2},
		{"nothing", nil, Unclear, 0},
	} {
		d := Decide(c.fits)
		if d.Maneuver != c.want || math.Abs(d.Margin-c.margin) > 1e-9 {
			t.Errorf("%s: %+v", c.name, d)
		}
	}
}
