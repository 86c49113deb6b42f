package main

import (
	"io"
	"math"
	"time"

	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/coach/print"
)

// print writes the printable debrief of all senders, or of the leg that was asked for.
func (e *sessionsExportCmd) print(w io.Writer, rec *recorded, all []*export.Flown) error {
	d := &print.Debrief{Title: rec.name, Student: e.Student}
	n := 0
	for _, f := range all {
		if d.Station == "" {
			sec, frac := math.Modf(f.Began)
			d.Station, d.Began = f.Report.Station, time.Unix(int64(sec), int64(frac*1e9)).UTC()
		}
		d.Series = append(d.Series, f.Report.Series...)
		for i := range f.Legs {
			if n++; e.Leg != 0 && e.Leg != n {
				continue
			}
			l := &f.Legs[i]
			d.Legs = append(d.Legs, print.Leg{Leg: l.Leg, Plan: l.Plan, Callouts: l.Said})
		}
	}
	d.Summary = debrief.Summarize(d.Series)
	return print.Write(w, e.Paper, d)
}
