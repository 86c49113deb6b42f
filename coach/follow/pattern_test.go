package follow_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
)

// autoCircling is circling with no maneuver chosen; pause is the level flight before each turn, s.
func autoCircling(t *testing.T, turns []turn, pause float64) (found []string) {
	t.Helper()
	a := follow.NewAuto(judge.Options{}, plansFor(t, "light-single"), 0)
	var h heard
	for s := range levelTurns(turns, 102, pause, 120) {
		a.Step(s)
		h.take(a.Take())
	}
	a.Break(phrase.Plain("the flight is over"))
	h.take(a.Take())
	for _, s := range h.series {
		found = append(found, fmt.Sprintf("%s %d", s.Maneuver, len(s.Legs)))
	}
	return found
}

// TestPatternIsToldByItsTurns: three level turns of different banks or lengths that follow each other are a turn
// pattern (CNATRA P-330 par. 611); one or two of them, the two of clearing turns (par. 1005), and turns far apart are
// not, and nothing is said of them.
func TestPatternIsToldByItsTurns(t *testing.T) {
	published := []turn{{15, 30}, {-15, 30}, {30, 90}, {-30, 90}, {45, 180}, {-45, 180}}
	for _, c := range []struct {
		name  string
		turns []turn
		pause float64
		want  string
	}{
		{"as published", published, 10, "turn-pattern 6"},
		{"nine turns of three banks and lengths", []turn{{15, 30}, {-15, 90}, {30, 90}, {-45, 180}, {30, 180},
			{-45, 90}, {15, 180}, {-30, 30}, {45, 30}}, 15, "turn-pattern 9"},
		{"three turns", published[1:4], 10, "turn-pattern 3"},
		{"one turn", []turn{{15, 90}}, 10, ""},
		{"two turns", []turn{{15, 30}, {-15, 90}}, 10, ""},
		{"clearing turns", []turn{{33, 90}, {-33, 90}}, 10, "clearing-turns 2"},
		{"far apart", []turn{{15, 30}, {-15, 90}, {15, 180}}, 60, ""},
		{"steep turns", []turn{{50, 360}, {-50, 360}}, 10, "steep-turn 2"},
		{"steep turns after a turn", []turn{{15, 90}, {50, 360}, {-50, 360}}, 20, "steep-turn 2"},
	} {
		if got := strings.Join(autoCircling(t, c.turns, c.pause), ", "); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// TestPatternFlown: the pattern of the scripted pilot is found in every airplane, with all of its legs, and so is what
// is flown after it.
func TestPatternFlown(t *testing.T) {
	for _, name := range airplane.Names() {
		pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: "turn-pattern", Airplane: name, Seed: 3},
			trainer.Flight{Maneuver: "wing-over", Airplane: name, Seed: 3})
		if err != nil {
			t.Fatal(err)
		}
		series, _, _ := flyAuto(t, pilot, name)
		var got []string
		for _, s := range series {
			got = append(got, fmt.Sprintf("%s %d %s", s.Maneuver, len(s.Legs), s.Verdict))
		}
		if want := []string{"turn-pattern 6 met", "wing-over 2 met"}; !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}

// TestGroundReferencesAreTold: what the scripted pilot flies about a point on the ground is found without being chosen,
// in 15 kt of wind, in every airplane.
func TestGroundReferencesAreTold(t *testing.T) {
	for _, name := range airplane.Names() {
		for m, want := range map[string]string{
			"steep-spiral": "steep-spiral 1", "eights-on-pylons": "eights-on-pylons 2"} {
			pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: m, Airplane: name, Seed: 3,
				WindFrom: 40, WindSpeed: 15})
			if err != nil {
				t.Fatal(err)
			}
			series, _, _ := flyAuto(t, pilot, name)
			var got []string
			for _, s := range series {
				got = append(got, fmt.Sprintf("%s %d", s.Maneuver, len(s.Legs)))
			}
			if strings.Join(got, ", ") != want {
				t.Errorf("%s in %s: %v", m, name, got)
			}
		}
	}
}

// TestTurnThatWasMeant: each turn is judged by the bank and the turn of the card that it comes nearest to, and where
// the order of the card asks for one that it comes near to, by that.
func TestTurnThatWasMeant(t *testing.T) {
	for _, c := range []struct {
		flown []turn
		bank  float64 // aim of the last turn
		round float64
	}{
		{[]turn{{16, 32}}, 15, 30},
		{[]turn{{15, 90}}, 15, 90},
		{[]turn{{23, 30}}, 15, 30}, // the first of the order, though nearer to 30°
		{[]turn{{15, 30}, {-15, 30}, {30, 105}}, 30, 90},
		{[]turn{{15, 30}, {-15, 30}, {38, 90}}, 30, 90}, // the third of the order, though nearer to 45°
		{[]turn{{42, 170}}, 45, 180},
	} {
		f := follow.New(judge.Options{Plan: planOf(t, "turn-pattern", "light-single")})
		h := circling(f, c.flown, 60)
		if len(h.legs) != len(c.flown) {
			t.Errorf("%v: %d legs", c.flown, len(h.legs))
			continue
		}
		last := h.legs[len(h.legs)-1]
		aim := func(id string) float64 {
			i := slices.IndexFunc(last.Checks, func(k coach.Check) bool { return k.ID == id })
			if i < 0 || last.Checks[i].Aim == nil {
				return math.NaN()
			}
			return *last.Checks[i].Aim
		}
		if aim("mean-bank") != c.bank || aim("exit-heading") != c.round {
			t.Errorf("%v: judged as %g° of bank through %g°", c.flown, aim("mean-bank"), aim("exit-heading"))
		}
	}
}

// TestCuesOfThePattern: what is said in flight is of the turn that the order asks for, and nothing where another is
// flown: 15° through 30°, 15° through 30°, 30° through 90° (CNATRA P-330 par. 611).
func TestCuesOfThePattern(t *testing.T) {
	for _, c := range []struct {
		flown []turn
		want  []string // ids of the cues
	}{
		{[]turn{{15, 30}, {-15, 30}, {30, 90}}, []string{"cue-30", "cue-30", "cue-90"}},
		{[]turn{{30, 90}}, nil},
		{[]turn{{15, 30}, {-45, 180}}, []string{"cue-30"}},
		{[]turn{{15, 30}, {-15, 30}, {30, 90}, {-30, 90}, {45, 180}, {-45, 180}},
			[]string{"cue-30", "cue-30", "cue-90", "cue-90", "cue-180", "cue-180"}},
	} {
		f := follow.New(judge.Options{Plan: planOf(t, "turn-pattern", "light-single"), Prompts: "all"})
		h := circling(f, c.flown, 10)
		var got []string
		for _, k := range h.said {
			if k.Kind == coach.Cue {
				got = append(got, k.ID)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.flown, got, c.want)
		}
	}
}
