package track

import (
	"math"
	"slices"
)

// Clearing turns are counted in the flight between legs: 180° of heading, or two of 90° in
// opposite directions (CNATRA P-330 par. 1005; FAA AIM 4-4-15 asks for them before maneuvers and
// gives no angle). How old they may be is common practice, no source.
const (
	ClearingDone = 160.0 // °, "about" 180: the roll-out may come a little early
	clearingAge  = 180.0 // s
	clearingStep = 5.0   // ° of heading that count as turning; less is wandering
)

// Clearing keeps the turning of the last minutes in steps. It is bounded. The zero value is ready for use.
type Clearing struct {
	steps []turning // the oldest first
	at    float64   // unwrapped heading up to which it was counted
	begun bool
}

// A turning is a step of heading, ° to the right, and the stream time at its end, s.
type turning struct{ time, turn float64 }

// mostSteps are more than a turn at 7°/s makes in the time that counts.
const mostSteps = 256

// Clear forgets all turns.
func (k *Clearing) Clear() { *k = Clearing{} }

// Add notes the unwrapped heading at a time.
func (k *Clearing) Add(now, turned float64) {
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
	k.steps = append(slices.Delete(k.steps, 0, old), turning{now, d})
}

// Skip passes over the turning of a leg.
func (k *Clearing) Skip() { k.begun = false }

// Turned returns how much of the 180° of clearing turns was flown in the last minutes, °.
func (k *Clearing) Turned(now float64) float64 {
	var right, left float64
	for _, s := range slices.Backward(k.steps) {
		if now-s.time > clearingAge {
			break
		}
		right, left = right+max(0, s.turn), left+max(0, -s.turn)
	}
	return max(max(right, left), 2*min(right, left))
}
