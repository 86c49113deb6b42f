package course

import (
	"cmp"
	"slices"
	"time"

	"halfturn/coach"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// A follower counts the tries at one step.
type follower struct {
	step       *Step
	slip       int      // tries in a row that take it back
	locks      []string // ids of the steps that unlock it
	state      string
	passedOnce bool
	windows    [2][]Try // that the rule looks at: right, or either side; left
	passedBy   []Try
	recent     []attempt // the latest
	row        int       // good tries in a row; below 0 those that were not
	tries      int
	good       int
	last       time.Time
	day        [3]int  // of the latest check flight
	flown      [2]bool // in it, by side
	ruled      *Ruling // the latest
}

// An attempt is a try, and what was judged in it.
type attempt struct {
	Try
	checks []coach.Check
	change phrase.Phrase // the one thing to change
}

// take counts a leg, if it is a try at the step.
func (f *follower) take(l *Flown) {
	if f.state == Locked || l.Maneuver != f.step.Maneuver || l.Standard != f.step.Standard {
		return
	}
	try, ok := f.step.judge(l)
	if !ok || f.step.Check && f.second(l) {
		return
	}
	f.tries++
	try.at, f.last = f.tries, l.Began
	f.recent = append(f.recent, try)
	if len(f.recent) > latest {
		f.recent = f.recent[1:]
	}
	if try.Good {
		f.good++
	}
	f.row = inRow(f.row, try.Good)
	if f.state == Passed {
		f.again()
		return
	}
	w := f.window(try.Direction)
	*w = append(*w, try.Try)
	if len(*w) > f.step.Pass.Of {
		*w = (*w)[1:]
	}
	if f.passes() {
		f.state, f.passedOnce = Passed, true
		f.passedBy = f.inWindows()
	}
}

// again looks at a step that was passed. A check flight that was passed stays so.
func (f *follower) again() {
	if !f.step.Check && -f.row >= f.slip {
		f.state, f.windows = Slipped, [2][]Try{}
	}
}

// inRow counts another try in a row.
func inRow(row int, good bool) int {
	if good {
		return max(0, row) + 1
	}
	return min(0, row) - 1
}

// second reports whether the day of a leg has had its check flight to that side. A new day begins a new one.
func (f *follower) second(l *Flown) bool {
	year, month, day := l.Began.Date()
	if on := [3]int{year, int(month), day}; on != f.day {
		f.day, f.flown = on, [2]bool{}
		if f.state != Passed {
			f.windows = [2][]Try{}
		}
	}
	side := 0
	if l.Leg.Direction == "left" {
		side = 1
	}
	was := f.flown[side]
	f.flown[side] = true
	return was
}

// window is the one that the tries to a side are in.
func (f *follower) window(direction string) *[]Try {
	if f.step.Pass.Sides == EachSide && direction == "left" {
		return &f.windows[1]
	}
	return &f.windows[0]
}

// passes reports whether the tries of the windows are what the rule asks for.
func (f *follower) passes() bool {
	for i := range f.windows {
		good := 0
		for k := range f.windows[i] {
			if f.windows[i][k].Good {
				good++
			}
		}
		if good < f.step.Pass.Good && (i == 0 || f.step.Pass.Sides == EachSide) {
			return false
		}
	}
	return true
}

// sides are what counts toward the rule.
func (f *follower) sides() []Side {
	names := []string{"right", "left"}
	if f.step.Pass.Sides != EachSide {
		names = []string{""}
	}
	sides := make([]Side, len(names))
	for i, name := range names {
		sides[i] = Side{Direction: name, Of: len(f.windows[i]), Need: f.step.Pass.Good}
		for _, t := range f.windows[i] {
			if t.Good {
				sides[i].Good++
			}
		}
	}
	return sides
}

// inWindows are the tries of the windows, in the order in which they were flown.
func (f *follower) inWindows() []Try {
	all := dated(append(append([]Try{}, f.windows[0]...), f.windows[1]...))
	slices.SortFunc(all, func(a, b Try) int { return cmp.Compare(a.at, b.at) })
	return all
}

// stands is how the step stands.
func (f *follower) stands() State {
	s := State{
		ID:       f.step.ID,
		State:    f.state,
		Prompts:  f.step.Say(f.state, f.row),
		Sides:    f.sides(),
		Tries:    f.tries,
		Good:     f.good,
		PassedBy: append([]Try{}, f.passedBy...),
		Lately:   f.inWindows(),
		Missed:   f.missed(),
		stands:   f.standing(),
		Ruled:    f.ruled,
	}
	if !f.last.IsZero() {
		s.Last = f.last.UTC().Format(time.RFC3339)
	}
	if f.state == Passed {
		s.Lately = []Try{}
		for i := max(0, len(f.recent)-2*f.step.Pass.Of); i < len(f.recent); i++ {
			s.Lately = append(s.Lately, f.recent[i].Try)
		}
		s.Lately = dated(s.Lately)
	}
	return s
}

// dated writes when the session of each try began.
func dated(list []Try) []Try {
	for i := range list {
		list[i].Began = list[i].began.UTC().Format(time.RFC3339)
	}
	return list
}

// missed lists the checks that were missed in the latest tries.
func (f *follower) missed() []Missed {
	list := []Missed{}
	for i := range f.recent {
		for k := range f.recent[i].checks {
			c := &f.recent[i].checks[k]
			if c.Weight == 0 || c.Verdict != coach.Missed {
				continue
			}
			at := slices.IndexFunc(list, func(m Missed) bool { return m.ID == c.ID })
			if at < 0 {
				at = len(list)
				list = append(list, Missed{ID: c.ID, Of: len(f.recent)})
			}
			list[at].Label = c.Label
			list[at].Times++
		}
	}
	slices.SortStableFunc(list, func(a, b Missed) int { return cmp.Compare(b.Times, a.Times) })
	return list
}

// judge is what a leg of the maneuver shows of the step; ok is false when it shows nothing of it.
func (s *Step) judge(f *Flown) (t attempt, ok bool) {
	l := f.Leg
	if s.IsPart() {
		if l, ok = score.Part(f.Leg, s.Checks, f.Aircraft == ""); !ok {
			return t, false
		}
	}
	t = attempt{checks: l.Checks, change: l.Change, Try: Try{
		Session:   f.Session,
		Number:    f.Number,
		began:     f.Began,
		Direction: l.Direction,
		Verdict:   l.Verdict,
		Score:     l.Score,
		Grade:     l.Grade,
		Signed:    f.Signed,
		Good:      l.Verdict == coach.Met,
		Overruled: l.Overruled != nil || slices.ContainsFunc(l.Checks,
			func(k coach.Check) bool { return k.Overruled != nil }),
	}}
	if s.Check {
		t.Good = t.Good && f.Within && l.Said == 0
	}
	return t, l.Verdict != coach.NotMeasured
}
