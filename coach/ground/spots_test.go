package ground

import (
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/stream"
)

// pose is level flight over a place to the north, 1,000 ft up, in a bank to the right.
func pose(bank float64) (*Pose, *stream.Sample) {
	var s stream.Sample
	s.Put(stream.Height, 1000)
	s.Put(stream.Bank, bank)
	s.Put(stream.Pitch, 0)
	return &Pose{Known: true, Heading: 0, Place: samplePlace(47, 11)}, &s
}

// The line of a wing that is down by 45° meets the ground as far to the side as the flight is high; by 30°, √3 times as
// far. A wing that is level leaves it to what was chosen, or is usual.
func TestSpotOffTheWing(t *testing.T) {
	for _, c := range []struct {
		name        string
		where       string
		bank        float64
		distance    float64
		usual       float64
		north, east float64
	}{
		{"below", "here", 45, 0, 0, 0, 0},
		{"right wing, 45° down", "right", 45, 0, 0, 0, 1000},
		{"right wing, 30° down", "right", 30, 500, 0, 0, 1732},
		{"left wing, 45° down", "left", -45, 0, 0, 0, -1000},
		{"left wing, which is up", "left", 45, 800, 0, 0, -800},
		{"level, as far as chosen", "right", 0, 700, 1200, 0, 700},
		{"level, as usual", "right", 3, 0, 1200, 0, 1200},
		{"level, nothing known", "right", 0, 0, 0, 0, 1000},
		{"hardly down: farther than anything to fly about", "right", 2, 0, 0, 0, 1000},
	} {
		now, s := pose(c.bank)
		w := coach.AboutChoice{Where: c.where}
		if c.distance > 0 {
			w.Distance = &c.distance
		}
		var sight Sight
		if err := sight.Choose(w, &Path{}, now, s, c.usual); err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		f, ok := sight.Spots().Newest()
		north, east := now.Place.to(f.Lat, f.Lon)
		level := math.Abs(c.bank) < leastWing || c.where == "left" == (c.bank > 0)
		if level { // what is chosen or usual is along the wing
			c.east *= math.Cos(c.bank * degree)
		}
		if !ok || math.Abs(north-c.north) > 1 || math.Abs(east-c.east) > 1 {
			t.Errorf("%s: %.0f north, %.0f east, %v; must be %g, %g", c.name, north, east, ok, c.north, c.east)
		}
	}
}

// What cannot be a point is refused, and leaves what was chosen.
func TestSpotRefused(t *testing.T) {
	near, far := 99.0, 20001.0
	for _, c := range []struct {
		name string
		w    coach.AboutChoice
		now  bool
		says string
	}{
		{"nowhere", coach.AboutChoice{}, true, "must be here"},
		{"up", coach.AboutChoice{Where: "up"}, true, `"up"`},
		{"too near", coach.AboutChoice{Where: "left", Distance: &near}, true, "100"},
		{"too far", coach.AboutChoice{Where: "left", Distance: &far}, true, "20"},
		{"not a number", coach.AboutChoice{Where: "left", Distance: new(math.NaN())}, true, "must be between"},
		{"without a position", coach.AboutChoice{Where: "here"}, false, "position"},
	} {
		now, s := pose(0)
		var sight Sight
		if err := sight.Choose(coach.AboutChoice{Where: "here"}, &Path{}, now, s, 0); err != nil {
			t.Fatal(err)
		}
		was, _ := sight.Spots().Newest()
		if !c.now {
			now.Place = Place{}
		}
		err := sight.Choose(c.w, &Path{}, now, s, 0)
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; must say %q", c.name, err, c.says)
		}
		if is, ok := sight.Spots().Newest(); !ok || is != was {
			t.Errorf("%s: what was chosen is gone", c.name)
		}
	}
}

// Of two pylons a leg is flown about the one off the wing on its side; a point ahead or far away is none. The choice of
// a line leaves them, and clearing forgets both.
func TestLegSpot(t *testing.T) {
	var sight Sight
	var path Path
	now, s := pose(0)
	for _, where := range []string{"left", "right"} {
		if err := sight.Choose(coach.AboutChoice{Where: where}, &path, now, s, 0); err != nil {
			t.Fatal(err)
		}
	}
	if err := sight.Set(coach.LineChoice{}, &path, now); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		heading, side, east float64
		ok                  bool
	}{{0, 1, 1000, true}, {0, -1, -1000, true}, {180, 1, -1000, true}, {50, 1, 1000, true}, {90, 1, 0, false}} {
		f, ok := sight.LegSpot(&path, now.Place, c.heading, c.side)
		_, east := now.Place.to(f.Lat, f.Lon)
		if ok != c.ok || ok && math.Abs(east-c.east) > 1 {
			t.Errorf("heading %g°, side %g: %.0f ft east, %v", c.heading, c.side, east, ok)
		}
	}
	if _, ok := sight.LegSpot(&path, samplePlace(47.1, 11), 0, 1); ok {
		t.Error("a point six miles away is flown about")
	}
	if err := sight.Choose(coach.AboutChoice{Clear: true}, &path, now, s, 0); err != nil {
		t.Fatal(err)
	}
	if _, ok := sight.LegSpot(&path, now.Place, 0, 1); ok {
		t.Error("after clearing there is a point")
	}
}

// A point 1,000 ft to the right of a flight 1,000 ft up is on the line of a wing that is 45° down; one farther ahead is
// ahead of it by atan of that over the way along the wing, 1,414 ft.
func TestStand(t *testing.T) {
	now, s := pose(45)
	s.Put(stream.Latitude, 47)
	s.Put(stream.Longitude, 11)
	s.Put(stream.Heading, 0)
	at := now.Place
	for _, north := range []float64{0, 100, -250} {
		f := Fixed{at.lat + north/at.north, at.lon + 1000/at.east}
		st, ok := StandOf(f, &Path{}, s, 1)
		ahead := math.Atan2(north, 1000*math.Sqrt2) / degree
		if !ok || math.Abs(st.Ahead-ahead) > 0.1 || math.Abs(st.Distance-math.Hypot(1000, north)) > 1 {
			t.Errorf("%g ft ahead: %+v; must be %.1f° ahead", north, st, ahead)
		}
		if want := math.Atan2(1000, north) / degree; math.Abs(st.Bearing-want) > 0.1 {
			t.Errorf("%g ft ahead: bearing %.1f°; must be %.1f°", north, st.Bearing, want)
		}
	}
}

// In a wind the bank that holds a radius is steepest with the wind behind and flattest against it (FAA-H-8083-3C
// p. 10-4): tan(bank) = GS²/(g·R). R 1,500 ft: 105 kt 33.05°, 75 kt 18.37°, worked by hand.
func TestBankAround(t *testing.T) {
	g, _ := flight(90, 90, 0, 15, nil) // from the north
	for _, c := range []struct{ heading, want float64 }{{180, 33.05}, {0, 18.37}} {
		for _, side := range []float64{1, -1} {
			bank, ok := g.BankAround(c.heading, 90, 1500, side)
			if !ok || math.Abs(bank-c.want) > 0.3 {
				t.Errorf("heading %g°, side %g: %.2f°, %v; must be %g", c.heading, side, bank, ok, c.want)
			}
		}
	}
	if kt, ok := g.SpeedOver(180, 90); !ok || math.Abs(kt-105) > 0.5 {
		t.Errorf("with the wind %.1f kt, %v; must be 105", kt, ok)
	}
	if _, ok := (&Path{}).BankAround(0, 90, 1500, 1); ok {
		t.Error("without a wind there is a bank")
	}
}
