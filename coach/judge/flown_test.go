package judge_test

import (
	"encoding/json"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// How a leg ends is read off hand-made flights: each does one thing, and the rules in package leg say what comes of it.
func TestEndsOfALeg(t *testing.T) {
	in := part{rolling, steep, height}
	for _, c := range []struct {
		name    string
		parts   []part
		end     *phrase.Definition // of the stream, after the parts; nil: it goes on
		outcome string
		reason  *phrase.Definition // nil: none
		limit   string
		verdict string // "" is any
	}{
		{"once around", steepTurn(1), nil, coach.Finished, nil, "", ""},
		{"once around to the left", steepTurn(-1), nil, coach.Finished, nil, "", ""},
		{
			"given up: level short of the turn", []part{in, around(180, 1), {rolling, 0, height}}, nil,
			coach.BrokenOff, phrase.RolledLevel, "", coach.Missed,
		},
		{
			"turned back", []part{in, around(180, 1), {2, -40, height}, {3, -40, height}}, nil,
			coach.BrokenOff, phrase.TurnedBack, "", coach.Missed,
		},
		{
			"through the hard deck", []part{in, {10, steep, 2900}}, nil,
			coach.KnockOff, phrase.BelowDeck, coach.LimitDeck, coach.Missed,
		},
		{
			"pulled past the load limit", []part{in, {4, 80, height}, {1, 80, height}}, nil, // 5.8 g in level flight
			coach.KnockOff, phrase.OverLoad, coach.LimitLoad, coach.Missed,
		},
		{
			"the stream ends", []part{in, {5, steep, height}}, phrase.SessionEnded,
			coach.BrokenOff, phrase.SessionEnded, "", coach.NotMeasured,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := begun(t, planOf(t, "steep-turn"))
			f.fly(c.parts...)
			if c.end != nil {
				f.stop(c.end.Of())
			} else {
				f.fly(part{5, f.bank, f.altitude})
			}
			if len(f.legs) != 1 {
				t.Fatalf("%d legs reported; must be 1", len(f.legs))
			}
			l := f.legs[0]
			if l.Outcome != c.outcome || l.Limit != c.limit {
				t.Errorf("the leg is %s by %q; must be %s by %q", l.Outcome, l.Limit, c.outcome, c.limit)
			}
			if c.reason == nil && !l.Reason.IsZero() || c.reason != nil && !l.Reason.Is(c.reason) {
				t.Errorf("the reason is %q", l.Reason)
			}
			if c.verdict != "" && l.Verdict != c.verdict {
				t.Errorf("the verdict is %s; must be %s", l.Verdict, c.verdict)
			}
			if side := coach.Direction(c.parts[0].bank); l.Direction != side {
				t.Errorf("the leg is to the %s; must be to the %s", l.Direction, side)
			}
			if _, _, on := f.judge.UnderWay(); on {
				t.Error("a leg is still under way after its end")
			}
		})
	}
}

// A turn without what the card asks of a leg (a bank, or a nose that rises) is none, however far it goes. A full circle
// that was plainly meant as a leg is named.
func TestTurnsThatNeverCommit(t *testing.T) {
	for _, c := range []struct {
		name    string
		card    string
		bank    float64 // held through a whole circle
		shallow int     // callouts that say so
	}{
		{"a circle at 15°, where 35° commit", "steep-turn", 15, 0},
		{"a circle at 30°, where 35° commit", "steep-turn", 30, 1},
		{"a level circle at 50°, where the nose commits", "wing-over", 50, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := begun(t, planOf(t, c.card))
			held := (360 - 2*turned(0, c.bank, 3)) / turnRate(c.bank)
			f.fly(part{3, c.bank, height}, part{held, c.bank, height}, part{3, 0, height}, part{6, 0, height})
			f.stop(phrase.SessionEnded.Of())
			if len(f.legs) != 0 || len(f.series) != 0 {
				t.Errorf("%d legs and %d series; must be none", len(f.legs), len(f.series))
			}
			if n := len(f.id("shallow")); n != c.shallow {
				t.Errorf("it was called too shallow %d times; must be %d", n, c.shallow)
			}
		})
	}
}

