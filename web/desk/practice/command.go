package practice

import (
	"cmp"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
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
	if d, ok := c.Action.(command.Drill); ok { // the recording holds where it was flown
		if d.Choice, err = p.cards.Drilled(d.Choice, d.Cause); err != nil {
			return station, err
		}
		c.Action = d
	}
	p.turn(c)
	if err := c.Do(target{p}); err != nil {
		return station, err
	}
	if c.Recorded() {
		p.note(c)
	}
	return station, nil
}

// note records a command with the next datagram.
func (s *live) note(c command.Command) { s.remember(playback.CommandComment(c)) }

// remember records a comment with the next datagram.
func (s *live) remember(comment string) {
	if len(s.controls) < mostBefore {
		s.controls = append(s.controls, comment)
	}
}

// A target is the station that a command is done to.
type target struct{ *Practice }

var _ command.Target = target{}

// Session returns the session that is flown from now on; a station that rests begins its next one.
func (t target) Session() *session.Session {
	if t.rest != nil {
		t.wake(nil)
	}
	return t.session
}

// Present returns what is coached now; a station that rests goes on resting.
func (t target) Present() *session.Session { return t.session }

// Choose sets what is flown from now on.
func (t target) Choose(c maneuver.Choice) error {
	plan, auto, err := t.cards.Plans(c)
	if err != nil {
		return err
	}
	t.Session().Choose(plan, auto)
	t.choice = menu.ChoiceOf(plan, auto)
	return nil
}

// Student says who flies. A station that rests goes on resting.
func (t target) Student(by who.Who, name string) error {
	t.opening.Student = name
	t.session.SetStudent(name)
	if w := t.common.Writer; w != nil && t.id != "" {
		w.SetStudent(by, t.id, name)
	}
	return nil
}

// Mark keeps a remark on the session at the latest datagram, which has the id of the command. While nothing can be
// kept, the recording alone holds the mark.
func (t target) Mark(c command.Command, words string) error {
	w := t.common.Writer
	if w == nil || t.id == "" {
		return nil
	}
	moment := max(0, t.last.Sub(t.origin).Seconds())
	r := logbook.Remark{Key: c.ID, Time: &moment, Words: cmp.Or(words, logbook.Marked), At: c.At}
	if c.By.ID != "" || c.By.Name != who.Owner().Name {
		r.By = names.Tidy(c.By.Name)
	}
	w.Remark(c.By, t.id, r)
	return nil
}

// End ends the session. Its recording tells who did.
func (t target) End(c command.Command) error {
	if t.began.IsZero() {
		return phrase.NothingFlown.Error(phrase.Name("station", t.name))
	}
	t.session.Publish(c.Acted())
	t.note(c)
	t.next()
	return nil
}

// Start ends the session, if anything was flown in it, and begins the next at once: with the next sample.
func (t target) Start(c command.Command) error {
	if !t.began.IsZero() {
		ended := c
		ended.Action = command.End{}
		if err := t.End(ended); err != nil {
			return err
		}
	}
	s := t.Session()
	if a, ok := c.Action.(command.Start); ok && a.Student != nil {
		if err := t.Student(c.By, *a.Student); err != nil {
			return err
		}
	}
	s.Publish(c.Acted())
	return nil
}
