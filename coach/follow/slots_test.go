package follow

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// The judges of these tests: each card is a turn of 180° at one bank, and 20° of bank beside it are a misfit of 1.
const (
	gentle = iota // 20° of bank
	steep         // 60°
	single        // 100°, with one leg in a series
)

var cardNames = []string{gentle: "gentle", steep: "steep", single: "single"}

func newAuto(t *testing.T) *Auto {
	t.Helper()
	var plans []*plan.Plan
	for i, name := range cardNames {
		bank := float64(20 + 40*i)
		card := &maneuver.Card{
			Name:     name,
			Standard: "training",
			Turn:     180,
			Profile:  []maneuver.Knot{{Turn: 0, Bank: bank}, {Turn: 180, Bank: bank}},
			Series:   maneuver.Series{Legs: 2, Gap: 60},
		}
		if i == single {
			card.Series.Legs = 1
		}
		plans = append(plans, plan.New(card, nil))
	}
	return NewAuto(judge.Options{}, plans, gentle)
}

// recordOf is a finished leg of 180° at a bank.
func recordOf(start, end, bank float64) *coach.Leg {
	l := &coach.Leg{
		Outcome: coach.Finished,
		Start:   start,
		End:     end,
		Exit:    &coach.Point{Turn: 180, Time: end},
		Verdict: coach.Met,
		Grade:   coach.Good,
		Score:   90,
		Checks:  []coach.Check{{ID: "bank"}},
		Causes:  []coach.Cause{{ID: "bank"}},
		Change:  phrase.ChangeLessBank.Of(),
	}
	for turn := 0.0; turn <= 180; turn++ {
		l.Trace = append(l.Trace, coach.Trace{Turn: turn, Bank: bank})
	}
	return l
}

// worded writes events as text: "leg 2 of 100 s", "series steep 100 200".
func worded(events []coach.Event) string {
	var all []string
	for _, e := range events {
		switch e := e.(type) {
		case *coach.Leg:
			all = append(all, fmt.Sprintf("leg %d of %g s", e.Number, e.Start))
		case *coach.Series:
			words := "series " + e.Maneuver
			for _, l := range e.Legs {
				words += fmt.Sprintf(" %g", l.Start)
			}
			all = append(all, words)
		}
	}
	return strings.Join(all, ", ")
}

// Legs of several judges are one slot when they share at least half the time of the shorter one.
func TestLegsShareASlot(t *testing.T) {
	for _, c := range []struct {
		name           string
		judge          int
		start, end     float64
		tried          bool
		slots, further int
		from, to       float64 // of the first slot
	}{
		{"the same stretch", steep, 100, 120, false, 1, 0, 100, 120},
		{"half of it", steep, 110, 130, false, 1, 0, 100, 130},
		{"half, before it", steep, 90, 110, false, 1, 0, 90, 120},
		{"less than half", steep, 110.1, 130.1, false, 2, 0, 100, 120},
		{"half of the shorter", steep, 115, 125, false, 1, 0, 100, 125},
		{"half of the shorter one there is", steep, 110, 190, false, 1, 0, 100, 190},
		{"after it", steep, 130, 150, false, 2, 0, 100, 120},
		{"by the same judge", gentle, 105, 121, false, 1, 1, 100, 120},
		{"a slot that was decided", steep, 100, 120, true, 2, 0, 100, 120},
	} {
		a := newAuto(t)
		a.addLeg(gentle, recordOf(100, 120, 20))
		a.slots[0].tried = c.tried
		l := recordOf(c.start, c.end, 20)
		a.addLeg(c.judge, l)
		first := a.slots[0]
		if len(a.slots) != c.slots || len(first.others) != c.further || first.from != c.from || first.to != c.to {
			t.Errorf("%s: %d slots, the first from %g to %g with %d further legs",
				c.name, len(a.slots), first.from, first.to, len(first.others))
		}
		if last := a.slots[len(a.slots)-1]; c.further == 0 && last.legs[c.judge] != l {
			t.Errorf("%s: the leg is not in the slot", c.name)
		} else if c.further > 0 && last.others[0] != (ownedLeg{c.judge, c.start}) {
			t.Errorf("%s: the further leg is %+v", c.name, last.others[0])
		}
	}
}

