package draft

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/measure"
)

// The lowest speed of a good wing-over where it was not measured: common practice, no source. It is 0.54 to 0.77 of the
// entry speed (practice, recorded flights), and kept well above the stall.
const (
	apexOfEntry = 0.65
	apexOfStall = 1.25
)

// Nearest returns the card whose speeds come closest to those measured; nil without cards that give both.
func Nearest(all []*aircraft.Aircraft, r measure.Results) *aircraft.Aircraft {
	off := func(a *aircraft.Aircraft) float64 {
		if a.Entry == 0 || a.Stall == 0 || a.Ratio == 0 {
			return math.Inf(1)
		}
		apart := math.Abs(math.Log(r.Entry / a.Entry))
		if r.Stall > 0 {
			apart += math.Abs(math.Log(r.Stall / a.Stall))
		}
		return apart
	}
	if len(all) == 0 {
		return nil
	}
	best := slices.MinFunc(all, func(a, b *aircraft.Aircraft) int { return cmp.Compare(off(a), off(b)) })
	if math.IsInf(off(best), 1) {
		return nil
	}
	return best
}

// Guided writes the card of an aircraft that was measured together with its pilot, as TOML. What a flight does not show
// is taken from a card that is like it, scaled by the speeds; nil leaves it out. Results must have an entry speed.
func Guided(r measure.Results, name, title string, like *aircraft.Aircraft) string {
	var b strings.Builder
	for _, c := range coach.Cautions {
		fmt.Fprintf(&b, "# %s\n", c)
	}
	fmt.Fprintf(&b, "\nname = %q\ntitle = %q\nsource = %q\n", name, title, "measured in flight, in a simulator")
	if r.Stall > 0 {
		fmt.Fprintf(&b, "\n# %s\nstall = %.0f\n", map[measure.StallBy]string{
			measure.ByStall:   "At the stall, for 1 g.",
			measure.ByWarning: "At the stall warning, for 1 g: the stall itself is no faster.",
			measure.ByLowest:  "The slowest that was flown, for 1 g: the stall itself is no faster.",
		}[r.StallBy], r.Stall)
	} else {
		b.WriteString("\n# stall: not measured.\n")
	}
	b.WriteString("\n# The speed held in level flight, to enter maneuvers with.\n")
	fmt.Fprintf(&b, "entry = %.0f\n", r.Entry)
	apex := math.Min(math.Max(apexOfEntry*r.Entry, apexOfStall*r.Stall), 0.95*r.Entry)
	b.WriteString("# Common practice, no source: about two thirds of the entry speed, well above the stall.\n")
	fmt.Fprintf(&b, "apex = %.0f\n", apex)
	if power := power([]measure.Stretch{r.Steady}); power != "" {
		fmt.Fprintf(&b, "power = %q\n", power)
	}
	if like != nil {
		liken(&b, r, like)
	}
	return b.String()
}

// liken adds the numbers of a card that is like the aircraft.
func liken(b *strings.Builder, r measure.Results, like *aircraft.Aircraft) {
	fmt.Fprintf(b, "\n# As of the card %s, the one most like it; take better ones from the handbook.\n", like.Name)
	scale := r.Entry / like.Entry
	if r.Stall > 0 {
		scale = r.Stall / like.Stall
	}
	fmt.Fprintf(b, "glide = %.0f\nratio = %g\n", like.Glide*scale, like.Ratio)
	fmt.Fprintf(b, "never = %.0f\nload-max = %g\nload-min = %g\nbank-max = %g\n",
		math.Max(like.Never*r.Entry/like.Entry, r.Entry*1.2), like.LoadMax, like.LoadMin, like.BankMax)
	if like.Engine != "" {
		fmt.Fprintf(b, "engine = %q\n", like.Engine)
	}
	if like.Rotation != "" {
		fmt.Fprintf(b, "propeller = %q\n", like.Rotation)
	}
}
