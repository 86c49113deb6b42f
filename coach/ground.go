package coach

import (
	"math"

	"halfturn/coach/aero"
	"halfturn/stream"
)

// The earth's ellipsoid, WGS-84: semi-major axis in ft and first eccentricity squared (NIMA
// TR8350.2, from memory).
const (
	earthAxis   = 6378137 / 0.3048
	earthSquare = 6.69437999014e-3
	nautical    = 1852 / 0.3048 // ft
	degree      = math.Pi / 180
)

// A place is a position with the scale of the ground about it. Over the few miles of a maneuver
// the earth is taken for flat.
type place struct {
	ok          bool
	lat, lon    float64 // °
	north, east float64 // ft a degree, of latitude and of longitude
}

// placeOf returns where a sample is.
func placeOf(s *stream.Sample) place {
	lat, ok := s.Get(stream.Latitude)
	lon, both := s.Get(stream.Longitude)
	if !ok || !both || math.Abs(lat) > 89 {
		return place{}
	}
	sin, cos := math.Sincos(lat * degree)
	w := 1 - earthSquare*sin*sin
	h := s.Value(stream.Altitude)
	return place{true, lat, lon, (earthAxis*(1-earthSquare)/(w*math.Sqrt(w)) + h) * degree, (earthAxis/math.Sqrt(w) + h) * cos * degree}
}

// to returns how far north and east another position is, ft.
func (p *place) to(lat, lon float64) (north, east float64) {
	return (lat - p.lat) * p.north, stream.Wrap180(lon-p.lon) * p.east
}

// off returns the position a distance (ft) away in a true direction (°).
func (p *place) off(direction, distance float64) (lat, lon float64) {
	sin, cos := math.Sincos(direction * degree)
	return p.lat + distance*cos/p.north, stream.Wrap180(p.lon + distance*sin/p.east)
}

// axes is where a leg began and which way it went: what along and across are counted in.
type axes struct {
	place
	heading, side float64 // ° true; 1 right, −1 left
}

// locate returns how far a sample is along the axes' heading and across, toward the turn, ft.
func (a *axes) locate(s *stream.Sample) (along, across float64, ok bool) {
	lat, has := s.Get(stream.Latitude)
	lon, both := s.Get(stream.Longitude)
	if !a.ok || !has || !both {
		return 0, 0, false
	}
	north, east := a.to(lat, lon)
	sin, cos := math.Sincos(a.heading * degree)
	return north*cos + east*sin, a.side * (east*cos - north*sin), true
}

// A fix is a position that was new when it came.
type fix struct {
	time, lat, lon float64
	turned         float64
	north, east    float64 // ft flown through the air so far; NaN when airspeed is not known
	level          bool
}

// How the flight over the ground is measured: common practice, no source; the spans are long
// enough for positions that come rounded to a hundred thousandth of a degree.
const (
	fixSpacing = 0.1  // s between fixes
	trackOver  = 1.5  // s over which the track is measured
	windOver   = 3.0  // s over which the wind is measured
	driftTime  = 1.0  // s, smoothing of the drift
	windTime   = 10.0 // s, smoothing of the wind
	windBank   = 10.0 // °: steeper, the nose no longer points where the airplane goes
	hardly     = 20.0 // kt over the ground below which there is no track
)

// ground follows the flight over the ground. It is bounded, and allocates nothing.
type ground struct {
	fixes   [64]fix
	next, n int

	drift, driftAge float64 // ° right positive; s of flight behind it, 0: not known
	wind            [2]float64
	windAge         float64 // kt to the north and east; s of flight behind it, 0: not known
	// Where the heading is magnetic: what to add for a true one, taken from the track in level flight
	// as if there were no wind, and s of flight behind it. A drift cannot be told from it then.
	variation, variationAge float64
	magnetic                bool
}

func (g *ground) back(i int) *fix { return &g.fixes[(g.next-1-i)&(len(g.fixes)-1)] }

// add takes a sample.
func (g *ground) add(s *stream.Sample, turned float64) {
	lat, ok := s.Get(stream.Latitude)
	lon, both := s.Get(stream.Longitude)
	now := s.Value(stream.Time)
	if !ok || !both {
		return
	}
	f := fix{time: now, lat: lat, lon: lon, turned: turned, level: math.Abs(s.Value(stream.Bank)) < windBank}
	if g.n > 0 {
		was := g.back(0)
		dt := now - was.time
		if dt < fixSpacing || lat == was.lat && lon == was.lon {
			return
		}
		f.north, f.east = g.flown(s, was, turned, dt)
	}
	g.magnetic = s.Magnetic
	g.fixes[g.next] = f
	g.next = (g.next + 1) & (len(g.fixes) - 1)
	g.n = min(g.n+1, len(g.fixes))
	g.measure(s)
}

