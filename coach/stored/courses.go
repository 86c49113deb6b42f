package stored

import (
	"cmp"
	"context"
	"slices"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// UsualCourse is the course of those for whom none was chosen.
const UsualCourse = "first"

// Courses are what students fly one after the other, by the cards of the configuration.
type Courses struct {
	Archive  *archive.Archive
	Library  *course.Library
	Required assess.Requirement // nil requires nothing
}

// An Asked selects what a record is made of; the zero value is the course that was chosen, and ten minutes.
type Asked struct {
	logbook.CourseChoice
	Student  string
	Stations []string // where the sessions that count were flown; nil is all
	Step     string   // to work on instead of the one that the rules give
	Minutes  float64
	Now      time.Time // in the time zone whose days count
}

// flights are what a student flew, and what people said of steps.
type flights struct {
	student string
	flown   bool
	legs    []course.Flown
	said    []said
}

// said is a ruling, and of which course.
type said struct {
	course logbook.CourseChoice
	course.Ruling
}

// of are the rulings on a course.
func (f *flights) of(c logbook.CourseChoice) (list []course.Ruling) {
	for i := range f.said {
		if f.said[i].course == c {
			list = append(list, f.said[i].Ruling)
		}
	}
	return list
}

// Record is how a student stands in a course. One who has not flown stands at the beginning of it.
func (c *Courses) Record(ctx context.Context, o Asked) (*assess.Record, error) {
	chosen, err := c.Archive.CourseOf(ctx, o.Student)
	if err != nil {
		return nil, err
	}
	f, err := c.flights(ctx, o.Student, o.Stations, o.Now.Location())
	if err != nil {
		return nil, err
	}
	if chosen.Course != "" && o.Course == "" {
		if _, err := c.Library.Named(chosen.Course); err == nil { // else it is there no more
			o.CourseChoice = chosen
		}
	}
	one, is, err := c.built(o.CourseChoice, f.legs)
	if err != nil {
		return nil, err
	}
	r := &assess.Record{
		Version:  1,
		Cautions: slices.Clone(coach.Cautions[:]),
		Student:  f.student,
		At:       logbook.Zulu(o.Now),
		Known:    f.flown,
		Chosen:   chosen,
		Flown:    is,
		Course:   one,
		Progress: course.Follow(one, f.legs, f.of(is)...),
		Week:     course.Weekly(f.legs, o.Now),
	}
	r.Plan, err = one.Next(r.Progress, f.legs, course.Options{Now: o.Now, Minutes: o.Minutes, Step: o.Step})
	if err != nil {
		return nil, logbook.Refuse(phrase.OfError(err))
	}
	r.Blocks = assess.BlocksOf(one, r.Progress, f.legs)
	for i := range one.Steps {
		title, required := one.Steps[i].Maneuver, ""
		if card, err := c.Library.Cards().Card(title); err == nil {
			title = card.Title
		}
		if c.Required != nil {
			required = c.Required(one.Steps[i].Maneuver)
		}
		r.Steps = append(r.Steps, assess.StepOf(title, required, &r.Progress.Steps[i]))
	}
	return r, nil
}

// built is a course as it is flown, and which one that is: one that is built from a cause by what was chosen, else by
// what was found most often in the latest legs.
func (c *Courses) built(o logbook.CourseChoice, legs []course.Flown) (*course.Course, logbook.CourseChoice, error) {
	is := logbook.CourseChoice{Course: cmp.Or(o.Course, UsualCourse)}
	one, err := c.Library.Named(is.Course)
	if err != nil {
		return nil, is, logbook.Refuse(phrase.OfError(err))
	}
	if one.BuiltFrom == "" {
		return one, is, nil
	}
	if is.Cause, is.Maneuver = o.Cause, o.Maneuver; is.Cause == "" || is.Maneuver == "" {
		var ok bool
		if is.Cause, is.Maneuver, ok = c.Library.Weakness(one, legs); !ok {
			return nil, is, logbook.Refuse(phrase.CourseNothing.Of())
		}
	}
	if one, err = c.Library.Against(one, is.Cause, is.Maneuver); err != nil {
		return nil, is, logbook.Refuse(phrase.OfError(err))
	}
	return one, is, nil
}

// flights returns what a student flew; nothing for one who is not in the logbook.
func (c *Courses) flights(ctx context.Context, name string, stations []string, zone *time.Location) (*flights, error) {
	tidy, err := names.Person(name)
	if err != nil {
		return nil, &logbook.Refused{Words: err.Error()}
	}
	student, err := c.Archive.Student(ctx, name)
	if err != nil || student.Name == "" {
		return &flights{student: tidy}, err
	}
	known, sessions, err := sessionsOf(ctx, c.Archive, name, stations)
	if err != nil {
		return nil, err
	}
	f := &flights{student: known, flown: len(sessions) > 0, legs: legsOf(sessions, zone)}
	for i := range sessions {
		at := &sessions[i]
		from := len(f.said)
		for _, r := range at.Rulings {
			f.said = append(f.said, said{r.Course, course.Ruling{
				Step:    r.Step,
				Passed:  r.Verdict == logbook.StepPassed,
				By:      r.By,
				At:      logbook.Zulu(r.At),
				Reason:  r.Reason,
				Session: at.Session,
				Number:  r.Legs,
				Began:   at.Began,
			}})
		}
		slices.SortStableFunc(f.said[from:], func(a, b said) int { return cmp.Compare(a.Number, b.Number) })
	}
	return f, nil
}

// Choose keeps the course that a student flies, and returns it: one that is built from a cause with the cause that is
// found now, if none is given.
func (c *Courses) Choose(ctx context.Context, by who.Who, o Asked) (logbook.CourseChoice, error) {
	f, err := c.flights(ctx, o.Student, o.Stations, time.UTC)
	if err != nil {
		return logbook.CourseChoice{}, err
	}
	_, is, err := c.built(o.CourseChoice, f.legs)
	if err != nil {
		return is, err
	}
	if f.student == "" {
		return is, logbook.Refuse(phrase.StudentUnknown.Of(phrase.Name("student", o.Student)))
	}
	return is, c.Archive.RememberCourse(by, f.student, is)
}

// Rule keeps what a person says of a step of a course with the student's latest session at some stations. An empty
// verdict takes back what was said last.
func (c *Courses) Rule(ctx context.Context, by who.Who, o Asked, r logbook.Ruling) error {
	rec, err := c.Record(ctx, o)
	if err != nil {
		return err
	}
	step := rec.Progress.Step(o.Step)
	if step == nil {
		return logbook.Refuse(phrase.OfError(course.NoStep(rec.Course, o.Step)))
	}
	r.Course, r.Step = rec.Flown, o.Step
	if r.Verdict == "" {
		if step.Ruled == nil {
			return logbook.Refuse(phrase.CourseNotRuled.Of(phrase.Name("step", o.Step)))
		}
		return c.Archive.Rule(by, step.Ruled.Session, r)
	}
	list, err := c.Archive.List(ctx, logbook.Filter{Student: rec.Student, Stations: o.Stations, Limit: 1})
	if err != nil {
		return err
	}
	if !rec.Known || len(list.Sessions) == 0 {
		return logbook.Refuse(phrase.CourseNotFlown.Of(phrase.Name("student", rec.Student)))
	}
	return c.Archive.Rule(by, list.Sessions[0].ID, r)
}
