package archive

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
)

var errBare = errors.New("its folder tells neither when it was nor what was flown")

// stored reads all there is of a session in its folder, with its grades or without them.
func (a *Archive) stored(id string, graded bool) *logbook.Stored {
	s := &logbook.Stored{Entry: logbook.Entry{ID: id}}
	s.Why = a.readStored(id, graded, s)
	return s
}

func (a *Archive) readStored(id string, graded bool, s *logbook.Stored) error {
	dir := filepath.Join(a.dir, id)
	notes, err := ReadNotes(dir)
	if err != nil {
		a.options.Tell(err.Error() + "; the session is restored without its remarks")
	}
	if notes != nil {
		if err := notes.sound(); err != nil {
			return err
		}
	}
	acts, err := ReadActs(dir, notes)
	if err != nil {
		return err
	}
	if graded {
		if s.Report, err = a.gradesOf(dir); err != nil {
			return err
		}
	}
	e := entryOf(id, notes, s.Report)
	if e == nil {
		return errBare
	}
	e.Ended = endOf(notes, s.Report, e.Began)
	if e.Cards, err = readCards(dir); err != nil {
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
	s.Regrades, err = a.regradesOf(dir, known)
	return err
}

// gradesOf reads the grades of a session, or grades its recording again; nil without either.
func (a *Archive) gradesOf(dir string) (*debrief.Report, error) {
	id := filepath.Base(dir)
	report, ok, err := ReadReport(filepath.Join(dir, SummaryFile))
	if ok {
		return report, nil
	}
	if err != nil {
		a.options.Tell(err.Error() + "; the recording is graded again")
	}
	if a.options.Regrade == nil || len(a.Recording(id)) == 0 {
		return nil, nil
	}
	report, err = a.options.Regrade(dir)
	if errors.Is(err, context.Canceled) {
		return nil, err // it has grades, only not yet
	}
	if err != nil {
		a.options.Tell(fmt.Sprintf("session %s: its recording cannot be graded: %v", id, err))
		return nil, nil
	}
	return report, nil
}

// entryOf puts together what is known of a session; nil when it is not even known when it was. Without notes its grades
// and its name tell.
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
// One whose notes do not tell is still being flown, or was when the program was stopped.
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
func (a *Archive) regradesOf(dir string, known []Regraded) ([]logbook.Grading, error) {
	files, err := filepath.Glob(filepath.Join(globbed(dir), regradeFiles))
	if err != nil {
		return nil, err
	}
	slices.Sort(files)
	var all []logbook.Grading
	for i, f := range files {
		report := debrief.New()
		if ok, err := readJSON(f, report); !ok {
			if err != nil {
				a.options.Tell(err.Error() + "; it is left out")
			}
			continue
		}
		g, err := gradingOf(f, report)
		if err != nil {
			return nil, err
		}
		g.Version = a.options.Version
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

// gradingOf is what a file of grades says of how it came to be.
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

// Rebuild rebuilds the logbook from the session folders and returns how many sessions it holds then. Others see the old
// one until it is done. A folder that cannot be taken in is told of and left out of the logbook, not removed: LeftOut
// lists those. Progress is called after each folder; it may be nil.
func (a *Archive) Rebuild(ctx context.Context, progress func(done, of int)) (n int, err error) {
	book, err := a.writable()
	if err != nil {
		return 0, err
	}
	return a.rebuild(ctx, book, progress)
}

func (a *Archive) rebuild(ctx context.Context, book logbook.Book, progress func(done, of int)) (int, error) {
	all, err := IDs(a.dir)
	if err != nil {
		return 0, err
	}
	lock, err := a.lock()
	if err != nil {
		return 0, err
	}
	defer lock.Close()
	n, err := book.Rebuild(ctx, func(yield func(*logbook.Stored) bool) {
		for i, id := range all {
			if !yield(a.stored(id, true)) {
				return
			}
			if progress != nil {
				progress(i+1, len(all))
			}
		}
	}, a.tellLeftOut)
	return n, a.lost(err)
}

func (a *Archive) tellLeftOut(id string, why error) {
	a.options.Tell(fmt.Sprintf("session %s is left out of the logbook: %v; its folder stays as it is", id, why))
}
