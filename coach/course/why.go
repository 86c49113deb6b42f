package course

import (
	"strings"

	"halfturn/stream/phrase"
)

// A reason is why something is to be flown, and what the rule rests on.
type reason struct {
	words  phrase.Phrase
	source string
}

// NoStep is the error for a step that a course does not have.
func NoStep(c *Course, step string) error {
	return phrase.NoCourseStep.Error(phrase.Name("course", c.Name), phrase.Name("step", step),
		phrase.Words("names", strings.Join(c.IDs(), ", ")))
}

// why is why a step is worked on.
func (n *planner) why(s *Step) reason {
	switch state := n.at.Step(s.ID).State; {
	case n.opt.Step != "" && state == Locked:
		return reason{phrase.CourseWhyLocked.Of(), ""}
	case n.opt.Step != "":
		return reason{phrase.CourseWhyChosen.Of(), ""}
	case s.Check:
		return reason{phrase.CourseWhyCheck.Of(), "Winstein and Schmidt 1990"}
	case state == Slipped:
		return reason{phrase.CourseWhySlipped.Of(), "FAA-H-8083-9B ch. 8"}
	case n.isNew(s):
		return reason{phrase.CourseWhyNew.Of(), "FAA-H-8083-9B ch. 3; Guadagnoli and Lee 2004"}
	}
	return reason{phrase.CourseWhyMixed.Of(), "FAA-H-8083-9B ch. 3"}
}

// whyAgain is why a step that was passed is flown again.
func (n *planner) whyAgain(s *Step) reason {
	if away := n.since(n.at.Step(s.ID)); away >= dueAfter {
		return reason{phrase.CourseWhyDue.Of(phrase.Int("days", away)), "Moulton et al. 2006"}
	}
	return reason{phrase.CourseWhyAgain.Of(), "FAA-H-8083-9B ch. 3"}
}

// mind is the thing to change that came most often in the latest tries at a step, of equals the latest; nothing when
// each came once only.
func (n *planner) mind(s *Step) phrase.Phrase {
	var things []phrase.Phrase // the latest first
	for i, tries := len(n.legs)-1, 0; i >= 0 && tries < latest; i-- {
		l := &n.legs[i]
		if l.Maneuver != s.Maneuver || l.Standard != s.Standard {
			continue
		}
		try, ok := s.judge(l)
		if !ok {
			continue
		}
		tries++
		if !try.Good && !try.change.IsZero() {
			things = append(things, try.change)
		}
	}
	times, most, words := map[string]int{}, 1, phrase.Phrase{}
	for _, x := range things {
		times[x.String()]++
	}
	for _, x := range things {
		if k := times[x.String()]; k > most {
			most, words = k, x
		}
	}
	return words
}
