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

// everything is the set of all channels.
const everything = stream.Set(1<<stream.NumChannels - 1)

// Over returns the means from one time to another; full is false when the past does not reach back that far.
func (r *Ring) Over(from, to float64) (w Means, full bool) { return r.Means(from, to, everything) }

// Means is Over with only the bank and the channels asked for in the sample, which costs less.
func (r *Ring) Means(from, to float64, channels stream.Set) (w Means, full bool) {
	channels = channels.With(stream.Bank)
	var sums [stream.NumChannels]float64
	var has stream.Set
	first, last := -1, -1
	for i := range r.n {
		e := r.Back(i)
		t := r.attitudeBack(i).time
		if t > to {
			continue
		}
		if t < from-1e-9 {
			full = true
			break
		}
		if w.N == 0 {
			last, has = i, e.Sample.Has&channels
		}
		first = i
		has &= e.Sample.Has
		w.N++
		w.Turned += e.Turned
		for rest := channels; rest != 0; rest &= rest - 1 {
			c := stream.Channel(bits.TrailingZeros64(uint64(rest)))
			sums[c] += e.Sample.Value(c)
		}
		if v, ok := e.Sample.Get(stream.Airspeed); ok {
			if w.N == 1 {
				w.LowSpeed, w.HighSpeed = v, v
			}
			w.LowSpeed, w.HighSpeed = min(w.LowSpeed, v), max(w.HighSpeed, v)
		}
	}
	if w.N == 0 {
		return w, false
	}
	w.fill(&sums, has, r.Back(last))
	a, b := r.Back(first), r.Back(last)
	if dt := b.Time() - a.Time(); dt > 0.1 {
		w.TurnRate = (b.Turned - a.Turned) / dt
	}
	return w, full
}

// fill turns sums into means. Headings are averaged by way of the unwrapped turn.
func (w *Means) fill(sums *[stream.NumChannels]float64, has stream.Set, newest *Past) {
	n := float64(w.N)
	w.Turned /= n
	w.Bank = sums[stream.Bank] / n
	w.Sample.Magnetic = newest.Sample.Magnetic
	for rest := has.Without(stream.Track); rest != 0; rest &= rest - 1 {
		c := stream.Channel(bits.TrailingZeros64(uint64(rest)))
		mean := sums[c] / n
		if c == stream.Heading {
			mean = newest.Sample.Value(c) + w.Turned - newest.Turned
		}
		if newest.Sample.Derived.Has(c) {
			w.Sample.Derive(c, mean)
		} else {
			w.Sample.Put(c, mean)
		}
	}
}
