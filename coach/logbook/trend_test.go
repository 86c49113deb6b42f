package logbook

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// Quartiles by definition 7, the values as R's quantile gives them (R documentation, ?quantile:
// type 7 is its default); worked out by hand from q·(n−1).
func TestQuantile(t *testing.T) {
	for _, c := range []struct {
		values       []float64
		q1, q2, high float64
	}{
		{[]float64{7}, 7, 7, 7},
		{[]float64{1, 2}, 1.25, 1.5, 1.75},
		{[]float64{1, 2, 3, 4}, 1.75, 2.5, 3.25},
		{[]float64{1, 2, 3, 4, 100}, 2, 3, 4},
		{[]float64{-5, 0, 0, 10}, -1.25, 0, 2.5},
	} {
		got := []float64{quantile(c.values, 0.25), quantile(c.values, 0.5), quantile(c.values, 0.75)}
		if d := cmp.Diff([]float64{c.q1, c.q2, c.high}, got, cmpopts.EquateApprox(0, 1e-12)); d != "" {
			t.Errorf("%v: %s", c.values, d)
		}
	}
}
