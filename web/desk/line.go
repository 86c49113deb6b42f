package desk

import (
	"context"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/web"
)

// Line sets or clears the ground line that a station is to fly along.
func (d *Desk) Line(ctx context.Context, station string, c coach.LineChoice) error {
	var wrong error
	if err := d.do(ctx, station, func(s *seat) {
		s.touched()
		wrong = s.setLine(c)
	}); err != nil {
		return err
	}
	return wrong
}

// longestStudent is how long a student's name may be, in letters.
const longestStudent = 80

// Student says who flies at a station.
func (d *Desk) Student(ctx context.Context, station, name string) error {
	name, err := StudentName(name)
	if err != nil {
		return err
	}
	return d.do(ctx, station, func(s *seat) { s.setStudent(name) })
}

// StudentName checks the name of a student; "" is nobody named.
func StudentName(name string) (string, error) {
	name = strings.TrimSpace(name)
	if utf8.RuneCountInString(name) > longestStudent || strings.ContainsFunc(name, unicode.IsControl) || !utf8.ValidString(name) {
		return "", fmt.Errorf("the student's name is %.100q; wanted: at most %d letters in one line", name, longestStudent)
	}
	return name, nil
}

// End ends the session of a station by a touch.
func (d *Desk) End(ctx context.Context, station string) error {
	var wrong error
	if err := d.do(ctx, station, func(s *seat) {
		if s.given || !s.next() {
			wrong = fmt.Errorf("nothing was flown at %q yet; there is no session to end", station)
		}
	}); err != nil {
		return err
	}
	return wrong
}

// gone tells that a station has left since it was listed.
func gone(station string) error {
	return fmt.Errorf("station %q is not there any more", station)
}

// Brief returns the sheet for one maneuver in one aircraft.
func (d *Desk) Brief(c web.Choice) (any, error) {
	p, err := d.plan(c.Maneuver, c.Standard, c.Aircraft)
	if err != nil {
		return nil, err
	}
	return session.NewBrief(p), nil
}
