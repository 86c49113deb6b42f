package desk

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/web"
)

// Line sets or clears the ground line that a station is to fly along.
func (d *Desk) Line(station string, c coach.LineChoice) error {
	var err error
	if !d.do(station, func(s *seat) {
		s.touched()
		err = s.setLine(c)
	}) {
		return gone(station)
	}
	return err
}

// longestStudent is how long a student's name may be, in letters.
const longestStudent = 80

// Student says who flies at a station.
func (d *Desk) Student(station, name string) error {
	name, err := StudentName(name)
	if err != nil {
		return err
	}
	if !d.do(station, func(s *seat) { s.setStudent(name) }) {
		return gone(station)
	}
	return nil
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
func (d *Desk) End(station string) error {
	var err error
	if !d.do(station, func(s *seat) {
		if s.given || !s.next() {
			err = fmt.Errorf("nothing was flown at %q yet; there is no session to end", station)
		}
	}) {
		return gone(station)
	}
	return err
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
