package grading

import (
	"encoding/json"
	"fmt"
	"io"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

// Print prints a report in a format: text, table, json or csv. Text has everything for people, the table a row per
// leg, CSV a row per check. Text and table are in a language; JSON and CSV are the same in each.
func Print(w io.Writer, r *debrief.Report, format string, in *phrase.Language) error {
	switch format {
	case "json":
		e := json.NewEncoder(w)
		e.SetIndent("", "  ")
		return e.Encode(r)
	case "csv":
		return printCSV(w, r)
	case "table":
		return printTable(w, r, in)
	}
	if err := text.Report(w, r, in); err != nil {
		return err
	}
	return printDecisions(w, r, in)
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
func printDecisions(w io.Writer, r *debrief.Report, in *phrase.Language) error {
	page := layout.NewPage(w)
	each(r, func(_ *debrief.FileReport, st *debrief.StationReport, n int, s *coach.Series) {
		if s.Decision != nil {
			fmt.Fprintf(page, "\n%s\n", in.Wordf("Station %s, series %d: %s", st.Station, n, found(s, in)))
		}
	})
	return page.Err()
}

// found says in words what was decided, and by what margin.
func found(s *coach.Series, in *phrase.Language) string {
	d := s.Decision
	switch {
	case d == nil:
		return s.Maneuver
	case s.Maneuver != coach.Unclear && len(d.Fits) > 1:
		return in.Wordf("%s by %s over %s", s.Maneuver, in.Number(d.Margin, 2), d.Fits[1].Maneuver)
	case s.Maneuver != coach.Unclear:
		return in.Wordf("%s, the only card it resembles", s.Maneuver)
	case len(d.Fits) > 1:
		return in.Wordf("unclear: %s or %s (%s apart, %s needed)", d.Fits[0].Maneuver, d.Fits[1].Maneuver,
			in.Number(d.Margin, 2), in.Number(coach.LeastMargin, 2))
	}
	return in.Word("unclear: too little was flown to tell")
}
