package archive

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/assess"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// ask asks the logbook.
func ask[T any](a *Archive, question func(logbook.Book) (T, error)) (answer T, err error) {
	book, err := a.asked()
	if err != nil {
		return answer, err
	}
	return question(book)
}

// List returns the sessions of a filter, newest first.
func (a *Archive) List(ctx context.Context, f logbook.Filter) (*logbook.SessionList, error) {
	return ask(a, func(b logbook.Book) (*logbook.SessionList, error) { return b.List(ctx, f) })
}

// Trend shows a maneuver over the sessions of a filter.
func (a *Archive) Trend(ctx context.Context, f logbook.Filter) (*logbook.Trend, error) {
	return ask(a, func(b logbook.Book) (*logbook.Trend, error) { return b.Trend(ctx, f) })
}

// Session returns one session; the error is a *logbook.NotFound when there is none.
func (a *Archive) Session(ctx context.Context, id string) (*logbook.SessionDetail, error) {
	d, err := ask(a, func(b logbook.Book) (*logbook.SessionDetail, error) { return b.Session(ctx, id) })
	if err != nil {
		return nil, err
	}
	switch is, err := a.recorded(id); {
	case err != nil:
		d.Problem = phrase.OfError(err)
	case !is:
		d.Problem = phrase.NoRecording.Of()
	}
	if left := folder.LeftIn(a.path(id)); left != nil {
		d.Left = left.Words()
	}
	return d, a.judge(ctx, id, &d.Judging)
}

// Report returns a grading of a session as it was kept; n is 1 for the first.
func (a *Archive) Report(ctx context.Context, id string, n int) (*debrief.Report, error) {
	return ask(a, func(b logbook.Book) (*debrief.Report, error) { return b.Report(ctx, id, n) })
}

// Graded returns the first gradings of sessions, but for the points of the legs, with what people made of them as it
// counts. Whether a session is still as it was signed is not looked at.
func (a *Archive) Graded(ctx context.Context, ids []string) ([]logbook.Graded, error) {
	list, err := ask(a, func(b logbook.Book) ([]logbook.Graded, error) { return b.Graded(ctx, ids) })
	for i := range list {
		if j := &list[i].Judging; len(j.Ratings) > 0 {
			assess.Rate(assess.Series(seriesOf(list[i].Report), j), j.Ratings)
		}
	}
	return list, err
}

// Models finds legs to compare a leg with.
func (a *Archive) Models(ctx context.Context, id string, leg int) (*logbook.Models, error) {
	return ask(a, func(b logbook.Book) (*logbook.Models, error) { return b.Models(ctx, id, leg) })
}

// Students lists the students, the one who flew last first; limit 0 is all.
func (a *Archive) Students(ctx context.Context, limit int) ([]string, error) {
	return ask(a, func(b logbook.Book) ([]string, error) { return b.Students(ctx, limit) })
}

// Student finds a student by name in any spelling; the zero value when there is none.
func (a *Archive) Student(ctx context.Context, name string) (logbook.Student, error) {
	return ask(a, func(b logbook.Book) (logbook.Student, error) { return b.Student(ctx, name) })
}

// Spelling returns how a student's name was first written in the logbook; a name that is not there as it is.
func (a *Archive) Spelling(ctx context.Context, name string) (string, error) {
	s, err := ask(a, func(b logbook.Book) (logbook.Student, error) { return b.Student(ctx, name) })
	if err == nil && s.Name == "" {
		s.Name = name
	}
	return s.Name, err
}

// Near lists the sessions whose names are most like one that there is not, at most five.
func (a *Archive) Near(ctx context.Context, id string) ([]string, error) {
	return ask(a, func(b logbook.Book) ([]string, error) { return b.Near(ctx, id) })
}

// Last returns the id of the newest session.
func (a *Archive) Last(ctx context.Context) (string, error) {
	return ask(a, func(b logbook.Book) (string, error) { return b.Last(ctx) })
}

// LeftOut lists the session folders that could not be taken into the logbook, and why.
func (a *Archive) LeftOut(ctx context.Context) (logbook.LeftOut, error) {
	return ask(a, func(b logbook.Book) (logbook.LeftOut, error) { return b.LeftOut(ctx) })
}

// Acts returns what people added to a session, in the order in which they did.
func (a *Archive) Acts(id string) ([]logbook.Act, error) {
	dir, err := a.brought(id, false)
	if err != nil {
		return nil, err
	}
	n, err := folder.ReadNotes(dir)
	if err != nil {
		return nil, err
	}
	return folder.ReadActs(dir, n)
}

// StationChoice returns what was last chosen at a station; false when nothing was. It answers from memory: a station
// that begins does not wait for the disk.
func (a *Archive) StationChoice(station string) (c maneuver.Choice, ok bool, err error) {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if a.stations == nil {
		return c, false, a.why()
	}
	c, ok = a.stations[station]
	return c, ok, nil
}

// RememberStation records what was chosen at a station, and who asked for it, for when the station comes back.
func (a *Archive) RememberStation(by who.Who, station string, c maneuver.Choice) error {
	book, err := a.writable()
	if err == nil {
		err = a.lost(book.RememberStation(by, station, c, time.Now()))
	}
	if err != nil {
		return err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.stations != nil { // otherwise they are being read again, with this one
		a.stations[station] = c
	}
	return nil
}

// CourseOf returns the course that was chosen for a student; the zero value is none.
func (a *Archive) CourseOf(ctx context.Context, student string) (logbook.CourseChoice, error) {
	return ask(a, func(b logbook.Book) (logbook.CourseChoice, error) { return b.CourseOf(ctx, student) })
}

// RememberCourse records the course of a student, and who chose it.
func (a *Archive) RememberCourse(by who.Who, student string, c logbook.CourseChoice) error {
	book, err := a.writable()
	if err != nil {
		return err
	}
	return a.lost(book.RememberCourse(by, student, c, time.Now()))
}

// Backup writes a copy of the logbook, as of now, to a file that does not exist yet. It can be
// made while sessions are flown.
func (a *Archive) Backup(ctx context.Context, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return fmt.Errorf("%s is there already; name a file that is not", to)
	}
	if info, err := os.Stat(filepath.Dir(to)); err != nil || !info.IsDir() {
		return fmt.Errorf("there is no directory %s to put the copy into", filepath.Dir(to))
	}
	part := to + ".part"
	if _, err := os.Lstat(part); err == nil {
		return fmt.Errorf("%s is there already, perhaps of a copy that was interrupted; delete it first", part)
	}
	_, err := ask(a, func(b logbook.Book) (struct{}, error) { return struct{}{}, b.Backup(ctx, part) })
	if err != nil {
		return errors.Join(fmt.Errorf("the copy %s cannot be written: %w", to, err), disk.IgnoreGone(os.Remove(part)))
	}
	if err := syncFile(part); err != nil {
		return err
	}
	// Link refuses a file that appeared meanwhile; not every file system supports it.
	if err := os.Link(part, to); err == nil {
		return os.Remove(part)
	} else if errors.Is(err, fs.ErrExist) {
		return errors.Join(fmt.Errorf("%s is there already; name a file that is not", to), os.Remove(part))
	}
	return os.Rename(part, to)
}

func syncFile(name string) error {
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
