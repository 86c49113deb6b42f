package plan_test

import (
	"fmt"
	"math"
	"testing"

	"halfturn/coach/aero"
	"halfturn/coach/aircraft"
	"halfturn/coach/plan"
)

// taught are the entry speed and the lowest speed that the pilots of a class were given for the good flights, kt; the
// entry speed of the lazy eight and of the chandelles is another.
var taught = map[string]struct{ entry, eight, chandelle, apex float64 }{
	"turboprop-a": {entry: 220, chandelle: 200, apex: 148},
	"turboprop-b": {entry: 155, apex: 112},
	"jet":         {entry: 220, apex: 147},
	"single-a":    {entry: 105, eight: 100, chandelle: 105, apex: 74},
	"single-b":    {entry: 118, apex: 91},
}

// TestPathOfTheCards asks the path for what it does not know of a leg: its lowest airspeed, too, is predicted, from the
// numbers of the aircraft card and the entry of the leg alone. Then it is the flight that the recorded ones lie around:
// without a bias, but for each of them only as near as pilots are to each other, which is the bound that no single path
// can pass. What the other good legs of the same airplane were in the mean is no nearer to a leg than the path.
func TestPathOfTheCards(t *testing.T) {
	legs := flownLegs(t)
	var byPath, byOthers tally
	for i := range legs {
		l := &legs[i]
		others := l.othersIn(legs)
		if l.maneuver == "steep-turn" {
			continue // height and airspeed are held: nothing is left to predict
		}
		miss := l.misses(l.taught(t).From(l.entry, l.altitude))
		byPath.add(miss)
		t.Logf("%-46s %+5.1f %%  %+5.1f %%  %+5.1f kt  %+5.2f g", l.name, 100*miss[0], 100*miss[1], miss[2], miss[3])
		if len(others) >= 5 {
			byOthers.add(l.missesOf(others))
		}
	}
	var same tally // the path, for the legs that others can tell
	for i := range legs {
		if l := &legs[i]; len(l.othersIn(legs)) >= 5 {
			same.add(l.misses(l.taught(t).From(l.entry, l.altitude)))
		}
	}
	t.Logf("the path, all: %s", &byPath)
	t.Logf("the path, of airplanes with six legs or more: %s", &same)
	t.Logf("the mean of the other legs of the airplane: %s", &byOthers)
	for i, most := range (misses{0.04, 0.03, 1.5, 0.06}) {
		if mean := byPath.mean(i); math.Abs(mean) > most {
			t.Errorf("%s: %+.3f in the mean of %d legs; must be within %g", columns[i], mean, byPath.n, most)
		}
		if a, b := same.spread(i), byOthers.spread(i); a > 1.25*b {
			t.Errorf("%s: the path is %.3f off, the mean of other legs %.3f", columns[i], a, b)
		}
	}
	if byPath.near < 25 || same.near < byOthers.near {
		t.Errorf("%d of %d legs are near; of %d legs the path is near to %d and the mean of the others to %d",
			byPath.near, byPath.n, same.n, same.near, byOthers.near)
	}
}

// taught is the plan from the numbers that the pilots were given.
func (l *flown) taught(t *testing.T) *plan.Plan {
	t.Helper()
	card, err := library(t).Card(l.maneuver)
	if err != nil {
		t.Fatal(err)
	}
	numbers, class := taught[l.class], classes[l.class]
	entry := numbers.entry
	switch l.maneuver {
	case "lazy-eight":
		entry = numbers.eight
	case "chandelle-civil", "chandelle-traditional":
		entry = numbers.chandelle
	}
	p := plan.New(card, &aircraft.Aircraft{
		Name:   l.class,
		Stall:  class.stall,
		Entry:  entry,
		Apex:   numbers.apex,
		Engine: class.engine,
		Speeds: map[string]aircraft.Speeds{"wing-over": {Steepest: class.steepest}},
	})
	if p.Path == nil {
		t.Fatalf("%s: %s", l.name, p.Problem)
	}
	return p
}

// othersIn are the other legs of the same maneuver in the same class of airplane.
func (l *flown) othersIn(legs []flown) (others []*flown) {
	for i := range legs {
		if o := &legs[i]; o.name != l.name && o.class == l.class && o.maneuver == l.maneuver {
			others = append(others, o)
		}
	}
	return others
}

// missesOf are how far the mean of other legs is from the leg, brought to its entry as From does.
func (l *flown) missesOf(others []*flown) (miss misses) {
	n := float64(len(others))
	own := aero.TrueAirspeed(l.entry, l.altitude)
	for _, o := range others {
		ratio := own / aero.TrueAirspeed(o.entry, o.altitude)
		miss[0] += o.duration * ratio / n
		miss[1] += o.top * ratio * ratio / n
		miss[2] += o.speed * l.entry / o.entry / n
		miss[3] += o.load / n
	}
	return misses{miss[0]/l.duration - 1, miss[1]/l.top - 1, miss[2] - l.speed, miss[3] - l.load}
}

var columns = [...]string{"time", "height at the top", "airspeed there", "largest load"}

// A tally sums misses up.
type tally struct {
	n, near     int
	sum, square misses
}

func (s *tally) add(m misses) {
	s.n++
	inside := true
	for i, x := range m {
		s.sum[i] += x
		s.square[i] += x * x
		inside = inside && math.Abs(x) <= near[i]
	}
	if inside {
		s.near++
	}
}

func (s *tally) mean(i int) float64 { return s.sum[i] / float64(s.n) }

// spread is the root of the mean square.
func (s *tally) spread(i int) float64 { return math.Sqrt(s.square[i] / float64(s.n)) }

func (s *tally) String() string {
	return fmt.Sprintf("%d of %d near; mean %+.1f %% %+.1f %% %+.1f kt %+.2f g, spread %.1f %% %.1f %% %.1f kt %.2f g",
		s.near, s.n, 100*s.mean(0), 100*s.mean(1), s.mean(2), s.mean(3),
		100*s.spread(0), 100*s.spread(1), s.spread(2), s.spread(3))
}
