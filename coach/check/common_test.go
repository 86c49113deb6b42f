package check

import (
	"math"
	"testing"
)

// e^(−1) of the state is left after one time constant; what is remembered is what would be worked out.
func TestDecay(t *testing.T) {
	var none *Common
	var c Common
	for _, x := range [][2]float64{{1, 1}, {0.5, 1}, {0.5, 1}, {0.5, 2}, {1, 1}, {1, 2}, {1, 1}, {0.5, 2}, {0, 1}} {
		want := math.Exp(-x[0] / x[1])
		if c.Decay(x[0], x[1]) != want || none.Decay(x[0], x[1]) != want {
			t.Errorf("%g s of %g s: %g, without a memory %g; must be %g",
				x[0], x[1], c.Decay(x[0], x[1]), none.Decay(x[0], x[1]), want)
		}
	}
	v := []float64{0, 1, 2, 1, 0}
	if got, want := c.ArcLength(v, 10), none.ArcLength(v, 10); got != want || math.IsNaN(got) {
		t.Errorf("an arc of %g, without a memory %g", got, want)
	}
}

// Checks that look at the same turn angle share its passing.
func TestFactsPassing(t *testing.T) {
	var f Facts
	at45, at90 := f.Passing(45), f.Passing(90)
	if at45 == at90 || f.Passing(45) != at45 || f.Passing(90) != at90 {
		t.Error("a turn angle has more than one passing, or two have one")
	}
	if at45.Turn() != 45 || at90.Turn() != 90 {
		t.Errorf("they are for %g° and %g°", at45.Turn(), at90.Turn())
	}
}
