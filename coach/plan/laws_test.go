package plan_test

import (
	"fmt"
	"math"
	"testing"

	"halfturn/coach/aero"
	"halfturn/coach/plan"
)

// TestFromKeepsTheLaws holds every shipped card in every shipped aircraft, brought to other entries, to the laws of a
// point mass between any two points: the turn at g·n·sin(bank)/(V·cos γ), height by V·sin γ, the track by V·cos γ
// (Pilot's Handbook of Aeronautical Knowledge, aerodynamics of flight).
func TestFromKeepsTheLaws(t *testing.T) {
	checked := 0
	for _, plane := range library(t).Aircraft() {
		for _, card := range library(t).Cards() {
			p := plan.New(card, plane)
			if p.Reference() == nil {
				continue
			}
			entry := p.Aircraft.Entry
			for _, e := range [][2]float64{{entry, plan.Altitude}, {entry - 8, 1000}, {entry + 6, 12000}} {
				checked++
				path := p.From(e[0], e[1])
				enters, law := path.Points[0].TrueAirspeed, aero.TrueAirspeed(e[0], e[1])
				if math.Abs(enters-law) > 1e-6*law {
					t.Errorf("%s in %s: enters at %.1f kt true; it is %.1f", card.Name, plane.Name, enters, law)
				}
				for _, broken := range breaches(path) {
					t.Errorf("%s in %s from %v: %s", card.Name, plane.Name, e, broken)
				}
			}
		}
	}
	if checked < 30 {
		t.Errorf("%d paths checked; there are 30 at least", checked)
	}
}

// breaches are the laws that a path does not keep.
func breaches(path *aero.Path) (broken []string) {
	turned, climbed, track := laws(path)
	n := len(path.Points) - 1
	a, b := path.Points[10], path.Points[n-10]
	if turn := b.Turn - a.Turn; math.Abs(turned-turn) > 0.003*turn {
		broken = append(broken, fmt.Sprintf("%.2f° by the law, %.0f by the path", turned, turn))
	}
	if height := b.Height - a.Height; math.Abs(climbed-height) > 4 {
		broken = append(broken, fmt.Sprintf("%.0f ft by the law, %.0f by the path", climbed, height))
	}
	chord := math.Hypot(b.Along-a.Along, b.Across-a.Across)
	if half := b.Turn < 180; chord > track || half && chord < track/4 {
		broken = append(broken, fmt.Sprintf("%.0f ft of track between points %.0f ft apart", track, chord))
	}
	return broken
}

// laws sums up what the laws say of a path: turn in °, height and track in ft. Its first and last 10° are left out,
// where the bank leaves level too steeply for whole degrees.
func laws(path *aero.Path) (turned, climbed, track float64) {
	for i := 11; i <= len(path.Points)-11; i++ {
		dt := path.Points[i].Time - path.Points[i-1].Time
		for _, q := range path.Points[i-1 : i+1] {
			v := q.TrueAirspeed * aero.FeetPerSecond
			sin, cos := math.Sincos(q.Climb * math.Pi / 180)
			turned += dt / 2 * aero.Gravity * q.LoadFactor * math.Sin(q.Bank*math.Pi/180) / (v * cos) * 180 / math.Pi
			climbed += dt / 2 * v * sin
			track += dt / 2 * v * cos
		}
	}
	return turned, climbed, track
}

// TestLazyEightTakesItsTime asks whether a leg of a lazy eight is as long as the bank that the handbook asks for makes
// it (15° at 45°, 30° at 90°: Airplane Flying Handbook, performance maneuvers). At one bank a turn takes time in
// proportion to the true airspeed, so the recorded legs of a light single, 59 to 61 s at 98 to 99 kt, tell how long a
// faster airplane takes: over two minutes at 220 kt.
func TestLazyEightTakesItsTime(t *testing.T) {
	perKnot, n := 0.0, 0.0
	for _, l := range readFlown(t) {
		if l.maneuver == "lazy-eight" {
			perKnot, n = perKnot+l.duration/aero.TrueAirspeed(l.entry, l.altitude), n+1
		}
	}
	if n < 4 {
		t.Fatalf("%.0f recorded legs; there are 4 at least", n)
	}
	card, err := library(t).Card("lazy-eight")
	if err != nil {
		t.Fatal(err)
	}
	for _, plane := range library(t).Aircraft() {
		p := plan.New(card, plane)
		if p.Path == nil {
			t.Fatalf("%s: %s", plane.Name, p.Problem)
		}
		// An airplane that slows to less of its entry speed is quicker over the top.
		slower := (1 + p.Path.Slowest().Airspeed/p.Aircraft.Entry) / (1 + 74.0/99)
		told := perKnot / n * aero.TrueAirspeed(p.Aircraft.Entry, plan.Altitude) * slower
		t.Logf("%s: %.0f s, by the recorded legs %.0f", plane.Name, p.Path.Duration, told)
		if math.Abs(p.Path.Duration/told-1) > 0.08 {
			t.Errorf("%s: %.0f s, by the recorded legs of a light single %.0f", plane.Name, p.Path.Duration, told)
		}
	}
}
