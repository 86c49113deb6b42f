package replay

import "time"

// longestGap is how long nothing may come of a recording before the rest of the silence is
// left out, s: a simulator left standing for an hour need not be watched.
const longestGap = 3.0

// mostBehind is how far a replay may fall behind before it stops to hurry after, s of flight:
// what would come in a rush is no flight.
const mostBehind = 0.5

// A pacer says when what lies at a place of the recording is due. Places are seconds since
// the first datagram.
type pacer struct {
	pace   float64 // seconds of flight a second
	paused bool
	place  float64   // where it stood
	at     time.Time // when it stood there
}

// now is the place reached at a time.
func (p *pacer) now(t time.Time) float64 {
	if p.paused {
		return p.place
	}
	return p.place + t.Sub(p.at).Seconds()*p.pace
}

// stand puts the pacer at a place.
func (p *pacer) stand(place float64, t time.Time) { p.place, p.at = place, t }

// set changes pace and pause from a time on.
func (p *pacer) set(pace float64, paused bool, t time.Time) {
	p.stand(p.now(t), t)
	p.pace, p.paused = pace, paused
}

// until returns how long it takes until a place is due; not positive when it is.
func (p *pacer) until(place float64, t time.Time) time.Duration {
	return time.Duration((place - p.now(t)) / p.pace * float64(time.Second))
}

// next tells the pacer where the next datagram lies, so that it neither waits through a long
// silence nor hurries after what it could not keep up with.
func (p *pacer) next(place float64, t time.Time) {
	if p.paused {
		return
	}
	switch now := p.now(t); {
	case place-now > longestGap:
		p.stand(place-longestGap, t)
	case now-place > mostBehind*max(1, p.pace):
		p.stand(place, t)
	}
}
