package grading

import (
	"encoding/json"
	"fmt"
	"io"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/coach/layout"
)

// Print prints a report in a format: text, table, json or csv. Text has everything for people, the table a row per
// leg, CSV a row per check.
func Print(w io.Writer, r *debrief.Report, format string) error {
	switch format {
	case "json":
		e := json.NewEncoder(w)
		e.SetIndent("", "  ")
		return e.Encode(r)
	case "csv":
		return printCSV(w, r)
	case "table":
		return printTable(w, r)
	}
	if err := text.Report(w, r); err != nil {
		return err
	}
	return printDecisions(w, r)
}

// each calls f for every series, numbered from 1 within its station.
func each(r *debrief.Report, f func(file *debrief.FileReport, station *debrief.StationReport, n int, s *coach.Series)) {
	for i := range r.Files {
		for j := range r.Files[i].Stations {
			st := &r.Files[i].Stations[j]
			for k := range st.Series {
				f(&r.Files[i], st, k+1, &st.Series[k])
			}
		}
	}
}

// printDecisions states for each series whose maneuver was found from the flight how sure that is.
func printDecisions(w io.Writer, r *debrief.Report) error {
	page := layout.NewPage(w)
	each(r, func(_ *debrief.FileReport, st *debrief.StationReport, n int, s *coach.Series) {
		if s.Decision != nil {
			fmt.Fprintf(page, "\nStation %s, series %d: %s\n", st.Station, n, found(s))
		}
	})
	return page.Err()
}

// found says in words what was decided, and by what margin.
func found(s *coach.Series) string {
	d := s.Decision
	switch {
	case d == nil:
		return s.Maneuver
	case s.Maneuver != coach.Unclear && len(d.Fits) > 1:
		return fmt.Sprintf("%s by %.2f over %s", s.Maneuver, d.Margin, d.Fits[1].Maneuver)
	case s.Maneuver != coach.Unclear:
		return s.Maneuver + ", the only card it resembles"
	case len(d.Fits) > 1:
		return fmt.Sprintf("unclear: %s or %s (%.2f apart, %.2f needed)", d.Fits[0].Maneuver, d.Fits[1].Maneuver,
			d.Margin, coach.LeastMargin)
	}
	return "unclear: too little was flown to tell"
}
