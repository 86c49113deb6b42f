// Package sqlite keeps a logbook in one SQLite file, by a driver that needs no cgo. Several programs may have it open
// at
// once: it is journaled (WAL), and waited for ten seconds. A file of an older shape is brought to the newest when it is
// opened to be written, each step whole or not at all; one that cannot be written is read as it is.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"halfturn/coach/logbook"
)

// Engine keeps logbooks in SQLite files.
type Engine struct{}

var _ logbook.Engine = Engine{}

// A book is an open file: one connection that writes, a few that read.
type book struct {
	file  string
	write *sql.DB // nil when the file is only read
	read  *sql.DB
	shape int // of the database, as read
}

var _ logbook.Book = (*book)(nil)

// readers is how many questions are answered at once.
const readers = 4

// Open opens a file to be written, and makes one that is not there.
func (Engine) Open(file string, check bool) (logbook.Book, error) {
	b := &book{file: file}
	crashed := false // then what is on the disk is worth a look
	if info, err := os.Stat(file + "-wal"); err == nil {
		crashed = info.Size() > 0
	}
	err := b.connect()
	if err == nil && check && crashed {
		err = b.sound()
	}
	if err != nil {
		return nil, errors.Join(b.plainly(err), b.Close())
	}
	return b, nil
}

func (b *book) connect() (err error) {
	if b.write, err = sql.Open("sqlite", dsn(b.file, "_pragma", "journal_mode(WAL)", "_txlock",
		"immediate")); err != nil {
		return err
	}
	b.write.SetMaxOpenConns(1)
	if err := b.migrate(); err != nil {
		return err
	}
	if b.read, err = sql.Open("sqlite", dsn(b.file, "_pragma", "query_only(1)")); err != nil {
		return err
	}
	b.read.SetMaxOpenConns(readers)
	b.read.SetMaxIdleConns(readers)
	names, err := shapes()
	b.shape = len(names)
	return errors.Join(err, b.read.Ping())
}

// OpenReadOnly opens a file that is not to be changed, or that lies where nothing can be.
func (Engine) OpenReadOnly(file string) (logbook.Book, error) {
	if _, err := os.Stat(file); err != nil {
		return nil, err
	}
	b := &book{file: file}
	var failed error
	// A journal cannot be opened where nothing can be written.
	for _, more := range [][]string{{"mode", "ro"}, {"mode", "ro", "immutable", "1"}} {
		db, err := sql.Open("sqlite", dsn(file, more...))
		if err != nil {
			return nil, err
		}
		if b.shape, err = b.version(db); err == nil && b.shape > 0 {
			b.read = db
			return b, nil
		}
		if err == nil {
			err = fmt.Errorf("%s is empty", file)
		}
		failed = errors.Join(err, db.Close())
	}
	return nil, b.plainly(failed)
}

// Close closes the connections, and waits for what they are doing.
func (b *book) Close() (err error) {
	for _, db := range []*sql.DB{b.read, b.write} {
		if db != nil {
			err = errors.Join(err, db.Close())
		}
	}
	return err
}

// sound reads the file through for damage.
func (b *book) sound() error {
	var said string
	if err := b.write.QueryRow("PRAGMA quick_check(1)").Scan(&said); err != nil {
		return err
	}
	if said != "ok" {
		return fmt.Errorf("%w: %s", errDamaged, said)
	}
	return nil
}

// MoveAside takes a damaged file, and what belongs to it, out of the way, and returns its new name.
func (Engine) MoveAside(file string, now time.Time) (string, error) {
	base := file + ".damaged-" + now.UTC().Format("2006-01-02T15-04-05Z")
	for n := 1; ; n++ {
		to := base
		if n > 1 {
			to = fmt.Sprintf("%s-%d", base, n)
		}
		if _, err := os.Lstat(to); err == nil {
			continue
		}
		if err := os.Rename(file, to); err != nil {
			return "", err
		}
		for _, tail := range []string{"-wal", "-shm"} {
			if err := os.Rename(file+tail, to+tail); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return "", err
			}
		}
		return to, nil
	}
}

// Backup copies the database to a file that is not there yet.
func (b *book) Backup(ctx context.Context, to string) error {
	// By a connection of its own: one that only asks may not copy, and the one that writes is needed meanwhile.
	db := b.read
	if b.write != nil {
		var err error
		if db, err = sql.Open("sqlite", dsn(b.file, "mode", "ro")); err != nil {
			return err
		}
		defer db.Close()
	}
	_, err := db.ExecContext(ctx, `VACUUM INTO ?`, to)
	return b.plainly(err)
}
