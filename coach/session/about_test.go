package session_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// spotWithin is how far a point may be from where it was, ft.
const spotWithin = 100.0

// The center of a spiral and the pylons of an eight are found on recorded flights, in wind too: truth.json has where
// the pilot program put them.
func TestSpotsAreFound(t *testing.T) {
	found := 0
	for name, w := range loadTruth(t) {
		legs := legsOf(grade(t, name, w, nil))
		for i, want := range w.Legs {
			if i >= len(legs) {
				t.Fatalf("%s: %d legs", name, len(legs))
			}
			about := legs[i].About
			if want.About == nil {
				if about != nil {
					t.Errorf("%s, leg %d: a point %+v", name, i+1, about)
				}
				continue
			}
			if about == nil || about.Chosen {
				t.Errorf("%s, leg %d: no point was found: %+v", name, i+1, about)
				continue
			}
			found++
			holdSpot(t, name, i+1, about, want.About.Latitude, want.About.Longitude)
		}
	}
	if found < 5 {
		t.Errorf("%d points", found)
	}
}

// holdSpot holds a point that was found to where it was, and to how far off it is said to be.
func holdSpot(t *testing.T, name string, leg int, about *coach.About, lat, lon float64) (off float64) {
	t.Helper()
	const foot = 364000 // ft in a degree of latitude
	north := (about.Latitude - lat) * foot
	east := (about.Longitude - lon) * foot * math.Cos(lat*math.Pi/180)
	off = math.Hypot(north, east)
	if off > spotWithin || off > about.Within {
		t.Errorf("%s, leg %d: the point is %.0f ft off, and said to be within %.0f ft", name, leg, off, about.Within)
	}
	return off
}

// The same of more recordings, whose index has where the pilot program put the points: flown well or not.
func TestMoreSpotsAreFound(t *testing.T) {
	if *recordings == "" {
		t.Skip("needs -recordings")
	}
	data, err := os.ReadFile(filepath.Join(*recordings, "flights.json"))
	if err != nil {
		t.Fatal(err)
	}
	type point struct{ Latitude, Longitude float64 }
	var index struct {
		Flights map[string]struct {
			label

			Reference struct {
				Point  *point
				Pylons []point
			}
			Legs []struct{ Pylon int }
		}
	}
	if err := json.Unmarshal(data, &index); err != nil {
		t.Fatal(err)
	}
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for name, of := range index.Flights {
		if of.Reference.Point == nil && len(of.Reference.Pylons) == 0 {
			continue
		}
		n := 0
		for _, series := range gradeLabeled(t, lib, filepath.Join(*recordings, name), of.label) {
			for i := range series.Legs {
				want := of.Reference.Point
				if want == nil {
					want = &of.Reference.Pylons[of.Legs[n].Pylon]
				}
				n++
				about := series.Legs[i].About
				if about == nil {
					t.Errorf("%s, leg %d: no point was found", name, n)
					continue
				}
				off := holdSpot(t, name, n, about, want.Latitude, want.Longitude)
				t.Logf("%-34s leg %d: %3.0f ft off, said to be within %3.0f ft", name, n, off, about.Within)
				found++
			}
		}
		if n != len(of.Legs) {
			t.Errorf("%s: %d legs, want %d", name, n, len(of.Legs))
		}
	}
	if found == 0 {
		t.Error("no recording with a point")
	}
}

// choosing feeds a recording with choices of a point to fly about, the first when a third of it was fed and each next
// one a second later, and returns what was told and the first leg.
func choosing(t *testing.T, name string, choices ...coach.AboutChoice) ([]string, *coach.Leg) {
	t.Helper()
	w := loadTruth(t)[name]
	var e events
	s := session.New(options(t, w.Maneuver, w.Aircraft, &e))
	list := datagrams(t, name)
	for i, d := range list {
		if k := (i - len(list)/3) / 30; i >= len(list)/3 && k < len(choices) && (i-len(list)/3)%30 == 0 {
			if err := s.SetAbout(choices[k]); err != nil {
				t.Fatal(err)
			}
		}
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("over"))
	return e.lines, &legsOf(s.Report())[0]
}

// uneven is what the check of the distance from the point measured.
func uneven(t *testing.T, l *coach.Leg) float64 {
	t.Helper()
	for i := range l.Checks {
		if k := &l.Checks[i]; k.ID == "radius-held" && k.Value != nil {
			return *k.Value
		}
	}
	t.Fatal("the distance was not measured")
	return 0
}

