package aircraft

import (
	"maps"
	"math"
	"slices"

	"halfturn/coach/valid"
)

// categories are those of 14 CFR 23.3 as it was until 2017, which existing types keep, with the least limit load of
// 14 CFR 23.337(a) (from memory; part 23 appendix A has the same numbers). Turns steeper than 60° need the utility
// category, steeper than 90° the acrobatic.
var categories = map[string]struct {
	bank float64 // °, the steepest turn; 0 is no limit
	load float64 // g
}{
	"normal":    {bank: 60, load: 3.8},
	"utility":   {bank: 90, load: 4.4},
	"acrobatic": {load: 6},
}

// heavyNormal returns the least limit load of the normal category at a weight, lb: 2.1 + 24,000/(W + 10,000), at most
// 3.8 g. Source: 14 CFR 23.337(a).
func heavyNormal(weight float64) float64 { return math.Min(3.8, 2.1+24000/(weight+10000)) }

// ManeuveringLimit returns the highest speed from which a full pull stalls the wing before it passes the limit load,
// kt: the stall speed times the root of the limit load, and no more than the published maneuvering speed, which falls
// with the root of the weight. It is 0 when the card does not tell.
// Source: 14 CFR 25.335(c) and 23.1507; V2 = V1·√(W2/W1) is common knowledge (a handbook's 105 kt at 2,300 lb are 95.4
// at 1,900).
func (a *Aircraft) ManeuveringLimit() float64 {
	limit := a.published()
	if corner := a.corner(); corner > 0 && (limit == 0 || corner < limit) {
		return corner
	}
	return limit
}

// corner is where stall and limit load meet, kt; 0 when not known.
func (a *Aircraft) corner() float64 { return a.Stall * math.Sqrt(math.Max(0, a.LoadMax)) }

// published is the published maneuvering speed at the weight flown, kt; 0 when not known.
func (a *Aircraft) published() float64 {
	if a.Weight > 0 && a.MaxWeight > 0 {
		return a.Maneuvering * math.Sqrt(a.Weight/a.MaxWeight)
	}
	return a.Maneuvering
}

// How far the numbers of a card may be apart. Common practice, no source: published speeds are rounded, and indicated
// ones differ from calibrated ones by some knots.
const (
	speedSlack  = 0.5  // kt
	speedSpread = 0.1  // share between the published maneuvering speed and the one that follows
	leastEntry  = 1.25 // times the stall speed: at 50° of bank the airplane stalls at √(1/cos 50°) = 1.247 times it
)

// agrees checks that the numbers of a card do not contradict each other.
func (a *Aircraft) agrees(v *valid.Validator) {
	if a.Weight > a.MaxWeight && a.MaxWeight > 0 {
		v.Fail("weight", "is %g; must be at most the max-weight of %g", a.Weight, a.MaxWeight)
	}
	a.agreesWithCategory(v)
	if corner, va := a.corner(), a.published(); corner > 0 && va > 0 && math.Abs(va/corner-1) > speedSpread {
		v.Fail("maneuvering", "gives %.0f kt; must be about %.0f kt, the stall speed of %g kt times the root of %g g",
			va, corner, a.Stall, a.LoadMax)
	}
	if a.Glide > 0 && a.Glide <= a.Stall {
		v.Fail("glide", "is %g kt; must be above the stall speed of %g kt", a.Glide, a.Stall)
	}
	a.agreesAt(v, "", a)
	for _, name := range slices.Sorted(maps.Keys(a.Speeds)) {
		if s := a.Speeds[name]; s != (Speeds{}) {
			b := a.For(name)
			a.agreesAt(v, "maneuver."+name+".", &b)
		}
	}
}

func (a *Aircraft) agreesWithCategory(v *valid.Validator) {
	c, known := categories[a.Category]
	if !known {
		return
	}
	least := c.load
	if a.Category == "normal" && a.Weight > 0 {
		least = heavyNormal(max(a.Weight, a.MaxWeight))
	}
	if a.LoadMax > 0 && a.LoadMax < least-0.005 {
		v.Fail("load-max", "is %g g; must be at least %.2f g in the %s category", a.LoadMax, least, a.Category)
	}
	if c.bank > 0 && a.BankMax > c.bank {
		v.Fail("bank-max", "is %g°; must be at most %g° in the %s category", a.BankMax, c.bank, a.Category)
	}
}

// agreesAt checks the speeds of the card, or those of one maneuver, whose keys begin with at.
func (a *Aircraft) agreesAt(v *valid.Validator, at string, b *Aircraft) {
	if limit := b.ManeuveringLimit(); limit > 0 && b.Entry > limit+speedSlack {
		if corner := b.corner(); corner > 0 && corner <= limit {
			v.Fail(at+"entry", "is %g kt; must be at most %.1f kt, the stall speed of %g kt times the root of %g g",
				b.Entry, limit, b.Stall, b.LoadMax)
		} else {
			v.Fail(at+"entry", "is %g kt; must be at most %.1f kt, the maneuvering speed at the weight flown",
				b.Entry, limit)
		}
	}
	if least := leastEntry * b.Stall; b.Entry > 0 && b.Entry < least-speedSlack {
		v.Fail(at+"entry", "is %g kt; must be at least %.0f kt, %g times the stall speed of %g kt",
			b.Entry, least, leastEntry, b.Stall)
	}
	if b.Apex > 0 && b.Apex < b.Stall {
		v.Fail(at+"apex", "is %g kt; must not be below the stall speed of %g kt", b.Apex, b.Stall)
	}
	if b.Never > 0 && b.Entry > b.Never {
		v.Fail(at+"entry", "is %g kt; must be at most the never-exceed speed of %g kt", b.Entry, b.Never)
	}
}
