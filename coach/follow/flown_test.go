package follow_test

import (
	"math"
	"slices"
	"sync"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
)

// fly coaches a flight of the built-in aircraft at 60 samples a second.
func fly(t testing.TB, f trainer.Flight, change func(n int, s *stream.Sample)) (legs []*coach.Leg,
	series []*coach.Series, said []*coach.Callout) {
	t.Helper()
	pilot, err := rehearsed.NewSequence(f)
	if err != nil {
		t.Fatal(err)
	}
	c := follow.New(judge.Options{Plan: planOf(t, f.Maneuver, f.Airplane)})
	var s stream.Sample
	var h heard
	for n := 0; ; n++ {
		on := pilot.Step(1.0/60, &s)
		if change != nil {
			change(n, &s)
		}
		c.Step(&s)
		h.take(c.Take())
		if !on {
			break
		}
	}
	c.Break(phrase.Plain("the flight is over"))
	h.take(c.Take())
	return h.legs, h.series, h.said
}

// shipped are the cards that come with the program, read once.
var shipped = sync.OnceValues(func() (*maneuver.Library, error) { return maneuver.LoadLibrary(configs.FS) })

// plans are those made so far, by card and aircraft: a plan never changes.
var plans = map[[2]string]*plan.Plan{}

func planOf(t testing.TB, card, aircraft string) *plan.Plan {
	t.Helper()
	lib, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	c, err := lib.Card(card)
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed(aircraft)
	if err != nil {
		t.Fatal(err)
	}
	key := [2]string{card, aircraft}
	if plans[key] == nil {
		plans[key] = plan.New(c, a)
	}
	return plans[key]
}

func missed(checks []coach.Check) []string {
	var ids []string
	for _, k := range checks {
		if k.Verdict == coach.Missed {
			ids = append(ids, k.ID)
		}
	}
	return ids
}

// TestGoodFlights: what the scripted pilot flies well, in every aircraft and to both sides,
// misses nothing.
func TestGoodFlights(t *testing.T) {
	for _, airplane := range airplane.Names() {
		for _, m := range []string{"wing-over", "chandelle-civil", "chandelle-traditional"} {
			t.Run(airplane+" "+m, func(t *testing.T) {
				legs, series, _ := fly(t, trainer.Flight{Maneuver: m, Direction: "both", Airplane: airplane, Seed: 7},
					nil)
				if len(legs) != 2 || len(series) == 0 {
					t.Fatalf("%d legs in %d series, want 2", len(legs), len(series))
				}
				for _, l := range legs {
					if ids := missed(l.Checks); len(ids) > 0 || l.Outcome != coach.Finished {
						t.Errorf("leg to the %s, %s: misses %v", l.Direction, l.Outcome, ids)
					}
				}
				for _, s := range series {
					if ids := missed(s.Checks); len(ids) > 0 {
						t.Errorf("the series misses %v", ids)
					}
				}
			})
		}
	}
}

// TestFlaws: each flaw of the scripted pilot is seen for what it is.
func TestFlaws(t *testing.T) {
	want := map[string]string{
		"late-nose": "highest-nose-at", "overbanked": "bank-at-90", "shallow": "bank-at-90",
		"early-rollout": "exit-heading", "late-rollout": "exit-heading",
		"height-lost": "exit-height", "power-changed": "power-constant", "feet-off": "coordination",
		"same-direction": "opposite-directions",
		"abandoned":      "exit-heading", "nose-high": "highest-nose",
		"no-climb": "highest-nose", "steep-dive": "exit-speed", "flat-dive": "exit-height",
		"late-bank": "steepest-bank-at", "rough": "smooth-pitch", "climbing-entry": "entry-height-held",
	}
	for _, flaw := range trainer.FlawsOf("wing-over") {
		t.Run(flaw, func(t *testing.T) {
			if flaw == "nose-falls" {
				t.Skip("the nose of a wing-over is to fall through the horizon; it is a flaw of the lazy eight")
			}
			if want[flaw] == "" {
				t.Fatal("no check is named for this flaw")
			}
			legs, series, _ := fly(t, trainer.Flight{Maneuver: "wing-over", Direction: "both", Flaw: flaw,
				Airplane: "turboprop-trainer", Seed: 11}, nil)
			var ids []string
			for _, l := range legs {
				ids = append(ids, missed(l.Checks)...)
			}
			for _, s := range series {
				ids = append(ids, missed(s.Checks)...)
			}
			if !slices.Contains(ids, want[flaw]) {
				t.Errorf("misses %v, want %s among them", ids, want[flaw])
			}
			if flaw == "abandoned" && legs[0].Outcome != coach.BrokenOff {
				t.Errorf("the leg is %s, want broken off", legs[0].Outcome)
			}
		})
	}
}

