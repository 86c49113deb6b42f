package db

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
)

// A File is an open database: one connection that writes, a few that read.
type File struct {
	Schema
	Name  string
	Write *sql.DB // nil when the file is open for reading only
	Read  *sql.DB
	Shape int // of the database as it is read
}

// readers is how many queries run at once.
const readers = 4

// Open opens a logbook for writing, and creates one that does not exist; see [Schema.Open].
func Open(name string, check bool) (*File, error) { return Logbook().Open(name, check) }

// Open opens a file for writing, and creates one that does not exist. With check, a file that was not closed properly
// is read through for damage. A failure of the database is a *logbook.Failure.
func (s Schema) Open(name string, check bool) (*File, error) {
	d := &File{Schema: s, Name: name}
	crashed := false
	if info, err := os.Stat(name + "-wal"); err == nil {
		crashed = info.Size() > 0
	}
	err := d.connect()
	if err == nil && check && crashed {
		err = d.Sound()
	}
	if err != nil {
		return nil, errors.Join(d.Plainly(err), d.Close())
	}
	return d, nil
}

func (d *File) connect() (err error) {
	d.Write, err = sql.Open("sqlite", DSN(d.Name, "_pragma", "journal_mode(WAL)", "_txlock", "immediate"))
	if err != nil {
		return err
	}
	d.Write.SetMaxOpenConns(1)
	if err := d.migrate(); err != nil {
		return err
	}
	if d.Read, err = sql.Open("sqlite", DSN(d.Name, "_pragma", "query_only(1)")); err != nil {
		return err
	}
	d.Read.SetMaxOpenConns(readers)
	d.Read.SetMaxIdleConns(readers)
	names, err := d.shapes()
	d.Shape = len(names)
	return errors.Join(err, d.Read.Ping())
}

// OpenReadOnly opens a logbook that must not be changed, or that lies where nothing can be written. The error is
// os.ErrNotExist when there is no file.
func OpenReadOnly(name string) (*File, error) {
	if _, err := os.Stat(name); err != nil {
		return nil, err
	}
	d := &File{Schema: Logbook(), Name: name}
	var failed error
	// A journal cannot be opened where nothing can be written.
	for _, more := range [][]string{{"mode", "ro"}, {"mode", "ro", "immutable", "1"}} {
		read, err := sql.Open("sqlite", DSN(name, more...))
		if err != nil {
			return nil, err
		}
		if d.Shape, err = d.version(read); err == nil && d.Shape > 0 {
			d.Read = read
			return d, nil
		}
		if err == nil {
			err = fmt.Errorf("%s is empty", name)
		}
		failed = errors.Join(err, read.Close())
	}
	return nil, d.Plainly(failed)
}

// Close closes the connections after waiting for their queries.
func (d *File) Close() (err error) {
	for _, conns := range []*sql.DB{d.Read, d.Write} {
		if conns != nil {
			err = errors.Join(err, conns.Close())
		}
	}
	return err
}

// Sound reads the file through for damage.
func (d *File) Sound() error {
	var said string
	if err := d.Write.QueryRow("PRAGMA quick_check(1)").Scan(&said); err != nil {
		return err
	}
	if said != "ok" {
		return fmt.Errorf("%w: %s", ErrDamaged, said)
	}
	return nil
}

// Rewrite writes the whole file again: rows that were deleted stay in it until then.
func (d *File) Rewrite() error {
	for _, q := range []string{"VACUUM", "PRAGMA wal_checkpoint(TRUNCATE)"} {
		if _, err := d.Write.Exec(q); err != nil {
			return d.Plainly(err)
		}
	}
	return nil
}
