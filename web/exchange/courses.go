package exchange

import (
	"context"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
	"halfturn/coach/who"
	"halfturn/web"
)

// Courses are those of the configuration, and how students stand in them.
type Courses struct {
	Archive *archive.Archive
	// Library reads the courses; they may change.
	Library func() (*course.Library, error)
	// Required is the grade that a maneuver must have at the end of a block.
	Required assess.Requirement
}

var _ web.Courses = (*Courses)(nil)

// List returns those that can be chosen.
func (c *Courses) List() ([]*course.Course, error) {
	lib, err := c.Library()
	if err != nil {
		return nil, err
	}
	return lib.Courses(), nil
}

func (c *Courses) stored() (*stored.Courses, error) {
	lib, err := c.Library()
	return &stored.Courses{Archive: c.Archive, Library: lib, Required: c.Required}, err
}

// asked is a question now.
func asked(o *web.CourseQuestion) stored.Asked {
	return stored.Asked{CourseChoice: o.CourseChoice, Student: o.Student, Stations: o.Stations, Step: o.Step,
		Minutes: o.Minutes, Now: time.Now()}
}

// Record is how a student stands.
func (c *Courses) Record(ctx context.Context, o web.CourseQuestion) (*assess.Record, error) {
	s, err := c.stored()
	if err != nil {
		return nil, err
	}
	return s.Record(ctx, asked(&o))
}

// Choose keeps the course that a student flies.
func (c *Courses) Choose(ctx context.Context, by who.Who, o web.CourseQuestion) (logbook.CourseChoice, error) {
	s, err := c.stored()
	if err != nil {
		return logbook.CourseChoice{}, err
	}
	return s.Choose(ctx, by, asked(&o))
}

// Rule keeps what a person says of a step.
func (c *Courses) Rule(ctx context.Context, by who.Who, o web.CourseQuestion, r logbook.Ruling) error {
	s, err := c.stored()
	if err != nil {
		return err
	}
	return s.Rule(ctx, by, asked(&o), r)
}
