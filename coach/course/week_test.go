package course

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/coach"
)

// scored writes legs of one check: scores a number of days before monday.
func scored(ago int, scores ...float64) (legs []Flown) {
	for _, x := range scores {
		l := legOf('R')
		l.Checks = []coach.Check{{ID: "bank-at-90", Label: "Bank at 90°", Weight: 1, Score: x, Verdict: coach.Missed}}
		if x >= 85 {
			l.Checks[0].Verdict = coach.Met
		}
		legs = append(legs, Flown{Began: monday.AddDate(0, 0, -ago), Maneuver: "wing-over", Standard: "course", Leg: l})
	}
	return legs
}

// A check got steadier where it is clearly met more than in the weeks before; what is missed in half of the legs and no
// better is still to be worked on.
func TestWeekly(t *testing.T) {
	low, high, mixed := []float64{0, 20, 30, 40, 50, 10, 60, 0}, []float64{90, 95, 100, 100, 100, 90, 95, 100},
		[]float64{20, 90, 40, 100, 0, 95, 30, 10}
	for _, x := range []struct {
		name                     string
		before, now              []float64
		ago, nowAgo              int
		steadier, shakier, still int
	}{
		{"better", low, high, 20, 2, 1, 0, 0},
		{"worse", high, low, 20, 2, 0, 1, 0},
		{"as bad", low, low, 20, 2, 0, 0, 1},
		{"as good", high, high, 20, 2, 0, 0, 0},
		{"here and there", mixed, mixed, 20, 2, 0, 0, 1},
		{"too few", low[:4], high, 20, 2, 0, 0, 0},
		{"too few now", low, high[:4], 20, 2, 0, 0, 0},
		{"too long ago", low, high, 35, 2, 0, 0, 0},
		{"the last day of each", low, high, 34, 6, 1, 0, 0},
		{"in one week", low, high, 6, 2, 0, 0, 0},
	} {
		w := Weekly(append(scored(x.ago, x.before...), scored(x.nowAgo, x.now...)...), monday)
		if len(w.Steadier) != x.steadier || len(w.Shakier) != x.shakier || len(w.Still) != x.still {
			t.Errorf("%s: %+v", x.name, w)
		}
	}
	w := Weekly(append(scored(20, low...), scored(2, high...)...), monday)
	if m := w.Steadier[0]; m.Met != 8 || m.Of != 8 || m.MetThen != 0 || m.OfThen != 8 || m.Label != "Bank at 90°" ||
		w.Legs != 8 || w.Before != 8 {
		t.Errorf("%+v, %+v", w, m)
	}
}

// The rank-sum test against numbers worked by hand: without ties z = (U − ab/2 ∓ ½)/√(ab(a+b+1)/12), and with the usual
// correction for ties; the worked example is that of the article, U = 0 for all of one sample below the other.
func TestRankSum(t *testing.T) {
	for _, x := range []struct {
		a, b []float64
		want float64
	}{
		{[]float64{1, 2, 3, 4, 5}, []float64{6, 7, 8, 9, 10}, (25 - 12.5 - 0.5) / math.Sqrt(25*11.0/12)},
		{[]float64{6, 7, 8, 9, 10}, []float64{1, 2, 3, 4, 5}, -(25 - 12.5 - 0.5) / math.Sqrt(25*11.0/12)},
		{[]float64{1, 3, 5}, []float64{2, 4, 6}, (6 - 4.5 - 0.5) / math.Sqrt(9*7.0/12)},
		{[]float64{1, 1, 2}, []float64{1, 2, 2}, (6 - 4.5 - 0.5) / math.Sqrt(9.0/12*(7-48.0/30))},
		{[]float64{5, 5}, []float64{5, 5}, 0},
	} {
		if got := rankSum(x.a, x.b); math.Abs(got-x.want) > 1e-9 {
			t.Errorf("%v, %v: %.4f; must be %.4f", x.a, x.b, got, x.want)
		}
	}
}

// Where nothing has changed, one check in a hundred or fewer is said to be steadier: scores as checks have them, most
// of them full.
func TestWeeklyByChance(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	const times = 20_000
	sample := func() []float64 {
		list := make([]float64, leastLegs+random.IntN(10))
		for i := range list {
			list[i] = min(100, math.Round(random.Float64()*180))
		}
		return list
	}
	found := 0
	for range times {
		if rankSum(sample(), sample()) >= clearly {
			found++
		}
	}
	if share := float64(found) / times; share > 0.011 || share < 0.002 {
		t.Errorf("%.2f %% are said to be steadier by chance", 100*share)
	}
}
