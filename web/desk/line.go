package desk

import (
	"context"

	"halfturn/coach"
	"halfturn/coach/names"
	"halfturn/coach/session"
	"halfturn/stream/phrase"
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

// Student says who flies at a station.
func (d *Desk) Student(ctx context.Context, station, name string) error {
	name, err := names.Person(name)
	if err != nil {
		return err
	}
	name = d.spelling(ctx, name)
	return d.do(ctx, station, func(s *seat) { s.setStudent(name) })
}

// spelling is how a student that has flown before is written in the logbook, and else the name as it is.
func (d *Desk) spelling(ctx context.Context, name string) string {
	if d.cfg.Book == nil {
		return name
	}
	known, err := d.cfg.Book.Spelling(ctx, name)
	if err != nil { // it will be found when it is entered
		return name
	}
	return known
}

// End ends the session of a station by a touch.
func (d *Desk) End(ctx context.Context, station string) error {
	var wrong error
	if err := d.do(ctx, station, func(s *seat) {
		if s.given || !s.next() {
			wrong = phrase.NothingFlown.Error(phrase.Name("station", station))
		}
	}); err != nil {
		return err
	}
	return wrong
}

// gone tells that a station has left since it was listed.
func gone(station string) error {
	return phrase.StationGone.Error(phrase.Name("station", station))
}

// Brief returns the sheet for one maneuver in one aircraft.
func (d *Desk) Brief(c web.Choice) (any, error) {
	p, err := d.plan(c.Maneuver, c.Standard, c.Aircraft)
	if err != nil {
		return nil, err
	}
	return session.NewBrief(p), nil
}
