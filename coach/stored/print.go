package stored

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/coach/logbook"
	"halfturn/coach/print"
	"halfturn/stream/phrase"
)

// print writes the printable debrief of all senders, or of the leg that was asked for.
func (e *Export) print(w io.Writer, rec *play.Recording, all []*export.Graded) error {
	d := &print.Debrief{
		Title:    rec.Name,
		Student:  e.Student,
		Remarks:  e.Remarks,
		All:      e.All,
		Language: e.Language,
	}
	if e.Judging != nil {
		d.Signed = e.Judging.Signed
	}
	n := 0
	for _, f := range all {
		if d.Station == "" {
			sec, frac := math.Modf(f.Began)
			d.Station, d.Began = f.Report.Station, time.Unix(int64(sec), int64(frac*1e9)).UTC()
		}
		d.Series = append(d.Series, f.Report.Series...)
		for _, h := range f.Report.Holes {
			d.Holes = append(d.Holes, h.Words)
		}
		for i := range f.Legs {
			if n++; e.Leg != 0 && e.Leg != n {
				continue
			}
			l := &f.Legs[i]
			d.Legs = append(d.Legs, print.Leg{Leg: l.Leg, Plan: l.Plan, Callouts: l.Said})
		}
	}
	d.Summary = debrief.Summarize(d.Series)
	return print.Write(w, e.Paper, d)
}

// A Book knows the student and the remarks of a session; an archive is one.
type Book interface {
	Session(ctx context.Context, id string) (*logbook.SessionDetail, error)
}

// About adds what the logbook knows of a session: the student, the remarks, and what people made of its grades.
func (e *Export) About(ctx context.Context, b Book, id string) error {
	d, err := b.Session(ctx, id)
	var none *logbook.NotFound
	if errors.As(err, &none) {
		return nil // it is only a folder
	}
	if err != nil {
		return err
	}
	e.Student, e.Judging = cmp.Or(e.Student, d.Student), &d.Judging
	for _, r := range d.Said {
		if e.Leg == 0 || r.Leg == e.Leg || r.Leg == 0 {
			e.Remarks = append(e.Remarks, RemarkLine(&r, e.Language))
		}
	}
	return nil
}

// RemarkLine is a remark in one paragraph: its subject in a language, its words as they were written, and its author.
func RemarkLine(r *logbook.Remark, in *phrase.Language) string {
	on := ""
	if r.Leg > 0 {
		on = in.Wordf("Leg %d", r.Leg)
	}
	if r.Time != nil {
		on = strings.TrimSpace(in.Wordf("%s at %s", on, clock(*r.Time)))
	}
	if on != "" {
		on += ": "
	}
	line := on + r.Words
	if r.By != "" {
		line += " (" + r.By + ")"
	}
	return line
}

// clock writes seconds as minutes:seconds.
func clock(seconds float64) string {
	s := int(math.Round(seconds))
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}