// Two legs belong together unless more than the card's gap lies between them. A series is reported when it is
// complete, when the gap has passed, and when the stream ends.
func TestGapBetweenLegs(t *testing.T) {
	p := planOf(t, "steep-turn")
	gap := p.Card.Series.Gap
	for _, c := range []struct {
		name    string
		between float64 // s of level flight
		series  []int   // legs of each
	}{
		{"soon after", 10, []int{2}},
		{"just within the gap", gap - 5, []int{2}},
		{"after the gap", gap + 10, []int{1, 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := begun(t, p)
			f.fly(steepTurn(1)...)
			f.fly(part{c.between, 0, height})
			f.fly(steepTurn(-1)...)
			f.fly(part{5, 0, height})
			f.stop(phrase.SessionEnded.Of())
			var legs []int
			for _, s := range f.series {
				legs = append(legs, len(s.Legs))
			}
			if !slices.Equal(legs, c.series) {
				t.Errorf("the series have %v legs; must have %v", legs, c.series)
			}
			if f.judge.Series() != nil {
				t.Error("a series is open after the end of the stream")
			}
		})
	}
}

// A simulator that is paused sends nothing to judge: the leg goes on where it was left, as one leg.
func TestPauseInALeg(t *testing.T) {
	f := begun(t, planOf(t, "steep-turn"))
	turn := steepTurn(1)
	f.fly(turn[0], part{turn[1].seconds / 2, steep, height})
	for range 100 { // the same moment again and again
		f.sample(0)
	}
	f.fly(part{turn[1].seconds / 2, steep, height}, turn[2], part{5, 0, height})
	whole := begun(t, planOf(t, "steep-turn"))
	whole.fly(turn[0], part{turn[1].seconds / 2, steep, height}, part{turn[1].seconds / 2, steep, height}, turn[2],
		part{5, 0, height})
	if len(f.legs) != 1 || len(whole.legs) != 1 {
		t.Fatalf("%d legs with a pause, %d without; must be 1", len(f.legs), len(whole.legs))
	}
	a, b := f.legs[0], whole.legs[0]
	if a.Outcome != b.Outcome || a.Verdict != b.Verdict || a.Score != b.Score || a.Start != b.Start || a.End != b.End {
		t.Errorf("with a pause it is %s %s %g from %g to %g, without %s %s %g from %g to %g", a.Outcome, a.Verdict,
			a.Score, a.Start, a.End, b.Outcome, b.Verdict, b.Score, b.Start, b.End)
	}
}

// Another card chosen in a turn breaks the leg off without blame. From then on the other card judges: its set-up, its
// commitment, its name in the series.
func TestCardChangedInFlight(t *testing.T) {
	f := begun(t, planOf(t, "steep-turn"))
	f.fly(part{rolling, steep, height}, part{5, steep, height})
	next := planOf(t, "steep-turn-45")
	f.stop(phrase.ChoiceChanged.Of())
	f.judge.Choose(next)
	if len(f.legs) != 1 || !f.legs[0].Reason.Is(phrase.ChoiceChanged) || f.legs[0].Verdict != coach.NotMeasured {
		t.Fatalf("the leg under way is reported as %+v", f.legs)
	}
	if f.judge.Plan() != next {
		t.Errorf("the plan is that of %s", f.judge.Plan().Card.Name)
	}
	gates := len(f.gates)
	f.fly(part{rolling, 0, height}, part{10, 0, height})
	f.fly(steepTurn(-1)...)
	f.fly(part{5, 0, height})
	f.stop(phrase.SessionEnded.Of())
	if len(f.gates) == gates {
		t.Error("the set-up of the new card was not reported")
	}
	if n := len(f.series); n != 2 || f.series[0].Maneuver != "steep-turn" || f.series[1].Maneuver != next.Card.Name {
		t.Errorf("%d series are reported: %+v", n, f.series)
	}
}

// A frame is a view: to take one at every sample changes nothing that is reported.
func TestFramesChangeNothing(t *testing.T) {
	fly := func(framed bool) string {
		f := begun(t, planOf(t, "steep-turn"), func(f *handFlown) { f.framed = framed })
		f.fly(steepTurn(1)...)
		f.fly(part{10, 0, height})
		f.fly(steepTurn(-1)...)
		f.fly(part{10, 0, height})
		b, err := json.Marshal([]any{f.legs, f.series, f.said, f.gates})
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	if fly(true) != fly(false) {
		t.Error("what is reported depends on whether frames are taken")
	}
}
