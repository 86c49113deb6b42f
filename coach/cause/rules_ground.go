package cause

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// isAbout reports whether a maneuver is flown about a point at one distance.
func isAbout(c *maneuver.Card) bool { return c != nil && c.Ground.About == maneuver.Center }

// holdsPylon reports whether a point on the ground is kept on the wing.
func holdsPylon(c *maneuver.Card) bool { return c != nil && c.Ground.About == maneuver.Pylon }

func isNotPylon(c *maneuver.Card) bool { return !holdsPylon(c) }

// grounds are faults of what is flown about a point on the ground. That the bank must follow the wind, and how height
// and pylon go together, is from FAA-H-8083-3C p. 10-4 and 7-15 to 7-18.
var grounds = []rule{
	{
		id:       "bank-constant",
		meaning:  "Bank not varied for the wind: the distance from the point changed.",
		in:       isAbout,
		on:       []string{"radius-held"},
		when:     windy,
		evidence: windWas,
		say:      phrase.ChangeVaryBankForTheWind,
		advice:   phrase.CorrectBankConstant,
	},
	{
		id:      "distance-wanders",
		meaning: "The distance from the point changed.",
		in:      isAbout,
		on:      []string{"radius-held"},
		when:    func(f *ledger) bool { return !windy(f) },
		say:     phrase.ChangeKeepOneDistance,
		advice:  phrase.CorrectDistanceWanders,
	},
	{
		id:      "airspeed-wanders",
		meaning: "The airspeed went up and down.",
		on:      []string{"+fastest", "-slowest"},
		drags:   []string{"radius-held", "-stall-margin"},
		when:    bothWays,
		say:     phrase.ChangeHoldTheAirspeed,
		advice:  phrase.CorrectAirspeedWanders,
	},
	{
		id:      "airspeed-fast",
		meaning: "Faster than at the entry.",
		on:      []string{"+fastest"},
		drags:   []string{"radius-held"},
		when:    func(f *ledger) bool { return !bothWays(f) },
		say:     phrase.ChangeRaiseTheNoseALittle,
		advice:  phrase.CorrectAirspeedFast,
	},
	{
		id:      "airspeed-slow",
		meaning: "Slower than at the entry.",
		on:      []string{"-slowest"},
		drags:   []string{"radius-held", "-stall-margin"},
		when:    func(f *ledger) bool { return !bothWays(f) },
		say:     phrase.ChangeLowerTheNoseALittle,
		advice:  phrase.CorrectAirspeedSlow,
	},
	{
		id:      "too-few-turns",
		meaning: "Fewer turns than the maneuver has.",
		on:      []string{"-turns-flown"},
		when:    func(f *ledger) bool { return finished(f) && !f.off("-exit-heading") },
		say:     phrase.ChangeFlyThreeWholeTurns,
		advice:  phrase.CorrectTooFewTurns,
	},
	{
		id:      "power-not-idle",
		meaning: "Power carried where it is to be at idle.",
		on:      []string{"+power-idle"},
		say:     phrase.ChangePowerAtIdle,
		advice:  phrase.CorrectPowerNotIdle,
	},
	{
		id:       "altitude-constant",
		meaning:  "Height kept where it is to follow the ground speed.",
		in:       holdsPylon,
		on:       []string{"off-pivotal", "pylon-held"},
		drags:    []string{"+steepest-bank"},
		when:     keptHeight,
		evidence: wentBy,
		say:      phrase.ChangeFollowPivotalAltitude,
		advice:   phrase.CorrectAltitudeConstant,
	},
	{
		id:      "altitude-high",
		meaning: "Above the pivotal altitude: the pylon moved ahead.",
		in:      holdsPylon,
		on:      []string{"+off-pivotal"},
		own:     []string{"pylon-held"},
		drags:   []string{"+steepest-bank"},
		when:    func(f *ledger) bool { return !keptHeight(f) && !f.off("+first-bank") },
		say:     phrase.ChangeFlyLower,
		advice:  phrase.CorrectAltitudeHigh,
	},
	{
		id:      "altitude-low",
		meaning: "Below the pivotal altitude: the pylon fell behind.",
		in:      holdsPylon,
		on:      []string{"-off-pivotal"},
		own:     []string{"pylon-held"},
		when:    func(f *ledger) bool { return !keptHeight(f) },
		say:     phrase.ChangeFlyHigher,
		advice:  phrase.CorrectAltitudeLow,
	},
	{
		id:      "bank-too-steep",
		meaning: "Too close to the pylon: too much bank from the start.",
		in:      holdsPylon,
		on:      []string{"+first-bank", "+steepest-bank"},
		drags:   []string{"pylon-held", "off-pivotal"},
		when:    func(f *ledger) bool { return f.off("+first-bank") || !f.off("off-pivotal") && !keptHeight(f) },
		say:     phrase.ChangeFartherFromThePylon,
		advice:  phrase.CorrectPylonTooClose,
	},
	{
		id:       "out-of-wind",
		meaning:  "Turn not begun into the wind.",
		in:       holdsPylon,
		on:       []string{"-into-wind"},
		evidence: windOutOf,
		say:      phrase.ChangeTurnIntoTheWind,
		advice:   phrase.CorrectTurnedOutOfWind,
	},
	{
		id:      "rolled-in-before-pylon",
		meaning: "Bank not timed to the pylon: rolled in before it.",
		in:      holdsPylon,
		on:      []string{"+roll-in-timed"},
		say:     phrase.ChangeRollInLater,
		advice:  phrase.CorrectRolledInBefore,
	},
	{
		id:      "rolled-in-after-pylon",
		meaning: "Bank not timed to the pylon: rolled in after it.",
		in:      holdsPylon,
		on:      []string{"-roll-in-timed"},
		say:     phrase.ChangeRollInEarlier,
		advice:  phrase.CorrectRolledInAfter,
	},
	{
		id:      "pylon-wanders",
		meaning: "The pylon did not stay on the wing.",
		in:      holdsPylon,
		on:      []string{"pylon-held"},
		when:    func(f *ledger) bool { return !f.off("off-pivotal") && !f.off("+first-bank") && !keptHeight(f) },
		say:     phrase.ChangeKeepThePylonOnTheWing,
		advice:  phrase.CorrectPylonWanders,
	},
}

