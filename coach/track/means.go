package track

import (
	"sort"

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
	has := over.channels
	for i := newest; i < end; i++ {
		has &= r.has[r.slot(i)]
		w.Turned += r.Turned(i)
	}
	w.Turned /= n
	r.speeds(&w, newest, end)
	w.Sample.Magnetic = r.isMagnetic(newest)
	for c := range has.Without(stream.Track).All() {
		mean := r.sum(newest, end, c) / n
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
	newest = sort.Search(r.n, func(i int) bool { return r.Time(i) <= to })
	end = max(newest, r.Since(from-1e-9))
	return newest, end, end < r.n
}

// sum adds up a channel over some samples, the newest first.
func (r *Ring) sum(newest, end int, c stream.Channel) (sum float64) {
	column := r.columns[c]
	if column == nil {
		for i := newest; i < end; i++ {
			sum += r.Value(i, c)
		}
		return sum
	}
	for i := newest; i < end; i++ {
		sum += column[r.slot(i)]
	}
	return sum
}

// speeds finds the lowest and the highest airspeed of some samples.
func (r *Ring) speeds(w *Means, newest, end int) {
	for i := newest; i < end; i++ {
		if v, ok := r.Get(i, stream.Airspeed); ok {
			if i == newest {
				w.LowSpeed, w.HighSpeed = v, v
			}
			w.LowSpeed, w.HighSpeed = min(w.LowSpeed, v), max(w.HighSpeed, v)
		}
	}
}
