package command

import (
	"errors"

	"halfturn/coach/course"
	"halfturn/coach/maneuver"
)

// What is practiced. Each chooses what is flown first; another choice ends it.
type (
	// Step has a step of a course flown: how much is said follows how the student stands in it.
	Step struct{ course.Task }
	// Drill has one cause drilled: only what belongs to it is said, and good legs in a row are counted.
	Drill struct {
		maneuver.Choice
		Cause string `json:"cause"`
	}
)

// The members that name them.
const (
	KindStep  Kind = "step"
	KindDrill Kind = "drill"
)

func (Step) kind() Kind  { return KindStep }
func (Drill) kind() Kind { return KindDrill }

func (a Step) do(t Target, _ Command) error {
	if err := a.Task.Validate(); err != nil {
		return err
	}
	if err := t.Choose(a.Choice); err != nil {
		return err
	}
	return t.Session().SetTask(a.Task)
}

func (a Drill) do(t Target, _ Command) error {
	if err := t.Choose(a.Choice); err != nil {
		return err
	}
	return t.Session().Drill(a.Cause)
}

func (a Step) value() any  { return a.Task }
func (a Drill) value() any { return a }

type (
	stepForm  struct{ course.Task }
	drillForm struct {
		maneuver.Choice
		Cause string `json:"cause"`
	}
)

func (f *stepForm) Action() (Action, error) {
	if f.Step == "" {
		return nil, errors.New("names no step")
	}
	return Step{f.Task}, nil
}

func (f *drillForm) Action() (Action, error) {
	if f.Maneuver == "" || f.Cause == "" {
		return nil, errors.New("names no maneuver or no cause")
	}
	return Drill(*f), nil
}
