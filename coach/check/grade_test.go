package check_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/stream"
)

func ptr(x float64) *float64 { return &x }

func band(low, high *float64) check.Band { return check.Band{Low: low, High: high} }

// The scores are those that Grade promises: 100 to half way to the edge of met, 85 there, 60
// at the edge of near, 0 as far again beyond it.
func TestGrade(t *testing.T) {
	heading := check.Bands{Aim: ptr(180), Met: band(ptr(170), ptr(190)), Near: band(ptr(166), ptr(198))}
	uneven := check.Bands{Aim: ptr(1), Met: band(ptr(0.65), ptr(2)), Near: band(ptr(0.5), ptr(3))}
	noAim := check.Bands{Met: band(ptr(60), ptr(90)), Near: band(ptr(55), ptr(95))}
	zero := check.Bands{Aim: ptr(0), Met: band(ptr(0), ptr(0.4)), Near: band(ptr(0), ptr(0.6))}
	least := check.Bands{Met: band(ptr(150), nil), Near: band(ptr(80), nil)}
	most := check.Bands{Met: band(nil, ptr(5)), Near: band(nil, ptr(8))}
	leastAim := check.Bands{Aim: ptr(20), Met: band(ptr(10), nil), Near: band(ptr(5), nil)}
	mostAim := check.Bands{Aim: ptr(2), Met: band(nil, ptr(4)), Near: band(nil, ptr(5))}
	openNear := check.Bands{Aim: ptr(50), Met: band(ptr(40), ptr(60)), Near: band(ptr(30), nil)}
	exact := check.Bands{Aim: ptr(0), Met: band(ptr(0), ptr(0)), Near: band(ptr(0), ptr(0))}
	same := check.Bands{Aim: ptr(50), Met: band(ptr(40), ptr(60)), Near: band(ptr(40), ptr(60))}
	for _, c := range []struct {
		name    string
		bands   check.Bands
		x       float64
		verdict string
		score   float64
		high    bool
	}{
		{"aim", heading, 180, check.Met, 100, false},
		{"half way", heading, 185, check.Met, 100, true},
		{"three quarters", heading, 187.5, check.Met, 92.5, true},
		{"upper edge of met", heading, 190, check.Met, 85, true},
		{"lower edge of met", heading, 170, check.Met, 85, false},
		{"middle of near, above", heading, 194, check.Near, 72.5, true},
		{"middle of near, below", heading, 168, check.Near, 72.5, false},
		{"upper edge of near", heading, 198, check.Near, 60, true},
		{"lower edge of near", heading, 166, check.Near, 60, false},
		{"half as far again", heading, 202, check.Missed, 30, true},
		{"as far again", heading, 206, check.Missed, 0, true},
		{"far off", heading, 0, check.Missed, 0, false},
		{"uneven, half way up", uneven, 1.5, check.Met, 100, true},
		{"uneven, lower edge", uneven, 0.65, check.Met, 85, false},
		{"uneven, upper edge of near", uneven, 3, check.Near, 60, true},
		{"no aim: the middle is", noAim, 75, check.Met, 100, false},
		{"no aim, upper edge", noAim, 90, check.Met, 85, true},
		{"no aim, near", noAim, 57.5, check.Near, 72.5, false},
		{"aim at an edge", zero, 0, check.Met, 100, false},
		{"from an edge, half way", zero, 0.2, check.Met, 100, true},
		{"from an edge, the other", zero, 0.4, check.Met, 85, true},
		{"from an edge, near", zero, 0.5, check.Near, 72.5, true},
		{"at least, at it", least, 150, check.Met, 100, false},
		{"at least, far above", least, 1e6, check.Met, 100, false},
		{"at least, near", least, 115, check.Near, 72.5, false},
		{"at least, missed", least, 45, check.Missed, 30, false},
		{"at most, at it", most, 5, check.Met, 100, true},
		{"at most, far below", most, -1e6, check.Met, 100, true},
		{"at most, edge of near", most, 8, check.Near, 60, true},
		{"at least with an aim, past it", leastAim, 1000, check.Met, 100, true},
		{"at least with an aim, edge", leastAim, 10, check.Met, 85, false},
		{"at least with an aim, near", leastAim, 7.5, check.Near, 72.5, false},
		{"at most with an aim, past it", mostAim, -9, check.Met, 100, false},
		{"at most with an aim, edge", mostAim, 4, check.Met, 85, true},
		{"at most with an aim, missed", mostAim, 5.5, check.Missed, 30, true},
		{"near without an end", openNear, 1e6, check.Near, 60, true},
		{"near without an end, the other side", openNear, 35, check.Near, 72.5, false},
		{"nothing but the aim", exact, 0, check.Met, 100, false},
		{"anything but the aim", exact, 1, check.Missed, 0, true},
		{"near as narrow as met", same, 60, check.Met, 85, true},
		{"near as narrow as met, missed", same, 63, check.Missed, 30, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			verdict, score := c.bands.Grade(c.x)
			if verdict != c.verdict || math.Abs(score-c.score) > 1e-9 {
				t.Errorf("%g: %s, %g; want %s, %g", c.x, verdict, score, c.verdict, c.score)
			}
			if got := c.bands.High(c.x); got != c.high {
				t.Errorf("%g: high %v", c.x, got)
			}
		})
	}
}