func TestDecideAmongJudges(t *testing.T) {
	given := func(bank ...float64) *slot { // by judge; NaN where it saw none
		s := &slot{legs: make([]*coach.Leg, len(cardNames))}
		for i, b := range bank {
			if !math.IsNaN(b) {
				s.legs[i] = recordOf(0, 10, b)
			}
		}
		return s
	}
	none := math.NaN()
	short := given(20)
	short.legs[gentle].Trace = short.legs[gentle].Trace[:20] // too little of a turn
	open := given(20)
	open.legs[gentle].Outcome, open.legs[gentle].Trace = coach.BrokenOff, open.legs[gentle].Trace[:121]
	half := given(20)
	half.legs[gentle].Trace = half.legs[gentle].Trace[:121] // finished 60° short, a misfit of 1
	for _, c := range []struct {
		name  string
		slots []*slot
		want  string
	}{
		{"clear", []*slot{given(24, 24, 24)}, "gentle 1.60: gentle 0.2, steep 1.8, single 3.8"},
		{"between two", []*slot{given(40, 40, none)}, "unclear 0.00: gentle 1, steep 1"},
		{"seen by one", []*slot{given(none, 61, none)}, "steep 2.20: steep 0.05"},
		{"seen by none", []*slot{given()}, "unclear 0.00:"},
		{"too short", []*slot{short}, "unclear 0.00:"},
		{"broken off", []*slot{open}, "gentle 2.20: gentle 0"},
		{"finished short", []*slot{half}, "gentle 2.20: gentle 1"},
		{"two together", []*slot{given(42, 42, none), given(60, 60, none)}, "steep 1.10: steep 0.45, gentle 1.55"},
		{"one seen by one", []*slot{given(42, 42, none), given(none, 60, 60)}, "steep 2.20: steep 0.45"},
	} {
		d := newAuto(t).decide(c.slots...)
		var fits []string
		for _, f := range d.Fits {
			fits = append(fits, fmt.Sprintf("%s %g", f.Maneuver, f.Misfit))
		}
		got := strings.TrimSpace(fmt.Sprintf("%s %.2f: %s", d.Maneuver, d.Margin, strings.Join(fits, ", ")))
		if got != c.want {
			t.Errorf("%s: %s; must be %s", c.name, got, c.want)
		}
	}
}

