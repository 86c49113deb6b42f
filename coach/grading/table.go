package grading

import (
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"text/tabwriter"

	"halfturn/coach"
	"halfturn/coach/debrief"
)

// printTable prints a row per leg.
func printTable(w io.Writer, r *debrief.Report) error {
	for _, c := range r.Caution {
		if _, err := fmt.Fprintln(w, c); err != nil {
			return err
		}
	}
	fmt.Fprintln(w)
	t := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	fmt.Fprintln(t, "FILE\tSTATION\tSERIES\tMANEUVER\tCHOSEN\tLEG\tDIRECTION\tOUTCOME\tVERDICT\tSCORE\tCHANGE ONE "+
		"THING")
	for i := range r.Files {
		tableFile(t, &r.Files[i])
	}
	return t.Flush()
}

// chosenBy says where the maneuver was chosen.
func chosenBy(f *debrief.File) string {
	if f.By == nil {
		return ""
	}
	return f.By.Maneuver.Words("maneuver")
}

func tableFile(t io.Writer, f *debrief.File) {
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
				fmt.Fprintf(t, "%s\t%s\t%d\t%s\t%s\t%d\t%s\t%s\t%s\t%s\t%s\n", name, st.Station, k+1, found(s), chosen,
					l.Number, l.Direction, l.Outcome, l.Verdict, score, l.Change)
			}
		}
	}
}
