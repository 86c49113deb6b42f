// Package archive owns the folders of sessions: how they are laid out, and all that is done to what lies in them. It
// writes so that a reader sees either the whole of a file or none of it, and a change is made in a folder first and in
// the [logbook.Book] after it, which is an index over the folders. What people add to a session are its acts: a list
// that
// is only ever added to. What is shown is worked out of grades and acts.
//
// coach/archive/play plays the recordings in the folders, coach/archive/take takes other recordings in.
package archive

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/stream/record"
)

// IndexFile is the logbook in a data directory.
const IndexFile = "logbook.db"

// An Archive is the sessions of a data directory: a folder for each, which holds everything, and a logbook of them, to
// be
// asked quickly. It is safe for concurrent use, by several programs too.
type Archive struct {
	data    string
	dir     string // of the sessions
	file    string // the logbook
	options Options

	onStep func(step string) // tells a test how far a change is; nil: nobody

	mu       sync.RWMutex // never held while the disk is waited for: stations ask
	book     logbook.Book // nil when there is nothing to be asked
	changes  bool         // it can be changed
	stations map[string]maneuver.Choice
	sound    map[string]bool // sessions whose folder needs no look any more
	waits    error           // why nothing can be kept now
	stale    bool            // the book is of a disk that failed
}

// Options say how an Archive is opened.
type Options struct {
	// Engine keeps the logbook.
	Engine logbook.Engine
	// ReadOnly only asks: nothing is made, repaired or changed.
	ReadOnly bool
	// Version is that of the program, noted with what it grades.
	Version string
	// Repair moves a damaged logbook aside and rebuilds it. For whoever owns the data directory.
	Repair bool
	// Regrade grades the recording of a session again, for a folder without readable grades; nil
	// leaves such a session in the logbook without legs.
	Regrade func(dir string) (*debrief.Report, error)
	// Tell says what was done about damage; nil is silent.
	Tell func(words string)
	// Await opens a data directory on a disk that is read-only or full all the same: what is there can be
	// read, changes are refused, and Mend tries again.
	Await bool
	// Context ends the rebuild of a logbook, which may take minutes; nil is never.
	Context context.Context
	// Lock makes sure that nobody else owns the data directory, before anything in it is changed; it may
	// be called again. Nil when that is nobody's worry.
	Lock func() error
}

// Open makes the folder and the logbook of a data directory ready. A logbook that is damaged
// is refused, or with Repair moved aside and rebuilt from the session folders.
func Open(data string, o Options) (*Archive, error) {
	if o.Tell == nil {
		o.Tell = func(string) {}
	}
	if o.Context == nil {
		o.Context = context.Background()
	}
	a := fresh(data, o)
	if o.ReadOnly {
		if err := a.openReadOnly(); err != nil {
			return nil, err
		}
		return a, nil
	}
	err := a.open()
	if err != nil && o.Await && Unwritable(err) {
		a.await(err)
		return a, nil
	}
	if err != nil {
		return nil, err
	}
	return a, nil
}

func fresh(data string, o Options) *Archive {
	return &Archive{
		data:    data,
		dir:     Sessions(data),
		file:    filepath.Join(data, IndexFile),
		options: o,
		sound:   map[string]bool{},
	}
}

// open opens the data directory to be changed.
func (a *Archive) open() error {
	if a.options.Lock != nil {
		if err := a.options.Lock(); err != nil {
			return err
		}
	}
	err := os.MkdirAll(a.dir, 0o750)
	if err == nil {
		err = probe(a.data)
	}
	if err != nil {
		return fmt.Errorf("the data directory cannot be used: %w; make it writable, or choose another with --data", err)
	}
	_, absent := os.Stat(a.file)
	book, err := a.options.Engine.Open(a.file, a.options.Repair)
	var failure *logbook.Failure
	switch {
	case err != nil && errors.As(err, &failure) && failure.Damaged && a.options.Repair:
		book, err = a.replace()
	case err == nil:
		err = a.fill(book, absent != nil)
	}
	if err == nil {
		err = a.tidyUp(book)
	}
	if err == nil {
		a.stations, err = book.Stations(context.Background())
	}
	if err != nil {
		if book != nil {
			err = errors.Join(err, book.Close())
		}
		return plainPath(err)
	}
	a.book, a.changes = book, true
	return nil
}