// A clear leg is reported at once; an unclear one waits for the next, which may settle both.
func TestSettle(t *testing.T) {
	type flown struct {
		start, bank float64
	}
	for _, c := range []struct {
		name  string
		legs  []flown // each of 20 s, seen by the judges gentle and steep
		by    []int   // the judges that see them; nil for these two
		now   float64
		over  bool
		want  string
		lead  int
		waits int
	}{
		{"clear", []flown{{100, 60}}, nil, 121, false, "leg 1 of 100 s", steep, 0},
		{"clear, of the first card", []flown{{100, 20}}, nil, 121, false, "leg 1 of 100 s", gentle, 0},
		{"unclear", []flown{{100, 42}}, nil, 121, false, "", gentle, 1},
		{"unclear for long", []flown{{100, 42}}, nil, 209.9, false, "", gentle, 1},
		{"unclear for too long", []flown{{100, 42}}, nil, 210, false, "leg 1 of 100 s, series unclear 100", gentle, 0},
		{"unclear at the end", []flown{{100, 42}}, nil, 121, true, "leg 1 of 100 s, series unclear 100", gentle, 0},
		{
			"settled by the next", []flown{{100, 42}, {130, 60}}, nil, 151, false,
			"leg 1 of 100 s, leg 1 of 130 s", steep, 0,
		},
		{
			"the next is too late", []flown{{100, 42}, {180, 60}}, nil, 201, false,
			"leg 1 of 100 s, series unclear 100, leg 1 of 180 s", steep, 0,
		},
		{
			"the next is just in time", []flown{{100, 42}, {179.9, 60}}, nil, 201, false,
			"leg 1 of 100 s, leg 1 of 179.9 s", steep, 0,
		},
		{
			"unclear together", []flown{{100, 42}, {130, 38}}, nil, 151, false,
			"leg 1 of 100 s, series unclear 100", gentle, 1,
		},
		{
			"settled by the next, one leg in a series",
			[]flown{{100, 82}, {130, 100}}, []int{steep, single}, 151, false,
			"leg 1 of 100 s, series unclear 100, leg 1 of 130 s", single, 0,
		},
	} {
		a := newAuto(t)
		a.shared.Now = c.now
		by := c.by
		if by == nil {
			by = []int{gentle, steep}
		}
		for _, l := range c.legs {
			for _, i := range by {
				a.addLeg(i, recordOf(l.start, l.start+20, l.bank))
			}
		}
		a.settle(c.over)
		if got := worded(a.Take()); got != c.want || a.lead != c.lead || len(a.slots) != c.waits {
			t.Errorf("%s: %q, lead %s, %d wait; must be %q, lead %s, %d", c.name, got, cardNames[a.lead],
				len(a.slots), c.want, cardNames[c.lead], c.waits)
		}
		if unclear := strings.HasSuffix(c.want, "unclear 100"); (a.before == nil) != (unclear || c.want == "") {
			t.Errorf("%s: the decision before is %+v", c.name, a.before)
		}
	}
}

// An unclear leg is of the maneuver of the leg before when both together are clear, and that series is under way.
func TestFavored(t *testing.T) {
	decided := func(maneuver string, gentle, steep float64) *coach.Decision {
		return &coach.Decision{
			Maneuver: maneuver,
			Fits:     []coach.Fit{{Maneuver: "steep", Misfit: steep}, {Maneuver: "gentle", Misfit: gentle}},
		}
	}
	unclear := decided(coach.Unclear, 1.1, 0.9)
	for _, c := range []struct {
		name        string
		now, before *coach.Decision
		series      string // where the leg before is: "under way", "closed", "" for nowhere
		claimed     bool
		want        int
		margin      float64
	}{
		{"in the series under way", unclear, decided("steep", 2, 0), "under way", true, steep, 1.1},
		{
			"in the first card's series", decided(coach.Unclear, 0.9, 1.1), decided("gentle", 0, 2),
			"under way", true, gentle, 1.1,
		},
		{"in a closed series", unclear, decided("steep", 2, 0), "closed", true, steep, 1.1},
		{"in no series", unclear, decided("steep", 2, 0), "", true, nobody, 0},
		{"a series of legs not claimed", unclear, decided("steep", 2, 0), "under way", false, nobody, 0},
		{"after nothing", unclear, nil, "under way", true, nobody, 0},
		{"clear by itself", decided("steep", 2, 0), decided("steep", 2, 0), "under way", true, nobody, 0},
		{"unclear together", unclear, decided("steep", 0.9, 0.6), "under way", true, nobody, 0},
		{"another together", unclear, decided("gentle", 0.2, 1.4), "under way", true, nobody, 0},
		{"far from both", decided(coach.Unclear, 2.4, 2.3), decided("steep", 2, 0.1), "under way", true, nobody, 0},
		{
			"another card stands out before", unclear,
			&coach.Decision{Maneuver: "steep", Fits: []coach.Fit{{Maneuver: "single"}}},
			"under way", true, nobody, 0,
		},
	} {
		a := newAuto(t)
		a.before = c.before
		of := steep
		if c.want == gentle {
			of = gentle
		}
		earlier := &coach.Series{Maneuver: "steep", Legs: []coach.Leg{*recordOf(50, 70, 60)}}
		switch c.series {
		case "under way":
			a.judges[of].SetSeries(earlier)
		case "closed":
			a.held[of] = []*coach.Series{earlier}
		}
		a.fates[of][50] = &fate{}
		if c.claimed {
			a.fates[of][50].claimed = c.before
		}
		now := *c.now
		s := &slot{decision: &now}
		if got := a.favored(s); got != c.want || got != nobody && s.decision.Margin != c.margin {
			t.Errorf("%s: %d with a margin of %g; must be %d, %g", c.name, got, s.decision.Margin, c.want, c.margin)
		}
	}
}

