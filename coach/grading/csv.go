package grading

import (
	"encoding/csv"
	"io"
	"strconv"

	"halfturn/coach"
	"halfturn/coach/assess"
	"halfturn/coach/debrief"
)

// columns of the CSV: one row per check. leg is 0 for what only the legs together show.
var columns = []string{
	"file", "station", "series", "maneuver", "standard", "aircraft",
	"leg", "direction", "outcome", "start_s", "end_s", "leg_verdict", "leg_score", "leg_grade", "headline",
	"check", "label", "kind", "channel", "turn_deg", "at_deg", "value", "unit",
	"aim", "met_low", "met_high", "near_low", "near_high", "weight", "verdict", "score", "words", "reason",
	"margin", "chosen", "computed_verdict", "computed_score", "overruled_by", "overruled_reason",
	"leg_computed_verdict", "leg_computed_score", "leg_overruled_by", "leg_overruled_reason", "signed_by", "signed_at",
}

func printCSV(w io.Writer, r *debrief.Report) error {
	c := csv.NewWriter(w)
	if err := c.Write(columns); err != nil {
		return err
	}
	var failed error
	signed := []string{"", ""}
	if n := len(r.Signed); n > 0 {
		signed = []string{assess.Cell(r.Signed[n-1].By), r.Signed[n-1].At}
	}
	each(r, func(f *debrief.FileReport, st *debrief.StationReport, n int, s *coach.Series) {
		margin := ""
		if s.Decision != nil {
			margin = figure(&s.Decision.Margin)
		}
		head := []string{f.File, st.Station, strconv.Itoa(n), s.Maneuver, s.Standard, s.Aircraft}
		rows := func(leg []string, checks []coach.Check, of *coach.Judged) {
			for i := range checks {
				row := append(append(append([]string{}, head...), leg...), fields(&checks[i])...)
				row = append(append(row, margin, chosenBy(f, nil)), judged(&checks[i].Judged)...)
				if err := c.Write(append(append(row, judged(of)...), signed...)); err != nil && failed == nil {
					failed = err
				}
			}
		}
		for i := range s.Legs {
			l := &s.Legs[i]
			leg := []string{
				strconv.Itoa(l.Number), l.Direction, l.Outcome, figure(&l.Start), figure(&l.End),
				l.Verdict, scored(l.Verdict, l.Score), l.Grade, l.Headline.String(),
			}
			rows(leg, l.Checks, &l.Judged)
		}
		whole := []string{"0", "", "", "", "", s.Verdict, scored(s.Verdict, s.Score), s.Grade, s.Headline.String()}
		rows(whole, s.Checks, &s.Judged)
	})
	c.Flush()
	if failed == nil {
		failed = c.Error()
	}
	return failed
}

// judged are the columns of what people made of a verdict.
func judged(j *coach.Judged) []string {
	row := []string{"", "", "", ""}
	if c := j.Computed; c != nil {
		row[0], row[1] = c.Verdict, scored(c.Verdict, c.Score)
	}
	if o := j.Overruled; o != nil {
		row[2], row[3] = assess.Cell(o.By), assess.Cell(o.Reason)
	}
	return row
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
