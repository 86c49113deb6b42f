// Package give writes a recorded session, or one leg of it, in the formats that other programs and people read.
package give

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/coach/grading"
)

// A Request says what of a recording is written, and how.
type Request struct {
	Format  string   // csv, parquet, gpx, kml, json or pdf
	Leg     int      // only this leg, counted from 1 over all senders; 0 is the whole recording
	Paper   string   // of the PDF: a4 or letter
	Student string   // named on the PDF
	Remarks []string // printed on the PDF
}

// Write writes a recording, or one leg of it, as requested. by says which cards it is graded by. A recording that is
// cut off is written as far as it goes, and the error says so; a leg that is not there is a [NoLegError].
func Write(ctx context.Context, w io.Writer, rec *archive.Recording, by grading.Judge, e *Request) error {
	follow, err := by.Follow(rec)
	if err != nil {
		return err
	}
	as, err := rec.Settle(follow.Options)
	if err != nil {
		return err
	}
	o := export.Options{Title: rec.Name, Station: as.Station}
	var all []*export.Flown
	var p *archive.Player
	if e.Leg > 0 || e.Format == "json" || e.Format == "pdf" {
		if all, p, err = export.Fly(ctx, rec, follow); err != nil && (len(all) == 0 || ctx.Err() != nil) {
			return err
		}
	}
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
		r := Report(rec, all)
		r.Files[0].By, r.Files[0].Notes = by.By(rec, p), by.Notes(p)
		if e.Leg > 0 {
			keepLeg(r.Files[0].Stations, e.Leg)
		}
		enc := json.NewEncoder(w)
		enc.SetIndent("", "  ")
		return enc.Encode(r)
	case "pdf":
		return printed(w, rec, all, e)
	}
	src := rec.Read(ctx, nil)
	return errors.Join(export.Write(w, e.Format, src, o), src.Close())
}

// legOf finds a leg by its number over all senders.
func legOf(all []*export.Flown, n int) (*export.Flown, *export.FlownLeg, error) {
	legs := 0
	for _, f := range all {
		if i := n - legs - 1; i < len(f.Legs) {
			return f, &f.Legs[i], nil
		}
		legs += len(f.Legs)
	}
	return nil, nil, &NoLegError{n, legs}
}

// A NoLegError says that a recording has fewer legs.
type NoLegError struct{ n, legs int }

// Error says which leg was asked for, and how many there are.
func (e *NoLegError) Error() string {
	return fmt.Sprintf("there is no leg %d; the recording holds %d", e.n, e.legs)
}

// Report is the report of what was flown in a recording.
func Report(rec *archive.Recording, all []*export.Flown) *debrief.Report {
	r := debrief.New()
	f := debrief.FileReport{File: rec.Name, Stations: []debrief.StationReport{}}
	for _, flown := range all {
		f.Stations = append(f.Stations, flown.Report)
	}
	r.Files = append(r.Files, f)
	return r
}

// keepLeg keeps one leg, by its number over all stations, and drops what only the legs together show.
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
