package logbook

import (
	"time"

	"halfturn/coach/names"
)

// A CourseChoice is the course that a student flies, by the name of its card. The zero value is none.
type CourseChoice struct {
	Course   string `json:"course"`
	Cause    string `json:"cause,omitempty"`    // the weakness that it is built against
	Maneuver string `json:"maneuver,omitempty"` // in which that weakness shows
}

// What a person can say of a step of a course.
const (
	StepPassed = "passed"
	StepNotYet = "not-yet"
)

// A Ruling is what a person says of a step of a course, whatever its legs count for: from then on it is passed, or has
// to be passed by what is flown from then on.
type Ruling struct {
	Course  CourseChoice `json:"course"`
	Step    string       `json:"step"`    // its id
	Verdict string       `json:"verdict"` // [StepPassed] or [StepNotYet]
	Legs    int          `json:"legs"`    // of the session that were over when it was given
	By      string       `json:"by"`
	At      time.Time    `json:"at"`
	Reason  string       `json:"reason"`
	After   bool         `json:"afterSigning"`
}

// ruling is what an act says of a step.
func ruling(a *Act, by string, after bool) Ruling {
	r := Ruling{
		Step:    a.About.Step,
		Verdict: a.Verdict,
		Legs:    max(a.About.Number, 0),
		By:      by,
		At:      a.At,
		Reason:  names.Readable(names.TidyWords(a.Words)),
		After:   after,
	}
	if a.About.Course != nil {
		r.Course = *a.About.Course
	}
	return r
}
