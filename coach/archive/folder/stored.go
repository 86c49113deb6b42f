package folder

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// A Reader reads session folders.
type Reader struct {
	// Version of the program, recorded with gradings that do not name one.
	Version string
	// Regrade grades the recording in a folder again, for a session without readable grades; nil leaves such a session
	// without legs.
	Regrade func(dir string) (*debrief.Report, error)
	// Tell reports what was done about damage.
	Tell func(words string)
}

var errBare = phrase.BareFolder.Error()

// Stored reads all there is of a session in its folder, with its grades or without them.
func (r *Reader) Stored(dir string, graded bool) *logbook.Stored {
	s := &logbook.Stored{Entry: logbook.Entry{ID: filepath.Base(dir)}}
	s.Why = r.read(dir, graded, s)
	return s
}

func (r *Reader) read(dir string, graded bool, s *logbook.Stored) error {
	id := filepath.Base(dir)
	notes, err := ReadNotes(dir)
	if err != nil {
		r.Tell(err.Error() + "; the session is restored without its remarks")
	}
	if notes != nil {
		if err := notes.Sound(); err != nil {
			return err
		}
	}
	acts, err := ReadActs(dir, notes)
	if err != nil {
		return err
	}
	if graded {
		if s.Report, err = r.gradesOf(dir); err != nil {
			return err
		}
	}
	e := entryOf(id, notes, s.Report)
	if e == nil {
		return errBare
	}
	e.Ended = endOf(notes, s.Report, e.Began)
	if e.Cards, err = ReadCards(dir); err != nil {
		return err
	}
	s.Entry, s.Standing = *e, logbook.Fold(e.Student, acts)
	if s.Report == nil && graded {
		return nil
	}
	var known []Regraded
	if notes != nil {
		known = notes.Regrades
	}
	s.Regrades, err = r.regradesOf(dir, known)
	return err
}

// gradesOf reads the grades of a session, or grades its recording again; nil without either.
func (r *Reader) gradesOf(dir string) (*debrief.Report, error) {
	id := filepath.Base(dir)
	report, ok, err := ReadReport(filepath.Join(dir, SummaryFile))
	if ok {
		return report, nil
	}
	if err != nil {
		r.Tell(err.Error() + "; the recording is graded again")
	}
	if r.Regrade == nil || len(Recording(dir)) == 0 {
		return nil, nil
	}
	report, err = r.Regrade(dir)
	if errors.Is(err, context.Canceled) {
		return nil, err // it will be graded by the next rebuild
	}
	if err != nil {
		r.Tell(fmt.Sprintf("session %s: its recording cannot be graded: %v", id, err))
		return nil, nil
	}
	return report, nil
}

// entryOf collects what is known of a session; nil when not even its time is known. Without notes its grades
// and its name are used.
func entryOf(id string, n *Notes, r *debrief.Report) *logbook.Entry {
	if n != nil && !n.Began.IsZero() {
		e := n.entry()
		e.ID = id
		return &e
	}
	e := &logbook.Entry{ID: id}
	var stations []debrief.StationReport
	if r != nil {
		stations = logbook.Stations(r)
		if r.Session != nil {
			e.Began, _ = time.Parse(time.RFC3339, r.Session.Began) // else by its name
		}
	}
	stamp, station, _ := strings.Cut(id, "_")
	e.Station = station
	if e.Began.IsZero() {
		e.Began, _ = time.Parse(idTime, stamp)
	}
	for i := range stations {
		if i == 0 {
			e.Station = stations[i].Station
		}
		for _, s := range stations[i].Series {
			e.Maneuver, e.Standard, e.Aircraft = s.Maneuver, s.Standard, s.Aircraft
		}
	}
	if e.Began.IsZero() {
		return nil
	}
	e.Key = logbook.SessionKey(e.Began, id, e.Station)
	return e
}

// endOf is when the session ended: by its notes, by its grades, or by the length of its stream.
// Without an end in its notes, a session is still being flown, or was when the program was stopped.
func endOf(n *Notes, r *debrief.Report, began time.Time) (end time.Time) {
	if n != nil {
		end = n.Ended
	}
	if end.IsZero() && r != nil && r.Session != nil {
		end, _ = time.Parse(time.RFC3339, r.Session.Ended)
	}
	if end.IsZero() && n == nil {
		length := 0.0
		if r != nil {
			for _, s := range logbook.Stations(r) {
				length = max(length, s.Duration)
			}
		}
		end = began.Add(time.Duration(length * float64(time.Second)))
	}
	return end
}

// regradesOf reads the gradings beside the first, regrade-0001.json and so on. Of one that the notes do not know only
// the grades are known.
func (r *Reader) regradesOf(dir string, known []Regraded) ([]logbook.Grading, error) {
	files, err := filepath.Glob(filepath.Join(Globbed(dir), regradeFiles))
	if err != nil {
		return nil, err
	}
	slices.Sort(files)
	var all []logbook.Grading
	for i, f := range files {
		report := debrief.New()
		if ok, err := readJSON(f, report); !ok {
			if err != nil {
				r.Tell(err.Error() + "; it is left out")
			}
			continue
		}
		g, err := gradingOf(f, report)
		if err != nil {
			return nil, err
		}
		g.Version = r.Version
		if i < len(known) {
			k := &known[i]
			g.At, g.Maneuver, g.Standard, g.Aircraft = k.At, k.Maneuver, k.Standard, k.Aircraft
			g.Differences = k.Differences
			if k.Server != "" {
				g.Version = k.Server
			}
		}
		all = append(all, g)
	}
	return all, nil
}

// gradingOf describes a grading by its file alone.
func gradingOf(file string, r *debrief.Report) (logbook.Grading, error) {
	info, err := os.Stat(file)
	if err != nil {
		return logbook.Grading{}, err
	}
	g := logbook.Grading{At: info.ModTime(), Report: r}
	for _, s := range logbook.Stations(r) {
		for _, x := range s.Series {
			g.Maneuver, g.Standard, g.Aircraft = x.Maneuver, x.Standard, x.Aircraft
		}
	}
	return g, nil
}
