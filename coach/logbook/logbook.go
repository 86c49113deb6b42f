// Package logbook keeps sessions on disk: a folder each, written so that a reader sees either the
// whole of a file or none of it, and an SQLite database over all of them, to be asked.
package logbook

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"halfturn/coach/debrief"
	"halfturn/stream/record"
)

// A Book is the logbook of a data directory: a folder a session, and a database of what was flown
// in them. The folders hold everything; the database is made of them, to be asked quickly. It is
// safe for concurrent use, by several programs too.
type Book struct {
	dir     string // of the sessions
	file    string // the database
	options Options

	onStep func(step string) // tells a test how far a change is; nil: nobody

	mu      sync.RWMutex // never held while the disk is waited for: stations ask
	write   *sql.DB      // one connection; nil when only read
	read    *sql.DB      // nil when there is nothing to be read
	shape   int          // of the database, as read
	choices map[string]StationChoice
	noted   map[string]bool // sessions whose notes are of this Book
	waits   error           // why nothing can be kept now
	stale   bool            // the connections are of a disk that failed
}

// Options say how a Book is opened.
type Options struct {
	// ReadOnly only asks: nothing is made, repaired or changed.
	ReadOnly bool
	// Version is that of the program, noted with what it grades.
	Version string
	// Repair moves a damaged database aside and rebuilds it. For whoever owns the data directory.
	Repair bool
	// Regrade grades the recording of a session again, for a folder without readable grades; nil
	// leaves such a session in the logbook without legs.
	Regrade func(dir string) (*debrief.Report, error)
	// Tell says what was done about damage; nil is silent.
	Tell func(words string)
	// Await opens a data directory on a disk that is read-only or full all the same: what is there can be
	// read, changes are refused, and Mend tries again.
	Await bool
	// Context ends the rebuild of a database, which may take minutes; nil is never.
	Context context.Context
	// Lock makes sure that nobody else owns the data directory, before anything in it is changed; it may
	// be called again. Nil when that is nobody's worry.
	Lock func() error
}

// Open makes the folder and the database of a data directory ready. A database that is damaged
// is refused, or with Repair moved aside and rebuilt from the session folders.
func Open(data string, o Options) (*Book, error) {
	if o.Tell == nil {
		o.Tell = func(string) {}
	}
	if o.Context == nil {
		o.Context = context.Background()
	}
	b := &Book{dir: filepath.Join(data, "sessions"), file: filepath.Join(data, "logbook.db"), options: o}
	if o.ReadOnly {
		if err := b.openReadOnly(); err != nil {
			return nil, err
		}
		return b, nil
	}
	err := b.open()
	if err != nil && o.Await && Unwritable(err) {
		b.await(err)
		return b, nil
	}
	if err != nil {
		return nil, err
	}
	return b, nil
}

// open opens the data directory to be written.
func (b *Book) open() error {
	if b.options.Lock != nil {
		if err := b.options.Lock(); err != nil {
			return err
		}
	}
	err := os.MkdirAll(b.dir, 0o750)
	if err == nil {
		err = probe(filepath.Dir(b.file))
	}
	if err != nil {
		return fmt.Errorf("the data directory cannot be used: %w; make it writable, or choose another with --data", err)
	}
	_, absent := os.Stat(b.file)
	crashed := false // then what is on the disk is worth a look
	if info, err := os.Stat(b.file + "-wal"); err == nil {
		crashed = info.Size() > 0
	}
	err = b.connect()
	if err == nil && crashed && b.options.Repair {
		if err = b.sound(); err != nil {
			err = errors.Join(err, b.Close())
		}
	}
	switch {
	case err != nil && damaged(err) && b.options.Repair:
		return b.replace()
	case err != nil:
		return b.plainly(err)
	}
	if err := b.fill(absent != nil); err != nil {
		return errors.Join(b.plainly(err), b.Close())
	}
	if err := b.tidyUp(); err != nil {
		return errors.Join(b.plainly(err), b.Close())
	}
	return nil
}

// fill rebuilds a database that holds nothing where there are sessions: it is absent, or a rebuild of it was broken
// off. Of one that was there, sessions that are not over tell nothing: they are entered when they are gone on with.
func (b *Book) fill(absent bool) error {
	var holds bool
	err := b.ask(context.WithoutCancel(b.options.Context), func(tx *sql.Tx) error {
		return tx.QueryRow(`SELECT EXISTS (SELECT 1 FROM sessions) OR EXISTS (SELECT 1 FROM left_out)`).Scan(&holds)
	})
	if err == nil && !holds && b.anySession(absent) {
		_, err = b.Rebuild(b.options.Context, nil)
	}
	return err
}

