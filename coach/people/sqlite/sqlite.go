// Package sqlite keeps people in one SQLite file, as package coach/logbook/sqlite/db opens it.
package sqlite

import (
	"embed"
	"fmt"
	"os"

	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/people"
	"halfturn/coach/people/store"
)

//go:embed migrations/*.sql
var migrations embed.FS

// FileName is the file's name in a data directory.
const FileName = "people.db"

// applicationID marks the file: "HTPP".
const applicationID = 0x48545050

// Open opens a file, and creates one that does not exist, for its owner alone.
func Open(file string) (people.Store, error) {
	t, err := Tables(file)
	if err != nil {
		return nil, err
	}
	return store.Of(t, t.Close), nil
}

// Tables opens a file as Open does, and returns its tables.
func Tables(file string) (t db.Tables, err error) {
	private, err := os.OpenFile(file, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return t, fmt.Errorf("the list of people cannot be opened: %w", err)
	}
	if err := private.Close(); err != nil {
		return t, err
	}
	t.File, err = db.Schema{
		Of:    "the list of people",
		ID:    applicationID,
		Mend:  "move it away, and set users, links and station keys up again",
		Steps: migrations,
	}.Open(file, true)
	return t, err
}
