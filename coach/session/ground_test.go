package session_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// grounds keeps the frames of a session.
type grounds struct {
	frames []*coach.Frame
	legs   []*coach.Leg
}

func (g *grounds) Event(m message.Message) {
	if l, ok := m.Body.(message.Leg); ok {
		g.legs = append(g.legs, l.Leg)
	}
}
func (g *grounds) Frame(_ string, f *coach.Frame) { g.frames = append(g.frames, f) }
func (*grounds) Watched(string) bool              { return true }

// TestGroundOfARecording: track and drift against what the simulation itself recorded, once a
// second: within 2° in level flight, gusts and all, and within 4° in the maneuver, where the track turns by
// up to 15° a second. The place along and across is worked out from the simulation's
// positions on a sphere.
func TestGroundOfARecording(t *testing.T) {
	const name = "wing-over-turboprop-a-turbulence-good"
	w := loadTruth(t)[name]
	g := &grounds{}
	s := session.New(options(t, w.Maneuver, w.Aircraft, g))
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("over"))
	f, err := os.Open(filepath.Join(flights, name+".track.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	at := func(now float64) *coach.Frame {
		for _, f := range g.frames {
			if f.Time >= now {
				return f
			}
		}
		return nil
	}
	var level, steep, legs int
	var lat0, lon0, heading float64
	for _, row := range rows[1:] {
		var v [8]float64 // t, lat, lon, heading, track, roll, wind
		for i := range v {
			v[i], _ = strconv.ParseFloat(row[i], 64)
		}
		f := at(v[0] - 1e-3)
		if f == nil || f.Ground == nil || f.Ground.Drift == nil || v[0] < 4 {
			continue
		}
		off, limit := stream.Wrap180(*f.Ground.Drift-stream.Wrap180(v[4]-v[3])), 2.0
		if math.Abs(v[5]) > 10 {
			steep++
			limit = 4
		} else {
			level++
		}
		if math.Abs(off) > limit {
			t.Errorf("%.0f s, bank %.0f°: drift %.1f°, the simulation has %.1f°",
				v[0], v[5], *f.Ground.Drift, stream.Wrap180(v[4]-v[3]))
		}
		if f.State != "leg" || f.Direction != "right" {
			continue
		}
		l := g.legs[0]
		if legs++; legs == 1 {
			heading = l.Entry.Values["heading"]
			lat0, lon0 = l.Entry.Values["latitude"], l.Entry.Values["longitude"]
			// The entry's values are the means of the two seconds before it: go on by half of that.
			const half = 1.0 * 417 / 364800 // ° of latitude flown in a second
			sin, cos := math.Sincos(heading * math.Pi / 180)
			lat0, lon0 = lat0+half*cos, lon0+half*sin/math.Cos(lat0*math.Pi/180)
		}
		const feet = 364800 // a degree of latitude at 39°: 111,020 m at this height
		north, east := (v[1]-lat0)*feet, (v[2]-lon0)*feet*math.Cos(lat0*math.Pi/180)
		sin, cos := math.Sincos(heading * math.Pi / 180)
		along, across := north*cos+east*sin, east*cos-north*sin
		if math.Abs(along-f.Ground.Along) > 60 || math.Abs(across-f.Ground.Across) > 60 {
			t.Errorf("%.0f s: %.0f ft along and %.0f across; must be %.0f and %.0f",
				v[0], f.Ground.Along, f.Ground.Across, along, across)
		}
	}
	if level < 20 || steep < 20 || legs < 20 {
		t.Errorf("only %d seconds level, %d in turns, %d of the leg", level, steep, legs)
	}
}

// TestLineIsReplayed: the same samples and the same calls between them give the same messages.
// The line outlives a choice of another maneuver, and a wrong one is refused.
func TestLineIsReplayed(t *testing.T) {
	const name = "wo-turboprop-b-good-1"
	w := loadTruth(t)[name]
	far := 3.0
	play := func() ([]string, *session.Session) {
		var e events
		s := session.New(options(t, w.Maneuver, w.Aircraft, &e))
		for i, d := range datagrams(t, name) {
			s.Feed(d.Payload, d.Seconds())
			if i == 300 {
				if err := s.SetLine(coach.LineChoice{Side: "right", Distance: &far}); err != nil {
					t.Fatal(err)
				}
			}
		}
		return e.lines, s
	}
	once, s := play()
	again, _ := play()
	if d := cmp.Diff(once, again); d != "" || len(once) < 20 {
		t.Errorf("played again, %d messages differ:\n%s", len(once), d)
	}
	s.Choose(s.Coaching(), nil)
	bad := 400.0
	for _, c := range []coach.LineChoice{{Heading: &bad}, {Side: "up"}, {Distance: &bad}} {
		if err := s.SetLine(c); err == nil {
			t.Errorf("%+v was taken", c)
		}
	}
	if err := s.SetLine(coach.LineChoice{Clear: true}); err != nil {
		t.Error(err)
	}
	early := session.New(options(t, w.Maneuver, w.Aircraft, nil))
	if err := early.SetLine(coach.LineChoice{}); err == nil {
		t.Error("the heading of now was taken before there was one")
	}
}

// While the wings come level at the end of a turn about a pylon, the pylon stays where it was found: a roll-out is
// flown about nothing. Where it is and how far off it may be stand in each frame.
func TestPylonStaysInTheRollOut(t *testing.T) {
	const name = "ep-single-b-good-2"
	w := loadTruth(t)[name]
	g := &grounds{}
	s := session.New(options(t, w.Maneuver, w.Aircraft, g))
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("over"))
	want := w.Legs[0].About
	list := samplesOf(t, name)
	seen, k := 0, 0
	for _, f := range g.frames {
		if f.State != "leg" || f.Turn < 215 || f.Around == nil || f.Around.Bearing == nil || f.Time > 3670 {
			continue
		}
		seen++
		for k < len(list)-1 && list[k].Value(stream.Time) < f.Time-1e-3 {
			k++
		}
		x := &list[k]
		lat, lon, heading := x.Value(stream.Latitude), x.Value(stream.Longitude), x.Value(stream.Heading)
		const foot = 364000 // ft in a degree of latitude
		sin, cos := math.Sincos((heading + *f.Around.Bearing) * math.Pi / 180)
		north := (lat-want.Latitude)*foot + cos**f.Around.Distance
		east := (lon-want.Longitude)*foot*math.Cos(lat*math.Pi/180) + sin**f.Around.Distance
		off := math.Hypot(north, east)
		// With the roll-out it would be 66 ft off, and said to be within 232 ft.
		if f.Around.Within == nil || *f.Around.Within > 100 || off > 50 {
			t.Fatalf("at %g° of turn the pylon is %.0f ft off: %+v", f.Turn, off, f.Around)
		}
	}
	if seen < 10 {
		t.Errorf("%d frames", seen)
	}
}
