package folder

import (
	"cmp"
	"slices"
	"time"
	"unicode/utf8"

	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
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
		return logbook.Refuse(phrase.RemarkEmpty.Of())
	case n > MaxWords:
		return logbook.Refuse(phrase.RemarkTooLong.Of(phrase.Int("letters", n), phrase.Int("most", MaxWords)))
	case r.Leg < 0:
		return logbook.Refuse(phrase.RemarkLeg.Of(phrase.Int("leg", r.Leg)))
	case r.Time != nil && !(*r.Time >= 0 && *r.Time < 1e7):
		return logbook.Refuse(phrase.RemarkMoment.Of(phrase.Number("moment", *r.Time, -1, "")))
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
	if i := keyed(there, r.Key); i >= 0 { // it was added before
		*r = there[i]
		return nil
	}
	if r.Mark != "" {
		return f.wordMark(by, r, there)
	}
	switch {
	case len(there) >= MaxRemarks:
		return logbook.Refuse(phrase.RemarksFull.Of(phrase.Name("session", f.ID), phrase.Int("remarks", len(there))))
	case r.Leg > 0 && legs == 0:
		return logbook.Refuse(phrase.RemarkNoLegs.Of(phrase.Name("session", f.ID)))
	case r.Leg > legs:
		return logbook.Refuse(phrase.RemarkNoLeg.Of(phrase.Name("session", f.ID), phrase.Int("leg", r.Leg),
			phrase.Int("last", legs)))
	}
	r.ID = 1
	for i := range there {
		r.ID = max(r.ID, there[i].ID+1)
	}
	act := f.NewAct(logbook.ActRemark, by, r.At)
	act.ID = cmp.Or(r.Key, act.ID)
	act.Number, act.Author, act.Words, act.About.Moment = r.ID, r.By, r.Words, r.Time
	if r.Leg > 0 {
		act.About.Number, act.About.Leg = r.Leg, logbook.LegID(f.Notes.Began, f.Notes.Key, r.Leg)
	}
	r.Key = act.ID
	f.Add(act)
	return nil
}

// keyed returns the place of the remark of a key, or −1.
func keyed(there []logbook.Remark, key string) int {
	return slices.IndexFunc(there, func(r logbook.Remark) bool { return key != "" && r.Key == key })
}

// wordMark gives a mark its words, once.
func (f *Edit) wordMark(by who.Who, r *logbook.Remark, there []logbook.Remark) error {
	i := keyed(there, r.Mark)
	switch {
	case i < 0:
		return logbook.Refuse(phrase.NoMark.Of(phrase.Name("session", f.ID), phrase.Name("mark", r.Mark)))
	case there[i].Words != logbook.Marked:
		return logbook.Refuse(phrase.MarkWorded.Of(phrase.Name("mark", r.Mark)))
	}
	act := f.NewAct(logbook.ActRemark, by, r.At)
	act.Number, act.Author, act.Words, act.Mark = there[i].ID, r.By, r.Words, r.Mark
	act.About.Moment = there[i].Time
	f.Add(act)
	words, author := r.Words, r.By
	*r = there[i]
	r.Words, r.By = words, author
	return nil
}
