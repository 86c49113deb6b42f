package follow_test

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/trainer"
)

// frames coaches a flight of the built-in aircraft and hands each sample's frame on.
func frames(t *testing.T, f trainer.Flight,
	each func(n int, c *follow.Single, s *stream.Sample, fr *coach.Frame)) []*coach.Leg {
	t.Helper()
	pilot, err := rehearsed.NewSequence(f)
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(judge.Options{Plan: planOf(t, "wing-over", "turboprop-trainer")})
	var s stream.Sample
	var h heard
	for n := 0; pilot.Step(1.0/60, &s); n++ {
		c.Step(&s)
		h.take(c.Take())
		each(n, c, &s, c.Frame())
	}
	return h.legs
}

// The triangle of velocities: with the wind square to the heading, the drift is atan(wind/true
// airspeed), away from the wind (Pilot's Handbook of Aeronautical Knowledge, ch. 16).
func TestDriftIsTheWindTriangle(t *testing.T) {
	for _, c := range []struct{ heading, from, speed float64 }{{90, 0, 30}, {90, 180, 30}, {200, 290, 15},
		{0, 45, 40}} {
		var last *coach.Frame
		var tas float64
		frames(t, trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "turboprop-trainer", Seed: 3,
			Steady:   true,
			Latitude: 47, Longitude: 11, Heading: c.heading, WindFrom: c.from, WindSpeed: c.speed},
			func(n int, _ *follow.Single, s *stream.Sample, f *coach.Frame) {
				if n == 60*10 {
					last, tas = f, s.Value(stream.TrueAirspeed)
				}
			})
		g := last.Ground
		if g == nil || g.Drift == nil || g.Wind == nil {
			t.Fatalf("%+v: %+v", c, g)
		}
		to := (c.from + 180 - c.heading) * math.Pi / 180
		want := math.Atan2(c.speed*math.Sin(to), tas+c.speed*math.Cos(to)) * 180 / math.Pi
		if math.Abs(*g.Drift-want) > 0.3 {
			t.Errorf("%+v: drift %.1f°, want %.1f", c, *g.Drift, want)
		}
		if math.Abs(stream.Wrap180(*g.Track-c.heading-want)) > 0.3 {
			t.Errorf("%+v: track %.1f°, want %.1f", c, *g.Track, c.heading+want)
		}
		if off := stream.Wrap180(g.Wind.From - c.from); math.Abs(off) > 3 || math.Abs(g.Wind.Speed-c.speed) > 1 {
			t.Errorf("%+v: the wind is %+v", c, *g.Wind)
		}
	}
}

// The point stands where the geometry has it at every moment of a leg: its bearing and distance
// from the position sent, worked out here with great circles on a sphere.
func TestPointStandsInTheWorld(t *testing.T) {
	seen, most := 0, 0.0
	var entry *coach.Frame
	var lat0, lon0, h0 float64
	legs := frames(t, trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "turboprop-trainer",
		Seed: 3, Latitude: 47, Longitude: 11, Heading: 90, WindFrom: 20, WindSpeed: 25},
		func(_ int, _ *follow.Single, s *stream.Sample, f *coach.Frame) {
			if f.State != "leg" || f.PointFar == nil || f.PointBy != "position" {
				return
			}
			if entry == nil {
				entry = f
				// Off the right wing at the entry, 5 NM away: back along the axes to there.
				h0 = s.Value(stream.Heading) - f.Turn
				lat0, lon0 = step(s.Value(stream.Latitude), s.Value(stream.Longitude), h0+180, f.Ground.Along)
				lat0, lon0 = step(lat0, lon0, h0-90, f.Ground.Across)
				lat0, lon0 = step(lat0, lon0, h0+90, 5*6076.12)
			}
			bearing, far := great(s.Value(stream.Latitude), s.Value(stream.Longitude), lat0, lon0)
			seen++
			off := math.Abs(stream.Wrap180(bearing - s.Value(stream.Heading) - *f.Point))
			most = math.Max(most, off)
			if off > 0.5 || math.Abs(far-*f.PointFar) > 0.03 {
				t.Fatalf("at %.0f°: the point stands at %.1f°, %.2f NM; want %.1f°, %.2f NM",
					f.Turn, *f.Point, *f.PointFar, bearing-s.Value(stream.Heading), far)
			}
		})
	if len(legs) != 1 || seen < 1000 {
		t.Fatalf("%d legs, %d frames with a point", len(legs), seen)
	}
	// The trace over the ground leads from the entry round to the other side.
	tr := legs[0].Trace
	if a := tr[0]; a.Along == nil || math.Abs(*a.Along) > 60 || math.Abs(*a.Across) > 20 {
		t.Errorf("the trace begins at %+v", a)
	}
	if end := tr[len(tr)-1]; *end.Across < 2000 {
		t.Errorf("half a turn later it is %.0f ft across", *end.Across)
	}
}

const sphere = 3440.065 // NM, mean radius of the earth

// step goes a distance (ft) in a direction (°) on a sphere.
func step(lat, lon, direction, feet float64) (float64, float64) {
	d := feet / 6076.12 / sphere * 180 / math.Pi
	return lat + d*math.Cos(direction*math.Pi/180), lon + d*math.Sin(direction*math.Pi/180)/math.Cos(lat*math.Pi/180)
}

// great is the direction and distance between two positions on a sphere, ° and NM.
func great(lat, lon, toLat, toLon float64) (bearing, far float64) {
	const r = math.Pi / 180
	a, b, d := lat*r, toLat*r, (toLon-lon)*r
	y, x := math.Sin(d)*math.Cos(b), math.Cos(a)*math.Sin(b)-math.Sin(a)*math.Cos(b)*math.Cos(d)
	hav := math.Pow(math.Sin((b-a)/2), 2) + math.Cos(a)*math.Cos(b)*math.Pow(math.Sin(d/2), 2)
	return math.Atan2(y, x) / r, 2 * math.Asin(math.Sqrt(hav)) * sphere
}

// A point chosen by a touch stays where it was put: flying on, it falls behind the wing.
func TestTouchedPointStays(t *testing.T) {
	far := 2.0
	var first, later *coach.Frame
	frames(t, trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "turboprop-trainer", Seed: 3,
		Steady: true, Latitude: 47, Longitude: 11, Heading: 90},
		func(n int, c *follow.Single, _ *stream.Sample, f *coach.Frame) {
			switch n {
			case 300:
				if err := c.SetLine(coach.LineChoice{Side: "right", Distance: &far}); err != nil {
					t.Fatal(err)
				}
			case 301:
				first = f
			case 600:
				later = f
			}
		})
	if math.Abs(*first.Point-90) > 1 || math.Abs(*first.PointFar-2) > 0.02 || first.PointBy != "position" {
		t.Errorf("at the touch: %v° %v NM", *first.Point, *first.PointFar)
	}
	// 5 s at the true airspeed, then atan2.
	if *later.Point < 95 || *later.PointFar < 2 {
		t.Errorf("5 s later: %v° %v NM", *later.Point, *later.PointFar)
	}
	if first.Line == nil || math.Abs(first.Line.Heading-90) > 1 || first.Line.Side != "right" ||
		*first.Line.Distance != 2 {
		t.Errorf("the line is %+v", first.Line)
	}
}
