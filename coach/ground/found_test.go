package ground

import (
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/stream"
)

// unsteady returns hands that hold a bank within some degrees (r.m.s.), each error lasting a second or two. Recorded
// flights have about 2°.
func unsteady(seed uint64, by float64) func() float64 {
	r := rand.New(rand.NewPCG(seed, 1))
	const keep = 0.96 // of the error of 1/20 s before: it lasts 1.2 s
	x := 0.0
	return func() float64 {
		x = keep*x + math.Sqrt(1-keep*keep)*by*r.NormFloat64()
		return x
	}
}

func (c *turning) off(s Spot) float64 {
	return math.Hypot((s.Lat-c.lat)*364000, stream.Wrap180(s.Lon-c.lon)*364000*math.Cos(c.lat*degree))
}

// A pylon that hands which are not steady keep on the wing is found within 100 ft in 15 kt of wind, from a turn that
// ends closer to it than it began, too: in 85 of 100 turns. As often at least it is within what is said.
func TestPylonWithin(t *testing.T) {
	for _, c := range []turning{
		{side: 1, tas: 97, radius: 1250, height: 835, turns: 0.65},
		{side: -1, tas: 97, windFrom: 200, wind: 15, radius: 1250, height: 835, turns: 0.65, lag: 1},
		{side: 1, tas: 97, windFrom: 20, wind: 15, radius: 1300, height: 835, turns: 0.65, lag: 1.75,
			drift: offset{8, -10}},
		{side: -1, tas: 97, radius: 1150, height: 900, turns: 0.65, lag: 2.5, drift: offset{-8, 6}, most: 44},
	} {
		c.lat, c.lon, c.heading = 44.9, -93.3, 310
		near, said := 0, 0
		const trials = 100
		for seed := range uint64(trials) {
			c.hands = unsteady(seed, 2)
			spot, ok := c.fly().Pylon(c.side, 30, 215)
			if !ok {
				t.Fatalf("%+v: no pylon", c)
			}
			if c.off(spot) <= 100 {
				near++
			}
			if c.off(spot) <= spot.Within {
				said++
			}
		}
		if near < 85 || said < 85 {
			t.Errorf("wind %g kt, lag %g s: %d of 100 pylons within 100 ft, %d within what is said",
				c.wind, c.lag, near, said)
		}
	}
}

// What a flight does not tell is said to be far off: a pylon of a short arc, and a center that moved with the wind.
func TestWithinGrows(t *testing.T) {
	c := turning{side: 1, tas: 97, radius: 1250, height: 835, turns: 0.65, lat: 44.9, lon: -93.3, heading: 310}
	c.hands = unsteady(1, 2)
	w := c.fly()
	whole, _ := w.Pylon(1, 30, 215)
	part, ok := w.Pylon(1, 30, 95)
	if !ok || part.Within < 2*whole.Within {
		t.Errorf("a pylon within %.0f ft by 65° of turn, within %.0f ft by all", part.Within, whole.Within)
	}
	round := rounds[0]
	held, _ := round.fly().Center(45, 1055)
	round.drift = offset{5, 3}
	moved, ok := round.fly().Center(45, 1055)
	if !ok || moved.Within < 100 || moved.Within < 5*held.Within {
		t.Errorf("a center within %.0f ft where it moved, within %.0f ft where it did not", moved.Within, held.Within)
	}
	if given, ok := w.Given(Fixed{c.lat, c.lon}, 30, 215); !ok || given.Within != 0 {
		t.Errorf("a chosen point within %g ft", given.Within)
	}
}

// A turn is begun abeam of its point: where the wind moved the circle, that tells where it was.
func TestBegunAbeam(t *testing.T) {
	var w Way
	const knot = 1.687810
	at := samplePlace(44.9, -93.3)
	// East at 90 kt, and into a right turn of 800 ft with a roll-in of 3 s, which moves 12 ft south in each second.
	north, east, heading, bank := 0.0, 0.0, 90.0, 0.0
	const radius, step = 800.0, 0.05
	full := math.Atan(math.Pow(90*knot, 2)/32.174/radius) / degree
	turned := 0.0
	var middle offset
	for i := range 20 * 100 {
		now := float64(i) * step
		if now > 2 {
			bank = min(full, bank+full/3*step)
		}
		if bank <= full/2 {
			middle = offset{north, east}
		}
		rate := 32.174 * math.Tan(bank*degree) / (90 * knot)
		heading += rate / degree * step
		turned += rate / degree * step
		sin, cos := math.Sincos(heading * degree)
		south := 0.0
		if now > 5 {
			south = 12
		}
		north, east = north+(90*knot*cos-south)*step, east+90*knot*sin*step
		var s stream.Sample
		for c, v := range map[stream.Channel]float64{
			stream.Time: now, stream.Latitude: at.lat + north/at.north, stream.Longitude: at.lon + east/at.east,
			stream.Heading: stream.Wrap360(heading), stream.Pitch: 0, stream.Bank: bank, stream.Height: 3000,
		} {
			s.Put(c, v)
		}
		w.Add(&s, turned)
	}
	point := offset{middle.north - radius, middle.east}
	spots := w.within(45, 1000)
	fit, _, _ := circle(spots)
	spot, ok := w.Center(45, 1000)
	off, before := math.Hypot(spot.north-point.north, spot.east-point.east),
		math.Hypot(fit.north-point.north, fit.east-point.east)
	if !ok || off > before/2 || off > spot.Within {
		t.Errorf("%.0f ft off by the circle, %.0f ft with the roll-in, said to be within %.0f ft",
			before, off, spot.Within)
	}
}
