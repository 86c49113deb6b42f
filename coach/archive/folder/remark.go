package folder

import (
	"fmt"
	"time"
	"unicode/utf8"

	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/who"
)

// What a session's remarks may hold.
const (
	MaxWords   = 4000 // letters of one
	MaxRemarks = 500
)

// CheckRemark normalizes a remark; the error is a [*logbook.Refused] that says what is wrong with it.
func CheckRemark(r *logbook.Remark) (err error) {
	if r.Words, err = names.Words(r.Words); err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	if r.By, err = names.Person(r.By); err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	switch n := utf8.RuneCountInString(r.Words); {
	case n == 0:
		return &logbook.Refused{Words: "the remark has no words"}
	case n > MaxWords:
		return &logbook.Refused{Words: fmt.Sprintf("the remark is %d letters long; allowed: %d", n, MaxWords)}
	case r.Leg < 0:
		return &logbook.Refused{Words: fmt.Sprintf("leg %d is none: legs count from 1, 0 is the session as a whole",
			r.Leg)}
	case r.Time != nil && !(*r.Time >= 0 && *r.Time < 1e7):
		return &logbook.Refused{Words: fmt.Sprintf(
			"the moment %g is none: it counts in seconds from the beginning of the recording", *r.Time)}
	}
	if r.At.IsZero() {
		r.At = time.Now()
	}
	r.At = r.At.UTC().Truncate(time.Second)
	return nil
}

// Remark adds a remark to a session with a number of legs, and sets its ID and key. The error is a [*logbook.Refused]
// when the session does not take it.
func (f *Edit) Remark(by who.Who, r *logbook.Remark, legs int) error {
	there := f.Standing().Remarks
	switch {
	case len(there) >= MaxRemarks:
		return &logbook.Refused{Words: fmt.Sprintf("session %q has %d remarks, as many as are kept with one", f.ID,
			len(there))}
	case r.Leg > 0 && legs == 0:
		return &logbook.Refused{Words: fmt.Sprintf("session %q has no legs; a remark on the session as a whole is on "+
			"leg 0", f.ID)}
	case r.Leg > legs:
		return &logbook.Refused{Words: fmt.Sprintf("session %q has no leg %d; its last one is leg %d", f.ID, r.Leg,
			legs)}
	}
	r.ID = 1
	for i := range there {
		r.ID = max(r.ID, there[i].ID+1)
	}
	act := f.NewAct(logbook.ActRemark, by, r.At)
	act.Number, act.Author, act.Words, act.About.Moment = r.ID, r.By, r.Words, r.Time
	if r.Leg > 0 {
		act.About.Number, act.About.Leg = r.Leg, logbook.LegID(f.Notes.Began, f.Notes.Key, r.Leg)
	}
	r.Key = act.ID
	f.Add(act)
	return nil
}
