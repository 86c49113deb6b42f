package main

import (
	"path/filepath"

	"halfturn/coach/debrief"
)

// regrader grades a session's recording again by the cards as configured, for a logbook that is
// made anew and finds no grades.
func (c *config) regrader() func(dir string) (*debrief.Report, error) {
	return func(dir string) (*debrief.Report, error) {
		opt, err := c.session()
		if err != nil {
			return nil, err
		}
		rec, err := findRecorded(filepath.Dir(filepath.Dir(dir)), filepath.Base(dir))
		if err != nil {
			return nil, err
		}
		all, err := fly(rec, opt)
		if len(all) == 0 {
			return nil, err
		}
		return reportOf(rec, all), nil // a recording that is cut off counts as far as it goes
	}
}
