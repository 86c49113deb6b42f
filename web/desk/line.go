package desk

import (
	"context"

	"halfturn/coach/brief"
	"halfturn/coach/maneuver"
)

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

// Brief returns the sheet for one maneuver in one aircraft.
func (d *Desk) Brief(c maneuver.Choice) (any, error) {
	p, err := d.plan(c.Maneuver, c.Standard, c.Aircraft)
	if err != nil {
		return nil, err
	}
	return brief.New(p), nil
}
