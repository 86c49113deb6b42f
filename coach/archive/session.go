package archive

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// Reserve names a session that began at a time, from memory; its folder is made when something is written into it. See
// [underway.Folders].
func (a *Archive) Reserve(began time.Time, station string) (string, error) {
	if why := a.Waits(); why != nil {
		return "", why
	}
	return a.folders.Reserve(began, station)
}

// NewID names a session as Reserve does, and makes its folder at once.
func (a *Archive) NewID(began time.Time, station string) (string, error) {
	if why := a.Waits(); why != nil {
		return "", why
	}
	for {
		id, err := a.folders.New(began, station)
		if err != nil || a.shared == nil {
			return id, err
		}
		taken, err := a.shared.taken(id)
		if err == nil && !taken {
			return id, nil
		}
		if failed := os.Remove(a.own(id)); err != nil || failed != nil {
			return "", errors.Join(err, failed)
		}
	}
}

// Folder returns the folder of a session by its id.
func (a *Archive) Folder(id string) (string, error) {
	if !folder.IsID(id) {
		return "", &logbook.NotFound{ID: id}
	}
	return a.brought(id, true)
}

// brought brings the folder of a session where there is a depot, and returns it: all of it, or without the files of its
// recording that are not here.
func (a *Archive) brought(id string, whole bool) (string, error) {
	if err := a.bring(id, whole); err != nil {
		return "", err
	}
	dir := a.path(id)
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return "", &logbook.NotFound{ID: id}
	}
	return dir, nil
}

// Recording lists the files of a session's recording in order; none when only grades were kept.
func (a *Archive) Recording(id string) []string {
	if !folder.IsID(id) {
		return nil
	}
	if a.bring(id, true) != nil {
		return nil
	}
	return folder.Recording(a.path(id))
}

// Begin enters a session that was named by Reserve or NewID. Entering it again loses nothing.
func (a *Archive) Begin(e logbook.Entry) error { return a.Under(0).Begin(e) }

// studentNamed finds a student by name, as it was first written, or gives a new one an id.
func studentNamed(b logbook.Book, name string, met time.Time) (logbook.Student, error) {
	name = names.Tidy(name)
	if name == "" {
		return logbook.Student{}, nil
	}
	s, err := b.Student(context.Background(), name)
	if err == nil && s.Name == "" {
		s = logbook.Student{ID: ids.New(met), Name: name}
	}
	return s, err
}

// Keep enters what a session has flown so far: its first grading. Entered again nothing doubles.
func (a *Archive) Keep(id string, r *debrief.Report) error { return a.Under(0).Keep(id, r) }

// End notes when a session was over.
func (a *Archive) End(id string, ended time.Time) error { return a.Under(0).End(id, ended) }

// act makes a change that adds acts.
func (a *Archive) act(id string, check func(b logbook.Book, f *folder.Edit) error) error {
	return a.Under(0).act(id, check)
}

func (u Under) act(id string, check func(b logbook.Book, f *folder.Edit) error) error {
	return u.archive.change(id, change{
		fence: u.fence,
		check: check,
		enter: func(b logbook.Changes, f *folder.Edit) error {
			s := f.Standing()
			return b.Act(id, &s)
		},
	})
}

// SetStudent notes who is flying; "" is nobody named. A name that names.Person does not take is refused.
func (a *Archive) SetStudent(by who.Who, id, name string) error {
	return a.Under(0).SetStudent(by, id, name)
}

// SetStudent is that of an [Archive].
func (u Under) SetStudent(by who.Who, id, name string) error {
	name, err := names.Person(name)
	if err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	return u.act(id, func(b logbook.Book, f *folder.Edit) error {
		student, err := studentNamed(b, name, time.Now())
		if err != nil || student.Name == f.Standing().Student.Name {
			return err
		}
		act := f.NewAct(logbook.ActStudent, by, time.Now().UTC())
		act.Student = &student
		f.Add(act)
		return nil
	})
}

