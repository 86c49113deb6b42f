package track

import (
	"sort"

	"halfturn/stream"
)

// The ring keeps the last 20 seconds at least, thinned to about 40 samples per second; 26 seconds of a stream of 30 or
// 60 samples. A leg commits itself within a few seconds of its roll-in, and its nose leaves level at most lookBack
// before that. A roll-in that takes longer begins at the oldest sample.
const (
	ringSize    = 800
	ringSpacing = 0.024 // s
)

// attitude holds what is read most often, together in memory.
type attitude struct{ time, turned, bank, pitch float64 }

// inAttitude lists the channels that an attitude holds.
const inAttitude = stream.Set(1<<stream.Time | 1<<stream.Bank | 1<<stream.Pitch)

// marks say of a sample what is in it. raised are the flags that are set; among them is, as if it were a channel,
// whether the heading is magnetic.
type marks struct{ has, raised stream.Set }

const magnetic = stream.NumChannels

var _ [63 - stream.NumChannels]struct{} // a set has room for it

func marksOf(s *stream.Sample) marks {
	m := marks{s.Has, s.Raised()}
	if s.Magnetic {
		m.raised = m.raised.With(magnetic)
	}
	return m
}

// A Ring keeps the recent past of a station in bounded memory; a channel takes room from the first sample that has it.
// Samples are numbered back from the newest, which is 0. The values of a sample lie together: where there are many
// stations, their past is in no cache when the next sample is added, and each place apart costs a wait for memory.
type Ring struct {
	attitude [ringSize]attitude
	marks    [ringSize]marks
	rows     []float64               // ringSize of them, of width values each; 0 where one is missing
	place    [stream.NumChannels]int // of a channel in its row, from 1; 0: not seen yet, in attitude, or a flag
	order    []stream.Channel        // the channels of a row
	width    int
	kept     stream.Set // channels that have a place
	next, n  int

	added uint64 // samples kept so far; cached answers are of one such number
	rates recent[float64, Rates]
	means recent[stretch, Means]
}

func (r *Ring) clear() {
	r.next, r.n = 0, 0
	r.added++
}

// add keeps a sample unless it follows the previous one too closely.
func (r *Ring) add(s *stream.Sample, turned float64) {
	now := s.Value(stream.Time)
	if r.n > 0 && now-r.attitudeBack(0).time < ringSpacing {
		return
	}
	r.attitude[r.next] = attitude{now, turned, s.Value(stream.Bank), s.Value(stream.Pitch)}
	r.marks[r.next] = marksOf(s)
	if fresh := s.Has &^ inAttitude &^ stream.Flags &^ r.kept; fresh != 0 {
		r.widen(fresh)
	}
	row := r.rows[r.next*r.width:][:r.width]
	for i, c := range r.order {
		row[i] = s.Value(c)
	}
	r.next = (r.next + 1) % ringSize
	r.n = min(r.n+1, ringSize)
	r.added++
}

// widen makes room for channels that were not seen before.
func (r *Ring) widen(fresh stream.Set) {
	was := r.width
	for c := range fresh.All() {
		r.order = append(r.order, c)
		r.width++
		r.place[c] = r.width
	}
	rows := make([]float64, ringSize*r.width)
	for k := range ringSize {
		copy(rows[k*r.width:], r.rows[k*was:][:was])
	}
	r.rows = rows
	r.kept |= fresh
}

// Len returns how many samples are kept.
func (r *Ring) Len() int { return r.n }

// slot returns the index at which the i-th sample is kept.
func (r *Ring) slot(i int) int {
	k := r.next - 1 - i
	if k < 0 {
		k += ringSize
	}
	return k
}

func (r *Ring) attitudeBack(i int) *attitude { return &r.attitude[r.slot(i)] }

// Time returns the stream time of the i-th sample, s.
func (r *Ring) Time(i int) float64 { return r.attitudeBack(i).time }

// Turned returns the unwrapped heading of the i-th sample, °.
func (r *Ring) Turned(i int) float64 { return r.attitudeBack(i).turned }

// Value returns a channel of the i-th sample, 0 when the sample lacks it.
func (r *Ring) Value(i int, c stream.Channel) float64 {
	a := r.attitudeBack(i)
	switch c {
	case stream.Time:
		return a.time
	case stream.Bank:
		return a.bank
	case stream.Pitch:
		return a.pitch
	}
	if p := r.place[c]; p > 0 {
		return r.rows[r.slot(i)*r.width+p-1]
	}
	if r.marks[r.slot(i)].raised.Has(c) {
		return 1
	}
	return 0
}

// Get returns a channel of the i-th sample, and whether the sample has it.
func (r *Ring) Get(i int, c stream.Channel) (float64, bool) {
	return r.Value(i, c), r.marks[r.slot(i)].has.Has(c)
}

func (r *Ring) isMagnetic(i int) bool { return r.marks[r.slot(i)].raised.Has(magnetic) }

// Holds reports whether the newest sample has all of some channels.
func (r *Ring) Holds(channels stream.Set) bool { return r.marks[r.slot(0)].has&channels == channels }

// Sample writes the i-th sample into s, without the information which channels were derived.
func (r *Ring) Sample(i int, s *stream.Sample) {
	k := r.slot(i)
	a, has := &r.attitude[k], r.marks[k].has
	*s = stream.Sample{Magnetic: r.isMagnetic(i)}
	s.Restore(stream.Time, a.time)
	s.Restore(stream.Bank, a.bank)
	s.Restore(stream.Pitch, a.pitch)
	for c := range (has &^ inAttitude &^ stream.Flags).All() {
		s.Restore(c, r.rows[k*r.width+r.place[c]-1])
	}
	for c := range (has & stream.Flags).All() {
		s.Restore(c, r.Value(i, c))
	}
}

// older returns the number of the first sample, from the i-th back, that is not after a time; that of the oldest when
// there is none.
func (r *Ring) older(i int, t float64) int {
	for i < r.n-1 && r.attitudeBack(i).time > t {
		i++
	}
	return i
}

// Since returns how many samples are at or after a time.
func (r *Ring) Since(t float64) int {
	return sort.Search(r.n, func(i int) bool { return r.Time(i) < t })
}

// At returns the number of the newest sample not after a time; that of the oldest when there is none.
func (r *Ring) At(t float64) int { return r.older(0, t) }

// TurnedAt returns the unwrapped heading at a time.
func (r *Ring) TurnedAt(t float64) float64 { return r.Turned(r.At(t)) }
