package grading

import (
	"fmt"
	"io"
	"path/filepath"
	"strconv"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/coach/layout"
)

// printTable prints a row per leg.
func printTable(w io.Writer, r *debrief.Report) error {
	page := layout.NewPage(w)
	for _, c := range r.Caution {
		fmt.Fprintln(page, c)
	}
	fmt.Fprintln(page)
	t := layout.NewTable(page, layout.Below{Column: 10, Title: "change one thing: "}, layout.Below{Column: 4,
		Title: "chosen: "}, layout.Below{Column: 1, Title: "station "}, layout.Below{Column: 3})
	fmt.Fprintln(t, "FILE\tSTATION\tSERIES\tMANEUVER\tCHOSEN\tLEG\tDIRECTION\tOUTCOME\tVERDICT\tSCORE\tCHANGE ONE "+
		"THING")
	for i := range r.Files {
		tableFile(t, &r.Files[i])
	}
	_ = t.Flush() // the page keeps the error
	return page.Err()
}

// chosenBy says where the maneuver was chosen.
func chosenBy(f *debrief.FileReport) string {
	if f.By == nil {
		return ""
	}
	return text.Origin(&f.By.Maneuver, "maneuver")
}

func tableFile(t *layout.Table, f *debrief.FileReport) {
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
					l.Number, l.Direction, l.Outcome, layout.Mark(t, l.Verdict, l.Verdict), score, l.Change)
			}
		}
	}
}
