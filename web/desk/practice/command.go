package practice

import (
	"time"

	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/desk/menu"
)

// Do carries out a command, and records it where a replay must follow it. It returns the id of the station. Errors are
// worded for whoever asks.
func (p *Practice) Do(c command.Command, now time.Time) (station string, err error) {
	if p.sender.Demonstration {
		return "", phrase.DemonstrationFixed.Error()
	}
	station = p.identify(now)
	if err := c.Do(target{p, c.By}); err != nil {
		return station, err
	}
	if c.Recorded() && len(p.controls) < mostBefore {
		p.controls = append(p.controls, playback.CommandComment(c))
	}
	return station, nil
}

// A target is the station that a command is done to, for whoever asks.
type target struct {
	*Practice
	by who.Who
}

var _ command.Target = target{}

// Session returns the session that is flown from now on; a station that rests begins its next one.
func (t target) Session() *session.Session {
	if t.rest != nil {
		t.wake(nil)
	}
	return t.session
}

// Choose sets what is flown from now on.
func (t target) Choose(c maneuver.Choice) error {
	plan, auto, err := t.common.Menu.Plans(c)
	if err != nil {
		return err
	}
	t.Session().Choose(plan, auto)
	t.choice = menu.ChoiceOf(plan, auto)
	return nil
}

// Student says who flies. A station that rests goes on resting.
func (t target) Student(name string) error {
	t.opening.Student = name
	t.session.SetStudent(name)
	if w := t.common.Writer; w != nil && t.id != "" {
		w.SetStudent(t.by, t.id, name)
	}
	return nil
}

// End ends the session.
func (t target) End() error {
	if !t.next() {
		return phrase.NothingFlown.Error(phrase.Name("station", t.name))
	}
	return nil
}
