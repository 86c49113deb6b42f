package track

import "halfturn/stream"

// The ring keeps the last half minute, thinned to at most 40 samples a second: enough to look back for where a slow
// roll-in began.
const (
	ringSize    = 1024  // a power of two
	ringSpacing = 0.024 // s
)

// Past is a sample with its unwrapped heading.
type Past struct {
	Sample stream.Sample
	Turned float64 // ° of heading since the stream began
}

// Time returns the stream time of the sample, s.
func (p *Past) Time() float64 { return p.Sample.Value(stream.Time) }

// attitude is what is asked of the past most often, kept apart so that it lies close together in memory.
type attitude struct{ time, turned, bank, pitch float64 }

// A Ring keeps the recent past of a station. It is bounded, and allocates nothing.
type Ring struct {
	entries  [ringSize]Past
	attitude [ringSize]attitude
	next, n  int
	added    uint64 // samples kept so far: what was worked out before the last of them is out of date
	rates    [4]cachedRates
	oldest   int // of the rates kept
}

func (r *Ring) clear() {
	r.next, r.n = 0, 0
	r.added++
}

// add keeps a sample unless it follows the one before too closely.
func (r *Ring) add(s *stream.Sample, turned float64) {
	now := s.Value(stream.Time)
	if r.n > 0 && now-r.attitudeBack(0).time < ringSpacing {
		return
	}
	e := &r.entries[r.next]
	e.Sample, e.Turned = *s, turned
	r.attitude[r.next] = attitude{now, turned, s.Value(stream.Bank), s.Value(stream.Pitch)}
	r.next = (r.next + 1) % ringSize
	r.n = min(r.n+1, ringSize)
	r.added++
}

// Len returns how many samples are kept.
func (r *Ring) Len() int { return r.n }

// Back returns the i-th sample counted back from the newest.
func (r *Ring) Back(i int) *Past { return &r.entries[(r.next-1-i)&(ringSize-1)] }

func (r *Ring) attitudeBack(i int) *attitude { return &r.attitude[(r.next-1-i)&(ringSize-1)] }

// older returns the first index, from i on, of a sample not after a time; the last when there is none.
func (r *Ring) older(i int, t float64) int {
	for i < r.n-1 && r.attitudeBack(i).time > t {
		i++
	}
	return i
}

// At returns the newest sample not after a time; the oldest when there is none.
func (r *Ring) At(t float64) *Past { return r.Back(r.older(0, t)) }

// TurnedAt returns the unwrapped heading at a time.
func (r *Ring) TurnedAt(t float64) float64 { return r.attitudeBack(r.older(0, t)).turned }
