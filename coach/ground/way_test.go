package ground

import (
	"math"
	"testing"

	"halfturn/coach/aero"
	"halfturn/stream"
)

// A turning is a turn that is flown exactly: at a true airspeed about a point, to a side, in a wind, from a heading.
type turning struct {
	side, tas         float64 // 1 right; kt
	windFrom, wind    float64 // °, kt
	radius, height    float64 // ft
	turns             float64
	ahead             float64 // ° by which the pylon is ahead of the wing
	lat, lon, heading float64 // of the point, and at the beginning

	lag   float64        // s: the wing points to where the point was then
	hands func() float64 // the error of the bank, °; nil is none
	drift offset         // ft that the circle moves in each second
	most  float64        // ° of bank at most; 0 is no limit
}

// fly feeds a way with the turn, 20 samples a second: the airplane moves along the circle at its ground speed, its nose
// turned into the wind, and its wing points at the point on the ground, but for what is ahead.
func (c *turning) fly() *Way {
	w := &Way{}
	center := Place{}
	var at stream.Sample
	at.Put(stream.Latitude, c.lat)
	at.Put(stream.Longitude, c.lon)
	center = PlaceOf(&at)
	vn, ve := -c.wind*math.Cos(c.windFrom*degree), -c.wind*math.Sin(c.windFrom*degree)
	track, turned, was := c.heading, 0.0, math.NaN()
	var far []float64
	for i := range 20 * 600 {
		sin, cos := math.Sincos(track * degree)
		along, across := vn*cos+ve*sin, ve*cos-vn*sin // of the wind, across right positive
		drift := math.Asin(across / c.tas)
		speed := c.tas*math.Cos(drift) + along
		heading := track - drift/degree
		if !math.IsNaN(was) {
			turned += c.side * stream.Wrap180(heading-was)
		}
		was = heading
		if turned > 360*c.turns {
			break
		}
		// The point lies abeam of the track.
		north, east := -c.side*c.radius*-sin, -c.side*c.radius*cos
		north, east = north+c.drift.north*float64(i)/20, east+c.drift.east*float64(i)/20
		var s stream.Sample
		s.Put(stream.Time, float64(i)/20)
		s.Put(stream.Latitude, center.lat+north/center.north)
		s.Put(stream.Longitude, stream.Wrap180(center.lon+east/center.east))
		s.Put(stream.Heading, stream.Wrap360(heading+c.side*c.ahead))
		s.Put(stream.TrueAirspeed, c.tas)
		s.Put(stream.Pitch, 0)
		s.Put(stream.Height, c.height)
		s.Put(stream.Bank, c.bank(&far, math.Hypot(north, east)*math.Cos(drift)))
		w.Add(&s, turned)
		track += c.side * speed * aero.FeetPerSecond / c.radius / degree / 20
	}
	return w
}

// bank is that at which the wing pointed to the point a lag ago, with the error of the hands. It keeps the distances.
func (c *turning) bank(far *[]float64, distance float64) float64 {
	*far = append(*far, distance)
	then := (*far)[max(0, len(*far)-1-int(20*c.lag))]
	b := math.Atan(c.height/then) / degree
	if c.hands != nil {
		b += c.hands()
	}
	if c.most > 0 {
		b = math.Min(b, c.most)
	}
	return b
}

var rounds = []turning{
	{side: 1, tas: 90, radius: 800, height: 3000, turns: 3, lat: -33.9, lon: 150.9, heading: 120},
	{side: -1, tas: 85, windFrom: 300, wind: 15, radius: 750, height: 3000, turns: 3, lat: 44.8, lon: -93.2,
		heading: 20},
	{side: 1, tas: 130, windFrom: 30, wind: 15, radius: 1300, height: 3000, turns: 2, lat: 47, lon: 179.999,
		heading: 200},
}

