package track

import (
	"halfturn/stream"
)

// Means are the means over a stretch of the past.
type Means struct {
	N                   int // samples in it
	Bank, Turned        float64
	TurnRate            float64 // °/s, over the ends
	LowSpeed, HighSpeed float64 // kt
	Sample              stream.Sample
}

// A stretch asks for the means of some channels over a part of the past.
type stretch struct {
	from, to float64 // s
	channels stream.Set
}

// everything is the set of all channels.
const everything = stream.Set(1<<stream.NumChannels - 1)

// Over returns the means between two stream times (s); full is false when the past does not reach back that far. They
// are valid until four other means were asked for.
func (r *Ring) Over(from, to float64) (w *Means, full bool) { return r.Means(from, to, everything) }

// Means is Over for the bank and some channels only, which costs less.
func (r *Ring) Means(from, to float64, channels stream.Set) (w *Means, full bool) {
	over := stretch{from, to, channels.With(stream.Bank)}
	k, known := r.means.find(r.added, over)
	if !known {
		k.answer, k.full = r.meansOver(over)
	}
	return &k.answer, k.full
}

// meansOver computes the means. Headings are averaged as unwrapped turn.
func (r *Ring) meansOver(over stretch) (w Means, full bool) {
	newest, end, full := r.within(over.from, over.to)
	if w.N = end - newest; w.N == 0 {
		return w, false
	}
	oldest, n := end-1, float64(w.N)
	sums, has := r.addUp(&w, newest, end, over.channels)
	w.Turned /= n
	w.Sample.Magnetic = r.isMagnetic(newest)
	for c := range has.Without(stream.Track).All() {
		mean := sums[c] / n
		if c == stream.Heading {
			mean = r.Value(newest, c) + w.Turned - r.Turned(newest)
		}
		w.Sample.Put(c, mean)
	}
	w.Bank = w.Sample.Value(stream.Bank)
	if dt := r.Time(newest) - r.Time(oldest); dt > 0.1 {
		w.TurnRate = (r.Turned(newest) - r.Turned(oldest)) / dt
	}
	return w, full
}

// within returns the samples between two times: from number newest up to, not including, end. full is true when there
// are older ones.
func (r *Ring) within(from, to float64) (newest, end int, full bool) {
	for newest < r.n && r.Time(newest) > to {
		newest++
	}
	end = max(newest, r.Since(from-1e-9))
	return newest, end, end < r.n
}

// sums holds one sum per channel.
type sums [stream.NumChannels]float64

// addUp sums channels over some samples, the newest first, and returns which channels all of the samples have. It also
// sums the turn, and finds the lowest and highest airspeed.
func (r *Ring) addUp(w *Means, newest, end int, channels stream.Set) (sums sums, has stream.Set) {
	has = channels
	speed := r.place[stream.Airspeed] - 1
	var summed [stream.NumChannels]int // places in a row
	columns := summed[:0]
	for at, c := range r.order {
		if channels.Has(c) {
			columns = append(columns, at)
		}
	}
	var added [stream.NumChannels]float64
	for i := newest; i < end; i++ {
		k := r.slot(i)
		a := &r.attitude[k]
		has &= r.marks[k].has
		w.Turned += a.turned
		sums[stream.Time] += a.time
		sums[stream.Bank] += a.bank
		sums[stream.Pitch] += a.pitch
		row := r.rows[k*r.width:][:r.width]
		for n, at := range columns {
			added[n] += row[at]
		}
		if !r.marks[k].has.Has(stream.Airspeed) {
			continue
		}
		v := row[speed]
		if i == newest {
			w.LowSpeed, w.HighSpeed = v, v
		}
		w.LowSpeed, w.HighSpeed = min(w.LowSpeed, v), max(w.HighSpeed, v)
	}
	for n, at := range columns {
		sums[r.order[at]] = added[n]
	}
	for c := range (channels & stream.Flags).All() {
		for i := newest; i < end; i++ {
			sums[c] += r.Value(i, c)
		}
	}
	return sums, has
}