// A point that is chosen off the wing in the turn is what the leg is flown about, and the same choice between the same
// datagrams gives the same events to the byte. Clearing it leaves it to the flight.
func TestChosenPoint(t *testing.T) {
	const name = "sp-single-a-good-1"
	left, none := coach.AboutChoice{Where: "left"}, coach.AboutChoice{Clear: true}
	lines, chosen := choosing(t, name, left)
	if again, _ := choosing(t, name, left); !slices.Equal(lines, again) {
		t.Error("the same choice gives other events")
	}
	_, found := choosing(t, name)
	if chosen.About == nil || !chosen.About.Chosen || found.About == nil || found.About.Chosen {
		t.Fatalf("chosen: %+v, found: %+v", chosen.About, found.About)
	}
	if chosen.About.Along == found.About.Along || uneven(t, chosen) == uneven(t, found) {
		t.Errorf("the chosen point is the one found, %+v", chosen.About)
	}
	if _, l := choosing(t, name, left, none); l.About == nil || l.About.Chosen || uneven(t, l) != uneven(t, found) {
		t.Errorf("after clearing: %+v", l.About)
	}
	for i := range found.Trace {
		x := &found.Trace[i]
		away := math.Hypot(*x.Along-found.About.Along, *x.Across-found.About.Across)
		if x.Off == nil || math.Abs(*x.Off-100*(away/found.About.Radius-1)) > 0.1 {
			t.Fatalf("at %g° the trace is off by %v", x.Turn, x.Off)
		}
	}
}

// An attitude keeps the bank of the latest frame beside the events.
type attitude struct {
	events
	bank float64
}

func (a *attitude) Frame(_ string, f *coach.Frame) { a.bank = f.Values["bank"] }

// One press takes the wing that is down: the choice is the same, to the byte, as that of the wing on the side of the
// turn, and it is said. Before the first turn it is the left wing, and between the turns of an eight, which alternate,
// the one of the next. Each word is said once.
func TestPointOffTheWing(t *testing.T) {
	said := func(lines []string) (words []string) {
		for _, line := range lines {
			var k struct{ Type, Kind, Words string }
			if err := json.Unmarshal([]byte(line), &k); err != nil {
				t.Fatal(err)
			}
			if k.Type == "callout" && k.Kind == coach.Done {
				words = append(words, k.Words)
			}
		}
		return words
	}
	const name = "sp-single-a-good-1"
	side := legsOf(grade(t, name, loadTruth(t)[name], nil))[0].Direction
	byWing, l := choosing(t, name, coach.AboutChoice{Where: coach.AboutWing})
	bySide, _ := choosing(t, name, coach.AboutChoice{Where: side})
	if !slices.Equal(byWing, bySide) || l.About == nil || !l.About.Chosen {
		t.Errorf("the wing that is down is not the %s one: %+v", side, l.About)
	}
	if got, want := said(byWing), []string{"Point, " + side + " wing"}; !slices.Equal(got, want) {
		t.Errorf("said %q; must be %q", got, want)
	}
	lines, _ := choosing(t, name, coach.AboutChoice{Where: coach.AboutHere}, coach.AboutChoice{Clear: true})
	if got, want := said(lines), []string{"Point below", "No point chosen"}; !slices.Equal(got, want) {
		t.Errorf("said %q; must be %q", got, want)
	}

	// level: before the first turn, and between two
	const eight = "ep-single-b-good-2"
	w := loadTruth(t)[eight]
	e := attitude{bank: 90}
	s := session.New(options(t, w.Maneuver, w.Aircraft, &e))
	chosen := 0
	for _, d := range datagrams(t, eight) {
		s.Feed(d.Payload, d.Seconds())
		if !s.Flying() && s.Legs() == chosen && math.Abs(e.bank) < 1 {
			if err := s.SetAbout(coach.AboutChoice{Where: coach.AboutWing}); err == nil {
				chosen++
			}
		}
	}
	s.End(phrase.Read("over"))
	sides := []string{"left"}
	for _, l := range legsOf(s.Report()) {
		sides = append(sides, map[string]string{"left": "right", "right": "left"}[l.Direction])
	}
	var want []string
	for _, side := range sides[:chosen] {
		want = append(want, "Pylon, "+side+" wing")
	}
	if got := said(e.lines); chosen < 2 || !slices.Equal(got, want) {
		t.Errorf("said %q; must be %q", got, want)
	}
}

// In an eight the pivotal altitude is said before the middle of each part of the turn: the ground speed there, squared,
// over 11.3 (FAA-H-8083-3C p. 7-15), above the ground there, within the 120 ft that the card calls near: what the pilot
// trades of height for airspeed until then is not foreseen.
func TestPivotalAltitudeIsSaid(t *testing.T) {
	const name = "ep-single-b-good-2"
	w := loadTruth(t)[name]
	l := &listener{rate: 2.5}
	s := session.New(options(t, w.Maneuver, w.Aircraft, l))
	for _, d := range datagrams(t, name) {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("over"))
	list := samplesOf(t, name)
	said := 0
	for _, k := range l.begun {
		figures, ok := strings.CutPrefix(k.cue.Words, "Pivotal ")
		if !ok {
			continue
		}
		said++
		ft, err := strconv.ParseFloat(strings.ReplaceAll(figures, " ", ""), 64)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(list, func(x stream.Sample) bool { return x.Value(stream.Time) >= *k.cue.Due })
		x := &list[i]
		speed := x.Value(stream.GroundSpeed)
		want := x.Value(stream.Altitude) - x.Value(stream.Height) + speed*speed/11.3
		if math.Abs(ft-want) > 120 {
			t.Errorf("to %g°: %g ft is said; must be about %.0f", *k.cue.To, ft, want)
		}
	}
	if said < 3 {
		t.Errorf("it is said %d times in two turns", said)
	}
}
