package kinds

import (
	"math"

	"halfturn/coach/check"
)

const rollOutSays = "turn angle where the roll-out starts: change point of the bank rate"

var rollOutAngleKind = &check.Kind{
	Name:   "roll-out-angle",
	Says:   rollOutSays,
	Needs:  []string{"from", "to"},
	Allows: []string{},
	Valid:  anything,
	Where:  as(rollOutSays),
	Unit:   in("°"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return newRollOutAngle(s, f)
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.Angle,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// rollOutAngle measures the turn angle where the roll-out starts: the change point of the bank
// rate. Up to it the bank is held, from it on it comes off at one rate; so bank over time is a
// level line and then one that falls, and of all such pairs of lines that meet in a degree of
// turn the one with the least squared error is taken.
//
// The lines are laid through the bank, not through its rate: a step in the rate is a bend in
// the bank, and turbulence, which shakes the rate but hardly moves the bank, is averaged out by
// all degrees of both lines. They reach from where the bank first came within 15 % of its steepest to
// where it last stood at 80 % of it: the rest of the roll-in and the leveling belong to
// neither line.
type rollOutAngle struct{ timed }

const (
	heldBank  = 0.85 // of the steepest, where the level line begins
	goingBank = 0.80 // of the steepest, where the falling line ends
)

func newRollOutAngle(spec *check.Spec, f *check.Facts) *rollOutAngle {
	return &rollOutAngle{timed: newTimed(withChannel(spec, "bank"), f)}
}

func (r *rollOutAngle) Measure(*check.Moment) check.Measure {
	at, v, t := r.course()
	if len(v) < 3 {
		return r.nothing()
	}
	peak := top(v, 1)
	first, last := peak, len(v)-1
	for first > 0 && v[first-1] >= heldBank*v[peak] {
		first--
	}
	for last > peak && v[last] < goingBank*v[peak] {
		last--
	}
	turn := at[first+changePoint(t[first:last+1], v[first:last+1])]
	return check.Found(turn, turn)
}

// changePoint returns the place where v ceases to be level and begins to fall: that of the
// least-squares fit of v = a + b·max(t − t[place], 0) with the smallest error, b < 0. The last
// place when v nowhere falls.
func changePoint(t, v []float64) int {
	best, least := len(v)-1, math.Inf(1)
	for place := range v[:len(v)-1] {
		n := float64(len(v))
		var sx, sxx, sy, sxy, syy float64
		for i := range v {
			x := math.Max(t[i]-t[place], 0)
			y := v[i] - v[0]
			sx += x
			sxx += x * x
			sy += y
			sxy += x * y
			syy += y * y
		}
		spread := n*sxx - sx*sx
		slope := (n*sxy - sx*sy) / spread
		if !(spread > 0 && slope < 0) {
			continue
		}
		if e := syy - (sy-slope*sx)/n*sy - slope*sxy; e < least {
			best, least = place, e
		}
	}
	return best
}

func withChannel(spec *check.Spec, name string) *check.Spec {
	c := *spec
	c.Channel = name
	return &c
}
