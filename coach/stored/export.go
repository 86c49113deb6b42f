package stored

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/assess"
	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/coach/grading"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// An Export selects what is written of a recording, and how.
type Export struct {
	Format  string // csv, parquet, gpx, kml, json or pdf
	Leg     int    // its number over all senders, from 1; 0 is all
	Paper   string // of a PDF: a4 or letter
	All     bool   // of a PDF: every leg on pages of its own; else one page
	Student string // named on a PDF; "" leaves a line to write it on
	Remarks []string
	// Language is that of a PDF; nil is English.
	Language *phrase.Language
	// Judging is what people made of the grades of a session; nil is what stands with the recording.
	Judging *logbook.Judging
}

// Write writes a recording, or one leg of it, as it is judged.
func (e *Export) Write(ctx context.Context, w io.Writer, rec *play.Recording, by grading.Judge) error {
	follow, err := by.Follow(rec)
	if err != nil {
		return err
	}
	as, err := rec.Settle(follow.Options)
	if err != nil {
		return err
	}
	o := export.Options{Title: rec.Name, Station: as.Station}
	var all []*export.Graded
	var p *play.Player
	if e.Leg > 0 || e.Format == "json" || e.Format == "pdf" {
		if all, p, err = export.Fly(ctx, rec, follow); err != nil && (len(all) == 0 || ctx.Err() != nil) {
			return err
		}
	}
	if e.Judging == nil {
		if e.Judging, err = by.Judging(rec); err != nil {
			return err
		}
	}
	e.judge(all)
	if e.Leg > 0 {
		f, leg, err := legOf(all, e.Leg)
		if err != nil {
			return err
		}
		o.Sender, o.Span = f.Sender, &leg.Span
		o.Title = fmt.Sprintf("%s, leg %d", rec.Name, e.Leg)
	}
	switch e.Format {
	case "json":
		r := ReportOf(rec, all)
		if e.Judging != nil {
			signed := &logbook.Judging{Signed: e.Judging.Signed} // the rest is in the grades already
			r = assess.Report(r, signed)
		}
		r.Files[0].By, r.Files[0].Notes = by.By(rec, p), by.Notes(p)
		if e.Leg > 0 {
			keepLeg(r.Files[0].Stations, e.Leg)
		}
		enc := json.NewEncoder(w)
		enc.SetIndent("", "  ")
		return enc.Encode(r)
	case "pdf":
		return e.print(w, rec, all)
	}
	src := rec.Read(ctx, nil)
	return errors.Join(export.Write(w, e.Format, src, o), src.Close())
}

// judge counts what was overruled.
func (e *Export) judge(all []*export.Graded) {
	if e.Judging == nil {
		return
	}
	var series []coach.Series
	for _, f := range all {
		series = append(series, f.Report.Series...)
	}
	series = assess.Series(series, e.Judging)
	for _, f := range all {
		n, leg := len(f.Report.Series), 0
		f.Report.Series, series = series[:n:n], series[n:]
		f.Report.Summary = debrief.Summarize(f.Report.Series)
		for i := range f.Report.Series {
			for k := range f.Report.Series[i].Legs {
				if leg < len(f.Legs) {
					assess.Transfer(&f.Legs[leg].Leg, &f.Report.Series[i].Legs[k])
				}
				leg++
			}
		}
	}
}

// legOf finds a leg by its number over all senders.
func legOf(all []*export.Graded, n int) (*export.Graded, *export.PicturedLeg, error) {
	legs := 0
	for _, f := range all {
		if i := n - legs - 1; i < len(f.Legs) {
			return f, &f.Legs[i], nil
		}
		legs += len(f.Legs)
	}
	return nil, nil, &NoLeg{n, legs}
}

// NoLeg says that a recording has fewer legs.
type NoLeg struct{ n, legs int }

// Error says how many there are.
func (e *NoLeg) Error() string {
	return fmt.Sprintf("there is no leg %d; the recording holds %d", e.n, e.legs)
}

// ReportOf is the report of all senders of a recording.
func ReportOf(rec *play.Recording, all []*export.Graded) *debrief.Report {
	r := debrief.New()
	f := debrief.FileReport{File: rec.Name, Stations: []debrief.StationReport{}}
	for _, flown := range all {
		f.Stations = append(f.Stations, flown.Report)
	}
	r.Files = append(r.Files, f)
	return r
}

// keepLeg keeps one leg, by its number over all stations, and drops what only several legs show.
func keepLeg(stations []debrief.StationReport, leg int) {
	n := 0
	for i := range stations {
		st := &stations[i]
		var series []coach.Series
		for _, s := range st.Series {
			for j := range s.Legs {
				if n++; n == leg {
					s.Legs, s.Checks, s.Causes = s.Legs[j:j+1:j+1], []coach.Check{}, []coach.Cause{}
					series = append(series, s)
					break
				}
			}
		}
		st.Series, st.Summary = append([]coach.Series{}, series...), debrief.Summarize(series)
	}
}
