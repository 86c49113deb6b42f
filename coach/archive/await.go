package archive

import (
	"context"
	"errors"
	"os"

	"halfturn/coach/archive/disk"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
)

// Waits says why nothing can be kept now; nil when all is well.
// It answers from memory.
func (a *Archive) Waits() error {
	a.mu.RLock()
	defer a.mu.RUnlock()
	return a.waits
}

// Away says why the logbook could not be opened since the start: its database does not answer. Sessions are recorded,
// and [Archive.Mend] tries again. It is nil once the logbook was open.
func (a *Archive) Away() error {
	a.mu.RLock()
	defer a.mu.RUnlock()
	return a.away
}

// lost notes that the logbook may not be the one that was opened any more, and returns the error.
func (a *Archive) lost(err error) error {
	var failure *logbook.Failure
	if errors.As(err, &failure) && failure.Lost {
		a.mu.Lock()
		a.stale = true
		a.mu.Unlock()
	}
	return err
}

// errMending is why nothing can be kept or read while an Archive is opened again.
var errMending = phrase.Mending.Error()

// Mend opens an Archive again that waits, or whose disk failed while it was open, or the database of whose logbook was
// away at the start, and reports whether it can be written since just now. It is for one goroutine at a time. Opening
// may take minutes, when a logbook has to be rebuilt: until the context ends, and others are told to wait meanwhile.
func (a *Archive) Mend(ctx context.Context) (mended bool, err error) {
	a.mu.RLock()
	waits, stale, away := a.waits != nil, a.stale, a.away != nil
	a.mu.RUnlock()
	switch {
	case waits, away:
	case !stale:
		return false, nil
	default: // in place of a disk that was taken out nothing is made
		if _, err := os.Stat(a.file); err != nil {
			return false, err
		}
	}
	if err := disk.Probe(a.data); err != nil && (!waits || disk.Unwritable(err)) {
		return false, err
	}
	a.mu.Lock()
	old := a.book
	a.book, a.changes = nil, false
	if a.waits == nil && !away { // else sessions are recorded meanwhile
		a.waits = errMending
	}
	a.mu.Unlock()
	// It is closed first: what one connection may not write, SQLite lets no other of the same program write.
	if old != nil {
		_ = old.Close() // of a disk that failed
	}
	again := fresh(a.data, a.options)
	again.options.Context = ctx
	again.folders, again.shared = a.folders, a.shared // names that were reserved stay so
	switch err = again.open(); {
	case errors.Is(err, logbook.ErrAway):
		again.away = err
	case err != nil:
		again.readWaiting(err)
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	a.book, a.changes, a.waits, a.stale = again.book, again.changes, again.waits, false
	a.away = again.away
	if again.stations != nil {
		a.stations = again.stations
	}
	return err == nil, err
}

// await makes an Archive that cannot be written wait, and opens what is there to be read.
func (a *Archive) await(why error) {
	a.readWaiting(why)
	a.options.Tell("nothing is being recorded, and no session is kept, but coaching goes on: " + a.waits.Error())
}

// awaitBook makes an Archive wait for the database of its logbook.
func (a *Archive) awaitBook(why error) {
	a.away, a.stations = why, map[string]maneuver.Choice{}
	a.options.Tell("the logbook cannot be opened yet; coaching and recording go on, and what is flown is entered " +
		"once its database answers: " + why.Error())
}

// readWaiting opens what is there to be read; else each question is told why there is nothing.
func (a *Archive) readWaiting(why error) {
	a.book, a.changes, a.waits = nil, false, waiting(why)
	_ = a.openReadOnly()
}

// waiting says why an Archive waits as the recorder does of a file.
func waiting(why error) error {
	var path *os.PathError
	if errors.As(why, &path) {
		return &logbook.Failure{Words: record.Words(why).String(), Err: why}
	}
	return why
}
