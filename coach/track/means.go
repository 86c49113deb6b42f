package track

import (
	"math/bits"

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

// A stretch of the past, and the channels whose means are asked for.
type stretch struct {
	from, to float64 // s
	channels stream.Set
}

// everything is the set of all channels.
const everything = stream.Set(1<<stream.NumChannels - 1)

// Over returns the means from one time to another; full is false when the past does not reach back that far.
func (r *Ring) Over(from, to float64) (w Means, full bool) { return r.Means(from, to, everything) }

// Means is Over with only the bank and the channels asked for in the sample, which costs less.
func (r *Ring) Means(from, to float64, channels stream.Set) (w Means, full bool) {
	return r.means.find(r.added, stretch{from, to, channels.With(stream.Bank)}, r.meansOver)
}

// meansOver works out the means. Headings are averaged by way of the unwrapped turn.
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

// within returns which samples lie between two times, newest to the one before end; full tells whether there are older
// ones.
func (r *Ring) within(from, to float64) (newest, end int, full bool) {
	for newest < r.n && r.Time(newest) > to {
		newest++
	}
	end = max(newest, r.Since(from-1e-9))
	return newest, end, end < r.n
}

// sums are those of the channels.
type sums [stream.NumChannels]float64

// addUp adds up channels over some samples, the newest first, and returns which of them all samples have. It also adds
// up the turn, and finds the lowest and the highest airspeed.
func (r *Ring) addUp(w *Means, newest, end int, channels stream.Set) (sums sums, has stream.Set) {
	has = channels
	speeds := r.columns[stream.Airspeed]
	columns := channels & r.kept &^ stream.Flags
	for i := newest; i < end; i++ {
		k := r.slot(i)
		a := &r.attitude[k]
		has &= r.has[k]
		w.Turned += a.turned
		sums[stream.Time] += a.time
		sums[stream.Bank] += a.bank
		sums[stream.Pitch] += a.pitch
		for rest := columns; rest != 0; rest &= rest - 1 {
			c := bits.TrailingZeros64(uint64(rest))
			sums[c] += r.columns[c][k]
		}
		if !r.has[k].Has(stream.Airspeed) {
			continue
		}
		v := speeds[k]
		if i == newest {
			w.LowSpeed, w.HighSpeed = v, v
		}
		w.LowSpeed, w.HighSpeed = min(w.LowSpeed, v), max(w.HighSpeed, v)
	}
	for c := range (channels & r.kept & stream.Flags).All() {
		for i := newest; i < end; i++ {
			sums[c] += r.Value(i, c)
		}
	}
	return sums, has
}
