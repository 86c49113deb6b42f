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

	"halfturn/coach/debrief"
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
func (a *Archive) lock() (*Lock, error) {
	ctx, stop := context.WithTimeout(context.Background(), lockWait)
	defer stop()
	lock, err := WaitLock(ctx, filepath.Join(a.data, changeLock))
	switch {
	case err == nil:
		return lock, nil
	case ctx.Err() != nil:
		return nil, &logbook.Failure{Words: fmt.Sprintf("another program has been changing the sessions in %s "+
			"for longer than ten seconds: try again when it is done", a.data), Err: err}
	}
	a.lost(&logbook.Failure{Lost: true})
	return nil, plainPath(err)
}

// A folder is what is known of a session, being changed.
type folder struct {
	id    string
	dir   string
	notes *Notes
	acts  []logbook.Act
	added []logbook.Act // acts to be added
	noted bool          // the notes are to be written

	regrade     *debrief.Report // to be written beside the first grades; nil when there is none
	regradeFile string          // where it was written

	undo []func() error // take back what was written
}

// standing is how the session stands with what is added.
func (f *folder) standing() logbook.Standing {
	first := logbook.Student{ID: f.notes.StudentID, Name: f.notes.Student}
	return logbook.Fold(first, append(f.acts[:len(f.acts):len(f.acts)], f.added...))
}

// add adds an act.
func (f *folder) add(act logbook.Act) { f.added = append(f.added, act) }

// A change is made to what is known of a session. Check sees whether it can be made, and makes it in f; with nothing
// changed there, nothing is written. Enter makes it in the logbook.
type change struct {
	begins bool // the session need not be in the logbook
	check  func(b logbook.Book, f *folder) error
	enter  func(b logbook.Book, f *folder) error
}

// change makes a change, whole or not at all.
func (a *Archive) change(id string, c change) error {
	book, err := a.writable()
	if err != nil {
		return err
	}
	if !IsID(id) {
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
	if !f.noted && len(f.added) == 0 {
		return nil
	}
	mark, err := a.mark(id)
	if err != nil {
		return notNoted(id, err)
	}
	a.at(stepMarked)
	if err := f.write(); err != nil {
		return errors.Join(notNoted(id, err), f.takeBack(mark))
	}
	a.at(stepNoted)
	if err := a.lost(c.enter(book, f)); err != nil {
		return errors.Join(err, f.takeBack(mark))
	}
	a.at(stepEntered)
	_ = os.Remove(mark) // one that stays costs the next start a look
	return nil
}

// load reads what is known of a session.
func (a *Archive) load(book logbook.Book, id string, begins bool) (*folder, error) {
	f := &folder{id: id, dir: filepath.Join(a.dir, id)}
	entry, err := book.Entry(context.Background(), id)
	var none *logbook.NotFound
	if err != nil && !(begins && errors.As(err, &none)) {
		return nil, a.lost(err)
	}
	if err := a.setAside(id); err != nil {
		return nil, notNoted(id, err)
	}
	if f.notes, err = ReadNotes(f.dir); err != nil {
		return nil, notNoted(id, err)
	}
	if f.acts, err = ReadActs(f.dir, f.notes); err != nil {
		return nil, notNoted(id, err)
	}
	if f.notes == nil && !begins {
		f.notes, f.noted = notesFrom(entry), true
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

// write writes what was changed into the folder. Acts that stand in old notes go into their own file before the notes
// are written without them; otherwise an act says nothing without notes.
func (f *folder) write() error {
	carried := len(f.notes.acts) > 0 && f.noted
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

func (f *folder) writeRegrade() (err error) {
	if f.regrade == nil {
		return nil
	}
	if f.regradeFile, err = saveRegrade(f.dir, f.regrade); err == nil {
		f.undo = append(f.undo, func() error { return ignoreGone(os.Remove(f.regradeFile)) })
	}
	return err
}

func (f *folder) writeActs() error {
	if len(f.added) == 0 && !(len(f.notes.acts) > 0 && f.noted) {
		return nil
	}
	undo, err := addActs(f.dir, f.acts, f.added)
	if err == nil {
		f.undo = append(f.undo, undo)
	}
	return err
}

func (f *folder) writeNotes() error {
	if !f.noted {
		return nil
	}
	data, err := f.notes.encode()
	if err != nil {
		return err
	}
	name := filepath.Join(f.dir, notesFile)
	was, err := os.ReadFile(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		f.undo = append(f.undo, func() error { return ignoreGone(os.Remove(name)) })
	case err != nil:
		return err
	default:
		f.undo = append(f.undo, func() error { return ignoreGone(writeWhole(name, was)) })
	}
	if err := writeWhole(name, data); err != nil {
		return err
	}
	syncDir(f.dir)
	return nil
}

// takeBack makes the folder what it was before a change that the logbook did not take.
func (f *folder) takeBack(mark string) (err error) {
	for i := len(f.undo) - 1; i >= 0; i-- {
		err = errors.Join(err, f.undo[i]())
	}
	if err != nil {
		return fmt.Errorf("its folder may hold the change all the same; the next start looks: %w", err)
	}
	return ignoreGone(os.Remove(mark))
}

func notNoted(id string, err error) error {
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("the folder of session %s is gone, nothing was changed: "+
			"halfturn sessions rebuild takes it out of the logbook", id)
	}
	return fmt.Errorf("the notes of session %s cannot be written: %w", id, err)
}

func ignoreGone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
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
	n, err := ReadNotes(dir)
	if errors.Is(err, fs.ErrPermission) {
		return err
	}
	if err != nil || n != nil && n.sound() != nil {
		if err := aside(dir, notesFile); err != nil {
			return err
		}
	}
	_, _, err = readActs(dir)
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if errors.Is(err, fs.ErrPermission) {
		return err
	}
	return aside(dir, actsFile)
}

// aside gives a damaged file another name.
func aside(dir, name string) error {
	ext := filepath.Ext(name)
	for i := 1; ; i++ {
		to := filepath.Join(dir, fmt.Sprintf("%s-damaged-%04d%s", strings.TrimSuffix(name, ext), i, ext))
		if _, err := os.Lstat(to); err != nil {
			return os.Rename(filepath.Join(dir, name), to)
		}
	}
}

// heal takes in the folders of sessions whose change was interrupted between folder and logbook.
func (a *Archive) heal(book logbook.Book) error {
	marks, err := filepath.Glob(filepath.Join(globbed(a.data), notingMark+"*"+markTail+"*"))
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
		if _, err := os.Stat(filepath.Join(a.dir, id, notesFile)); err == nil && IsID(id) {
			if err := a.healOne(book, id); err != nil {
				return err
			}
		}
		if err := ignoreGone(os.Remove(m)); err != nil {
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
	why, err := book.Take(a.stored(id, !known))
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
