package logbook

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"syscall"

	lib "modernc.org/sqlite/lib"

	"halfturn/stream/record"
)

// Unwritable tells whether an error means that a disk is read-only or full: that may mend itself
// while the program runs.
func Unwritable(err error) bool {
	switch code(err) {
	case lib.SQLITE_READONLY, lib.SQLITE_FULL:
		return true
	}
	for _, e := range unwritable {
		if errors.Is(err, e) {
			return true
		}
	}
	return errors.Is(err, syscall.EROFS) || errors.Is(err, syscall.ENOSPC)
}

// Waits tells why nothing can be kept now; nil when all is well.
// It answers from memory.
func (b *Book) Waits() error {
	b.mu.RLock()
	defer b.mu.RUnlock()
	return b.waits
}

// shapeNow is the shape of the database as it is read.
func (b *Book) shapeNow() int {
	b.mu.RLock()
	defer b.mu.RUnlock()
	return b.shape
}

// lost notes that the file may not be the one that was opened any more: its disk failed, or was taken out.
func (b *Book) lost(err error) {
	switch code(err) {
	case lib.SQLITE_READONLY, lib.SQLITE_IOERR, lib.SQLITE_CANTOPEN:
		b.mu.Lock()
		b.stale = true
		b.mu.Unlock()
	}
}

// errMending is why nothing can be kept or read while a Book is opened again.
var errMending = errors.New("the logbook is being opened again, since its disk failed: wait a moment")

// Mend opens a Book again that waits, or whose disk failed while it was open, and tells whether it can
// be written since just now. It is for one goroutine at a time. Opening may take minutes, when a database has to be
// rebuilt: until the context ends, and others are told to wait meanwhile.
func (b *Book) Mend(ctx context.Context) (mended bool, err error) {
	b.mu.RLock()
	waits, stale := b.waits != nil, b.stale
	b.mu.RUnlock()
	switch {
	case waits:
	case !stale:
		return false, nil
	default: // in place of a disk that was taken out nothing is made
		if _, err := os.Stat(b.file); err != nil {
			return false, err
		}
	}
	if err := probe(filepath.Dir(b.file)); err != nil && (!waits || Unwritable(err)) {
		return false, err
	}
	b.mu.Lock()
	read, write := b.read, b.write
	b.read, b.write = nil, nil
	if b.waits == nil {
		b.waits = errMending
	}
	b.mu.Unlock()
	// All are closed first: what one connection may not write, SQLite lets no other of the same program write.
	_ = closeAll(read, write) // of a disk that failed
	fresh := &Book{dir: b.dir, file: b.file, options: b.options}
	fresh.options.Context = ctx
	err = fresh.open()
	if err != nil {
		fresh.waits = waiting(err)
		_ = fresh.connectReadOnly() // as in await
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.read, b.write, b.shape, b.waits, b.stale = fresh.read, fresh.write, fresh.shape, fresh.waits, false
	if fresh.choices != nil {
		b.choices = fresh.choices
	}
	return err == nil, err
}

// await makes a Book that cannot be written wait, and opens what is there to be read.
func (b *Book) await(why error) {
	b.read, b.write, b.waits = nil, nil, waiting(why)
	_ = b.connectReadOnly() // else there is nothing to be read either, and each question is told why
	b.options.Tell("nothing is being recorded, and no session is kept, but coaching goes on: " + b.waits.Error())
}

// waiting says why a Book waits as the recorder does of a file.
func waiting(why error) error {
	var path *os.PathError
	if errors.As(why, &path) {
		return &Failure{record.Words(why), why}
	}
	return why
}

// refusal is why a Book without a connection does not do what it is asked.
func (b *Book) refusal() error {
	b.mu.RLock()
	defer b.mu.RUnlock()
	return b.why()
}

// why is refusal; mu is held.
func (b *Book) why() error {
	if b.waits != nil {
		return &Failure{b.waits.Error(), b.waits}
	}
	return &Failure{"the logbook " + b.file + " was opened to be read only", nil}
}

// pools are the connections as they are now; nil is none.
func (b *Book) pools() (read, write *sql.DB) {
	b.mu.RLock()
	defer b.mu.RUnlock()
	return b.read, b.write
}

// probeBytes is what a disk must have room for, that there is some.
const probeBytes = 64 << 10

// probe makes sure that the disk of a data directory can be written. SQLite, asked to open a file on
// one that cannot, says only that it does not open.
func probe(dir string) (err error) {
	f, err := os.CreateTemp(dir, ".probe-*")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close(), os.Remove(f.Name())) }()
	if _, err = f.Write(make([]byte, probeBytes)); err != nil {
		return err
	}
	return f.Sync()
}

// plainPath is an error of a file as people read it: what is wrong, where, and what to do.
func plainPath(err error) error {
	var p *os.PathError
	if !Unwritable(err) || !errors.As(err, &p) {
		return err
	}
	return &Failure{record.Words(err), err}
}
