package track

import (
	"iter"
	"math"
	"slices"
)

// Clearing turns are counted in the flight between legs: 180° of heading, or two of 90° in
// opposite directions (CNATRA P-330 par. 1005; FAA AIM 4-4-15 asks for them before maneuvers and
// gives no angle). How long ago they may have been flown is common practice, no source.
const (
	ClearingDone = 160.0 // °, "about" 180: the roll-out may come a little early
	clearingAge  = 180.0 // s
	clearingStep = 5.0   // °, the least heading change that counts as turning
	clearingTurn = 45.0  // °, the least turn to one side that is a clearing turn
)

// Clearing keeps the turning of the last minutes in steps. It is bounded. The zero value is ready for use.
type Clearing struct {
	steps    []turning // the oldest first
	at       float64   // unwrapped heading up to which it was counted
	begun    bool
	since    float64 // stream time from which on the flight was followed, s
	followed bool
}

// Cleared is what was flown to clear the area before a leg.
type Cleared struct {
	Known  bool    // the flight was followed long enough to tell
	Turned float64 // ° of the 180
	Bank   float64 // °, the steepest bank of the shallowest clearing turn; 0 when there was none
	Last   float64 // ° of the last clearing turn, right positive; 0 when there was none
}

// A turning is a step of heading, ° to the right, with the stream time (s) and the bank (°) at its end.
type turning struct{ time, turn, bank float64 }

// mostSteps bounds the steps: a turn at 7°/s makes fewer in clearingAge.
const mostSteps = 256

// Clear forgets all turns.
func (k *Clearing) Clear() { *k = Clearing{} }

// Add notes the unwrapped heading and the bank at a time.
func (k *Clearing) Add(now, turned, bank float64) {
	if !k.followed {
		k.since, k.followed = now, true
	}
	if !k.begun {
		k.at, k.begun = turned, true
	}
	d := turned - k.at
	if math.Abs(d) < clearingStep {
		return
	}
	k.at = turned
	old := max(0, len(k.steps)+1-mostSteps)
	for old < len(k.steps) && now-k.steps[old].time > clearingAge {
		old++
	}
	k.steps = append(slices.Delete(k.steps, 0, old), turning{now, d, math.Abs(bank)})
}

// Skip leaves out the turning of a leg.
func (k *Clearing) Skip() { k.begun = false }

// Turned returns how much of the 180° of clearing turns was flown in the last minutes, °.
func (k *Clearing) Turned(now float64) float64 {
	var right, left float64
	for s := range k.before(now) {
		right, left = right+max(0, s.turn), left+max(0, -s.turn)
	}
	return max(max(right, left), 2*min(right, left))
}

// Before returns what was flown in the minutes before a leg that began at a time (s).
func (k *Clearing) Before(start float64) Cleared {
	c := Cleared{Turned: k.Turned(start)}
	c.Known = c.Turned >= ClearingDone || k.followed && start-k.since >= clearingAge
	var turn, bank float64 // of the turn to one side that is being gone through backward
	count := func() {
		if math.Abs(turn) < clearingTurn {
			return
		}
		if c.Last == 0 {
			c.Last, c.Bank = turn, bank
		}
		c.Bank = min(c.Bank, bank)
	}
	for s := range k.before(start) {
		if s.turn*turn < 0 {
			count()
			turn, bank = 0, 0
		}
		turn, bank = turn+s.turn, max(bank, s.bank)
	}
	count()
	return c
}

// before ranges over the steps of the minutes before a time, the latest first.
func (k *Clearing) before(to float64) iter.Seq[*turning] {
	return func(yield func(*turning) bool) {
		for i := len(k.steps) - 1; i >= 0; i-- {
			s := &k.steps[i]
			if to-s.time > clearingAge || s.time <= to && !yield(s) {
				return
			}
		}
	}
}
