package kinds

import (
	"math"

	"halfturn/coach/check"
)

// rollIn finds where the roll-in begins: where the bank leaves the one of the entry for good. A leg may begin earlier,
// with a pull that leaves the wings level.
type rollIn struct {
	level float64 // °: of the entry, or level
	since float64 // s, the last moment at it; NaN before the first
	begun bool    // it has been left for good
}

// What counts as the bank of the entry, and as having left it for good, ° of bank beyond (common practice, no source).
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

// from returns where the turn begins: a time, or the roll-in where that comes later.
func (r *rollIn) from(t float64) float64 {
	if r.begun && r.since > t {
		return r.since
	}
	return t
}
