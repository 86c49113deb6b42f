package desk

import (
	"fmt"

	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/web"
)

// Line sets or clears the ground line that a station is to fly along.
func (d *Desk) Line(station string, c coach.LineChoice) error {
	var err error
	if !d.do(station, func(s *seat) { err = s.session.SetLine(c) }) {
		return fmt.Errorf("station %s is not there any more", station)
	}
	return err
}

// Brief returns the sheet for one maneuver in one aircraft.
func (d *Desk) Brief(c web.Choice) (any, error) {
	p, err := d.plan(c.Maneuver, c.Standard, c.Aircraft)
	if err != nil {
		return nil, err
	}
	return session.NewBrief(p), nil
}
