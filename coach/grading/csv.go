package grading

import (
	"encoding/csv"
	"io"
	"strconv"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/stream/phrase"
)

// columns of the CSV: one row per check. leg is 0 for what only the legs together show; leg_headline is what the
// verdict of the leg rests on, as the debrief says it.
var columns = []string{
	"file", "station", "series", "maneuver", "standard", "aircraft",
	"leg", "direction", "outcome", "start_s", "end_s", "leg_verdict", "leg_score",
	"check", "label", "kind", "channel", "turn_deg", "at_deg", "value", "unit",
	"aim", "met_low", "met_high", "near_low", "near_high", "weight", "verdict", "score", "words", "reason",
	"margin", "chosen", "leg_grade", "leg_headline",
}

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
		rows := func(leg []string, checks []coach.Check, grade string, headline phrase.Phrase) {
			for i := range checks {
				row := append(append(append([]string{}, head...), leg...), fields(&checks[i])...)
				row = append(row, margin, chosenBy(f), grade, headline.String())
				if err := c.Write(row); err != nil && failed == nil {
					failed = err
				}
			}
		}
		for i := range s.Legs {
			l := &s.Legs[i]
			leg := []string{
				strconv.Itoa(l.Number), l.Direction, l.Outcome, figure(&l.Start), figure(&l.End),
				l.Verdict, scored(l.Verdict, l.Score),
			}
			rows(leg, l.Checks, l.Grade, l.Headline)
		}
		rows([]string{"0", "", "", "", "", s.Verdict, scored(s.Verdict, s.Score)}, s.Checks, s.Grade, s.Headline)
	})
	c.Flush()
	if failed == nil {
		failed = c.Error()
	}
	return failed
}

// fields are the columns of one check.
func fields(k *coach.Check) []string {
	return []string{
		k.ID, k.Label, k.Kind, k.Channel, figure(k.Turn), figure(k.At), figure(k.Value), k.Unit,
		figure(k.Aim), figure(k.Met[0]), figure(k.Met[1]), figure(k.Near[0]), figure(k.Near[1]),
		figure(&k.Weight), k.Verdict, scored(k.Verdict, k.Score), k.Words, k.Reason.String(),
	}
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
