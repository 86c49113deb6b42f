package hub

import (
	"sync/atomic"
	"time"
)

// A pace bounds how often viewers get frames while the machine does not keep up. The zero value does not.
type pace struct{ least atomic.Int64 } // ns between two frames of a viewer

// gap is the least time between two frames of a viewer that has one of its own.
func (p *pace) gap(own time.Duration) time.Duration { return max(own, time.Duration(p.least.Load())) }

// SetFrameGap sets the least time between two frames that a viewer is sent; it is never less than the usual 20 ms, and
// 50 ms for a viewer of all stations. Events go at once whatever the gap.
func (h *Hub) SetFrameGap(least time.Duration) {
	h.pace.least.Store(int64(least))
	h.counts.gap.Set(h.pace.gap(frameGap).Seconds())
}
