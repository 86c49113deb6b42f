// Package derive fills in the channels that a stream lacks with what follows from those it has. It is pure.
package derive

import (
	"math"

	"halfturn/stream"
	"halfturn/stream/attitude"
)

// A Deriver fills channels a stream lacks with what follows from those it has, and marks
// them Derived. Values that were sent are never replaced, and what cannot be computed is left out:
// height is never guessed, lateral load never made from the ball. It keeps a fixed amount
// of state and does not allocate. The zero value is ready.
//
// What it fills, and from what:
//
//   - vertical speed: slope of the altitude over the last half second;
//   - roll, pitch and yaw rate: mean rotation between attitudes about 0.1 s apart, in body
//     axes, so about 0.05 s old;
//   - ball: −10 widths per g of lateral load, as measured on a home simulator's ball;
//   - airspeed from true airspeed and altitude, as equivalent airspeed in the standard
//     atmosphere; with GroundSpeedAsAirspeed also from ground speed, wind taken as calm.
type Deriver struct {
	// GroundSpeedAsAirspeed lets airspeed be estimated from ground speed, which is wrong
	// by the wind. Off by default.
	GroundSpeedAsAirspeed bool

	climb slope
	turn  rates
}

// Reset forgets the past. Call it when the flight is discontinuous.
func (d *Deriver) Reset() {
	d.climb.reset()
	d.turn.reset()
}

// Fill completes a sample whose stream time is set. Samples must come in order.
func (d *Deriver) Fill(s *stream.Sample) {
	if !s.Has.Has(stream.Time) {
		return
	}
	if !s.Has.Has(stream.VerticalSpeed) && s.Has.Has(stream.Altitude) {
		d.climb.add(s.Value(stream.Time), s.Value(stream.Altitude))
		if perSecond, ok := d.climb.now(); ok {
			s.Derive(stream.VerticalSpeed, 60*perSecond)
		}
	}
	d.fillRates(s)
	if !s.Has.Has(stream.Ball) && s.Has.Has(stream.LateralLoad) {
		s.Derive(stream.Ball, stream.BallPerG*s.Value(stream.LateralLoad))
	}
	if !s.Has.Has(stream.Airspeed) {
		d.fillAirspeed(s)
	}
}

func (d *Deriver) fillRates(s *stream.Sample) {
	const all = stream.Set(1<<stream.RollRate | 1<<stream.PitchRate | 1<<stream.YawRate)
	if s.Has&all == all || s.Has&stream.AttitudeSet != stream.AttitudeSet {
		return
	}
	d.turn.add(s.Value(stream.Time), attitude.Of(s.Value(stream.Heading), s.Value(stream.Pitch), s.Value(stream.Bank)))
	p, q, r, ok := d.turn.now()
	if !ok {
		return
	}
	for i, c := range [...]stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
		if !s.Has.Has(c) {
			s.Derive(c, [...]float64{p, q, r}[i])
		}
	}
}

// fillAirspeed estimates indicated airspeed as equivalent airspeed: true airspeed times the
// square root of the density ratio. Ground speed is first made the speed along the flight
// path, since in a steep climb much of the speed is upward.
func (d *Deriver) fillAirspeed(s *stream.Sample) {
	speed, ok := s.Get(stream.TrueAirspeed)
	if !ok {
		if speed, ok = s.Get(stream.GroundSpeed); !ok || !d.GroundSpeedAsAirspeed {
			return
		}
		const feetPerMinute = 6076.12 / 60 // in a knot
		speed = math.Hypot(speed, s.Value(stream.VerticalSpeed)/feetPerMinute)
	}
	if altitude, ok := s.Get(stream.Altitude); ok {
		s.Derive(stream.Airspeed, speed*math.Sqrt(densityRatio(altitude)))
	}
}

// densityRatio returns the air density at an altitude in feet over that at sea level in the
// International Standard Atmosphere (ISO 2533): troposphere, isothermal above 11 km.
func densityRatio(feet float64) float64 {
	const (
		lapse    = 0.0065 / 288.15 // of the temperature at sea level, per meter
		exponent = 9.80665/(287.05287*0.0065) - 1
		ceiling  = 11000.0
	)
	meters := feet * 0.3048
	ratio := math.Pow(1-lapse*min(meters, ceiling), exponent)
	if meters > ceiling {
		ratio *= math.Exp(-9.80665 * (meters - ceiling) / (287.05287 * 216.65))
	}
	return ratio
}

// rates keeps recent attitudes, so far apart that a few of them cover the window.
type rates struct {
	times     [10]float64
	attitudes [10]attitude.Quaternion
	n         int // ever added
}

const (
	rateWindow = 0.1 // s, smooths the rounding of printed angles
	rateOldest = 0.6 // s, a mean over more is out of date
)

