package ground

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/stream"
)

// flight flies straight for half a minute: a true heading and airspeed in a wind from a direction, both in kt.
func flight(heading, tas, from, wind float64, put func(now float64, s *stream.Sample)) (g Path, last stream.Sample) {
	at := samplePlace(47, 11)
	for i := range 30 * 30 {
		now := float64(i) / 30
		sin, cos := math.Sincos(heading * degree)
		blow, push := math.Sincos((from + 180) * degree)
		north := (tas*cos + wind*push) * now / 3600 * nautical
		east := (tas*sin + wind*blow) * now / 3600 * nautical
		var s stream.Sample
		for c, v := range map[stream.Channel]float64{
			stream.Time:         now,
			stream.Heading:      heading,
			stream.Bank:         0,
			stream.Latitude:     at.lat + north/at.north,
			stream.Longitude:    at.lon + east/at.east,
			stream.TrueAirspeed: tas,
		} {
			s.Put(c, v)
		}
		if put != nil {
			put(now, &s)
		}
		g.Add(&s, 0)
		last = s
	}
	return g, last
}

// The wind triangle, by hand: with the wind from abeam tan(drift) = wind / airspeed; along the heading there is none.
func TestWind(t *testing.T) {
	for _, c := range []struct {
		name                     string
		heading, tas, from, wind float64
		drift                    float64
	}{
		{"from the left", 90, 120, 0, 20, 9.46}, // atan(20/120)
		{"from the right", 90, 120, 180, 20, -9.46},
		{"from ahead", 90, 120, 90, 20, 0},
		{"from behind", 90, 120, 270, 20, 0},
		{"quartering", 0, 100, 45, 20, -9.35}, // 14.14 across, 100 − 14.14 along: atan 0.1647
	} {
		g, s := flight(c.heading, c.tas, c.from, c.wind, nil)
		f := g.Show(&s, &Axes{})
		if f == nil || f.Drift == nil || f.Wind == nil || f.Track == nil {
			t.Fatalf("%s: %+v", c.name, f)
		}
		if math.Abs(*f.Drift-c.drift) > 0.1 || math.Abs(stream.Wrap180(*f.Track-c.heading-c.drift)) > 0.1 {
			t.Errorf("%s: drift %g°, track %g°; must be %g°", c.name, *f.Drift, *f.Track, c.drift)
		}
		if math.Abs(stream.Wrap180(f.Wind.From-c.from)) > 1 || math.Abs(f.Wind.Speed-c.wind) > 0.3 {
			t.Errorf("%s: the wind is %+v; must be from %g° at %g kt", c.name, *f.Wind, c.from, c.wind)
		}
	}
}

// The wind is measured in level flight only, and only where the airspeed is known.
func TestNoWind(t *testing.T) {
	for name, put := range map[string]func(now float64, s *stream.Sample){
		"in a bank":           func(_ float64, s *stream.Sample) { s.Put(stream.Bank, 30) },
		"without an airspeed": func(_ float64, s *stream.Sample) { s.Drop(stream.TrueAirspeed) },
		"with a derived airspeed": func(_ float64, s *stream.Sample) {
			s.Drop(stream.TrueAirspeed)
			s.Derive(stream.Airspeed, 120)
		},
	} {
		g, s := flight(90, 120, 0, 20, put)
		if f := g.Show(&s, &Axes{}); f == nil || f.Wind != nil || f.Track == nil {
			t.Errorf("%s: %+v", name, f)
		}
	}
	// A track that is sent counts before the one measured.
	g, s := flight(90, 120, 0, 0, func(_ float64, s *stream.Sample) { s.Put(stream.Track, 95) })
	if f := g.Show(&s, &Axes{}); f == nil || f.Track == nil || math.Abs(*f.Track-95) > 0.1 {
		t.Errorf("by a track that was sent: %+v", f)
	}
	if g.Clear(); g.drift.age != 0 || g.n != 0 {
		t.Error("after Clear there is a drift")
	}
}