// leastWind is the wind from which the bank must follow it to keep a distance, kt (common practice, no source).
const leastWind = 3.0

// windy reports whether there was a wind to correct for.
func windy(f *ledger) bool {
	return f.leg != nil && f.leg.About != nil && f.leg.About.Wind != nil && f.leg.About.Wind.Speed >= leastWind
}

// windWas says which wind it was.
func windWas(f *ledger) phrase.Phrase {
	if !windy(f) {
		return phrase.Phrase{}
	}
	w := f.leg.About.Wind
	return phrase.WindWas.Of(phrase.Number("speed", w.Speed, 0, "kt"), phrase.Number("from", w.From, 0, "°"))
}

// windOutOf says how much wind came from the other side than that of the turn.
func windOutOf(f *ledger) phrase.Phrase {
	k := f.checks["into-wind"]
	if k == nil || k.Value == nil {
		return phrase.Phrase{}
	}
	return phrase.WindOutOf.Of(phrase.Number("speed", -*k.Value, 0, "kt"))
}

// across returns the most wind that came across the line on which a later leg of a series was begun, kt.
func across(f *ledger) (kt float64) {
	if f.series == nil {
		return 0
	}
	for i := range f.series.Legs {
		for _, k := range f.series.Legs[i].Checks {
			if i > 0 && k.ID == "into-wind" && k.Value != nil {
				kt = math.Max(kt, math.Abs(*k.Value))
			}
		}
	}
	return kt
}

// drifting reports whether there was a wind to allow for between the pylons, and no pylon was too close of itself.
func drifting(f *ledger) bool { return across(f) >= leastWind && !tooClose(f) }

// tooClose reports whether a leg of a series was begun too close to its pylon, which that leg says.
func tooClose(f *ledger) bool {
	if f.series == nil {
		return false
	}
	for i := range f.series.Legs {
		for _, k := range f.series.Legs[i].Checks {
			if k.ID == "first-bank" && (k.Verdict == coach.Missed || k.Verdict == coach.Near) {
				return true
			}
		}
	}
	return false
}

// driftWas says how much that was.
func driftWas(f *ledger) phrase.Phrase {
	return phrase.DriftWas.Of(phrase.Number("speed", across(f), 0, "kt"))
}

// bothWays reports whether the airspeed was off to both sides.
func bothWays(f *ledger) bool { return f.off("+fastest") && f.off("-slowest") }

// A height is constant where it moves by less than a share of what the pivotal altitude does, and that moves by more
// than hands make of it, ft (common practice, no source; proved on recorded flights).
const (
	leastPivotal  = 130.0
	mostOfPivotal = 0.3
)

// keptHeight reports whether the height stayed the same while the pivotal altitude moved.
func keptHeight(f *ledger) bool {
	height, pivotal, ok := f.moved()
	return ok && pivotal >= leastPivotal && height < mostOfPivotal*pivotal
}

// moved returns by how much height and pivotal altitude moved, ft.
func (f *ledger) moved() (height, pivotal float64, ok bool) {
	h, p := f.checks["height-moved"], f.checks["pivotal-moved"]
	if h == nil || p == nil {
		return 0, 0, false
	}
	return math.Abs(*h.Value), math.Abs(*p.Value), true
}

// wentBy says how height and pivotal altitude moved.
func wentBy(f *ledger) phrase.Phrase {
	height, pivotal, ok := f.moved()
	if !ok {
		return phrase.Phrase{}
	}
	return phrase.WentBy.Of(phrase.Number("pivotal", pivotal, 0, "ft"), phrase.Number("height", height, 0, "ft"))
}
