package playback

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// A Play plays a recording into a session: the same datagrams, receive times and commands give the same events and the
// same report as they gave live.
type Play struct {
	Session *session.Session
	Student string // the pilot flying now
	Lost    uint64 // datagrams that were coached live and are not in the recording
	plans   Plans
}

// New plays into a session. With plans nil, choices made during the session are ignored: all of it is judged by the
// session's own cards.
func New(s *session.Session, plans Plans) *Play { return &Play{Session: s, plans: plans} }

// Feed takes a datagram, received at a time in seconds of any epoch, with its comments. The error reports a comment
// that could not be followed; the datagram is taken all the same.
func (p *Play) Feed(b []byte, received float64, comments []string) (pipeline.Result, error) {
	err := p.Apply(comments)
	return p.Session.Feed(b, received), err
}

// Apply carries out the commands in comments, and ignores comments that Halfturn did not write. It returns the last
// error.
func (p *Play) Apply(comments []string) error { return each(comments, p.count, p.follow) }

// Precede carries out the commands of the parts that come before what is played. What was lost in those is not counted.
func (p *Play) Precede(comments []string) error { return each(comments, p.follow) }

// each does something with each comment that Halfturn wrote, and returns the last error.
func each(comments []string, do ...func(data []byte) error) error {
	var failed error
	for _, text := range comments {
		data, ours := strings.CutPrefix(text, mark)
		if !ours {
			continue
		}
		for _, do := range do {
			if err := do([]byte(data)); err != nil {
				failed = err
			}
		}
	}
	return failed
}

// count counts the datagrams that a comment says are missing, if it does.
func (p *Play) count(data []byte) error {
	var lost gap
	if err := json.Unmarshal(data, &lost); err != nil {
		return fmt.Errorf("a change in mid-session cannot be read: %w", err)
	}
	p.Lost += lost.Lost
	if h := lost.Hole; h != nil && (h.Own > 0 || h.Shared > 0) {
		p.Session.Lose(h.Own, h.Shared)
	}
	return nil
}

// follow carries out the command in a comment, if there is one.
func (p *Play) follow(data []byte) error {
	c, err := command.Decode(data)
	switch {
	case errors.Is(err, command.ErrNone):
		return nil
	case err != nil:
		return fmt.Errorf("a change in mid-session cannot be read: %w", err)
	}
	return c.Do(played{p})
}

// played carries out the commands of a recording.
type played struct{ *Play }

var _ command.Target = played{}

// Choose repeats the choice made live, unless all of it is judged by the session's own cards.
func (p played) Choose(c maneuver.Choice) error {
	if p.plans == nil {
		return nil
	}
	plan, auto, err := p.plans(c)
	if err != nil {
		return fmt.Errorf("what was chosen in mid-session is not there: %w", err)
	}
	p.Session().Choose(plan, auto)
	return nil
}

// Session is the session that the recording is played into.
func (p played) Session() *session.Session { return p.Play.Session }

// Present is the same: a recording does not rest.
func (p played) Present() *session.Session { return p.Play.Session }

// Student sets the pilot from here on.
func (p played) Student(_ who.Who, name string) error {
	p.Play.Student = names.Tidy(name)
	p.Session().SetStudent(p.Play.Student)
	return nil
}

// Mark has nothing to do: the remark was kept live.
func (p played) Mark(command.Command, string) error { return nil }

// Start names the pilot: the recording begins there.
func (p played) Start(c command.Command) error {
	if a, ok := c.Action.(command.Start); ok && a.Student != nil {
		if err := p.Student(c.By, *a.Student); err != nil {
			return err
		}
	}
	p.Session().Publish(c.Acted())
	return nil
}

// End tells who ended the session: the recording ends there.
func (p played) End(c command.Command) error {
	p.Session().Publish(c.Acted())
	return nil
}

// End ends the session after the comments at the end of the recording.
func (p *Play) End(rest []string) error {
	err := p.Apply(rest)
	p.Session.End(phrase.SessionEnded.Of())
	return err
}
