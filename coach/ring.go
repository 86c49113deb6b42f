package coach

import (
	"math/bits"

	"halfturn/stream"
)

// The ring keeps the last half minute, thinned to at most 40 samples a second: enough to look
// back for where a slow roll-in began, and bounded.
const (
	ringSize    = 1024  // a power of two
	ringSpacing = 0.024 // s
)

// past is a sample with its unwrapped heading.
type past struct {
	sample stream.Sample
	turned float64 // ° of heading change since the stream began, unwrapped
}

func (p *past) time() float64 { return p.sample.Value(stream.Time) }

type ring struct {
	entries [ringSize]past
	next, n int
}

func (r *ring) clear() { r.next, r.n = 0, 0 }

// add keeps a sample unless it follows the one before too closely.
func (r *ring) add(s *stream.Sample, turned float64) {
	if r.n > 0 && s.Value(stream.Time)-r.back(0).time() < ringSpacing {
		return
	}
	e := &r.entries[r.next]
	e.sample, e.turned = *s, turned
	r.next = (r.next + 1) % ringSize
	r.n = min(r.n+1, ringSize)
}

// back returns the i-th entry counted back from the newest.
func (r *ring) back(i int) *past { return &r.entries[(r.next-1-i)&(ringSize-1)] }

// A window is the means over a stretch of the past.
type window struct {
	n                   int
	bank, pitch, turned float64
	turnRate            float64 // °/s, over the ends
	bankRate            float64 // °/s, fitted
	low, high           float64 // kt
	sample              stream.Sample
	from, to            float64
}

// over returns the means over the entries with times in [from, to]; full is false when the
// ring does not reach back that far.
func (r *ring) over(from, to float64) (w window, full bool) {
	return r.means(from, to, 1<<stream.NumChannels-1)
}

// windowed are the channels whose means a window has in any case.
const windowed = stream.Set(1<<stream.Pitch | 1<<stream.Bank)

// means is over with only the channels wanted in the window's sample, which costs less.
func (r *ring) means(from, to float64, wanted stream.Set) (w window, full bool) {
	wanted |= windowed
	var sums [stream.NumChannels]float64
	var has stream.Set
	var st, stt, sb, stb float64
	first, last := -1, -1
	for i := range r.n {
		e := r.back(i)
		t := e.time()
		if t > to {
			continue
		}
		if t < from-1e-9 {
			full = true
			break
		}
		if w.n == 0 {
			last, has = i, e.sample.Has&wanted
		}
		first = i
		has &= e.sample.Has
		w.n++
		w.turned += e.turned
		for rest := wanted; rest != 0; rest &= rest - 1 {
			c := stream.Channel(bits.TrailingZeros64(uint64(rest)))
			sums[c] += e.sample.Value(c)
		}
		x := t - to
		st, stt = st+x, stt+x*x
		sb, stb = sb+e.sample.Value(stream.Bank), stb+x*e.sample.Value(stream.Bank)
		if v, ok := e.sample.Get(stream.Airspeed); ok {
			if w.n == 1 {
				w.low, w.high = v, v
			}
			w.low, w.high = min(w.low, v), max(w.high, v)
		}
	}
	if w.n == 0 {
		return w, false
	}
	n := float64(w.n)
	w.fill(&sums, has, n, r.back(last))
	if d := n*stt - st*st; d > 1e-9 {
		w.bankRate = (n*stb - st*sb) / d
	}
	a, b := r.back(first), r.back(last)
	w.from, w.to = a.time(), b.time()
	if dt := w.to - w.from; dt > 0.1 {
		w.turnRate = (b.turned - a.turned) / dt
	}
	return w, full
}

// fill turns sums into means. Headings are averaged by way of the unwrapped turn.
func (w *window) fill(sums *[stream.NumChannels]float64, has stream.Set, n float64, newest *past) {
	w.turned /= n
	w.sample.Magnetic = newest.sample.Magnetic
	for c := range stream.NumChannels {
		if !has.Has(c) || c == stream.Track {
			continue
		}
		mean := sums[c] / n
		if c == stream.Heading {
			mean = newest.sample.Value(c) + w.turned - newest.turned
		}
		if newest.sample.Derived.Has(c) {
			w.sample.Derive(c, mean)
		} else {
			w.sample.Put(c, mean)
		}
	}
	w.bank, w.pitch = sums[stream.Bank]/n, sums[stream.Pitch]/n
}

// A trend is what the tracker asks of the last seconds.
type trend struct {
	bank, pitch, turned float64 // means
	bankRate, noseRate  float64 // °/s, fitted
	turnRate            float64 // °/s, over the ends
	speed               float64 // kt, true as far as known; usualSpeed when no speed is sent
	climb               float64 // ft/min, over the ends; 0 when unknown
	speedRate           float64 // kt/s, over the ends; 0 when unknown
	loadRate            float64 // g/s, over the ends; 0 when unknown
}

// trend returns the trend since a time; full is false when the ring does not reach back to it.
func (r *ring) trend(from float64) (w trend, full bool) {
	if r.n == 0 {
		return w, false
	}
	var n, st, stt, stb, stp float64
	newest := r.back(0)
	oldest := newest
	to := newest.time()
	for i := range r.n {
		e := r.back(i)
		t := e.time()
		if t < from-1e-9 {
			full = true
			break
		}
		b, p, x := e.sample.Value(stream.Bank), e.sample.Value(stream.Pitch), t-to
		n++
		w.bank += b
		w.pitch += p
		w.turned += e.turned
		st, stt, stb, stp = st+x, stt+x*x, stb+x*b, stp+x*p
		oldest = e
	}
	if n == 0 {
		return w, false
	}
	if d := n*stt - st*st; d > 1e-9 {
		dt := to - oldest.time()
		w.bankRate = (n*stb - st*w.bank) / d
		w.noseRate = (n*stp - st*w.pitch) / d
		w.turnRate = (newest.turned - oldest.turned) / dt
		w.climb = change(oldest, newest, stream.Altitude) / dt * 60
		w.speedRate = change(oldest, newest, stream.Airspeed) / dt
		w.loadRate = change(oldest, newest, stream.NormalLoad) / dt
	}
	w.bank, w.pitch, w.turned = w.bank/n, w.pitch/n, w.turned/n
	w.speed = speedOf(&newest.sample)
	return w, full
}

// speedOf is the speed through the air as far as a sample tells it, kt.
func speedOf(s *stream.Sample) float64 {
	for _, c := range [...]stream.Channel{stream.TrueAirspeed, stream.Airspeed, stream.GroundSpeed} {
		if v, ok := s.Get(c); ok && v > 0 {
			return v
		}
	}
	return usualSpeed
}

// change is how much a channel changed, 0 when it is not there.
func change(a, b *past, c stream.Channel) float64 {
	then, ok := a.sample.Get(c)
	now, has := b.sample.Get(c)
	if !ok || !has {
		return 0
	}
	return now - then
}
