package track

import "halfturn/stream"

// Rates are the mean attitude of the last seconds and how fast it changed.
type Rates struct {
	Bank, Pitch, Turned float64 // means
	BankRate, NoseRate  float64 // °/s, fitted
	TurnRate            float64 // °/s, over the ends
	Speed               float64 // kt, true as far as known; usualSpeed when no speed is sent
	Climb               float64 // ft/min, over the ends; 0 when unknown
	SpeedRate           float64 // kt/s, over the ends; 0 when unknown
	LoadRate            float64 // g/s, over the ends; 0 when unknown
}

// cachedRates are the rates that were last asked for. Several judges ask for the same at the same sample.
type cachedRates struct {
	added uint64 // of the ring then
	from  float64
	rates Rates
	full  bool
}

// Rates returns the rates since a time; full is false when the past does not reach back to it.
func (r *Ring) Rates(from float64) (w Rates, full bool) {
	for i := range r.rates {
		if c := &r.rates[i]; c.added == r.added && c.from == from {
			return c.rates, c.full
		}
	}
	c := &r.rates[r.oldest]
	r.oldest = (r.oldest + 1) % len(r.rates)
	c.added, c.from = r.added, from
	c.rates, c.full = r.ratesSince(from)
	return c.rates, c.full
}

func (r *Ring) ratesSince(from float64) (w Rates, full bool) {
	if r.n == 0 {
		return w, false
	}
	var n, st, stt, stb, stp float64
	last := 0
	to := r.attitudeBack(0).time
	for i := range r.n {
		e := r.attitudeBack(i)
		if e.time < from-1e-9 {
			full = true
			break
		}
		t := e.time - to
		n++
		w.Bank += e.bank
		w.Pitch += e.pitch
		w.Turned += e.turned
		st, stt, stb, stp = st+t, stt+t*t, stb+t*e.bank, stp+t*e.pitch
		last = i
	}
	if n == 0 {
		return w, false
	}
	newest, oldest := r.Back(0), r.Back(last)
	if d := n*stt - st*st; d > 1e-9 {
		dt := to - oldest.Time()
		w.BankRate = (n*stb - st*w.Bank) / d
		w.NoseRate = (n*stp - st*w.Pitch) / d
		w.TurnRate = (newest.Turned - oldest.Turned) / dt
		w.Climb = change(oldest, newest, stream.Altitude) / dt * 60
		w.SpeedRate = change(oldest, newest, stream.Airspeed) / dt
		w.LoadRate = change(oldest, newest, stream.NormalLoad) / dt
	}
	w.Bank, w.Pitch, w.Turned = w.Bank/n, w.Pitch/n, w.Turned/n
	w.Speed = speedOf(&newest.Sample)
	return w, full
}

// usualSpeed stands in for the speed of a stream that sends none, kt: that of the slow trainers.
const usualSpeed = 100.0

// speedOf returns the speed through the air as far as a sample has it, kt.
func speedOf(s *stream.Sample) float64 {
	for _, c := range [...]stream.Channel{stream.TrueAirspeed, stream.Airspeed, stream.GroundSpeed} {
		if v, ok := s.Get(c); ok && v > 0 {
			return v
		}
	}
	return usualSpeed
}

// change returns how much a channel changed, 0 when it is missing.
func change(a, b *Past, c stream.Channel) float64 {
	then, ok := a.Sample.Get(c)
	now, has := b.Sample.Get(c)
	if !ok || !has {
		return 0
	}
	return now - then
}
