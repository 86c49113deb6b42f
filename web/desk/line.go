package desk

import (
	"context"

	"halfturn/coach/brief"
	"halfturn/coach/maneuver"
)

// spelling returns a student's name as the logbook spells it, or unchanged for a new student.
func (d *Desk) spelling(ctx context.Context, name string) string {
	if d.cfg.Book == nil {
		return name
	}
	known, err := d.cfg.Book.Spelling(ctx, name)
	if err != nil { // the logbook matches the name again when the session is entered
		return name
	}
	return known
}

// Brief returns the sheet for one maneuver in one aircraft.
func (d *Desk) Brief(c maneuver.Choice) (any, error) {
	p, err := d.plan(c.Maneuver, c.Standard, c.Aircraft)
	if err != nil {
		return nil, err
	}
	return brief.New(p), nil
}
