package ground

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/stream"
)

// A fix is a position unlike the one before it.
type fix struct {
	time, lat, lon float64
	turned         float64
	north, east    float64 // ft through the air so far; NaN when the airspeed is not known
	level          bool
}

// How the flight over the ground is measured. Common practice, no source; the spans are long enough for positions
// rounded to a hundred thousandth of a degree.
const (
	fixSpacing = 0.1  // s between fixes
	trackOver  = 1.5  // s over which the track is measured
	windOver   = 3.0  // s over which the wind is measured
	driftTime  = 1.0  // s, smoothing of the drift
	windTime   = 10.0 // s, smoothing of the wind
	windBank   = 10.0 // °: in a steeper bank the nose does not point where the airplane goes
	hardly     = 20.0 // kt over the ground below which there is no track
)

// A Path follows the flight over the ground: its track, and the wind. It is bounded and allocates nothing. The zero
// value is ready for use.
type Path struct {
	fixes    [64]fix
	next, n  int
	drift    smoothed // °, right positive
	wind     wind
	magnetic bool // the heading of the stream is magnetic
	// What to add to a magnetic heading for a true one: the track less the heading in level flight, as if there
	// were no wind. Drift cannot be separated from the variation then.
	variation smoothed
}

// wind is the wind in kt.
type wind struct{ north, east smoothed }

func (g *Path) back(i int) *fix { return &g.fixes[(g.next-1-i)&(len(g.fixes)-1)] }

// Add takes a sample with its unwrapped heading (°).
func (g *Path) Add(s *stream.Sample, turned float64) {
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
		f.north, f.east = g.throughAir(s, was, turned, dt)
	}
	g.magnetic = s.Magnetic
	g.fixes[g.next] = f
	g.next = (g.next + 1) & (len(g.fixes) - 1)
	g.n = min(g.n+1, len(g.fixes))
	g.measure(s)
}

// TrueAirspeed returns the true airspeed of a sample, kt: as sent, else by the airspeed if that was sent. ok is false
// where neither was.
func TrueAirspeed(s *stream.Sample) (kt float64, ok bool) {
	if kt, ok = s.Get(stream.TrueAirspeed); ok {
		return kt, true
	}
	cas, ok := s.Get(stream.Airspeed)
	if !ok || s.Derived.Has(stream.Airspeed) {
		return 0, false
	}
	return aero.TrueAirspeed(cas, s.Value(stream.Altitude)), true
}

