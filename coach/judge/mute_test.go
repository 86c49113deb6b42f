package judge_test

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/trainer"
)

// sloppy is once around to the right with the bank let out to 42° and back: the watch on the bank speaks up.
func sloppy() []part {
	half := around(360, 1).seconds / 2
	return []part{
		{rolling, steep, height}, {half - 3, steep, height},
		{1, 38, height}, {5, 38, height}, {1, steep, height},
		{half - 3, steep, height}, {rolling, 0, height}, {5, 0, height},
	}
}

// While nobody hears a judge it says nothing in a leg and counts no correction. What is measured does not depend on
// it, and limits are watched all the same.
func TestMute(t *testing.T) {
	p := planOf(t, "steep-turn")
	loud := begun(t, p)
	loud.fly(sloppy()...)
	mute := begun(t, p, func(f *handFlown) { f.muted = true })
	mute.fly(sloppy()...)
	if len(loud.legs) != 1 || len(mute.legs) != 1 {
		t.Fatalf("%d legs heard and %d unheard; must be 1", len(loud.legs), len(mute.legs))
	}
	if loud.heard(coach.Watch) == 0 || loud.heard(coach.Cue) == 0 {
		t.Fatalf("%d corrections and %d cues are said: too little to compare", loud.heard(coach.Watch),
			loud.heard(coach.Cue))
	}
	for _, kind := range []string{coach.Watch, coach.Cue, coach.After} {
		if n := mute.heard(kind); n != 0 {
			t.Errorf("%d callouts of kind %s while nobody hears", n, kind)
		}
	}
	a, b := loud.legs[0], mute.legs[0]
	if a.Said != loud.heard(coach.Watch) || b.Said != 0 {
		t.Errorf("%d and %d corrections counted; must be %d and 0", a.Said, b.Said, loud.heard(coach.Watch))
	}
	for i := range a.Checks {
		if a.Checks[i].Verdict != b.Checks[i].Verdict || a.Checks[i].Score != b.Checks[i].Score {
			t.Errorf("%s is %s when heard, %s else", a.Checks[i].ID, a.Checks[i].Verdict, b.Checks[i].Verdict)
		}
	}
	deck := begun(t, p, func(f *handFlown) { f.muted = true })
	deck.fly(part{rolling, steep, height}, part{10, steep, 2900})
	if len(deck.legs) != 1 || deck.legs[0].Limit != coach.LimitDeck || deck.heard(coach.Safety) == 0 {
		t.Errorf("below the hard deck, unheard: %d legs, %d warnings", len(deck.legs), deck.heard(coach.Safety))
	}
}

// A leg that is heard from its middle on is coached from there: nothing is said of what is behind, and no cue ahead is
// lost.
func TestHeardFromTheMiddle(t *testing.T) {
	p := planOf(t, "wing-over")
	fly := func(from float64) *handFlown {
		f := &handFlown{}
		f.judge = judge.New(&f.shared, judge.Options{Plan: p})
		f.judge.Mute(true)
		pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "right", Airplane: "light-single",
			Flaw: "late-bank", Seed: 5})
		if err != nil {
			t.Fatal(err)
		}
		var s stream.Sample
		for pilot.Step(1/rate, &s) {
			f.shared.Step(&s)
			f.judge.Step(&s)
			f.take()
			if _, turn, on := f.judge.UnderWay(); on && turn >= from {
				f.judge.Mute(false)
			}
		}
		if len(f.legs) != 1 {
			t.Fatalf("heard from %g°: %d legs; must be 1", from, len(f.legs))
		}
		return f
	}
	whole := fly(0)
	if whole.heard(coach.After) < 2 || whole.heard(coach.Cue) < 2 {
		t.Fatalf("%d tones and %d cues: too little to compare", whole.heard(coach.After), whole.heard(coach.Cue))
	}
	for _, from := range []float64{60, 95, 120, 140} {
		f := fly(from)
		for _, k := range f.said {
			if (k.Kind == coach.Cue || k.Kind == coach.After || k.Kind == coach.Watch) && k.Turn < from {
				t.Errorf("heard from %g°: %s %q at %g°", from, k.Kind, k.ID, k.Turn)
			}
			if k.Kind == coach.Cue && *k.To < from {
				t.Errorf("heard from %g°: a cue for %g°", from, *k.To)
			}
		}
		after := 0
		for _, k := range whole.said {
			if k.Kind == coach.Cue && k.Turn > from && len(f.id(k.ID)) == 0 {
				t.Errorf("heard from %g°: the cue %s of %g° is lost", from, k.ID, k.Turn)
			}
			if k.Kind == coach.After && k.Turn > from {
				after++
			}
		}
		if n := f.heard(coach.After); n != after {
			t.Errorf("heard from %g°: %d tones; must be %d, as when all is heard", from, n, after)
		}
		if n := f.heard(coach.Watch); f.legs[0].Said != n {
			t.Errorf("heard from %g°: %d corrections counted, %d said", from, f.legs[0].Said, n)
		}
	}
}
