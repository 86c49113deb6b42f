package grading

import (
	"fmt"
	"io"
	"path/filepath"
	"strconv"
	"strings"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

// printTable prints a row per leg.
func printTable(w io.Writer, r *debrief.Report, in *phrase.Language) error {
	page := layout.NewPage(w)
	for _, c := range r.Caution {
		fmt.Fprintln(page, in.Text(c))
	}
	fmt.Fprintln(page)
	t := layout.NewTable(
		page,
		layout.Below{Column: 10, Title: in.Word("change one thing: ")},
		layout.Below{Column: 4, Title: in.Word("chosen: ")},
		layout.Below{Column: 1, Title: in.Word("station ")},
		layout.Below{Column: 3},
	)
	fmt.Fprintln(t, strings.Join([]string{
		in.Word("FILE"),
		in.Word("STATION"),
		in.Word("SERIES"),
		in.Word("MANEUVER"),
		in.Word("CHOSEN"),
		in.Word("LEG"),
		in.Word("DIRECTION"),
		in.Word("OUTCOME"),
		in.Word("VERDICT"),
		in.Word("SCORE"),
		in.Word("CHANGE ONE THING"),
	}, "\t"))
	for i := range r.Files {
		tableFile(t, &r.Files[i], in)
	}
	_ = t.Flush() // the page keeps the error
	return page.Err()
}

// chosenBy says where the maneuver was chosen.
func chosenBy(f *debrief.FileReport, in *phrase.Language) string {
	if f.By == nil {
		return ""
	}
	return text.Origin(&f.By.Maneuver, "maneuver", in)
}

func tableFile(t *layout.Table, f *debrief.FileReport, in *phrase.Language) {
	name, chosen := filepath.Base(f.File), chosenBy(f, in)
	if f.Error != "" {
		why := in.Wordf("not read to its end: %s", in.Told(f.Error))
		fmt.Fprintf(t, "%s\t–\t–\t–\t–\t–\t–\t–\t–\t–\t%s\n", name, why)
	}
	for j := range f.Stations {
		st := &f.Stations[j]
		if len(st.Series) == 0 {
			fmt.Fprintf(t, "%s\t%s\t–\t–\t%s\t–\t–\t%s\t–\t–\t%s\n", name, st.Station, chosen, in.Word("no leg"),
				in.Say(st.Advice))
		}
		for k := range st.Series {
			s := &st.Series[k]
			for m := range s.Legs {
				l := &s.Legs[m]
				cells := []string{name, st.Station, strconv.Itoa(k + 1), found(s, in), chosen}
				fmt.Fprintln(t, strings.Join(append(cells, legCells(t, l, in)...), "\t"))
			}
		}
	}
}

// legCells are the cells of a leg.
func legCells(t *layout.Table, l *coach.Leg, in *phrase.Language) []string {
	direction, score := in.Word("right"), "–"
	if l.Direction == "left" {
		direction = in.Word("left")
	}
	if l.Verdict != coach.NotMeasured {
		score = in.Number(l.Score, 0)
	}
	return []string{
		strconv.Itoa(l.Number),
		direction,
		in.Say(debrief.InWords(l.Outcome)),
		layout.Mark(t, l.Verdict, in.Say(debrief.InWords(l.Verdict))),
		score,
		in.Say(l.Change),
	}
}
