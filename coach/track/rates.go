package track

import "halfturn/stream"

// Rates are the mean attitude over the last seconds, and how fast it changed.
type Rates struct {
	Bank, Pitch, Turned float64 // means
	BankRate, NoseRate  float64 // °/s, fitted
	TurnRate            float64 // °/s, over the ends
	Speed               float64 // kt, true airspeed if sent, else another speed; usualSpeed when none is sent
	Climb               float64 // ft/min, over the ends; 0 when unknown
	SpeedRate           float64 // kt/s, over the ends; 0 when unknown
	LoadRate            float64 // g/s, over the ends; 0 when unknown
}

// Rates returns the rates since a time; full is false when the past does not reach back to it. They are valid until the
// rates since four other times were asked for.
func (r *Ring) Rates(from float64) (w *Rates, full bool) {
	k, known := r.rates.find(r.added, from)
	if !known {
		k.answer, k.full = r.ratesSince(from)
	}
	return &k.answer, k.full
}

func (r *Ring) ratesSince(from float64) (w Rates, full bool) {
	if r.n == 0 {
		return w, false
	}
	var n, st, stt, stb, stp float64
	to := r.attitudeBack(0).time
	k := r.slot(0)
	for range r.n {
		e := &r.attitude[k]
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
		if k--; k < 0 {
			k = ringSize - 1
		}
	}
	last := int(n) - 1
	if n == 0 {
		return w, false
	}
	if d := n*stt - st*st; d > 1e-9 {
		dt := to - r.Time(last)
		w.BankRate = (n*stb - st*w.Bank) / d
		w.NoseRate = (n*stp - st*w.Pitch) / d
		w.TurnRate = (r.Turned(0) - r.Turned(last)) / dt
		w.Climb = r.changeSince(last, stream.Altitude) / dt * 60
		w.SpeedRate = r.changeSince(last, stream.Airspeed) / dt
		w.LoadRate = r.changeSince(last, stream.NormalLoad) / dt
	}
	w.Bank, w.Pitch, w.Turned = w.Bank/n, w.Pitch/n, w.Turned/n
	w.Speed = r.speed()
	return w, full
}

// usualSpeed is assumed when a stream sends no speed, kt: that of slow trainers.
const usualSpeed = 100.0

// speed returns the best speed through the air that the newest sample has, kt.
func (r *Ring) speed() float64 {
	for _, c := range [...]stream.Channel{stream.TrueAirspeed, stream.Airspeed, stream.GroundSpeed} {
		if v, ok := r.Get(0, c); ok && v > 0 {
			return v
		}
	}
	return usualSpeed
}

// changeSince returns the change of a channel since the i-th sample, 0 when either sample lacks it.
func (r *Ring) changeSince(i int, c stream.Channel) float64 {
	then, ok := r.Get(i, c)
	now, has := r.Get(0, c)
	if !ok || !has {
		return 0
	}
	return now - then
}
