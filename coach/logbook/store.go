package logbook

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"
)

// applicationID marks the file as a logbook: "HTLB".
const applicationID = 0x48544c42

// The shape of the database, step by step: a file is brought from the version it has to the last.
//
//go:embed migrations/*.sql
var migrations embed.FS

// namesStep is the step that mergeNames completes: what a name is cannot be said in SQL.
const namesStep = "migrations/0003.sql"

// shapeOfNames is the first shape with folded names and with the sessions that are left out. An older file that cannot
// be written is read as it is.
const shapeOfNames = 3

// readers is how many questions are answered at once.
const readers = 4

// dsn is how SQLite opens the file. All pragmas stand here, so that every connection has them.
func dsn(path string, more ...string) string {
	q := url.Values{"_pragma": {"busy_timeout(10000)", "foreign_keys(1)", "synchronous(FULL)", "temp_store(MEMORY)"}}
	for i := 0; i+1 < len(more); i += 2 {
		q.Add(more[i], more[i+1])
	}
	return "file:" + (&url.URL{Path: filepath.ToSlash(path)}).EscapedPath() + "?" + q.Encode()
}

// connect opens the pools: one connection that writes, a few that read.
func (b *Book) connect() (err error) {
	if b.options.ReadOnly {
		return b.connectReadOnly()
	}
	if b.write, err = sql.Open("sqlite", dsn(b.file, "_pragma", "journal_mode(WAL)", "_txlock", "immediate")); err != nil {
		return err
	}
	b.write.SetMaxOpenConns(1)
	if err := b.migrate(); err != nil {
		return errors.Join(err, b.write.Close())
	}
	if b.read, err = sql.Open("sqlite", dsn(b.file, "_pragma", "query_only(1)")); err != nil {
		return errors.Join(err, b.write.Close())
	}
	b.read.SetMaxOpenConns(readers)
	b.read.SetMaxIdleConns(readers)
	b.shape = shapeOfNames
	if err := b.loadChoices(); err != nil {
		return errors.Join(err, b.closePools())
	}
	return nil
}

// connectReadOnly opens a file that is not to be changed, or that lies where nothing can be.
func (b *Book) connectReadOnly() error {
	if _, err := os.Stat(b.file); err != nil {
		return err
	}
	var failed error
	for _, more := range []string{"", "1"} { // a journal cannot be opened where nothing can be written
		args := []string{"mode", "ro"}
		if more != "" {
			args = append(args, "immutable", more)
		}
		db, err := sql.Open("sqlite", dsn(b.file, args...))
		if err != nil {
			return err
		}
		version, err := b.version(db)
		if err == nil && version > 0 {
			b.read, b.shape = db, version
			if err = b.loadChoices(); err == nil {
				return nil
			}
			b.read = nil
		}
		if err == nil {
			err = fmt.Errorf("%s is empty", b.file)
		}
		failed = errors.Join(err, db.Close())
	}
	return failed
}

// version tells which shape the file has, 0 for an empty one; it refuses what is no logbook or
// of a version of the program that is newer.
func (b *Book) version(db *sql.DB) (n int, err error) {
	var app, tables int
	for q, to := range map[string]*int{"PRAGMA application_id": &app, "PRAGMA user_version": &n, "SELECT count(*) FROM sqlite_schema": &tables} {
		if err := db.QueryRow(q).Scan(to); err != nil {
			return 0, err
		}
	}
	newest, err := shapes()
	switch {
	case err != nil:
		return 0, err
	case n == 0 && tables == 0 && app == 0:
		return 0, nil
	case app != applicationID:
		return 0, &foreignError{fmt.Sprintf("%s is a database of another program: move it away, or choose another directory with --data", b.file)}
	case n > len(newest):
		return 0, &foreignError{fmt.Sprintf("%s was written by a newer version of halfturn (shape %d, this one knows %d): update halfturn, or choose another directory with --data", b.file, n, len(newest))}
	}
	return n, nil
}

// A foreignError says that the file is sound, but not for this program.
type foreignError struct{ words string }

func (e *foreignError) Error() string { return e.words }

func shapes() ([]string, error) { return fs.Glob(migrations, "migrations/*.sql") }

