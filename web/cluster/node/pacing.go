package node

import "time"

// soonest is the least time between two signs of life where many are due at once: each holds all stations, and every
// other node reads it.
func (t *Times) soonest() time.Duration { return t.Beat / 10 }

// atOnce is how many signs of life may come without such a pause: one station that begins causes a few, which others
// must read before they are asked about it.
const atOnce = 8

// A pacing spreads signs of life that are to come soon.
type pacing struct{ next time.Time }

// may reports whether one may come now, and takes it then.
func (p *pacing) may(now time.Time, apart time.Duration) bool {
	if now.Add((atOnce - 1) * apart).Before(p.next) {
		return false
	}
	if p.next.Before(now) {
		p.next = now
	}
	p.next = p.next.Add(apart)
	return true
}
