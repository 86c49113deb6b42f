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

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/underway"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
)

// IndexFile is the logbook in a data directory.
const IndexFile = "logbook.db"

// An Archive is the sessions of a data directory: one folder per session, which holds everything, and the logbook,
// which answers questions about them quickly. It is safe for concurrent use, by several programs too.
type Archive struct {
	data    string
	dir     string // of the sessions
	file    string // the logbook
	options Options
	folders *underway.Folders

	shared *shared // what other nodes share; nil without a depot

	onStep func(step string) // lets a test follow a change; nil outside tests

	mu       sync.RWMutex // never held while waiting for the disk: stations ask
	book     logbook.Book // nil while no logbook is open
	changes  bool         // the book may be changed
	stations map[string]maneuver.Choice
	sound    map[string]bool // sessions whose folder was checked
	waits    error           // why nothing can be stored now
	away     error           // why the logbook could not be opened yet: its database does not answer
	stale    bool            // the book lies on a disk that failed
}

// Options say how an Archive is opened.
type Options struct {
	// Engine keeps the logbook.
	Engine logbook.Engine
	// ReadOnly only reads: nothing is created, repaired or changed.
	ReadOnly bool
	// Version of the program, recorded with what it grades.
	Version string
	// Repair moves a damaged logbook aside and rebuilds it. Only the owner of the data directory may.
	Repair bool
	// Regrade grades the recording of a session again, for a folder without readable grades; nil
	// leaves such a session in the logbook without legs.
	Regrade func(dir string) (*debrief.Report, error)
	// Tell reports what was done about damage; nil is silent.
	Tell func(words string)
	// Log records a change that leaves no act and no file of its own: what was done, who asked for it, and to which
	// session, "" for the logbook as a whole; nil is silent.
	Log func(done string, by who.Who, id string)
	// Acted says that acts were added to a session, once they are on the disk; it must not block. Nil is silent.
	Acted func(id string)
	// Await opens a data directory even on a disk that is read-only or full: what is there can be read, changes
	// are refused, and Mend tries again. So it does while the database of the logbook does not answer: sessions are
	// recorded then, and questions and changes are refused.
	Await bool
	// Context ends the rebuild of a logbook, which may take minutes; nil never does.
	Context context.Context
	// Depot keeps the session folders of many nodes, which share one logbook; see [Depot]. Its zero value keeps them in
	// the data directory alone.
	Depot Depot
	// Lock makes sure that no other process owns the data directory, before anything in it is changed. It may be
	// called again. Nil takes no lock.
	Lock func() error
}

// Open opens a data directory, and creates what is missing. A damaged logbook is an error, or with Repair is moved
// aside and rebuilt from the session folders.
func Open(data string, o Options) (*Archive, error) {
	if o.Tell == nil {
		o.Tell = func(string) {}
	}
	if o.Log == nil {
		o.Log = func(string, who.Who, string) {}
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
	switch {
	case err != nil && o.Await && disk.Unwritable(err):
		a.await(err)
		return a, nil
	case err != nil && o.Await && errors.Is(err, logbook.ErrAway):
		a.awaitBook(err)
		return a, nil
	}
	if err != nil {
		return nil, err
	}
	return a, nil
}

func fresh(data string, o Options) *Archive {
	return &Archive{
		shared:  newShared(data, o.Depot),
		data:    data,
		dir:     folder.Sessions(data),
		file:    filepath.Join(data, IndexFile),
		options: o,
		folders: underway.New(folder.Sessions(data)),
		sound:   map[string]bool{},
	}
}

// open opens the data directory for changes.
func (a *Archive) open() error {
	if a.options.Lock != nil {
		if err := a.options.Lock(); err != nil {
			return err
		}
	}
	err := os.MkdirAll(a.dir, 0o750)
	if err == nil {
		err = a.shared.makeCopies()
	}
	if err == nil {
		err = disk.Probe(a.data)
	}
	if err == nil {
		err = a.folders.Load()
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
		return disk.PlainPath(err)
	}
	a.book, a.changes = book, true
	return nil
}

// fill rebuilds a logbook that is empty although there are sessions: it was missing, or its rebuild was interrupted.
// For one that existed, unfinished sessions do not count: they are entered when they are resumed.
func (a *Archive) fill(book logbook.Book, absent bool) error {
	spans, err := book.Spans(context.Background())
	if err != nil || len(spans) > 0 {
		return err
	}
	out, err := book.LeftOut(context.Background())
	if err != nil || out.Total > 0 {
		return err
	}
	any, err := a.anySession(absent)
	if err == nil && any {
		_, err = a.rebuild(a.options.Context, book, nil)
	}
	if errors.Is(err, depot.ErrAway) {
		a.options.Tell(fmt.Sprintf("the logbook is empty, and is not rebuilt because %v; when the store is back, "+
			"halfturn sessions rebuild does it", err))
		return nil
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

// openReadOnly opens the logbook for reading; without one nothing was flown.
func (a *Archive) openReadOnly() error {
	book, err := a.options.Engine.OpenReadOnly(a.file)
	if errors.Is(err, os.ErrNotExist) {
		return phrase.LogbookMissing.Error(phrase.Words("folder", a.data))
	}
	if err != nil {
		return disk.PlainPath(err)
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
func (a *Archive) anySession(unfinished bool) (bool, error) {
	all, err := a.sessions(a.options.Context)
	if err != nil {
		if a.shared == nil {
			err = nil // whoever reads the folders reports it
		}
		return false, err
	}
	return slices.ContainsFunc(all, func(id string) bool {
		return unfinished || !record.Unfinished(a.path(id))
	}), nil
}

// reader reads the session folders.
func (a *Archive) reader() *folder.Reader {
	return &folder.Reader{Version: a.options.Version, Regrade: a.options.Regrade, Tell: a.options.Tell}
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

// Folders returns the folders of the sessions that are being flown.
func (a *Archive) Folders() *underway.Folders { return a.folders }

// Data returns the data directory.
func (a *Archive) Data() string { return a.data }

// writable returns the book for a change.
func (a *Archive) writable() (logbook.Book, error) {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if a.book == nil || !a.changes {
		return nil, a.why()
	}
	return a.book, nil
}

// asked returns the book for a query.
func (a *Archive) asked() (logbook.Book, error) {
	a.mu.RLock()
	defer a.mu.RUnlock()
	if a.book == nil {
		return nil, a.why()
	}
	return a.book, nil
}

// why says why there is no book for a query or a change; the caller holds mu.
func (a *Archive) why() error {
	if a.waits != nil {
		return &logbook.Failure{Words: a.waits.Error(), Err: a.waits}
	}
	if a.away != nil {
		return a.away
	}
	return &logbook.Failure{Words: "the logbook " + a.file + " was opened to be read only"}
}