// migrate brings the file to the newest shape, each step whole or not at all.
func (b *Book) migrate() error {
	names, err := shapes()
	if err != nil {
		return err
	}
	if n, err := b.version(b.write); err != nil || n == len(names) {
		return err
	}
	tx, err := b.write.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback()
	var n int // again, now that nobody else can migrate
	if err := tx.QueryRow("PRAGMA user_version").Scan(&n); err != nil {
		return err
	}
	for _, name := range names[min(n, len(names)):] {
		step, err := migrations.ReadFile(name)
		if err != nil {
			return err
		}
		if _, err := tx.Exec(string(step)); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if name == namesStep {
			if err := mergeNames(tx); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	if _, err := tx.Exec(fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, len(names))); err != nil {
		return err
	}
	return tx.Commit()
}

// damaged tells whether an error means that the file itself is broken.
func damaged(err error) bool {
	switch code(err) {
	case lib.SQLITE_CORRUPT, lib.SQLITE_NOTADB:
		return true
	}
	return errors.Is(err, errDamaged)
}

var errDamaged = errors.New("the file is damaged")

// code is the primary result code of SQLite, 0 when it is none of its errors.
func code(err error) int {
	var e *sqlite.Error
	if errors.As(err, &e) {
		return e.Code() & 0xff
	}
	return 0
}

// plainly says what a failure of the database means, and what to do.
func (b *Book) plainly(err error) error {
	if err == nil {
		return nil
	}
	what := ""
	switch code(err) {
	case lib.SQLITE_FULL:
		what = "the disk is full: make room there"
	case lib.SQLITE_READONLY:
		what = "it cannot be written: the disk or the file is read-only; make it writable, or choose another directory with --data"
	case lib.SQLITE_CANTOPEN:
		what = "it cannot be opened: see that the directory is there and can be written, or choose another with --data"
	case lib.SQLITE_BUSY, lib.SQLITE_LOCKED:
		what = "another program has been writing to it for longer than ten seconds: try again when it is done"
	case lib.SQLITE_IOERR:
		what = "the disk does not read or write (" + err.Error() + "): see to the disk"
	case lib.SQLITE_CORRUPT, lib.SQLITE_NOTADB:
		what = "it is damaged: halfturn sessions rebuild rebuilds it from the session folders"
	default:
		if errors.Is(err, errDamaged) {
			what = "it is damaged: halfturn sessions rebuild rebuilds it from the session folders"
			break
		}
		return plainPath(err)
	}
	return &Failure{fmt.Sprintf("the logbook %s: %s", b.file, what), err}
}

// A Failure says plainly why the logbook could not do what it was asked, and what to do.
type Failure struct {
	words string
	err   error
}

func (e *Failure) Error() string { return e.words }

// Unwrap returns what the disk or SQLite said.
func (e *Failure) Unwrap() error { return e.err }

// change makes a change, whole or not at all.
func (b *Book) change(f func(*sql.Tx) error) error {
	_, write := b.pools()
	if write == nil {
		return b.refusal()
	}
	tx, err := write.Begin()
	if err != nil {
		b.lost(err)
		return b.plainly(err)
	}
	defer tx.Rollback()
	if err = f(tx); err == nil {
		err = tx.Commit()
	}
	b.lost(err)
	return b.plainly(err)
}

// ask reads in one state of the database, whatever is written meanwhile.
func (b *Book) ask(ctx context.Context, f func(*sql.Tx) error) error {
	read, _ := b.pools()
	if read == nil {
		return b.refusal()
	}
	tx, err := read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return b.plainly(err)
	}
	defer tx.Rollback()
	return b.plainly(f(tx))
}

// sound reads the file through for damage.
func (b *Book) sound() error {
	var said string
	if err := b.write.QueryRow("PRAGMA quick_check(1)").Scan(&said); err != nil {
		return err
	}
	if said != "ok" {
		return fmt.Errorf("%w: %s", errDamaged, said)
	}
	return nil
}

// moveAside takes a damaged file, and what belongs to it, out of the way, and returns its new name.
func (b *Book) moveAside(now time.Time) (string, error) {
	base := b.file + ".damaged-" + now.UTC().Format("2006-01-02T15-04-05Z")
	for n := 1; ; n++ {
		to := base
		if n > 1 {
			to = fmt.Sprintf("%s-%d", base, n)
		}
		if _, err := os.Lstat(to); err == nil {
			continue
		}
		if err := os.Rename(b.file, to); err != nil {
			return "", err
		}
		for _, tail := range []string{"-wal", "-shm"} {
			if err := os.Rename(b.file+tail, to+tail); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return "", err
			}
		}
		return to, nil
	}
}
