package follow_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
)

// plansFor makes the plans of all shipped cards for one aircraft.
func plansFor(t testing.TB, aircraft string) []*plan.Plan {
	t.Helper()
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	var all []*plan.Plan
	for _, c := range lib.Distinct() {
		all = append(all, planOf(t, c.Name, aircraft))
	}
	return all
}

// flyAuto flies with no maneuver chosen.
func flyAuto(t testing.TB, pilot *trainer.Pilot, aircraft string) (series []*coach.Series, legs []*coach.Leg,
	said []*coach.Callout) {
	t.Helper()
	a := follow.NewAuto(judge.Options{}, plansFor(t, aircraft), 0)
	var s stream.Sample
	var h heard
	for pilot.Step(1.0/60, &s) {
		a.Step(&s)
		h.take(a.Take())
	}
	a.Break(phrase.Plain("the flight is over"))
	h.take(a.Take())
	return h.series, h.legs, h.said
}

var maneuvers = []string{"wing-over", "chandelle-civil", "chandelle-traditional", "lazy-eight", "steep-turn"}

// TestWhichManeuver: the maneuver that the scripted pilot flies is found in every airplane and to both sides, with and
// without the right aircraft card. The table shows flown against found.
func TestWhichManeuver(t *testing.T) {
	confusion, margin := map[[2]string]int{}, math.Inf(1)
	for _, airplane := range airplane.Names() {
		for _, m := range maneuvers {
			for _, direction := range []string{"right", "left"} {
				for _, card := range []string{airplane, ""} {
					pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: m, Direction: direction,
						Airplane: airplane, Seed: 3})
					if err != nil {
						t.Fatal(err)
					}
					series, legs, _ := flyAuto(t, pilot, card)
					if len(legs) == 0 {
						t.Errorf("%s in %s to the %s: no leg", m, airplane, direction)
					}
					n := 0
					for _, s := range series {
						n += len(s.Legs)
						confusion[[2]string{m, s.Maneuver}] += len(s.Legs)
						margin = math.Min(margin, s.Decision.Margin)
						if s.Maneuver != m {
							t.Errorf("%s in %s to the %s reads %s: %+v", m, airplane, direction, s.Maneuver, s.Decision)
						}
					}
					if n != len(legs) {
						t.Errorf("%d legs reported, %d in series", len(legs), n)
					}
				}
			}
		}
	}
	t.Logf("flown against found, least margin %.2f\n%s", margin, table(confusion))
}

func table(n map[[2]string]int) string {
	var b strings.Builder
	for _, flown := range maneuvers {
		fmt.Fprintf(&b, "%-22s", flown)
		for _, found := range append(maneuvers, coach.Unclear) {
			fmt.Fprintf(&b, "%6d", n[[2]string{flown, found}])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// TestMixedSession: maneuvers that follow each other are kept apart, and series are what they
// would be had each been chosen.
func TestMixedSession(t *testing.T) {
	f := func(m, direction string) trainer.Flight {
		return trainer.Flight{Maneuver: m, Direction: direction, Airplane: "light-single", Seed: 4}
	}
	pilot, err := rehearsed.NewSequence(f("chandelle-civil", "right"), f("wing-over", "both"), f("lazy-eight", "both"),
		f("steep-turn", "both"), f("wing-over", "left"))
	if err != nil {
		t.Fatal(err)
	}
	series, legs, said := flyAuto(t, pilot, "light-single")
	var got []string
	for _, s := range series {
		got = append(got, fmt.Sprintf("%s %d", s.Maneuver, len(s.Legs)))
		for i, l := range s.Legs {
			if l.Number != i+1 {
				t.Errorf("leg %d of %s is numbered %d", i+1, s.Maneuver, l.Number)
			}
		}
	}
	want := "chandelle-civil 1, wing-over 2, lazy-eight 2, steep-turn 2, wing-over 1"
	if strings.Join(got, ", ") != want || len(legs) != 8 {
		t.Errorf("%d legs in %v, want %s", len(legs), got, want)
	}
	for _, k := range said {
		if k.Kind == coach.Result && k.Words == "" && k.Tone == "" {
			t.Errorf("an empty callout: %+v", k)
		}
	}
	if len(said) == 0 {
		t.Error("nothing was said once it was clear")
	}
}

// TestNothingToFlyByUntilItIsClear: while it is not clear what is flown, a frame shows where the flight is but not what
// another maneuver would ask next; once it is clear it does, by the maneuver that is flown.
func TestNothingToFlyByUntilItIsClear(t *testing.T) {
	pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: "wing-over", Direction: "left",
		Airplane: "light-single", Seed: 4})
	if err != nil {
		t.Fatal(err)
	}
	a := follow.NewAuto(judge.Options{}, plansFor(t, "light-single"), 0)
	if first := a.Plan().Card.Name; first == "wing-over" {
		t.Fatal("the maneuver flown is shown from the beginning")
	}
	var s stream.Sample
	unclear, next := 0, 0
	for pilot.Step(1.0/60, &s) {
		a.Step(&s)
		a.Take()
		f := a.Frame()
		switch {
		case f.Unclear:
			unclear++
			if f.State != "leg" || f.Next != nil || f.Phase != "" || len(f.Cues) > 0 || next > 0 {
				t.Fatalf("at %.0f° of turn: %s, next %v, phase %q, cues %v", f.Turn, f.State, f.Next, f.Phase, f.Cues)
			}
		case f.Next != nil:
			next++
			if found := a.Plan().Card.Name; found != "wing-over" {
				t.Fatalf("at %.0f° of turn what is next is that of %s", f.Turn, found)
			}
		}
	}
	if unclear == 0 || next == 0 {
		t.Errorf("%d frames before it was clear, %d with a checkpoint ahead", unclear, next)
	}
}

// TestOnlyWhatIsHeardCounts: a leg counts the corrections that were passed on, from where it was clear whose leg it is,
// and a cue that is taken back was passed on before.
func TestOnlyWhatIsHeardCounts(t *testing.T) {
	counted, cues, back := 0, 0, 0
	for _, flaw := range trainer.FlawsOf("wing-over") {
		pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: "wing-over", Direction: "both",
			Airplane: "turboprop-trainer", Flaw: flaw, Seed: 11})
		if err != nil {
			t.Fatal(err)
		}
		_, legs, said := flyAuto(t, pilot, "turboprop-trainer")
		sent := map[string]bool{}
		for _, l := range legs {
			n := 0
			for _, k := range said {
				if k.Kind == coach.Watch && k.Time >= l.Start && k.Time <= l.End+1 {
					n++
				}
			}
			counted += n
			if l.Said != n {
				t.Errorf("%s: a leg counts %d corrections; %d were passed on", flaw, l.Said, n)
			}
		}
		for _, k := range said {
			switch id, isCue := strings.CutPrefix(k.ID, "cue-"); {
			case k.Kind == coach.Cue:
				cues++
				sent[id] = true
			case k.Kind == coach.Clear && isCue:
				back++
				if !sent[id] {
					t.Errorf("%s: the cue %s is taken back before it was sent", flaw, k.ID)
				}
			}
		}
	}
	if counted == 0 || cues == 0 || back == 0 {
		t.Errorf("%d corrections, %d cues, %d of them taken back: too little to see", counted, cues, back)
	}
}