func (r *rates) reset() { r.n = 0 }

func (r *rates) add(t float64, a attitude.Quaternion) {
	if r.n > 1 { // a fast stream would push the start of the window out of the ring
		newest, before := (r.n-1)%len(r.times), (r.n-2)%len(r.times)
		if r.times[newest]-r.times[before] < rateWindow/float64(len(r.times)-2) {
			r.times[newest], r.attitudes[newest] = t, a
			return
		}
	}
	r.times[r.n%len(r.times)], r.attitudes[r.n%len(r.times)] = t, a
	r.n++
}

// now returns the mean body rates in °/s over the window. The rotation vector between two
// attitudes over the time is the body rate where that is steady; for small steps it is the
// Euler relation p = φ' − ψ' sin θ, q = θ' cos φ + ψ' cos θ sin φ,
// r = ψ' cos θ cos φ − θ' sin φ, without its singularity at the vertical.
func (r *rates) now() (p, q, y float64, ok bool) {
	if r.n < 2 {
		return 0, 0, 0, false
	}
	newest := (r.n - 1) % len(r.times)
	start := (r.n - 2) % len(r.times)
	for back := 3; back <= min(r.n, len(r.times)); back++ {
		i := (r.n - back) % len(r.times)
		if r.times[newest]-r.times[i] > rateWindow+1e-3 {
			break
		}
		start = i
	}
	dt := r.times[newest] - r.times[start]
	if !(dt > 0 && dt <= rateOldest) {
		return 0, 0, 0, false
	}
	p, q, y = r.attitudes[start].To(r.attitudes[newest])
	return p / dt, q / dt, y / dt, true
}

// slope keeps recent values of a quantity and fits a curve through them.
type slope struct {
	times, values [slopePoints]float64
	n             int     // ever added
	change        float64 // the latest
	step          float64 // least change of a change seen: the rounding of the values
	standing      float64 // share of samples in which the value stood still, lately
}

const (
	slopePoints = 24
	slopeFine   = 0.5 // s of window for finely printed values: a parabola, slope at its end
	slopeCoarse = 2.5 // s for coarse ones: a line, which is half that old
	slopeLeast  = 0.2 // s of data needed for a result
	coarseStep  = 0.5 // ft
)

// reset keeps what is known of the rounding.
func (f *slope) reset() { f.n, f.change = 0, 0 }

// coarse reports whether the values are rounded coarsely or come less often than the samples.
func (f *slope) coarse() bool { return f.step >= coarseStep || f.standing > 0.5 }

func (f *slope) window() float64 {
	if f.coarse() {
		return slopeCoarse
	}
	return slopeFine
}

func (f *slope) add(t, v float64) {
	if f.n > 0 {
		newest := (f.n - 1) % slopePoints
		change, stood := v-f.values[newest], 0.0
		if math.Abs(change) < 1e-9 {
			stood = 1
		}
		f.standing += (stood - f.standing) / 32
		if bend := math.Abs(change - f.change); bend > 1e-9 && (f.step == 0 || bend < f.step) {
			f.step = bend
		}
		f.change = change
		if f.n > 1 && f.times[newest]-f.times[(f.n-2)%slopePoints] < f.window()/(slopePoints-2) {
			f.times[newest], f.values[newest] = t, v
			return
		}
	}
	f.times[f.n%slopePoints], f.values[f.n%slopePoints] = t, v
	f.n++
}

// now returns the slope per second at the newest value by least squares: a parabola's
// where values are fine, so that it does not lag, a line's where they are coarse.
func (f *slope) now() (perSecond float64, ok bool) {
	if f.n < 3 {
		return 0, false
	}
	newest := (f.n - 1) % slopePoints
	var n, x1, x2, x3, x4, y0, y1, y2, span float64
	for back := 1; back <= min(f.n, slopePoints); back++ {
		i := (f.n - back) % slopePoints
		x, y := f.times[i]-f.times[newest], f.values[i]-f.values[newest]
		if x < -f.window() {
			break
		}
		span = -x
		n, x1, x2, x3, x4 = n+1, x1+x, x2+x*x, x3+x*x*x, x4+x*x*x*x
		y0, y1, y2 = y0+y, y1+x*y, y2+x*x*y
	}
	if n < 3 || span < slopeLeast {
		return 0, false
	}
	// Sums about the mean; then the normal equations of y = a + b x + c x².
	xx, xy := x2-x1*x1/n, y1-x1*y0/n
	if f.coarse() || n < 5 {
		return xy / xx, true
	}
	xq, qq, qy := x3-x1*x2/n, x4-x2*x2/n, y2-x2*y0/n
	return (xy*qq - qy*xq) / (xx*qq - xq*xq), true
}
