package db

import (
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
)

// ApplicationID marks the file as a logbook: "HTLB".
const ApplicationID = 0x48544c42

// A Schema says what a database is, and how a file is brought to its newest shape.
type Schema struct {
	Of     string // what a failure calls it: "the logbook"
	ID     int    // the application id in the file
	Mend   string // what to do about a damaged file; it continues "it is damaged: "
	Steps  fs.FS  // migrations/0001.sql and so on
	Finish map[string]func(*sql.Tx) error
	Index  string // makes the index of words from the tables; "" where there is none
}

// Logbook is the schema of the logbook.
func Logbook() Schema {
	return Schema{
		Of:     "the logbook",
		ID:     ApplicationID,
		Mend:   "halfturn sessions rebuild rebuilds it from the session folders",
		Steps:  migrations,
		Finish: completions,
		Index:  indexWords,
	}
}

// indexWords makes the index of the words of remarks.
const indexWords = `INSERT INTO remarks_text (remarks_text) VALUES ('rebuild')`

// The shape of the database, step by step: a file is brought from the version it has to the last.
//
//go:embed migrations/*.sql
var migrations embed.FS

// completions complete steps by what cannot be said in SQL.
var completions = map[string]func(*sql.Tx) error{
	"migrations/0003.sql": mergeNames,
	"migrations/0004.sql": addIDs,
	"migrations/0007.sql": plainRemarks,
}

// version tells which shape the file has, 0 for an empty one; it refuses what is no logbook or
// of a version of the program that is newer.
func (d *File) version(db *sql.DB) (n int, err error) {
	var app, tables int
	for q, to := range map[string]*int{
		"PRAGMA application_id":              &app,
		"PRAGMA user_version":                &n,
		"SELECT count(*) FROM sqlite_schema": &tables,
	} {
		if err := db.QueryRow(q).Scan(to); err != nil {
			return 0, err
		}
	}
	newest, err := d.shapes()
	switch {
	case err != nil:
		return 0, err
	case n == 0 && tables == 0 && app == 0:
		return 0, nil
	case app != d.ID:
		return 0, &foreignError{fmt.Sprintf("%s is a database of another program: "+
			"move it away, or choose another directory with --data", d.Name)}
	case n > len(newest):
		return 0, &foreignError{fmt.Sprintf("%s was written by a newer version of halfturn (shape %d, this one knows "+
			"%d): "+
			"update halfturn, or choose another directory with --data", d.Name, n, len(newest))}
	}
	return n, nil
}

// A foreignError says that the file is sound, but not for this program.
type foreignError struct{ words string }

func (e *foreignError) Error() string { return e.words }

func (s Schema) shapes() ([]string, error) { return fs.Glob(s.Steps, "migrations/*.sql") }

// migrate brings the file to the newest shape, each step whole or not at all.
func (d *File) migrate() error {
	names, err := d.shapes()
	if err != nil {
		return err
	}
	if n, err := d.version(d.Write); err != nil || n == len(names) {
		return err
	}
	tx, err := d.Write.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback()
	var n int // again, now that nobody else can migrate
	if err := tx.QueryRow("PRAGMA user_version").Scan(&n); err != nil {
		return err
	}
	for _, name := range names[min(n, len(names)):] {
		step, err := fs.ReadFile(d.Steps, name)
		if err != nil {
			return err
		}
		if _, err := tx.Exec(string(step)); err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		if complete := d.Finish[name]; complete != nil {
			if err := complete(tx); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	if _, err := tx.Exec(fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d", d.ID,
		len(names))); err != nil {
		return err
	}
	return tx.Commit()
}
