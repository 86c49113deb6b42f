package kinds

import (
	"math"

	"halfturn/coach/check"
)

// rollIn finds where the roll-in begins: where the bank leaves that of the entry for good. A leg may begin earlier,
// with a pull while the wings are level.
type rollIn struct {
	level float64 // °, the bank of the entry; 0 where that is away from the turn
	since float64 // s, the last moment at that bank; NaN before the first
	begun bool    // the bank has left it for good
}

// How far beyond the bank of the entry still counts as that bank, and from where it has been left for good, °. Common
// practice, no source.
const (
	rollSlack = 0.5
	rollSure  = 8.0
)

func newRollIn(f *check.Facts) rollIn {
	level, _ := check.Read("bank", f)(&f.Entry)
	return rollIn{level: math.Max(0, level), since: math.NaN()}
}

// step takes the bank at a time.
func (r *rollIn) step(bank, now float64) {
	switch {
	case math.IsNaN(r.since), !r.begun && bank <= r.level+rollSlack:
		r.since = now
	case bank >= r.level+rollSure:
		r.begun = true
	}
}

// from returns the later of a time and the roll-in, s.
func (r *rollIn) from(t float64) float64 {
	if r.begun && r.since > t {
		return r.since
	}
	return t
}
