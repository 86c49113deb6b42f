package session

import (
	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/course"
	"halfturn/coach/drill"
	"halfturn/coach/follow"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
)

// A task is what is practiced: a step of a course, or a drill, until something else is chosen. It decides how much is
// said in flight, unless the pilot does. It is counted here, from the legs that this session grades, so that playing a
// recording gives what was live.
type task struct {
	trial *course.Trial // nil of a drill
	drill *drill.Drill  // nil of a step
	own   bool          // a person has set how much is said
}

// set reports whether there is one.
func (t *task) set() bool { return t.trial != nil || t.drill != nil }

// SetTask has a step of a course flown, whose maneuver was chosen. The error says what is wrong with the task.
func (s *Session) SetTask(t course.Task) error {
	if err := t.Validate(); err != nil {
		return err
	}
	s.leaveTask()
	s.task = task{trial: course.Resume(t)}
	s.follow.Prompt(s.task.trial.Prompts())
	s.status.outdate()
	return nil
}

// Drill has a cause drilled in the maneuver that was chosen. The error says that it cannot be.
func (s *Session) Drill(cause string) error {
	one, ok := s.follow.(*follow.Single)
	if !ok {
		return phrase.DrillAuto.Error()
	}
	d, err := drill.New(s.plan, cause)
	if err != nil {
		return err
	}
	s.leaveTask()
	s.task = task{drill: d}
	one.Practice(d)
	s.follow.Prompt(callout.PromptsAll)
	s.status.outdate()
	return nil
}

// leaveTask ends what was practiced. What is said then is what the pilot chose.
func (s *Session) leaveTask() {
	if !s.task.set() {
		return
	}
	if one, ok := s.follow.(*follow.Single); ok && s.task.drill != nil {
		one.Practice(nil)
	}
	s.task = task{}
	s.follow.Prompt(s.Prompts())
	s.status.outdate()
}

// tried counts a leg that was graded. Of a check flight the series counts, too.
func (s *Session) tried(l *coach.Leg) {
	switch t := s.task.trial; {
	case t != nil && !t.Task().Check:
		s.try(l, false)
	case s.task.drill != nil:
		s.status.outdate()
	}
}

// checked counts the legs of a series that was graded, in a check flight.
func (s *Session) checked(e *coach.Series) {
	t := s.task.trial
	if t == nil || !t.Task().Check {
		return
	}
	for i := range e.Legs {
		s.try(&e.Legs[i], e.Verdict == coach.Met)
	}
}

// try counts a leg at the step.
func (s *Session) try(l *coach.Leg, within bool) {
	choice := s.plan.Choice()
	s.task.trial.Take(course.Flown{
		Maneuver: choice.Maneuver, Standard: choice.Standard, Aircraft: choice.Aircraft, Within: within, Leg: l,
	})
	if !s.task.own {
		s.follow.Prompt(s.task.trial.Prompts())
	}
	s.status.outdate()
}

// Task is the step that is flown, with how it stands now; false while none is.
func (s *Session) Task() (course.Task, bool) {
	if s.task.trial == nil {
		return course.Task{}, false
	}
	return s.task.trial.Task(), true
}

// saying is how much is said in flight now.
func (s *Session) saying() string {
	switch t := &s.task; {
	case t.own || !t.set():
		return s.Prompts()
	case t.trial != nil:
		return t.trial.Prompts()
	}
	return callout.PromptsAll
}

// flying is what is practiced, for the station message.
func (s *Session) flying() *message.Task {
	switch t := &s.task; {
	case t.trial != nil:
		flown := t.trial.Task()
		m := &message.Task{
			Title: flown.Title, Course: flown.Course, Step: flown.Step, State: flown.Stands.State,
			Row: max(0, flown.Stands.Row), Prompts: s.saying(), Own: t.own,
		}
		for _, side := range t.trial.Sides() {
			m.Sides = append(m.Sides, message.Side{Direction: side.Direction, Good: side.Good, Need: side.Need})
		}
		return m
	case t.drill != nil:
		return &message.Task{
			Cause: t.drill.Cause, Row: t.drill.Row(), Want: drill.Want, Prompts: s.saying(), Own: t.own,
		}
	}
	return nil
}