func TestLineChoice(t *testing.T) {
	here := Pose{Known: true, Heading: 123.4, Place: samplePlace(47, 11)}
	for _, c := range []struct {
		name   string
		choice coach.LineChoice
		now    Pose
		err    string
		want   coach.Line
	}{
		{"along the nose", coach.LineChoice{}, here, "", coach.Line{Heading: 123.4}},
		{"a heading", coach.LineChoice{Heading: new(90.0)}, here, "", coach.Line{Heading: 90, Off: 33.4}},
		{"its other direction", coach.LineChoice{Heading: new(300.0)}, here, "", coach.Line{Heading: 300, Off: 3.4}},
		{"north", coach.LineChoice{Heading: new(360.0)}, here, "", coach.Line{Heading: 0, Off: -56.6}},
		{"a side and a distance", coach.LineChoice{Side: "left", Distance: new(2.0)}, here, "",
			coach.Line{Heading: 123.4, Side: "left", Distance: new(2.0)}},
		{"no heading yet", coach.LineChoice{}, Pose{}, "heading", coach.Line{}},
		{"a heading of 361", coach.LineChoice{Heading: new(361.0)}, here, "361", coach.Line{}},
		{"a heading that is no number", coach.LineChoice{Heading: new(math.NaN())}, here, "heading", coach.Line{}},
		{"a distance of 0", coach.LineChoice{Distance: new(0.0)}, here, "0.1", coach.Line{}},
		{"too far", coach.LineChoice{Distance: new(51.0)}, here, "50", coach.Line{}},
		{"no such side", coach.LineChoice{Side: "up"}, here, "up", coach.Line{}},
	} {
		var s Sight
		err := s.Set(c.choice, &Path{}, &c.now)
		if c.err != "" {
			if err == nil || !strings.Contains(err.Error(), c.err) || s.ShowLine(0) != nil {
				t.Errorf("%s: %v; must say %q and set nothing", c.name, err, c.err)
			}
			continue
		}
		got := s.ShowLine(here.Heading)
		if err != nil || !reflect.DeepEqual(got, &c.want) {
			t.Errorf("%s: %+v, %v; must be %+v", c.name, got, err, c.want)
		}
		if off, ok := s.Off(here.Heading); !ok || math.Abs(off-c.want.Off) > 0.05 || s.Want().IsZero() {
			t.Errorf("%s: %g° off, set %v, %q", c.name, off, ok, s.Want())
		}
		err = s.Set(coach.LineChoice{Clear: true}, &Path{}, &c.now)
		if err != nil || s.ShowLine(0) != nil || !s.Want().IsZero() {
			t.Errorf("%s: the line is not cleared, %v", c.name, err)
		}
	}
}

// A point that was chosen off the right wing serves a leg to the right that departs within 30° of it; another leg gets
// one of its own.
func TestLegPoint(t *testing.T) {
	at := samplePlace(47, 11)
	var s Sight
	var path Path
	now := Pose{Known: true, Heading: 90, Place: at}
	if err := s.Set(coach.LineChoice{Side: "right"}, &path, &now); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		heading, side float64
		kept          bool
	}{{90, 1, true}, {115, 1, true}, {65, 1, true}, {125, 1, false}, {90, -1, false}, {270, -1, true}} {
		p := s.LegPoint(&path, at, c.heading, c.side)
		if (p == s.chosen) != c.kept {
			t.Errorf("heading %g°, side %g: kept %v; must be %v", c.heading, c.side, !c.kept, c.kept)
		}
		bearing, far := p.from(at, c.heading)
		if abeam := math.Abs(bearing-90*c.side) <= 0.1 && math.Abs(far-5) <= 0.01; !c.kept && !abeam {
			t.Errorf("heading %g°, side %g: its own stands at %.1f°, %.2f NM", c.heading, c.side, bearing, far)
		}
	}
	var f coach.Frame
	if s.Show(&f, &path, &now); f.Point == nil || *f.Point != 90 || f.PointBy != "position" || *f.PointFar != 5 {
		t.Errorf("the frame has %+v", f)
	}
	f = coach.Frame{}
	now.Place = Place{}
	if s.Show(&f, &path, &now); f.Point == nil || *f.Point != 90 || f.PointBy != "heading" || f.PointFar != nil {
		t.Errorf("without a position the frame has %+v", f)
	}
}