// fill rebuilds a logbook that holds nothing where there are sessions: it is absent, or a rebuild of it was broken
// off. Of one that was there, sessions that are not over tell nothing: they are entered when they are gone on with.
func (a *Archive) fill(book logbook.Book, absent bool) error {
	spans, err := book.Spans(context.Background())
	if err != nil || len(spans) > 0 {
		return err
	}
	out, err := book.LeftOut(context.Background())
	if err == nil && out.Total == 0 && a.anySession(absent) {
		_, err = a.rebuild(a.options.Context, book, nil)
	}
	return err
}

// tidyUp finishes what was interrupted.
func (a *Archive) tidyUp(book logbook.Book) error {
	if a.options.Repair {
		if err := a.removeGone(book); err != nil {
			return err
		}
	}
	return a.heal(book)
}

// openReadOnly opens what is there; without a logbook there is nothing flown.
func (a *Archive) openReadOnly() error {
	book, err := a.options.Engine.OpenReadOnly(a.file)
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("there is no logbook in %s: nothing was flown with this data directory yet; "+
			"choose another with --data, or make it from session folders with halfturn sessions rebuild", a.data)
	}
	if err != nil {
		return plainPath(err)
	}
	a.stations, err = book.Stations(context.Background())
	if err != nil {
		return errors.Join(err, book.Close())
	}
	a.book = book
	return nil
}

// replace moves the damaged logbook aside and rebuilds it.
func (a *Archive) replace() (logbook.Book, error) {
	aside, err := a.options.Engine.MoveAside(a.file, time.Now())
	if err != nil {
		return nil, fmt.Errorf("the logbook %s is damaged and cannot be moved aside: %w", a.file, err)
	}
	a.options.Tell(fmt.Sprintf("the logbook was damaged: it is kept as %s, and rebuilt from the session folders",
		aside))
	book, err := a.options.Engine.Open(a.file, false)
	if err != nil {
		return nil, err
	}
	n, err := a.rebuild(a.options.Context, book, nil)
	if err == nil {
		a.options.Tell(fmt.Sprintf("the logbook holds %d sessions again", n))
	}
	return book, err
}

// anySession reports whether there is a session on disk; unfinished counts those that are not over too.
func (a *Archive) anySession(unfinished bool) bool {
	all, err := IDs(a.dir)
	return err == nil && slices.ContainsFunc(all, func(id string) bool {
		return unfinished || !record.Unfinished(filepath.Join(a.dir, id))
	})
}

// Close closes the logbook.
func (a *Archive) Close() (err error) {
	a.mu.Lock()
	book := a.book
	a.book, a.changes = nil, false
	a.mu.Unlock()
	if book == nil {
		return nil
	}
	return book.Close()
}

// Dir returns the folder of the sessions.
func (a *Archive) Dir() string { return a.dir }

// Data returns the data directory.
func (a *Archive) Data() string { return a.data }

// writable is the book to be changed.
func (a *Archive) writable() (logbook.Book, error) {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if a.book == nil || !a.changes {
		return nil, a.why()
	}
	return a.book, nil
}

// asked is the book to be asked.
func (a *Archive) asked() (logbook.Book, error) {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if a.book == nil {
		return nil, a.why()
	}
	return a.book, nil
}

// why is why there is no book to be asked or changed; mu is held.
func (a *Archive) why() error {
	if a.waits != nil {
		return &logbook.Failure{Words: a.waits.Error(), Err: a.waits}
	}
	return &logbook.Failure{Words: "the logbook " + a.file + " was opened to be read only"}
}
