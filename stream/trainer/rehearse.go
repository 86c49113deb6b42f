package trainer

import "math"

// rehearse finds the highest nose that brings the airspeed down to the apex, and the lowest nose
// that leaves the right height to the pull-out: what a pilot knows from having flown it before.
// It flies copies of the airplane without noise, always to the right and with feet on.
func rehearse(p plan, at *plant) plan {
	if p.known {
		return p
	}
	p.dive = 20
	change := p
	change.abandon, change.power, change.feet = 0, 0, 1
	change.top = bisect(2, 60, 11, func(top float64) bool {
		change.top, change.dive = top, math.Max(8, top)
		return tryOut(change, at).slowest > p.apex
	})
	p.top = change.top + p.raise
	change.top = p.top
	p.dive = p.top
	if p.back {
		p.dive = bisect(1, 60, 9, func(dive float64) bool {
			change.dive = dive
			r := tryOut(change, at)
			return r.left > p.give*r.gained
		})
	}
	return p
}

// bisect finds where more turns false.
func bisect(lo, hi float64, steps int, more func(float64) bool) float64 {
	for range steps {
		mid := (lo + hi) / 2
		if more(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// outcome is what a rehearsal shows.
type outcome struct {
	slowest float64 // kt calibrated
	gained  float64 // ft, at the highest point
	left    float64 // ft above entry where the pull-out begins, 30° before the exit
}

func tryOut(p plan, at *plant) outcome {
	craft := *at
	l := newLeg(p, true, &craft)
	o := outcome{slowest: math.Inf(1)}
	const dt = 1.0 / 20
	for craft.t < at.t+150 && l.reached == 0 {
		craft.step(dt, l.fly(&craft, dt))
		o.slowest = math.Min(o.slowest, craft.eas())
		o.gained = math.Max(o.gained, craft.h-l.entry)
		if l.th < l.exit-30 {
			o.left = craft.h - l.entry
		}
		if craft.stalled {
			o.slowest = 0
			break
		}
	}
	return o
}
