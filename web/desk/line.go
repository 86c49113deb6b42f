package desk

import (
	"context"
	"fmt"

	"halfturn/coach"
	"halfturn/coach/names"
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

// Student says who flies at a station.
func (d *Desk) Student(station, name string) error {
	name, err := names.Person(name)
	if err != nil {
		return err
	}
	name = d.spelling(name)
	if !d.do(station, func(s *seat) { s.setStudent(name) }) {
		return gone(station)
	}
	return nil
}

// spelling is how a student that has flown before is written in the logbook, and else the name as it is.
func (d *Desk) spelling(name string) string {
	if d.cfg.Book == nil {
		return name
	}
	known, err := d.cfg.Book.Spelling(context.Background(), name)
	if err != nil { // it will be found when it is entered
		return name
	}
	return known
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
