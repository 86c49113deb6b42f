package exchange

import (
	"cmp"
	"context"
	"io"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/print"
	"halfturn/coach/stored"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web"
)

// Judging keeps what instructors and students make of grades.
type Judging struct {
	*archive.Archive
	Judge *stored.Judge
	// Required is the grade that a maneuver must have at the end of a block.
	Required assess.Requirement
	// StudentFirst reports whether a student rates a leg before its grade is shown; it may change.
	StudentFirst func() bool
}

var _ web.Judging = (*Judging)(nil)

// First reports whether a student rates a leg before its grade is shown.
func (j *Judging) First() bool { return j.StudentFirst() }

// Observe marks an element of a form.
func (j *Judging) Observe(ctx context.Context, by who.Who, id string, o logbook.Observation) error {
	return j.Judge.Observe(ctx, by, j.Archive, id, o)
}

// Forms returns the forms of a session.
func (j *Judging) Forms(ctx context.Context, id string) ([]assess.Form, error) {
	return j.Judge.Forms(ctx, j.Archive, id)
}

// Sheet returns the grade sheet of a student.
func (j *Judging) Sheet(ctx context.Context, student string, stations []string) (*assess.Sheet, error) {
	return stored.SheetOf(ctx, j.Archive, student, stations, j.Required)
}

// PrintForm writes the form of a series, from 1, as a PDF of one page.
func (j *Judging) PrintForm(ctx context.Context, w io.Writer, id string, series int, o web.Paper) error {
	forms, err := j.Forms(ctx, id)
	if err != nil {
		return err
	}
	d, err := j.Session(ctx, id)
	if err != nil {
		return err
	}
	if series > len(forms) {
		return logbook.Refuse(phrase.JudgingNoSeries.Of(phrase.Name("session", id), phrase.Int("series", series)))
	}
	began, _ := time.Parse(time.RFC3339, d.Began) // as the logbook writes it
	return print.Form(w, cmp.Or(o.Size, "a4"), &print.FormSheet{
		Form:     &forms[series-1],
		Session:  id,
		Student:  d.Student,
		Began:    began,
		Signed:   d.Judging.Signed,
		Language: o.Language,
	})
}

// PrintSheet writes the grade sheet of a student as a PDF.
func (j *Judging) PrintSheet(
	ctx context.Context, w io.Writer, student string, stations []string, o web.Paper,
) error {
	s, err := j.Sheet(ctx, student, stations)
	if err != nil {
		return err
	}
	return print.Sheet(w, cmp.Or(o.Size, "a4"), s, time.Now(), o.Language)
}