// throughAir returns the way through the air up to now: that of the fix before and what was flown since.
func (g *Path) throughAir(s *stream.Sample, was *fix, turned, dt float64) (north, east float64) {
	tas, ok := TrueAirspeed(s)
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

// since returns the newest fix of at least an age (s); nil when there is none, or a hole in the stream.
func (g *Path) since(age float64) *fix {
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

// measure updates drift and wind with the newest fix.
func (g *Path) measure(s *stream.Sample) {
	newest, was := g.back(0), g.since(trackOver)
	if was == nil {
		return
	}
	here := PlaceOf(s)
	north, east := here.to(was.lat, was.lon)
	north, east = -north, -east
	dt := newest.time - was.time
	if math.Hypot(north, east)/dt < hardly*aero.FeetPerSecond {
		g.drift.age = 0
		return
	}
	// The line between two fixes is the track half way between them.
	track := math.Atan2(east, north)/degree + (newest.turned-was.turned)/2
	if sent, ok := s.Get(stream.Track); ok && !s.Derived.Has(stream.Track) {
		track = sent
	}
	off := stream.Wrap180(track - s.Value(stream.Heading))
	step := newest.time - g.back(1).time
	if g.magnetic {
		if newest.level && was.level {
			g.variation.add(off, step, windTime)
		}
		return
	}
	g.drift.add(off, step, driftTime)
	g.measureWind(&here, step)
}

// measureWind takes the wind as the way over the ground less that through the air, in level flight.
func (g *Path) measureWind(here *Place, step float64) {
	newest, was := g.back(0), g.since(windOver)
	if was == nil || !newest.level || !was.level {
		return
	}
	if math.Abs(newest.turned-was.turned) > 10 || math.IsNaN(newest.north-was.north) {
		return
	}
	north, east := here.to(was.lat, was.lon)
	k := 1 / (newest.time - was.time) / aero.FeetPerSecond
	g.wind.north.add((-north-(newest.north-was.north))*k, step, windTime)
	g.wind.east.add((-east-(newest.east-was.east))*k, step, windTime)
}

// A smoothed value follows what is added to it: their mean at first, later with a time constant.
type smoothed struct {
	value float64
	age   float64 // s of flight behind it, 0: not known
}

func (v *smoothed) add(to, step, constant float64) {
	v.age += step
	v.value += (to - v.value) * min(1, step/min(v.age, constant))
}

// Clear forgets the fixes and the drift; the wind stays.
func (g *Path) Clear() { g.next, g.n, g.drift.age = 0, 0, 0 }

// trueOf returns the true heading for a heading as sent; false when the variation is not known.
func (g *Path) trueOf(heading float64) (float64, bool) {
	if !g.magnetic {
		return heading, true
	}
	return heading + g.variation.value, g.variation.age > 0
}

// Axes returns the axes of a leg that began at a place, with a heading as sent, to a side.
func (g *Path) Axes(at Place, heading, side float64) Axes {
	h, ok := g.trueOf(heading)
	at.ok = at.ok && ok
	return Axes{at, h, side}
}

// SpeedOver returns the ground speed with which the nose would point to a heading, as sent, at a true airspeed, both
// speeds in kt; ok is false where the wind is not known, or leaves no way ahead.
func (g *Path) SpeedOver(heading, tas float64) (kt float64, ok bool) {
	north, east := g.wind.north, g.wind.east
	if g.magnetic || east.age < windOver {
		return 0, false
	}
	sin, cos := math.Sincos(heading * degree)
	kt = math.Hypot(tas*cos+north.value, tas*sin+east.value)
	return kt, kt > hardly
}

// Aside returns how much of the wind comes from a side (1 right, −1 left) where the nose points to a heading, as sent,
// kt; negative from the other. ok is false where the wind is not known.
func (g *Path) Aside(heading, side float64) (kt float64, ok bool) {
	if g.magnetic || g.wind.east.age < windOver {
		return 0, false
	}
	sin, cos := math.Sincos(heading * degree)
	return side * (g.wind.north.value*sin - g.wind.east.value*cos), true
}

// BankAround returns the bank (°) with which a turn to a side (1 right, −1 left) keeps its radius (ft) over the ground
// where the nose points to a heading, as sent, at a true airspeed (kt); see [aero.BankToHold]. ok is false where the
// wind is not known.
func (g *Path) BankAround(heading, tas, radius, side float64) (bank float64, ok bool) {
	if _, ok := g.SpeedOver(heading, tas); !ok || radius <= 0 {
		return 0, false
	}
	north, east := g.wind.north.value, g.wind.east.value
	sin, cos := math.Sincos(heading * degree)
	track := math.Atan2(tas*sin+east, tas*cos+north)
	sin, cos = math.Sincos(track)
	behind, outward := north*cos+east*sin, side*(north*sin-east*cos)
	bank, _ = aero.BankToHold(radius, tas, behind, outward)
	return bank, true
}

// Show returns the flight over the ground at a sample, for a frame; nil without a position. By a magnetic heading
// there is neither track nor wind.
func (g *Path) Show(s *stream.Sample, from *Axes) *coach.Ground {
	if !PlaceOf(s).ok {
		return nil
	}
	out := &coach.Ground{}
	if along, across, ok := from.Locate(s); ok {
		out.Along, out.Across = coach.Round(along, 0), coach.Round(across, 0)
	}
	if g.magnetic {
		return out
	}
	if g.drift.age > 0 {
		out.Drift = new(coach.Round(g.drift.value, 1))
		out.Track = new(coach.Round(stream.Wrap360(s.Value(stream.Heading)+g.drift.value), 1))
	}
	if north, east := g.wind.north, g.wind.east; east.age >= windOver {
		out.Wind = WindOf(north.value, east.value)
	}
	return out
}

// WindOf writes a wind toward north and east (kt) as people do: by where it comes from.
func WindOf(north, east float64) *coach.Wind {
	return &coach.Wind{
		From:  coach.Round(stream.Wrap360(math.Atan2(-east, -north)/degree), 0),
		Speed: coach.Round(math.Hypot(north, east), 1),
	}
}