// flown adds to a fix's way through the air that since then.
func (g *ground) flown(s *stream.Sample, was *fix, turned, dt float64) (north, east float64) {
	tas, ok := s.Get(stream.TrueAirspeed)
	if cas, has := s.Get(stream.Airspeed); !ok && has && !s.Derived.Has(stream.Airspeed) {
		tas, ok = aero.TrueAirspeed(cas, s.Value(stream.Altitude)), true
	}
	if !ok {
		return math.NaN(), math.NaN()
	}
	if math.IsNaN(was.north) {
		was.north, was.east = 0, 0
	}
	sin, cos := math.Sincos((s.Value(stream.Heading) - (turned-was.turned)/2) * degree)
	way := tas * aero.FeetPerSecond * dt
	return was.north + way*cos, was.east + way*sin
}

// since returns the newest fix at least some seconds old, nil when there is none or the flight has a hole.
func (g *ground) since(age float64) *fix {
	newest := g.back(0)
	for i := 1; i < g.n; i++ {
		f := g.back(i)
		if newest.time-f.time >= age {
			if newest.time-f.time > 2*age+1 {
				return nil
			}
			return f
		}
	}
	return nil
}

// measure renews drift and wind by the newest fix.
func (g *ground) measure(s *stream.Sample) {
	newest, was := g.back(0), g.since(trackOver)
	if was == nil {
		return
	}
	here := placeOf(s)
	north, east := here.to(was.lat, was.lon)
	north, east = -north, -east
	dt := newest.time - was.time
	if math.Hypot(north, east)/dt < hardly*aero.FeetPerSecond {
		g.driftAge = 0
		return
	}
	// The way between two fixes points where the flight went half way between.
	track := math.Atan2(east, north)/degree + (newest.turned-was.turned)/2
	if sent, ok := s.Get(stream.Track); ok && !s.Derived.Has(stream.Track) {
		track = sent
	}
	off := stream.Wrap180(track - s.Value(stream.Heading))
	step := newest.time - g.back(1).time
	if g.magnetic {
		if newest.level && was.level {
			smooth(&g.variation, off, &g.variationAge, step, windTime)
		}
		return
	}
	smooth(&g.drift, off, &g.driftAge, step, driftTime)
	g.measureWind(&here, step)
}

// measureWind takes the wind as the way over the ground less that through the air, in level flight.
func (g *ground) measureWind(here *place, step float64) {
	newest, was := g.back(0), g.since(windOver)
	if was == nil || !newest.level || !was.level || math.Abs(newest.turned-was.turned) > 10 || math.IsNaN(newest.north-was.north) {
		return
	}
	north, east := here.to(was.lat, was.lon)
	k := 1 / (newest.time - was.time) / aero.FeetPerSecond
	age := g.windAge
	smooth(&g.wind[0], (-north-(newest.north-was.north))*k, &age, step, windTime)
	smooth(&g.wind[1], (-east-(newest.east-was.east))*k, &g.windAge, step, windTime)
}

// smooth moves a value toward a new one: their mean at first, later with a time constant.
func smooth(value *float64, to float64, age *float64, step, constant float64) {
	*age += step
	*value += (to - *value) * math.Min(1, step/math.Min(*age, constant))
}

// clear forgets what was flown; the wind stays.
func (g *ground) clear() { g.next, g.n, g.driftAge = 0, 0, 0 }

// trueOf returns the true heading of a heading as sent; false when its variation is not known.
func (g *ground) trueOf(heading float64) (float64, bool) {
	if !g.magnetic {
		return heading, true
	}
	return heading + g.variation, g.variationAge > 0
}

// axes lays the axes of a leg that began at a place with a heading as sent.
func (g *ground) axes(at place, heading, side float64) axes {
	h, ok := g.trueOf(heading)
	at.ok = at.ok && ok
	return axes{at, h, side}
}

// show writes the flight over the ground for a frame; nil without position.
func (g *ground) show(s *stream.Sample, from *axes) *Ground {
	if !placeOf(s).ok {
		return nil
	}
	out := &Ground{}
	if along, across, ok := from.locate(s); ok {
		out.Along, out.Across = round(along, 0), round(across, 0)
	}
	if g.driftAge > 0 && !g.magnetic {
		out.Drift = ptr(round(g.drift, 1))
		out.Track = ptr(round(stream.Wrap360(s.Value(stream.Heading)+g.drift), 1))
	}
	if g.windAge >= windOver && !g.magnetic {
		from := stream.Wrap360(math.Atan2(-g.wind[1], -g.wind[0]) / degree)
		out.Wind = &Wind{From: round(from, 0), Speed: round(math.Hypot(g.wind[0], g.wind[1]), 1)}
	}
	return out
}
