package exchange

import (
	"context"
	"errors"

	"halfturn/coach/archive/play"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
	"halfturn/web"
)

// Regrade grades the recording of a session again by other cards, which must be known by name, and keeps the new grades
// beside the first. A session without a recording, and a card that is not there, are refused.
func (c *Captures) Regrade(ctx context.Context, id string, by web.OtherCards) error {
	dir, err := c.Book.Folder(id)
	if err != nil {
		return err
	}
	rec, err := play.Open(ctx, dir)
	if err == nil {
		err = c.regrade(ctx, rec, by)
	}
	var failure *logbook.Failure
	if err == nil || ctx.Err() != nil || errors.As(err, &failure) {
		return err
	}
	return &logbook.Refused{Words: err.Error()}
}

func (c *Captures) regrade(ctx context.Context, rec *play.Recording, by web.OtherCards) error {
	again := c.Again(stored.Override(by))
	lib, err := again.Judge.Library(rec)
	if err != nil {
		return err
	}
	if by.Maneuver != nil { // a page names cards, never files
		if _, err := lib.Card(*by.Maneuver); err != nil {
			return err
		}
	}
	if by.Standard != nil {
		if err := lib.JudgeBy(*by.Standard); err != nil {
			return err
		}
	}
	if by.Aircraft != nil {
		if _, err := lib.AircraftNamed(*by.Aircraft); err != nil {
			return err
		}
	}
	_, err = again.Run(ctx, rec)
	return err
}