// tidyUp finishes what was interrupted.
func (b *Book) tidyUp() error {
	if b.options.Repair {
		if err := b.removeGone(); err != nil {
			return err
		}
	}
	return b.heal()
}

// openReadOnly opens what is there; without a database there is nothing flown.
func (b *Book) openReadOnly() error {
	err := b.connect()
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("there is no logbook in %s: nothing was flown with this data directory yet; choose another with --data, or make it from session folders with halfturn sessions rebuild", filepath.Dir(b.file))
	}
	return b.plainly(err)
}

// replace moves the damaged database aside and rebuilds it.
func (b *Book) replace() error {
	aside, err := b.moveAside(time.Now())
	if err != nil {
		return fmt.Errorf("the logbook %s is damaged and cannot be moved aside: %w", b.file, err)
	}
	b.options.Tell(fmt.Sprintf("the logbook was damaged: it is kept as %s, and rebuilt from the session folders", aside))
	if err := b.connect(); err != nil {
		return b.plainly(err)
	}
	n, err := b.Rebuild(b.options.Context, nil)
	if err != nil {
		return errors.Join(err, b.Close())
	}
	b.options.Tell(fmt.Sprintf("the logbook holds %d sessions again", n))
	return nil
}

// anySession tells whether there is a session on disk; unfinished counts those that are not over too.
func (b *Book) anySession(unfinished bool) bool {
	names, err := b.folders()
	return err == nil && slices.ContainsFunc(names, func(id string) bool {
		return unfinished || !record.Unfinished(filepath.Join(b.dir, id))
	})
}

// Close closes the database.
func (b *Book) Close() (err error) {
	b.mu.Lock()
	read, write := b.read, b.write
	b.read, b.write = nil, nil
	b.mu.Unlock()
	return closeAll(read, write)
}

// closePools closes the connections, and waits for what they are doing. Nobody else has the Book, or mu is held.
func (b *Book) closePools() error {
	read, write := b.read, b.write
	b.read, b.write = nil, nil
	return closeAll(read, write)
}

func closeAll(pools ...*sql.DB) (err error) {
	for _, db := range pools {
		if db != nil {
			err = errors.Join(err, db.Close())
		}
	}
	return err
}

// Dir returns the folder of the sessions.
func (b *Book) Dir() string { return b.dir }

// NewID makes the folder of a session that began at a time and returns its name: the time
// (UTC), the station, and a number where two would be the same.
func (b *Book) NewID(began time.Time, station string) (string, error) {
	if why := b.Waits(); why != nil {
		return "", why
	}
	base := began.UTC().Format("2006-01-02T15-04-05Z") + "_" + plain(station)
	for n := 1; n < 1000; n++ {
		id := base
		if n > 1 {
			id += "_" + strconv.Itoa(n)
		}
		err := os.Mkdir(filepath.Join(b.dir, id), 0o750)
		if err == nil {
			return id, nil
		}
		if !errors.Is(err, os.ErrExist) {
			return "", fmt.Errorf("session %s cannot be kept: %w", id, err)
		}
	}
	return "", fmt.Errorf("session %s cannot be kept: a thousand of that name are there", base)
}

// plain keeps what every file system takes in a name.
func plain(s string) string {
	out := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '.' || r == '-' {
			return r
		}
		return '-'
	}, s)
	out = strings.Trim(out, "-.")
	return strings.TrimRight(out[:min(len(out), 60)], "-.") // some file systems drop a dot at the end
}

// Save writes the session's summary.json and returns its path. The file appears whole or
// not at all.
func (b *Book) Save(id string, r *debrief.Report) (string, error) {
	data, err := json.MarshalIndent(r, "", "  ")
	if err != nil {
		return "", fmt.Errorf("session %s cannot be written: %w", id, err)
	}
	path := filepath.Join(b.dir, id, "summary.json")
	if err := writeWhole(path, append(data, '\n')); err != nil {
		return "", fmt.Errorf("session %s cannot be kept: %w", id, err)
	}
	return path, nil
}

// writeWhole writes beside the file, makes sure it is on the disk, and moves it into place.
func writeWhole(path string, data []byte) (err error) { return putWhole(path, data, (*os.File).Sync) }

func putWhole(path string, data []byte, sync func(*os.File) error) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".writing-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if _, err = f.Write(data); err == nil {
		err = sync(f)
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