// A claimed leg is the judge's it was claimed for, and every other judge's legs in the slot are lost.
func TestClaim(t *testing.T) {
	a := newAuto(t)
	a.judges[steep].SetSeries(&coach.Series{Legs: []coach.Leg{*recordOf(50, 70, 60), *recordOf(101, 120, 60)}})
	a.judges[gentle].SetSeries(&coach.Series{Legs: []coach.Leg{*recordOf(100, 110, 60), *recordOf(112, 120, 60)}})
	a.fates[steep][50] = &fate{claimed: &coach.Decision{}}
	a.addLeg(gentle, recordOf(100, 110, 60))
	a.addLeg(steep, recordOf(101, 120, 60))
	a.addLeg(gentle, recordOf(112, 120, 60))
	s := a.slots[0]
	a.addLeg(steep, recordOf(200, 220, 60))
	s.decision = &coach.Decision{Maneuver: "steep"}
	a.claim(s, steep)
	if got, want := worded(a.Take()), "leg 2 of 101 s"; got != want {
		t.Errorf("%q; must be %q", got, want)
	}
	if len(a.slots) != 1 || a.slots[0].from != 200 {
		t.Errorf("%d slots wait", len(a.slots))
	}
	if f := a.fates[steep][101]; f == nil || f.claimed != s.decision {
		t.Errorf("the leg's fate is %+v", f)
	}
	if a.judges[gentle].Series() != nil || len(a.fates[gentle]) != 0 {
		t.Errorf("the other judge keeps %+v and fates %v", a.judges[gentle].Series(), a.fates[gentle])
	}
	if a.before != s.decision || a.lead != steep {
		t.Errorf("lead %d, before %+v", a.lead, a.before)
	}
}

// A leg that nobody claims is reported as the best judge saw it, ungraded.
func TestUnclearLeg(t *testing.T) {
	for _, reason := range []phrase.Phrase{{}, phrase.TurnedBack.Of()} {
		a := newAuto(t)
		a.addLeg(gentle, recordOf(100, 120, 42))
		a.addLeg(steep, recordOf(101, 120, 42))
		a.slots[0].legs[steep].Reason = reason
		a.settle(true)
		events := a.Take()
		if len(events) != 2 {
			t.Fatalf("%s; must be a leg and a series", worded(events))
		}
		l, s := events[0].(*coach.Leg), events[1].(*coach.Series)
		if l.Start != 101 || l.Number != 1 || l.Verdict != coach.NotMeasured || l.Score != 0 || l.Grade != "" ||
			len(l.Checks) != 0 || len(l.Causes) != 0 || !l.Change.IsZero() {
			t.Errorf("the leg is %+v", l)
		}
		if l.Reason.IsZero() || !reason.IsZero() && !l.Reason.Equal(reason) {
			t.Errorf("the reason is %q", l.Reason)
		}
		if s.Maneuver != coach.Unclear || s.Standard != "training" || s.Verdict != coach.NotMeasured ||
			s.Decision == nil || len(s.Legs) != 1 {
			t.Errorf("the series is %+v", s)
		}
	}
	a := newAuto(t)
	a.addLeg(steep, recordOf(100, 120, 200))
	a.slots[0].legs[steep].Trace = nil
	a.settle(true)
	if got, want := worded(a.Take()), "leg 1 of 100 s, series unclear 100"; got != want {
		t.Errorf("a leg too short to compare: %q; must be %q", got, want)
	}
}
