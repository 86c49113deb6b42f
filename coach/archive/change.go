package archive

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/lock"
	"halfturn/coach/logbook"
)

// What is known of a session stands twice: in its folder, which is the truth, and in the logbook, which is asked. A
// change goes to the folder first and to the logbook after it, by these steps, under a lock that all programs share:
//
//  1. it is seen that the session is there and takes the change
//  2. a mark is made in the data directory: an empty file with the session's name in its own
//  3. the file in the folder is replaced or added to
//  4. the logbook is changed
//  5. the mark is removed
//
// Interrupted before 3, nothing has changed. Interrupted between 3 and 4, the folder is ahead: the mark says so, and
// whoever opens the archive next takes the folder in (heal). What the logbook does not take is taken back in the
// folder.

const (
	changeLock = "sessions.lock"
	notingMark = ".noting-"
	goneMark   = ".gone-"
	markTail   = "~" // no name of a session holds it
)

// The steps of a change at which a test interrupts it.
const (
	stepChecked = "checked"
	stepMarked  = "marked"
	stepNoted   = "noted"
	stepEntered = "entered"
)

// at tells a test how far a change is.
func (a *Archive) at(step string) {
	if a.onStep != nil {
		a.onStep(step)
	}
}

// lockWait is how long a change waits for those of other programs, as long as the logbook does.
const lockWait = 10 * time.Second

// lock keeps all other programs, and goroutines of this one, from changing sessions.
func (a *Archive) lock() (*lock.Lock, error) {
	ctx, stop := context.WithTimeout(context.Background(), lockWait)
	defer stop()
	lock, err := lock.Wait(ctx, filepath.Join(a.data, changeLock))
	switch {
	case err == nil:
		return lock, nil
	case ctx.Err() != nil:
		return nil, &logbook.Failure{Words: fmt.Sprintf("another program has been changing the sessions in %s "+
			"for longer than ten seconds: try again when it is done", a.data), Err: err}
	}
	a.lost(&logbook.Failure{Lost: true})
	return nil, disk.PlainPath(err)
}

// A change is made to what is known of a session. Check sees whether it can be made, and makes it in f; with nothing
// changed there, nothing is written. Enter makes it in the logbook.
type change struct {
	begins bool // the session need not be in the logbook
	check  func(b logbook.Book, f *folder.Edit) error
	enter  func(b logbook.Book, f *folder.Edit) error
}

// change makes a change, whole or not at all.
func (a *Archive) change(id string, c change) error {
	book, err := a.writable()
	if err != nil {
		return err
	}
	if !folder.IsID(id) {
		return &logbook.NotFound{ID: id}
	}
	lock, err := a.lock()
	if err != nil {
		return err
	}
	defer lock.Close()
	f, err := a.load(book, id, c.begins)
	if err != nil {
		return err
	}
	if err := c.check(book, f); err != nil {
		return err
	}
	a.at(stepChecked)
	if !f.Noted && len(f.Added) == 0 {
		return nil
	}
	mark, err := a.mark(id)
	if err != nil {
		return notNoted(id, err)
	}
	a.at(stepMarked)
	if err := f.Write(); err != nil {
		return errors.Join(notNoted(id, err), f.TakeBack(mark))
	}
	a.at(stepNoted)
	if err := a.lost(c.enter(book, f)); err != nil {
		return errors.Join(err, f.TakeBack(mark))
	}
	a.at(stepEntered)
	_ = os.Remove(mark) // one that stays costs the next start a look
	return nil
}

// load reads what is known of a session.
func (a *Archive) load(book logbook.Book, id string, begins bool) (*folder.Edit, error) {
	f := &folder.Edit{ID: id, Dir: filepath.Join(a.dir, id)}
	entry, err := book.Entry(context.Background(), id)
	var none *logbook.NotFound
	if err != nil && !(begins && errors.As(err, &none)) {
		return nil, a.lost(err)
	}
	if err := a.setAside(id); err != nil {
		return nil, notNoted(id, err)
	}
	if f.Notes, err = folder.ReadNotes(f.Dir); err != nil {
		return nil, notNoted(id, err)
	}
	if f.Acts, err = folder.ReadActs(f.Dir, f.Notes); err != nil {
		return nil, notNoted(id, err)
	}
	if f.Notes == nil && !begins {
		f.Notes, f.Noted = folder.NotesFrom(entry), true
	}
	return f, nil
}

// mark makes the mark of a change that is under way, and returns its file.
func (a *Archive) mark(id string) (string, error) {
	f, err := os.CreateTemp(a.data, notingMark+id+markTail+"*")
	if err != nil {
		return "", err
	}
	return f.Name(), f.Close()
}

func notNoted(id string, err error) error {
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("the folder of session %s is gone, nothing was changed: "+
			"halfturn sessions rebuild takes it out of the logbook", id)
	}
	return fmt.Errorf("the notes of session %s cannot be written: %w", id, err)
}

// setAside keeps notes and acts that cannot be taken in from being written over: by a session that was left out, and
// goes on. Those that this Archive wrote itself are not looked at again.
func (a *Archive) setAside(id string) (err error) {
	dir := filepath.Join(a.dir, id)
	info, err := os.Stat(dir)
	if err != nil {
		return err
	}
	if !info.IsDir() {
		return fmt.Errorf("%s is not a folder", dir)
	}
	a.mu.RLock()
	known := a.sound[id]
	a.mu.RUnlock()
	if known {
		return nil
	}
	defer func() {
		if err == nil {
			a.mu.Lock()
			a.sound[id] = true
			a.mu.Unlock()
		}
	}()
	n, err := folder.ReadNotes(dir)
	if errors.Is(err, fs.ErrPermission) {
		return err
	}
	if err != nil || n != nil && n.Sound() != nil {
		if err := folder.Aside(dir, folder.NotesFile); err != nil {
			return err
		}
	}
	_, err = folder.ReadActs(dir, nil)
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if errors.Is(err, fs.ErrPermission) {
		return err
	}
	return folder.Aside(dir, folder.ActsFile)
}

// heal takes in the folders of sessions whose change was interrupted between folder and logbook.
func (a *Archive) heal(book logbook.Book) error {
	marks, err := filepath.Glob(filepath.Join(folder.Globbed(a.data), notingMark+"*"+markTail+"*"))
	if err != nil || len(marks) == 0 {
		return err
	}
	lock, err := a.lock() // then no mark is of a change under way
	if err != nil {
		return err
	}
	defer lock.Close()
	for _, m := range marks {
		id, _, _ := strings.Cut(strings.TrimPrefix(filepath.Base(m), notingMark), markTail)
		// Without notes nothing was written.
		if _, err := os.Stat(filepath.Join(a.dir, id, folder.NotesFile)); err == nil && folder.IsID(id) {
			if err := a.healOne(book, id); err != nil {
				return err
			}
		}
		if err := disk.IgnoreGone(os.Remove(m)); err != nil {
			return err
		}
	}
	return nil
}

// healOne makes the logbook say of a session what its folder does. The legs of one that goes on are in the logbook
// alone: they stay.
func (a *Archive) healOne(book logbook.Book, id string) error {
	_, err := book.Entry(context.Background(), id)
	var none *logbook.NotFound
	known := err == nil
	if err != nil && !errors.As(err, &none) {
		return err
	}
	why, err := book.Take(a.reader().Stored(filepath.Join(a.dir, id), !known))
	switch {
	case err != nil:
		return err
	case why != nil && known:
		a.options.Tell(fmt.Sprintf("session %s: what its folder says is not taken into the logbook: %v", id, why))
	case why != nil:
		a.tellLeftOut(id, why)
	}
	return nil
}
