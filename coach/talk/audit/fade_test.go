package audit

import (
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/stream/trainer"
)

// cuesOf lists by leg the turn angles whose cues were sent.
func (f *flight) cuesOf() [][]float64 {
	list := make([][]float64, len(f.legs))
	for i, l := range f.legs {
		for _, k := range f.called {
			if k.Kind == coach.Cue && k.Time >= l.Start && k.Time <= l.End {
				list[i] = append(list[i], *k.To)
			}
		}
	}
	return list
}

// Over a session of seven legs the cues fall silent as their points are met, that of a point that is missed comes back
// in the next leg and no other does, and a setting overrides it both ways.
func TestCuesFadeOverASession(t *testing.T) {
	w := trainer.Flight{
		Maneuver: "wing-over",
		Airplane: "turboprop-trainer",
		Legs:     7,
		Flaw:     "flat-dive",
		FlawLeg:  4,
		Strength: "clear",
		Seed:     3,
	}
	f := flyTrainer(t, callout.PromptsFade, w)
	cues := f.cuesOf()
	if len(cues) != 7 {
		t.Fatalf("%d legs", len(cues))
	}
	missed := missedAt(f.legs[3])
	t.Logf("%v, missed in leg 4 at %v", cues, missed)
	if len(missed) == 0 {
		t.Fatal("the flaw is not missed at a point")
	}
	all := cues[0]
	if len(all) < 5 || !slices.Equal(cues[1], all) {
		t.Errorf("legs 1 and 2: %v and %v", cues[0], cues[1])
	}
	for i := range cues {
		for _, at := range all {
			if want := f.speaks(i, at); slices.Contains(cues[i], at) != want {
				t.Errorf("leg %d: the cue of %g° is said: %v; must be %v", i+1, at, !want, want)
			}
		}
	}
	if len(cues[3]) > 0 || len(cues[4]) == 0 {
		t.Errorf("leg 4 has the cues %v, leg 5 %v", cues[3], cues[4])
	}
	for how, most := range map[string]int{callout.PromptsAll: len(all), callout.PromptsOff: 0} {
		for i, got := range flyTrainer(t, how, w).cuesOf() {
			if i != 3 && len(got) != most {
				t.Errorf("%s: leg %d has the cues %v", how, i+1, got)
			}
		}
	}
}

// postOf returns the checkpoint of a cue.
func (f *flight) postOf(cue float64) float64 {
	for _, c := range f.plan.Card.Checkpoints {
		if c.Turn >= cue {
			return c.Turn
		}
	}
	return f.plan.Card.Turn
}

// speaks reports whether the cue of a turn angle is to be said in a leg: unless its checkpoint was met in the two legs
// before in which it was measured.
func (f *flight) speaks(leg int, cue float64) bool {
	met := 0
	for _, l := range f.legs[:leg] {
		measured, missed := f.verdict(l, f.postOf(cue))
		switch {
		case missed:
			met = 0
		case measured:
			met++
		}
	}
	return met < 2
}

func (f *flight) verdict(l *coach.Leg, post float64) (measured, missed bool) {
	for i := range l.Checks {
		k := &l.Checks[i]
		if k.Post == nil || *k.Post == 0 || k.Verdict == coach.NotMeasured || f.postOf(*k.Post) != post {
			continue
		}
		measured, missed = true, missed || k.Verdict == coach.Missed
	}
	return measured, missed
}

// missedAt lists the points at which something was missed.
func missedAt(l *coach.Leg) (posts []float64) {
	for i := range l.Checks {
		if k := &l.Checks[i]; k.Post != nil && *k.Post > 0 && k.Verdict == coach.Missed {
			posts = append(posts, *k.Post)
		}
	}
	return posts
}
