//go:build simulator

package simulator

import (
	"math"

	"halfturn/stream"
)

// A flown is what the pilot set out to fly.
type flown struct {
	maneuver, direction string
	entry               float64 // s, where the pilot began to roll in
}

// chandelle flies a civil chandelle to the right: bank 30° held to 90° while the nose rises,
// then the nose held while the bank comes off.
func (p *pilot) chandelle(altitude, heading float64) flown {
	const entry, bank, peak = 100.0, 30.0, 14.0
	p.settle(altitude, heading, entry, 6)
	level, power, began := p.now.pitch, p.throttle, p.now.time
	p.side, p.turn = 1, 0
	for p.turn < 176 {
		since := p.now.time - began
		a := aim{nose: level + (peak-level)*clip((p.turn+2)/92, 0, 1), bank: bank * clip(since/2.5, 0, 1), throttle: 1}
		if since < 2 {
			a.throttle = power
		}
		if p.turn >= 90 {
			a.nose, a.bank = peak, math.Max(bank*math.Pow(math.Max(1-(p.turn-90)/90, 0), 0.65), 6)
		}
		if !p.step(a) {
			break
		}
	}
	out := stream.Wrap360(heading + 180)
	p.hold(2.5, func() aim { return aim{nose: peak * 0.95, bank: p.toward(out, 4), throttle: 1} })
	p.hold(6, func() aim {
		return aim{nose: p.nose + clip(level-p.nose, -0.05, 0.05), bank: p.toward(out, 8), throttle: 1}
	})
	return flown{"chandelle-civil", "right", began}
}

// wingOvers flies two wing-overs, to the right and to the left, after a shallow dive for the
// entry speed.
func (p *pilot) wingOvers(altitude, heading float64) []flown {
	const entry, power = 107.0, 0.9
	p.settle(altitude+350, heading, 100, 5)
	ahead := func(nose float64) func() aim {
		return func() aim { return aim{nose: nose, bank: p.toward(heading, 20), throttle: power} }
	}
	for p.now.airspeed < entry+2 && p.now.altitude > altitude-50 && p.step(ahead(-6.5)()) {
	}
	for p.now.climb < -150 && p.step(ahead(1)()) {
	}
	p.hold(4, ahead(0))
	var legs []flown
	for _, side := range []float64{1, -1} {
		heading = stream.Wrap360(heading + 180)
		legs = append(legs, p.wingOver(side, heading, power))
	}
	p.hold(6, ahead(0))
	return legs
}

// wingOver flies one leg that ends on a heading, and some seconds of level flight after it.
func (p *pilot) wingOver(side, out, power float64) flown {
	const up, steepest = 19.0, 64.0
	began, height := p.now.time, p.now.altitude
	p.side, p.turn = side, 0
	for p.turn < 177 {
		nose, bank := wingOverAt(clip(p.turn, 0, 180), up, steepest)
		if p.turn > 135 { // the nose comes up sooner when the entry height is near
			nose = math.Max(nose, clip((height-p.now.altitude)*0.055, -20, 6))
		}
		if !p.step(aim{nose: nose, bank: side * bank, throttle: power}) {
			break
		}
	}
	p.climbing = 0
	p.hold(5, func() aim {
		return aim{nose: clip((height-p.now.altitude)*0.03, -5, 5), bank: p.toward(out, 8), throttle: power}
	})
	direction := "right"
	if side < 0 {
		direction = "left"
	}
	return flown{"wing-over", direction, began}
}

// wingOverAt is the attitude aimed at: the nose highest at 45°, level at 90° and lowest at
// 135°, the bank steepest at 90° (CNATRA P-1212, p. 33).
func wingOverAt(turn, up, steepest float64) (nose, bank float64) {
	sin := math.Sin(turn * math.Pi / 90)
	sin90 := math.Sin((turn - 45) * math.Pi / 90)
	switch {
	case turn < 45:
		return up * sin, 8 + (steepest*0.74-8)*turn/45
	case turn < 90:
		return up * sin, steepest * (0.74 + 0.26*sin90)
	case turn < 135:
		return up * 0.9 * sin, steepest * (1 - 0.30*(turn-90)/45)
	}
	return up * 0.9 * sin, math.Max(steepest*0.70*math.Pow(1-(turn-135)/45, 0.8), 3)
}
