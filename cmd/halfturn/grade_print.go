package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"text/tabwriter"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
)

// printReport prints a report in one of the formats of grade.
func printReport(w io.Writer, r *debrief.Report, format string) error {
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

// printDecisions says of each series whose maneuver was found how sure that is.
func printDecisions(w io.Writer, r *debrief.Report) error {
	var err error
	each(r, func(_ *debrief.FileReport, st *debrief.StationReport, n int, s *coach.Series) {
		if s.Decision != nil && err == nil {
			_, err = fmt.Fprintf(w, "\nStation %s, series %d: %s\n", st.Station, n, found(s))
		}
	})
	return err
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
		return fmt.Sprintf("unclear: %s or %s (%.2f apart, %.2f needed)", d.Fits[0].Maneuver, d.Fits[1].Maneuver, d.Margin, coach.LeastMargin)
	}
	return "unclear: too little was flown to tell"
}

// printTable prints a line a leg.
func printTable(w io.Writer, r *debrief.Report) error {
	for _, c := range r.Caution {
		if _, err := fmt.Fprintln(w, c); err != nil {
			return err
		}
	}
	fmt.Fprintln(w)
	t := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	fmt.Fprintln(t, "FILE\tSTATION\tSERIES\tMANEUVER\tCHOSEN\tLEG\tDIRECTION\tOUTCOME\tVERDICT\tSCORE\tCHANGE ONE THING")
	for i := range r.Files {
		tableFile(t, &r.Files[i])
	}
	return t.Flush()
}

// chosenBy says where the maneuver was chosen.
func chosenBy(f *debrief.FileReport) string {
	if f.By == nil {
		return ""
	}
	return text.Origin(&f.By.Maneuver, "maneuver")
}

func tableFile(t io.Writer, f *debrief.FileReport) {
	name, chosen := filepath.Base(f.File), chosenBy(f)
	if f.Error != "" {
		fmt.Fprintf(t, "%s\t–\t–\t–\t–\t–\t–\t–\t–\t–\tnot read to its end: %s\n", name, f.Error)
	}
	for j := range f.Stations {
		st := &f.Stations[j]
		if len(st.Series) == 0 {
			fmt.Fprintf(t, "%s\t%s\t–\t–\t%s\t–\t–\tno leg\t–\t–\t%s\n", name, st.Station, chosen, st.Advice)
		}
		for k := range st.Series {
			s := &st.Series[k]
			for m := range s.Legs {
				l := &s.Legs[m]
				score := "–"
				if l.Verdict != coach.NotMeasured {
					score = strconv.FormatFloat(l.Score, 'f', 0, 64)
				}
				fmt.Fprintf(t, "%s\t%s\t%d\t%s\t%s\t%d\t%s\t%s\t%s\t%s\t%s\n", name, st.Station, k+1, found(s), chosen, l.Number, l.Direction, l.Outcome, l.Verdict, score, l.Change)
			}
		}
	}
}

// columns of the CSV: one row per check. leg is 0 for what only the legs together show.
var columns = []string{"file", "station", "series", "maneuver", "standard", "aircraft", "leg", "direction", "outcome", "start_s", "end_s", "leg_verdict", "leg_score",
	"check", "label", "kind", "channel", "turn_deg", "at_deg", "value", "unit", "aim", "met_low", "met_high", "near_low", "near_high", "weight", "verdict", "score", "words", "reason", "margin", "chosen"}

func printCSV(w io.Writer, r *debrief.Report) error {
	c := csv.NewWriter(w)
	if err := c.Write(columns); err != nil {
		return err
	}
	var failed error
	each(r, func(f *debrief.FileReport, st *debrief.StationReport, n int, s *coach.Series) {
		margin := ""
		if s.Decision != nil {
			margin = figure(&s.Decision.Margin)
		}
		head := []string{f.File, st.Station, strconv.Itoa(n), s.Maneuver, s.Standard, s.Aircraft}
		rows := func(leg []string, checks []coach.Check) {
			for i := range checks {
				row := append(append(append([]string{}, head...), leg...), fields(&checks[i])...)
				if err := c.Write(append(row, margin, chosenBy(f))); err != nil && failed == nil {
					failed = err
				}
			}
		}
		for i := range s.Legs {
			l := &s.Legs[i]
			rows([]string{strconv.Itoa(l.Number), l.Direction, l.Outcome, figure(&l.Start), figure(&l.End), l.Verdict, scored(l.Verdict, l.Score)}, l.Checks)
		}
		rows([]string{"0", "", "", "", "", s.Verdict, scored(s.Verdict, s.Score)}, s.Checks)
	})
	c.Flush()
	if failed == nil {
		failed = c.Error()
	}
	return failed
}

// fields are the columns of one check.
func fields(k *coach.Check) []string {
	return []string{k.ID, k.Label, k.Kind, k.Channel, figure(k.Turn), figure(k.At), figure(k.Value), k.Unit, figure(k.Aim), figure(k.Met[0]), figure(k.Met[1]),
		figure(k.Near[0]), figure(k.Near[1]), figure(&k.Weight), k.Verdict, scored(k.Verdict, k.Score), k.Words, k.Reason}
}

// scored writes a score, nothing for what was not judged.
func scored(verdict string, score float64) string {
	if verdict == coach.NotMeasured {
		return ""
	}
	return figure(&score)
}

// figure writes a number in full, nothing for none.
func figure(x *float64) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'f', -1, 64)
}
