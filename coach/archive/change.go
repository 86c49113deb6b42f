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

// The files of a change in the data directory; the package documentation has its steps.
const (
	changeLock = "sessions.lock"
	notingMark = ".noting-"
	goneMark   = ".gone-"
	markTail   = "~" // no session id contains it
)

// Steps of a change at which a test interrupts it.
const (
	stepChecked = "checked"
	stepMarked  = "marked"
	stepNoted   = "noted"
	stepEntered = "entered"
)

// at lets a test follow a change.
func (a *Archive) at(step string) {
	if a.onStep != nil {
		a.onStep(step)
	}
}

// lockWait is how long a change waits for those of other programs: as long as the logbook waits.
const lockWait = 10 * time.Second

// lock keeps other programs, and other goroutines of this one, from changing sessions.
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

// A change of one session. Check decides whether it can be made, and makes it in f; when it changes nothing there,
// nothing is written. Enter makes it in the logbook.
type change struct {
	begins bool   // the session need not be in the logbook
	fence  uint64 // of the lease under which the session is flown; 0: none
	check  func(b logbook.Book, f *folder.Edit) error
	enter  func(b logbook.Changes, f *folder.Edit) error
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
	if a.shared != nil {
		return a.changeShared(book, id, c)
	}
	return a.changeHere(book, id, c)
}

// changeHere makes a change in the folder as it is here.
func (a *Archive) changeHere(book logbook.Book, id string, c change) error {
	lock, err := a.lock()
	if err != nil {
		return err
	}
	defer func() {
		if lock != nil {
			lock.Close()
		}
	}()
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
	if a.shared != nil {
		// Others need not wait for the depot: this session is locked by itself.
		lock.Close()
		if err := a.store(id, c.begins); err != nil {
			return errors.Join(err, f.TakeBack(mark))
		}
		if lock, err = a.lock(); err != nil {
			return err // the mark says that the logbook is behind
		}
	}
	if err := a.lost(c.enter(logbook.Under(book, a.fence(id, c.fence)), f)); err != nil {
		return errors.Join(err, f.TakeBack(mark))
	}
	a.at(stepEntered)
	_ = os.Remove(mark) // a mark that stays costs the next start one look
	if a.options.Acted != nil && len(f.Added) > 0 {
		a.options.Acted(id)
	}
	return nil
}

// load reads what is known of a session.
func (a *Archive) load(book logbook.Book, id string, begins bool) (*folder.Edit, error) {
	f := &folder.Edit{ID: id, Dir: a.path(id)}
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

// mark creates the mark of a change that is under way, and returns its file.
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

// setAside renames notes and acts that cannot be understood, before a session that was left out is resumed and writes
// its own. A folder is checked once per Archive.
func (a *Archive) setAside(id string) (err error) {
	dir := a.path(id)
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

// heal enters the folders of sessions whose change was interrupted between folder and logbook.
func (a *Archive) heal(book logbook.Book) error {
	marks, err := filepath.Glob(filepath.Join(folder.Globbed(a.data), notingMark+"*"+markTail+"*"))
	if err != nil || len(marks) == 0 {
		return err
	}
	lock, err := a.lock() // so that no mark belongs to a change under way
	if err != nil {
		return err
	}
	defer lock.Close()
	for _, m := range marks {
		id, _, _ := strings.Cut(strings.TrimPrefix(filepath.Base(m), notingMark), markTail)
		if folder.IsID(id) {
			if err := a.shared.takeBack(id); err != nil {
				a.options.Tell(fmt.Sprintf("an interrupted change of session %s is seen to at the next start: %v",
					id, err))
				continue
			}
		}
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

// healOne makes the logbook agree with the folder of a session. Legs of a session under way are in the logbook alone:
// they stay.
func (a *Archive) healOne(book logbook.Book, id string) error {
	_, err := book.Entry(context.Background(), id)
	var none *logbook.NotFound
	known := err == nil
	if err != nil && !errors.As(err, &none) {
		return err
	}
	why, err := book.Take(a.reader().Stored(a.path(id), !known))
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
