package course

import "time"

// A Ruling is what a person says of a step: that it is passed, or not yet, whatever its tries come to. It counts from
// when it is given: a step that somebody passed slips like another, and one that is not passed yet is passed by the
// tries from then on.
type Ruling struct {
	Step    string    `json:"step"` // its id
	Passed  bool      `json:"passed"`
	By      string    `json:"by"`
	At      string    `json:"at"` // RFC 3339
	Reason  string    `json:"reason"`
	Session string    `json:"session"` // that it is kept with
	Number  int       `json:"n"`       // of its legs before it
	Began   time.Time `json:"-"`       // when the session did
}

// before reports whether a ruling was given before a leg was flown.
func (r *Ruling) before(l *Flown) bool {
	if r.Session == l.Session {
		return r.Number < l.Number
	}
	return r.Began.Before(l.Began)
}

// rule counts the rulings that were given before a leg, nil for all, and returns the others.
func rule(steps []follower, said []Ruling, l *Flown) []Ruling {
	for len(said) > 0 && (l == nil || said[0].before(l)) {
		for i := range steps {
			if steps[i].step.ID == said[0].Step {
				steps[i].rule(&said[0])
			}
		}
		unlock(steps)
		said = said[1:]
	}
	return said
}

// rule counts a ruling. The tries before it count toward nothing any more, but for those that passed the step.
func (f *follower) rule(r *Ruling) {
	own := *r
	f.ruled, f.row = &own, 0
	switch {
	case r.Passed:
		if f.state != Passed {
			f.passedBy = f.inWindows()
		}
		f.state, f.passedOnce = Passed, true
	case f.state == Passed || f.state == Slipped:
		f.state = Open
	}
	if !r.Passed {
		f.windows, f.passedBy = [2][]Try{}, nil
	}
}