// bands makes valid bands, as a card may have them: met one- or two-sided, near around it.
func bands(rnd *rand.Rand) check.Bands {
	low := math.Round(rnd.NormFloat64()*100) / 4
	high := low + float64(rnd.IntN(4))*rnd.Float64()*20
	outerLow, outerHigh := low-float64(rnd.IntN(3))*rnd.Float64()*10, high+float64(rnd.IntN(3))*rnd.Float64()*10
	b := check.Bands{Met: band(ptr(low), ptr(high)), Near: band(ptr(outerLow), ptr(outerHigh))}
	aim := low + rnd.Float64()*(high-low)
	switch rnd.IntN(6) {
	case 0:
		b.Met.Low, b.Near.Low = nil, nil
		aim = high - rnd.Float64()*10
	case 1:
		b.Met.High, b.Near.High = nil, nil
		aim = low + rnd.Float64()*10
	case 2:
		b.Near.Low = nil
	case 3:
		b.Near.High = nil
	}
	if rnd.IntN(3) > 0 {
		b.Aim = ptr(aim)
	}
	return b
}

// best is a value that no other can beat.
func best(b check.Bands) float64 {
	switch {
	case b.Aim != nil:
		return *b.Aim
	case b.Met.Low == nil:
		return *b.Met.High
	case b.Met.High == nil:
		return *b.Met.Low
	}
	return (*b.Met.Low + *b.Met.High) / 2
}

// ends lists the ends of the bands that are not open.
func ends(b check.Bands) (x []float64) {
	for _, e := range []*float64{b.Near.Low, b.Met.Low, b.Met.High, b.Near.High} {
		if e != nil {
			x = append(x, *e)
		}
	}
	return x
}

// What holds for all bands.
func TestGradeLaws(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	for range 3000 {
		b := bands(rnd)
		if verdict, score := b.Grade(best(b)); verdict != check.Met || score != 100 {
			t.Fatalf("aim %v, met %v, near %v: at the aim %s, %g", b.Aim, b.Met, b.Near, verdict, score)
		}
		for _, e := range ends(b) {
			checkGrade(t, b, e)
			checkGrade(t, b, math.Nextafter(e, math.Inf(1)))
			checkGrade(t, b, math.Nextafter(e, math.Inf(-1)))
		}
		for _, side := range []float64{-1, 1} {
			last := 100.0
			for off := 0.0; off < 60; off += 0.1 + rnd.Float64() {
				x := best(b) + side*off
				score := checkGrade(t, b, x)
				if score > last+1e-9 {
					t.Fatalf("aim %v, met %v, near %v: score rises to %g at %g", b.Aim, b.Met, b.Near, score, x)
				}
				last = score
			}
		}
	}
}

// checkGrade checks verdict and score of one value against what the bands say of it.
func checkGrade(t *testing.T, b check.Bands, x float64) float64 {
	t.Helper()
	verdict, score := b.Grade(x)
	want, low, high := check.Missed, 0.0, 60.0
	switch {
	case b.Met.Contains(x):
		want, low, high = check.Met, 85, 100
	case b.Near.Contains(x):
		want, low, high = check.Near, 60, 85
	}
	if verdict != want || !(score >= low-1e-9 && score <= high+1e-9) {
		t.Fatalf(
			"aim %v, met %v, near %v: %g is %s, %g; want %s, %g to %g",
			b.Aim,
			b.Met,
			b.Near,
			x,
			verdict,
			score,
			want,
			low,
			high,
		)
	}
	return score
}

// Bands are counted from a speed of the aircraft card, or from the nose that the reference path
// needs above level flight.
func TestResolve(t *testing.T) {
	spec := &check.Spec{Aim: ptr(6), MetBand: band(ptr(1), ptr(11)), NearBand: band(ptr(0), nil)}
	var entry check.Moment
	entry.Sample.Put(stream.Pitch, 2.5)
	all := check.Facts{Aircraft: aircraft.Aircraft{Entry: 130, Apex: 70, Stall: 59}, Nose: 24, Entry: entry}
	for about, base := range map[string]float64{"": 0, "entry": 130, "apex": 70, "stall": 59, "nose": 26.5} {
		spec.About = about
		b, reason := check.Resolve(spec, &all)
		met := *b.Met.Low == 1+base && *b.Met.High == 11+base
		near := *b.Near.Low == base && b.Near.High == nil
		if !reason.IsZero() || *b.Aim != 6+base || !met || !near {
			t.Errorf("about %q: %v %v %v, %q", about, b.Aim, b.Met, b.Near, reason)
		}
	}
	if *spec.Aim != 6 || *spec.MetBand.Low != 1 {
		t.Error("the card was changed")
	}
	nothing := check.Facts{Nose: math.NaN(), Entry: entry}
	for about, want := range map[string]string{
		"":      "",
		"entry": "the aircraft card gives no entry speed",
		"apex":  "the aircraft card gives no apex speed",
		"stall": "the aircraft card gives no stall speed",
		"nose":  "the highest nose follows from the aircraft card's entry and apex speeds",
	} {
		spec.About = about
		if _, reason := check.Resolve(spec, &nothing); reason.String() != want {
			t.Errorf("about %q, nothing known: %q, want %q", about, reason, want)
		}
	}
	// A nose of 24° above a level attitude of −24° is a number like any other.
	entry.Sample.Put(stream.Pitch, -24)
	spec.About = "nose"
	if b, reason := check.Resolve(spec, &check.Facts{Nose: 24, Entry: entry}); !reason.IsZero() || *b.Aim != 6 {
		t.Errorf("about a nose on the horizon: %+v, %q", b, reason)
	}
}
