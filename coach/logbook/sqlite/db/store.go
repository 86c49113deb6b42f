package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"path/filepath"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"halfturn/coach/logbook"
)

// DSN is how SQLite opens the file. All pragmas stand here, so that every connection has them.
func DSN(path string, more ...string) string {
	pragmas := []string{"busy_timeout(10000)", "foreign_keys(1)", "synchronous(FULL)", "temp_store(MEMORY)"}
	q := url.Values{"_pragma": pragmas}
	for i := 0; i+1 < len(more); i += 2 {
		q.Add(more[i], more[i+1])
	}
	return "file:" + (&url.URL{Path: filepath.ToSlash(path)}).EscapedPath() + "?" + q.Encode()
}

// Damaged reports whether an error means that the file itself is broken.
func Damaged(err error) bool {
	switch Code(err) {
	case lib.SQLITE_CORRUPT, lib.SQLITE_NOTADB:
		return true
	}
	return errors.Is(err, ErrDamaged)
}

// ErrDamaged says that the file can be read, and is damaged.
var ErrDamaged = errors.New("the file is damaged")

// Code is the primary result code of SQLite, 0 when it is none of its errors.
func Code(err error) int {
	var e *sqlite.Error
	if errors.As(err, &e) {
		return e.Code() & 0xff
	}
	return 0
}

// meanings are what failures of the database mean to people, and what to do.
var meanings = map[int]string{
	lib.SQLITE_FULL: "the disk is full: make room there",
	lib.SQLITE_READONLY: "it cannot be written: the disk or the file is read-only; " +
		"make it writable, or choose another directory with --data",
	lib.SQLITE_CANTOPEN: "it cannot be opened: " +
		"see that the directory is there and can be written, or choose another with --data",
	lib.SQLITE_BUSY:   busy,
	lib.SQLITE_LOCKED: busy,
}

const busy = "another program has been writing to it for longer than ten seconds: try again when it is done"

// Plainly says what a failure of the database means, and what to do. Other errors stay as they are.
func (d *File) Plainly(err error) error {
	if err == nil {
		return nil
	}
	c := Code(err)
	what := meanings[c]
	switch {
	case c == lib.SQLITE_IOERR:
		what = "the disk does not read or write (" + err.Error() + "): see to the disk"
	case Damaged(err):
		what = "it is damaged: " + d.Mend
	case what == "":
		return err
	}
	return &logbook.Failure{
		Words:      fmt.Sprintf("%s %s: %s", d.Of, d.Name, what),
		Err:        err,
		Damaged:    Damaged(err),
		Unwritable: c == lib.SQLITE_READONLY || c == lib.SQLITE_FULL,
		Lost:       c == lib.SQLITE_READONLY || c == lib.SQLITE_IOERR || c == lib.SQLITE_CANTOPEN,
	}
}

// Change makes a change, whole or not at all.
func (d *File) Change(f func(*sql.Tx) error) error {
	if d.Write == nil {
		return &logbook.Failure{Words: d.Of + " " + d.Name + " was opened to be read only"}
	}
	tx, err := d.Write.Begin()
	if err != nil {
		return d.Plainly(err)
	}
	defer tx.Rollback()
	if err = f(tx); err == nil {
		err = tx.Commit()
	}
	return d.Plainly(err)
}

// Ask reads in one state of the database, whatever is written meanwhile.
func (d *File) Ask(ctx context.Context, f func(*sql.Tx) error) error {
	tx, err := d.Read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return d.Plainly(err)
	}
	defer tx.Rollback()
	return d.Plainly(f(tx))
}
