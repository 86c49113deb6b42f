package logbook

import (
	"slices"
	"time"

	"halfturn/coach/names"
	"halfturn/coach/who"
)

// The kinds of acts. One of a later version is kept and passed over.
const (
	ActRemark  = "remark"  // Words are said by Author; with Mark they are those of a moment that was marked before
	ActKeep    = "keep"    // Keep says whether the session may be removed by age or size
	ActStudent = "student" // Student flew it

	ActOverrule = "overrule" // Verdict takes the place of a computed one, for the reason in Words; "" takes it back
	ActObserve  = "observe"  // an element of a published test has the mark Observed; "" takes it back
	ActRate     = "rate"     // the student finds a leg to be of a Grade, and would change a Thing; "" takes it back
	ActSign     = "sign"     // the grades, and all acts before, are signed
	ActRule     = "rule"     // a step of a course is as Verdict says, for the reason in Words; "" takes it back
)

// An Act is what a person adds to what was measured. Acts are only ever added.
type Act struct {
	ID    string    `json:"id"` // unique everywhere; see package ids
	Kind  string    `json:"kind"`
	By    who.Who   `json:"by"` // who asked for it
	At    time.Time `json:"at"`
	About About     `json:"about"`

	Number  int      `json:"n,omitempty"` // of a remark in its session, from 1
	Author  string   `json:"author,omitempty"`
	Words   string   `json:"words,omitempty"`
	Mark    string   `json:"mark,omitempty"` // the id of a remark that gets its words by this one
	Keep    bool     `json:"keep,omitempty"`
	Student *Student `json:"student,omitempty"`

	Verdict   string     `json:"verdict,omitempty"`
	Observed  string     `json:"observed,omitempty"` // the mark of an element
	Grade     string     `json:"grade,omitempty"`
	Thing     string     `json:"thing,omitempty"`
	Signature *Signature `json:"signature,omitempty"`
}

// An About is what an act is about: a session, or something in it.
type About struct {
	Session string   `json:"session"`           // its key
	Leg     string   `json:"leg,omitempty"`     // its id; "" is the session as a whole
	Number  int      `json:"n,omitempty"`       // of the leg in the session, from 1
	Series  int      `json:"series,omitempty"`  // in the session, from 1
	Check   string   `json:"check,omitempty"`   // its id in the leg or the series
	Element string   `json:"element,omitempty"` // its id in the published test
	Moment  *float64 `json:"moment,omitempty"`  // s since the first datagram of the recording; nil is none

	Course *CourseChoice `json:"course,omitempty"` // the course that a step is of
	Step   string        `json:"step,omitempty"`   // its id in the course
}

// A Remark is something said about a session, a leg, or a moment.
type Remark struct {
	ID    int       `json:"id"`   // in its session, from 1
	Leg   int       `json:"leg"`  // its number in the session, from 1; 0 is the session as a whole
	Time  *float64  `json:"time"` // s since the first datagram of the recording; null is no moment
	By    string    `json:"by"`
	Words string    `json:"words"`
	At    time.Time `json:"at"`            // when it was written
	Key   string    `json:"key,omitempty"` // unique everywhere; of a mark, the id of the command
	Mark  string    `json:"-"`             // the key of the mark that gets its words by this one
}

// A Standing is the state of a session after everything that people added to it.
type Standing struct {
	Student Student
	Keep    bool
	Remarks []Remark // in the order in which they were added
	Judging Judging
}

// Fold applies the acts of a session in their order. First is the student it began with. An act that
// comes twice counts once; a remark whose number is taken gets the next that is free. Names and words are as package
// names has them.
func Fold(first Student, acts []Act) Standing {
	s := Standing{Student: first, Remarks: []Remark{}, Judging: NewJudging()}
	seen, numbers := map[string]bool{}, map[int]bool{}
	for i := range acts {
		a := &acts[i]
		if seen[a.ID] {
			continue
		}
		seen[a.ID] = true
		s.Judging.take(a, i)
		switch a.Kind {
		case ActKeep:
			s.Keep = a.Keep
		case ActStudent:
			s.Student = Student{}
			if a.Student != nil {
				s.Student = *a.Student
			}
		case ActRemark:
			if s.word(a) {
				continue
			}
			n := max(a.Number, 1)
			for numbers[n] {
				n++
			}
			numbers[n] = true
			s.Remarks = append(s.Remarks, Remark{ID: n, Leg: max(a.About.Number, 0), Time: a.About.Moment,
				By: names.Readable(names.Tidy(a.Author)), Words: names.Readable(names.TidyWords(a.Words)), At: a.At,
				Key: a.ID})
		}
	}
	if s.Student.Name = names.Readable(names.Tidy(s.Student.Name)); s.Student.Name == names.Removed {
		s.Student = Student{}
	}
	return s
}

// word gives a mark its words, and reports whether it did: an act that names a mark which is not there is a remark of
// its own.
func (s *Standing) word(a *Act) bool {
	if a.Mark == "" {
		return false
	}
	i := slices.IndexFunc(s.Remarks, func(r Remark) bool { return r.Key == a.Mark })
	if i < 0 {
		return false
	}
	s.Remarks[i].By = names.Readable(names.Tidy(a.Author))
	s.Remarks[i].Words = names.Readable(names.TidyWords(a.Words))
	return true
}

// Marked are the words of a moment that was marked without any.
const Marked = "Marked"
