package replay

import "time"

// longestGap is how long a silence of a recording may last before the rest of it is
// skipped, s: nobody wants to watch a parked simulator for an hour.
const longestGap = 3.0

// mostBehind is how far a replay may fall behind before it gives up catching up, s of flight:
// datagrams in a rush are not a flight.
const mostBehind = 0.5

// A pacer says when a place of the recording is due. Places are seconds since the first datagram.
type pacer struct {
	pace   float64 // speed factor; 2 plays twice as fast
	paused bool
	place  float64   // place at the time at
	at     time.Time // when it was at place
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
// silence nor catches up with what it missed.
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
