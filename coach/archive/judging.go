package archive

import (
	"context"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive/folder"
	"halfturn/coach/assess"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

// Overrule puts a verdict in the place of a computed one: on a check, a leg or a series of a session's first grading.
// An empty verdict takes that back. The error is a [*logbook.Refused] for one without a reason, and for what is not
// there.
func (a *Archive) Overrule(by who.Who, id string, o logbook.Overrule) error {
	return a.act(id, func(b logbook.Book, f *folder.Edit) error {
		flown, err := flownIn(b, id)
		if err != nil {
			return err
		}
		return f.Overrule(by, &o, flown, now())
	})
}

// Observe marks an element of a published test. An empty mark takes that back.
func (a *Archive) Observe(by who.Who, id string, o logbook.Observation) error {
	return a.act(id, func(_ logbook.Book, f *folder.Edit) error { return f.Observe(by, &o, now()) })
}

// Rate keeps how the student found a leg. An empty grade takes that back.
func (a *Archive) Rate(by who.Who, id string, r logbook.Rating) error {
	return a.act(id, func(b logbook.Book, f *folder.Edit) error {
		flown, err := flownIn(b, id)
		if err != nil {
			return err
		}
		return f.Rate(by, &r, flown, now())
	})
}

// Rule keeps what a person says of a step of a course, after the legs of a session so far. An empty verdict takes that
// back. The error is a [*logbook.Refused] for one without a reason.
func (a *Archive) Rule(by who.Who, id string, r logbook.Ruling) error {
	return a.act(id, func(b logbook.Book, f *folder.Edit) error {
		legs, err := b.Legs(context.Background(), id)
		if err != nil {
			return err
		}
		r.Legs = legs
		return f.Rule(by, &r, now())
	})
}

// Sign signs the grades of a session with everything that was added so far, by a name. A session that is not over, one
// without grades, and one to which nothing was added since it was signed, are a [*logbook.Refused].
func (a *Archive) Sign(by who.Who, id, name string) error {
	return a.act(id, func(b logbook.Book, f *folder.Edit) error {
		known, err := b.Students(context.Background(), 0)
		if err != nil {
			return err
		}
		return f.Sign(by, name, known, now())
	})
}

// now is the time of an act.
func now() time.Time { return time.Now().UTC().Truncate(time.Millisecond) }

// flownIn is what was flown in a session, as it was graded first.
func flownIn(b logbook.Book, id string) ([]coach.Series, error) {
	r, err := b.Report(context.Background(), id, 1)
	if err != nil {
		return nil, err
	}
	return seriesOf(r), nil
}

func seriesOf(r *debrief.Report) (all []coach.Series) {
	for _, s := range logbook.Stations(r) {
		all = append(all, s.Series...)
	}
	return all
}

// Judging returns what people made of the grades of a session, with what was measured of the legs that were rated and
// whether its signatures hold.
func (a *Archive) Judging(ctx context.Context, id string) (*logbook.Judging, error) {
	d, err := a.Session(ctx, id)
	if err != nil {
		return nil, err
	}
	return &d.Judging, nil
}

// Judged returns the first grading of a session as it stands after everything that people added.
func (a *Archive) Judged(ctx context.Context, id string) (*debrief.Report, error) {
	j, err := a.Judging(ctx, id)
	if err != nil {
		return nil, err
	}
	r, err := a.Report(ctx, id, 1)
	if err != nil {
		return nil, err
	}
	return assess.Report(r, j), nil
}

// judge fills in what of a judging stands in the folder, or follows from the grades.
func (a *Archive) judge(ctx context.Context, id string, j *logbook.Judging) error {
	if dir, err := a.brought(id, false); err == nil {
		if err := folder.Verify(dir, j.Signed); err != nil {
			return err
		}
	}
	if len(j.Ratings) == 0 {
		return nil
	}
	r, err := a.Report(ctx, id, 1)
	if err == nil {
		assess.Rate(assess.Series(seriesOf(r), j), j.Ratings)
	}
	return err
}
