package logbook

import (
	"cmp"
	"time"

	"halfturn/coach"
	"halfturn/coach/names"
)

// Marks that an element of a published test can have on a form.
const (
	Satisfactory   = "satisfactory"
	Unsatisfactory = "unsatisfactory"
	NotObserved    = "not-observed"
)

// A Judging is what people made of the computed grades of a session. A later act about the same thing takes the place
// of an earlier one.
type Judging struct {
	Overruled []Overrule    `json:"overruled"`
	Observed  []Observation `json:"observed"`
	Ratings   []Rating      `json:"ratings"`
	Signed    []Signing     `json:"signed"`
	Rulings   []Ruling      `json:"rulings"` // on steps of courses
}

// An Overrule is the verdict of a person in the place of a computed one: on a check of a leg or a series, or on a leg
// or a series as a whole.
type Overrule struct {
	Leg     int       `json:"leg"`    // in the session, from 1; 0 where it is about a series
	Series  int       `json:"series"` // in the session, from 1; 0 where it is about a leg
	Check   string    `json:"check"`  // its id; "" is the leg or series as a whole
	Verdict string    `json:"verdict"`
	By      string    `json:"by"`
	At      time.Time `json:"at"`
	Reason  string    `json:"reason"`
	After   bool      `json:"afterSigning"`
}

// An Observation is a mark for one element of a published test, given by a person.
type Observation struct {
	Series  int       `json:"series"` // in the session, from 1
	Element string    `json:"element"`
	Mark    string    `json:"mark"` // [Satisfactory] and so on
	By      string    `json:"by"`
	At      time.Time `json:"at"`
	After   bool      `json:"afterSigning"`
}

// A Rating is how the student found a leg, before its grade was shown.
type Rating struct {
	Leg   int       `json:"leg"`   // in the session, from 1
	Grade string    `json:"grade"` // [coach.Unable] and so on
	Thing string    `json:"thing"` // the one thing to change, by its aspect; "" names none
	By    string    `json:"by"`
	At    time.Time `json:"at"`
	After bool      `json:"afterSigning"`
	// What was measured: filled in when it is shown.
	Measured Measured `json:"measured"`
}

// A Measured is what a rating is held against.
type Measured struct {
	Grade string `json:"grade"`
	Thing string `json:"thing"` // the aspect of the check that cost most; "" is none
}

// A Signing is a signature under the grades of a session as they stood. The grades and everything that was added before
// it are in its hash; what came later counts as added after it.
type Signing struct {
	ID    string    `json:"id"` // of its act
	By    string    `json:"by"`
	At    time.Time `json:"at"`
	Hash  string    `json:"hash"`  // SHA-256, hex
	Acts  int       `json:"acts"`  // how many acts stand before it
	After int       `json:"after"` // how many were added after it
	// Holds says whether grades and acts are as they were signed, and Removed how many names were removed since. Both
	// are filled in by what reads the folder of the session.
	Holds   bool `json:"holds"`
	Removed int  `json:"removed"`
}

// NewJudging is the judging of a session about which nothing was said.
func NewJudging() Judging {
	return Judging{Overruled: []Overrule{}, Observed: []Observation{}, Ratings: []Rating{}, Signed: []Signing{},
		Rulings: []Ruling{}}
}

// IsZero reports whether nobody added anything.
func (j *Judging) IsZero() bool {
	return len(j.Overruled) == 0 && len(j.Observed) == 0 && len(j.Ratings) == 0 && len(j.Signed) == 0 &&
		len(j.Rulings) == 0
}

// take adds an act. acts is how many were before it.
func (j *Judging) take(a *Act, acts int) {
	after := len(j.Signed) > 0
	for i := range j.Signed {
		j.Signed[i].After++
	}
	by := names.Readable(names.Tidy(cmp.Or(a.Author, a.By.Name)))
	switch a.Kind {
	case ActOverrule:
		o := Overrule{
			Leg:     max(a.About.Number, 0),
			Series:  max(a.About.Series, 0),
			Check:   a.About.Check,
			Verdict: a.Verdict,
			By:      by,
			At:      a.At,
			Reason:  names.Readable(names.TidyWords(a.Words)),
			After:   after,
		}
		j.Overruled = put(j.Overruled, o, a.Verdict == "", func(b *Overrule) bool {
			return o.Leg == b.Leg && o.Series == b.Series && o.Check == b.Check
		})
	case ActObserve:
		o := Observation{Series: a.About.Series, Element: a.About.Element, Mark: a.Observed, By: by, At: a.At,
			After: after}
		j.Observed = put(j.Observed, o, a.Observed == "", func(b *Observation) bool {
			return o.Series == b.Series && o.Element == b.Element
		})
	case ActRate:
		r := Rating{Leg: a.About.Number, Grade: a.Grade, Thing: a.Thing, By: by, At: a.At, After: after}
		j.Ratings = put(j.Ratings, r, a.Grade == "", func(b *Rating) bool { return r.Leg == b.Leg })
	case ActRule:
		r := ruling(a, by, after)
		j.Rulings = put(j.Rulings, r, a.Verdict == "", func(b *Ruling) bool {
			return r.Course == b.Course && r.Step == b.Step
		})
	case ActSign:
		s := Signing{ID: a.ID, At: a.At, By: by, Acts: acts}
		if a.Signature != nil {
			s.Hash, s.By = a.Signature.Hash, names.Readable(names.Tidy(a.Signature.Name))
			s.Removed = a.Signature.removed()
		}
		j.Signed = append(j.Signed, s)
	}
}

// put adds an item in the place of the one about the same thing; gone only removes that one.
func put[T any](list []T, item T, gone bool, same func(*T) bool) []T {
	kept := make([]T, 0, len(list)+1)
	for i := range list {
		if !same(&list[i]) {
			kept = append(kept, list[i])
		}
	}
	if gone {
		return kept
	}
	return append(kept, item)
}

// A Signature is what an act of signing holds.
type Signature struct {
	Name  string       `json:"name"` // of who signed
	Hash  string       `json:"hash"` // see package sign
	Names []SignedName `json:"names"`
}

// A SignedName is a name that stands in what was signed, by a hash that is of no use to whoever does not know the salt.
// A name that was removed leaves its hash alone.
type SignedName struct {
	Name string `json:"name,omitempty"`
	Salt string `json:"salt,omitempty"` // 128 random bits, hex
	Hash string `json:"hash"`           // SHA-256 of the salt and the folded name, hex
}

// removed is how many of the names were removed.
func (s *Signature) removed() (n int) {
	for i := range s.Names {
		if s.Names[i].Name == "" {
			n++
		}
	}
	return n
}

// Grades are those that a leg can have, lowest first.
func Grades() []string { return []string{coach.Unable, coach.Fair, coach.Good, coach.Excellent} }