// TestMirror holds a law: a flight seen in a mirror is judged the same.
func TestMirror(t *testing.T) {
	mirror := func(_ int, s *stream.Sample) {
		for _, c := range []stream.Channel{stream.Bank, stream.Ball, stream.RollRate, stream.YawRate, stream.Sideslip,
			stream.LateralLoad, stream.Aileron, stream.Rudder} {
			s.Negate(c)
		}
		for _, c := range []stream.Channel{stream.Heading, stream.Track} {
			if v, ok := s.Get(c); ok {
				s.Put(c, 360-v)
			}
		}
	}
	f := trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: "light-single", Seed: 5}
	plain, _, said := fly(t, f, nil)
	seen, _, heard := fly(t, f, mirror)
	if len(plain) != 2 || len(seen) != 2 {
		t.Fatalf("%d and %d legs, want 2", len(plain), len(seen))
	}
	for i := range plain {
		if plain[i].Direction == seen[i].Direction {
			t.Errorf("leg %d is to the %s in the mirror too", i+1, plain[i].Direction)
		}
		for j, k := range plain[i].Checks {
			m := seen[i].Checks[j]
			if (k.Value == nil) != (m.Value == nil) || k.Value != nil && math.Abs(*k.Value-*m.Value) > 1e-6 ||
				k.Verdict != m.Verdict {
				t.Errorf("leg %d, %s: %v in the mirror", i+1, k.ID, m)
			}
		}
	}
	if len(said) != len(heard) {
		t.Errorf("%d callouts, %d in the mirror", len(said), len(heard))
	}
}

// TestCuesComeEarly: every cue names its checkpoint, comes early enough for a voice of 1.7 words a
// second to end before it, and says when that will be: measured on flights without a person's noise.
func TestCuesComeEarly(t *testing.T) {
	for _, airplane := range airplane.Names() {
		legs, _, said := fly(t, trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: airplane, Seed: 2,
			Steady: true}, nil)
		n := 0
		for _, l := range legs {
			for _, p := range l.Points {
				for _, k := range said {
					if k.Kind != coach.Cue || *k.To != p.Turn || k.Time < l.Start || k.Time > l.End {
						continue
					}
					n++
					lead := p.Time - k.Time
					if need := float64(len(fields(k.Words)))/1.7 + 0.25; lead < need {
						t.Errorf("%s: %q comes %.2f s before %g°, want %.2f", airplane, k.Words, lead, p.Turn, need)
					}
					if off := *k.Due - p.Time; math.Abs(off) > 0.75 {
						t.Errorf("%s: %q is due %.2f s off %g°", airplane, k.Words, off, p.Turn)
					}
				}
			}
		}
		if n < 6 {
			t.Errorf("%s: only %d cues at checkpoints", airplane, n)
		}
	}
}

// TestSilenceIsTheReward: a leg flown well gets its cues and little else; nothing is said
// over something else, and nothing twice in four seconds.
func TestSilenceIsTheReward(t *testing.T) {
	_, _, said := fly(t, trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: "turboprop-trainer",
		Seed: 9}, nil)
	until, corrections := math.Inf(-1), 0
	lastSaid := map[string]float64{}
	for _, k := range said {
		if k.Words == "" {
			continue
		}
		if k.Time < until-1e-9 && k.Kind == coach.Cue {
			t.Errorf("%q at %.1f s is said over something else", k.Words, k.Time)
		}
		if at, ok := lastSaid[k.Words]; ok && k.Time-at < 4 {
			t.Errorf("%q is said twice within %.1f s", k.Words, k.Time-at)
		}
		if n := len(fields(k.Words)); n > 5 {
			t.Errorf("%q has %d words", k.Words, n)
		}
		if k.Kind == coach.Watch {
			corrections++
		}
		lastSaid[k.Words] = k.Time
		until = k.Time + float64(len(fields(k.Words)))/2.5
	}
	if len(lastSaid) < 4 {
		t.Errorf("only %d phrases", len(lastSaid))
	}
	if corrections > 1 {
		t.Errorf("%d corrections on a flight that misses nothing", corrections)
	}
}

// TestStoppedFarAround: a leg stopped for safety far enough around has no exit that could be met.
func TestStoppedFarAround(t *testing.T) {
	legs, _, _ := fly(t, trainer.Flight{Maneuver: "chandelle-traditional", Direction: "right",
		Airplane: "light-single", Flaw: "nose-high", Seed: 3}, nil)
	if len(legs) != 1 || legs[0].Outcome != coach.KnockOff {
		t.Fatalf("flown %+v, want one leg that is stopped", legs)
	}
	found := false
	for _, k := range legs[0].Checks {
		found = found || k.ID == "exit-heading"
		if k.ID == "exit-heading" && (k.Verdict != coach.NotMeasured || k.Reason.IsZero()) {
			t.Errorf("the exit reads %s of %v, %q", k.Verdict, k.Value, k.Reason)
		}
	}
	if !found {
		t.Error("the exit is not among the checks")
	}
}
