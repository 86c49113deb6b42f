package stored

import (
	"context"
	"errors"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/play"
	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// Forms makes the forms of a session, by the cards as they stood.
func (j *Judge) Forms(ctx context.Context, a *archive.Archive, id string) ([]assess.Form, error) {
	judging, err := a.Judging(ctx, id)
	if err != nil {
		return nil, err
	}
	r, err := a.Judged(ctx, id)
	if err != nil {
		return nil, err
	}
	lib, err := j.cardsFor(ctx, a, id)
	if err != nil {
		return nil, err
	}
	var series []coach.Series
	for _, s := range logbook.Stations(r) {
		series = append(series, s.Series...)
	}
	return assess.Forms(lib, series, judging), nil
}

// cardsFor reads the cards that a session is judged by; those of today where only its grades were kept.
func (j *Judge) cardsFor(ctx context.Context, a *archive.Archive, id string) (*maneuver.Library, error) {
	if dir, err := a.Folder(id); err == nil {
		rec, err := play.Open(ctx, dir)
		if err == nil {
			return j.Library(rec)
		}
		var empty *play.EmptyError
		if ctx.Err() != nil || !errors.As(err, &empty) {
			return nil, err
		}
	}
	return j.Setup.Library(j.Setup.Choice(), "")
}

// Observe marks an element of a form. The error is a [*logbook.Refused] when the form has no such element.
func (j *Judge) Observe(
	ctx context.Context, by who.Who, a *archive.Archive, id string, o logbook.Observation,
) error {
	forms, err := j.Forms(ctx, a, id)
	if err != nil {
		return err
	}
	switch {
	case o.Series < 1 || o.Series > len(forms):
		return logbook.Refuse(phrase.JudgingNoSeries.Of(phrase.Name("session", id), phrase.Int("series", o.Series)))
	case forms[o.Series-1].Document == "":
		return logbook.Refuse(phrase.JudgingNoTest.Of())
	case !forms[o.Series-1].Has(o.Element):
		return logbook.Refuse(phrase.JudgingNoElement.Of(phrase.Int("series", o.Series),
			phrase.Name("element", o.Element)))
	}
	return a.Observe(by, id, o)
}

// SheetOf makes the grade sheet of a student, of the sessions at some stations; nil is all. The error is a
// [*logbook.Refused] for one who is not in the logbook.
func SheetOf(
	ctx context.Context, a *archive.Archive, name string, stations []string, required assess.Requirement,
) (*assess.Sheet, error) {
	known, flown, err := sessionsOf(ctx, a, name, stations)
	if err != nil {
		return nil, err
	}
	return assess.SheetOf(known, flown, required), nil
}

// sessionsOf returns the sessions of a student, oldest first, and the name as the logbook has it.
func sessionsOf(
	ctx context.Context, a *archive.Archive, name string, stations []string,
) (known string, flown []assess.Flown, err error) {
	student, err := a.Student(ctx, name)
	if err != nil {
		return "", nil, err
	}
	if student.Name == "" {
		return "", nil, logbook.Refuse(phrase.StudentUnknown.Of(phrase.Name("student", name)))
	}
	list, err := logbook.ListAll(ctx, a, logbook.Filter{Student: student.Name, Stations: stations}, 0)
	if err != nil {
		return "", nil, err
	}
	ids, rows := make([]string, len(list.Sessions)), map[string]*logbook.SessionRow{}
	for i := range list.Sessions {
		row := &list.Sessions[i]
		ids[len(ids)-1-i], rows[row.ID] = row.ID, row // oldest first
	}
	graded, err := a.Graded(ctx, ids)
	if err != nil {
		return "", nil, err
	}
	flown = make([]assess.Flown, len(graded))
	for i := range graded {
		flown[i] = flownIn(&graded[i], rows[graded[i].Session])
	}
	return student.Name, flown, nil
}

// flownIn is what a grade sheet takes of a session.
func flownIn(g *logbook.Graded, row *logbook.SessionRow) assess.Flown {
	f := assess.Flown{
		Session: row.ID,
		Report:  assess.Report(g.Report, &g.Judging),
		Ratings: g.Judging.Ratings,
		Rulings: g.Judging.Rulings,
		Titles:  map[string]string{},
		Signed:  len(g.Judging.Signed) > 0,
	}
	f.Began, _ = time.Parse(time.RFC3339, row.Began) // as the logbook writes it
	for _, m := range row.Maneuvers {
		f.Titles[m.Name] = m.Title
	}
	return f
}