// The center and the wind of a circle are found, in 15 kt of wind too.
func TestCenter(t *testing.T) {
	for i := range rounds {
		c := &rounds[i]
		w := c.fly()
		spot, ok := w.Center(45, 360*c.turns-25)
		if !ok {
			t.Errorf("%d: no center", i)
			continue
		}
		off := math.Hypot((spot.Lat-c.lat)*364000, stream.Wrap180(spot.Lon-c.lon)*364000*math.Cos(c.lat*degree))
		if off > 5 || math.Abs(spot.Radius-c.radius) > 5 {
			t.Errorf("%d: the center is %.0f ft off, with a radius of %.0f ft", i, off, spot.Radius)
		}
		if d := w.Uneven(spot, 45, 360*c.turns-25); math.Abs(d.Value) > 0.01 {
			t.Errorf("%d: a circle departs by %.3f of its radius", i, d.Value)
		}
		north, east, ok := w.Wind()
		wind := WindOf(north, east)
		if !ok || math.Abs(wind.Speed-c.wind) > 0.3 || c.wind > 0 && math.Abs(wind.From-c.windFrom) > 2 {
			t.Errorf("%d: the wind is %+v, want %g kt from %g°", i, wind, c.wind, c.windFrom)
		}
	}
}

// Too little of a turn has no center, and a way without positions nothing at all.
func TestNoCenter(t *testing.T) {
	c := rounds[0]
	c.turns = 0.3
	w := c.fly()
	if _, ok := w.Center(0, 360); ok {
		t.Error("a center of 108°")
	}
	if _, _, ok := w.Wind(); ok {
		t.Error("a wind of 108°")
	}
	var none Way
	none.Add(&stream.Sample{}, 0)
	if _, ok := none.Center(0, 360); ok {
		t.Error("a center of nothing")
	}
	if _, ok := none.Pylon(1, 0, 360); ok {
		t.Error("a pylon of nothing")
	}
	if _, ok := none.Given(Fixed{1, 1}, 0, 360); ok {
		t.Error("a chosen point of nothing")
	}
}

// A pylon that the wing points at is found, whichever way the turn goes, and however far it is ahead or behind.
func TestPylon(t *testing.T) {
	for _, side := range []float64{1, -1} {
		for _, ahead := range []float64{0, 8, -6} {
			c := turning{side: side, tas: 97, radius: 1250, height: 835, turns: 0.7, ahead: ahead, lat: 44.9,
				lon: -93.3, heading: 310}
			w := c.fly()
			spot, ok := w.Pylon(side, 30, 225)
			off := math.Hypot((spot.Lat-c.lat)*364000, (spot.Lon-c.lon)*364000*math.Cos(c.lat*degree))
			// Ahead of the wing it lies in the plane of the wings only where that is tilted to it: some feet off.
			if !ok || off > 3+2.5*math.Abs(ahead) {
				t.Errorf("side %g, %g° ahead: %.0f ft off", side, ahead, off)
			}
			mean, away := w.Ahead(spot, side, 30, 225)
			if math.Abs(mean.Value-ahead) > 1.5 || math.Abs(away.Value-math.Abs(ahead)) > 1.5 {
				t.Errorf("side %g, %g° ahead: found %.1f° and %.1f°", side, ahead, mean.Value, away.Value)
			}
		}
	}
}

// A point that was chosen is taken as it is.
func TestGiven(t *testing.T) {
	c := rounds[0]
	w := c.fly()
	spot, ok := w.Given(Fixed{c.lat, c.lon}, 45, 1000)
	if !ok || math.Abs(spot.Radius-c.radius) > 5 {
		t.Errorf("radius %.0f ft about the chosen point", spot.Radius)
	}
}

// A way is bounded, and keeps one spot for each degree however many samples there are.
func TestWayIsBounded(t *testing.T) {
	var w Way
	var s stream.Sample
	s.Put(stream.Latitude, 10)
	s.Put(stream.Longitude, 10)
	for i := range 10 * mostSpots {
		s.Put(stream.Time, float64(i)/20)
		w.Add(&s, float64(i)/4)
	}
	if n := len(w.spots); n != mostSpots {
		t.Errorf("%d spots", n)
	}
}
