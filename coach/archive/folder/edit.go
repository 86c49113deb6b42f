package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

// An Edit is what is known of a session, being changed.
type Edit struct {
	ID    string
	Dir   string
	Notes *Notes
	Acts  []logbook.Act
	Added []logbook.Act // acts to be added
	Noted bool          // the notes are to be written

	Regrade     *debrief.Report // to be written beside the first grades; nil for none
	RegradeFile string          // where it was written

	undo []func() error // take back what was written
}

// Standing is the state of the session with the acts that are added.
func (f *Edit) Standing() logbook.Standing {
	first := logbook.Student{ID: f.Notes.StudentID, Name: f.Notes.Student}
	return logbook.Fold(first, append(f.Acts[:len(f.Acts):len(f.Acts)], f.Added...))
}

// Add adds an act.
func (f *Edit) Add(act logbook.Act) { f.Added = append(f.Added, act) }

// NewAct is an act about a session.
func (f *Edit) NewAct(kind string, by who.Who, at time.Time) logbook.Act {
	return logbook.Act{ID: ids.New(at), Kind: kind, By: by, At: at, About: logbook.About{Session: f.Notes.Key}}
}

// Write writes what was changed into the folder. Acts that stand in old notes go into their own file before the notes
// are written without them; otherwise an act says nothing without notes.
func (f *Edit) Write() error {
	carried := len(f.Notes.acts) > 0 && f.Noted
	steps := []func() error{f.writeRegrade, f.writeNotes, f.writeActs}
	if carried {
		steps = []func() error{f.writeRegrade, f.writeActs, f.writeNotes}
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

func (f *Edit) writeRegrade() (err error) {
	if f.Regrade == nil {
		return nil
	}
	if f.RegradeFile, err = SaveRegrade(f.Dir, f.Regrade); err == nil {
		f.undo = append(f.undo, func() error { return disk.IgnoreGone(os.Remove(f.RegradeFile)) })
	}
	return err
}

func (f *Edit) writeActs() error {
	if len(f.Added) == 0 && !(len(f.Notes.acts) > 0 && f.Noted) {
		return nil
	}
	undo, err := addActs(f.Dir, f.Acts, f.Added)
	if err == nil {
		f.undo = append(f.undo, undo)
	}
	return err
}

func (f *Edit) writeNotes() error {
	if !f.Noted {
		return nil
	}
	data, err := f.Notes.Encode()
	if err != nil {
		return err
	}
	name := filepath.Join(f.Dir, NotesFile)
	was, err := os.ReadFile(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		f.undo = append(f.undo, func() error { return disk.IgnoreGone(os.Remove(name)) })
	case err != nil:
		return err
	default:
		f.undo = append(f.undo, func() error { return disk.IgnoreGone(disk.WriteWhole(name, was)) })
	}
	if err := disk.WriteWhole(name, data); err != nil {
		return err
	}
	disk.SyncDir(f.Dir)
	return nil
}

// TakeBack restores the folder after the logbook refused a change.
func (f *Edit) TakeBack(mark string) (err error) {
	for i := len(f.undo) - 1; i >= 0; i-- {
		err = errors.Join(err, f.undo[i]())
	}
	if err != nil {
		return fmt.Errorf("its folder may hold the change all the same; the next start looks: %w", err)
	}
	return disk.IgnoreGone(os.Remove(mark))
}

// Aside gives a damaged file another name.
func Aside(dir, name string) error {
	ext := filepath.Ext(name)
	for i := 1; ; i++ {
		to := filepath.Join(dir, fmt.Sprintf("%s-damaged-%04d%s", strings.TrimSuffix(name, ext), i, ext))
		if _, err := os.Lstat(to); err != nil {
			return os.Rename(filepath.Join(dir, name), to)
		}
	}
}

// Begin notes that a session begins, or goes on.
func (f *Edit) Begin(e *logbook.Entry) {
	was := f.Notes
	f.Notes, f.Noted = NotesFrom(e), true
	f.Notes.Ended = time.Time{}
	if was != nil {
		f.Notes.Key, f.Notes.Cards, f.Notes.Regrades, f.Notes.acts = was.Key, was.Cards, was.Regrades, was.acts
		if !was.Began.IsZero() && was.Began.Before(f.Notes.Began) {
			f.Notes.Began = was.Began
		}
		if was.Student != "" {
			f.Notes.Student, f.Notes.StudentID = was.Student, was.StudentID
		}
	}
	if f.Notes.Key == "" {
		f.Notes.Key = ids.New(e.Began)
	}
	for i := range e.Cards {
		f.Notes.Cards = append(f.Notes.Cards, e.Cards[i].Hash())
	}
	slices.Sort(f.Notes.Cards)
	f.Notes.Cards = slices.Compact(f.Notes.Cards)
}