// SetKeep marks a session never to be removed by age or size, or takes the mark away.
func (a *Archive) SetKeep(by who.Who, id string, keep bool) error {
	return a.act(id, func(_ logbook.Book, f *folder.Edit) error {
		if f.Standing().Keep == keep {
			return nil
		}
		act := f.NewAct(logbook.ActKeep, by, time.Now().UTC())
		act.Keep = keep
		f.Add(act)
		return nil
	})
}

// Remark adds a remark and returns it as stored. Its ID is assigned here, and its time where it has none. The error is
// a [*logbook.Refused] for words or a name that package names does not accept, and for a leg that was not flown.
func (a *Archive) Remark(by who.Who, id string, r logbook.Remark) (logbook.Remark, error) {
	return a.Under(0).Remark(by, id, r)
}

// Remark is that of an [Archive].
func (u Under) Remark(by who.Who, id string, r logbook.Remark) (logbook.Remark, error) {
	if err := folder.CheckRemark(&r); err != nil {
		return r, err
	}
	err := u.act(id, func(b logbook.Book, f *folder.Edit) error {
		legs, err := b.Legs(context.Background(), f.ID)
		if err != nil {
			return err
		}
		return f.Remark(by, &r, legs)
	})
	return r, err
}

// Regrade keeps another grading beside the first, with the cards it was made by and, in words, what differs. It returns
// the file of the grades, also with an error when they are kept all the same.
func (a *Archive) Regrade(by who.Who, id string, g logbook.Grading) (file string, err error) {
	if g.Version == "" {
		g.Version = a.options.Version
	}
	dir, err := a.brought(id, false)
	if err != nil {
		return "", err
	}
	err = a.change(id, change{
		check: func(_ logbook.Book, f *folder.Edit) error {
			f.Notes.Regrades = append(f.Notes.Regrades, folder.Regraded{
				At:          g.At.UTC().Truncate(time.Millisecond),
				By:          by,
				Server:      g.Version,
				Maneuver:    g.Maneuver,
				Standard:    g.Standard,
				Aircraft:    g.Aircraft,
				Differences: append([]phrase.Phrase{}, g.Differences...),
			})
			f.Noted, f.Regrade = true, g.Report
			return nil
		},
		enter: func(b logbook.Changes, f *folder.Edit) error {
			file = f.RegradeFile
			return b.Regrade(id, &g)
		},
	})
	var none *logbook.NotFound
	if err == nil {
		return file, nil
	}
	if !errors.As(err, &none) {
		return "", err
	}
	if file, err = folder.SaveRegrade(dir, g.Report); err != nil {
		return "", err
	}
	return file, fmt.Errorf("the new grades are kept as %s, but %w; halfturn sessions rebuild takes its folder in",
		file, none)
}

// Save writes the grades that a session got first and returns the file. It appears whole or not at all.
func (a *Archive) Save(id string, r *debrief.Report) (string, error) {
	if err := a.folders.Make(id); err != nil {
		return "", err
	}
	file, err := folder.Save(a.own(id), r)
	if err == nil {
		a.shared.unsent(id)
	}
	return file, err
}

// Discard removes a session that was begun and must not exist: its entry, if there is one, and its folder. Nothing of
// it is left to record who asked; [Options.Log] does.
func (a *Archive) Discard(by who.Who, id string) error {
	if !folder.IsID(id) {
		return &logbook.NotFound{ID: id}
	}
	book, err := a.writable()
	if err == nil {
		err = a.lost(book.Undo(id))
	}
	err = errors.Join(err, a.shared.remove(id))
	if failed := os.RemoveAll(a.own(id)); failed != nil {
		err = errors.Join(err, fmt.Errorf("the folder of session %s cannot be removed: %w", id, failed))
	}
	if err == nil {
		a.options.Log("session discarded", by, id)
	}
	return err
}
