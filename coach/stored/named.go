package stored

import (
	"context"
	"errors"
	"os"
	"path/filepath"

	"halfturn/coach/archive"
	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
)

// Last stands for the newest session wherever one is named.
const Last = "last"

// Named returns the name of the newest session of a data directory for [Last], and what was named otherwise: a session
// or a file. Without a logbook the folders say which is the newest.
func Named(ctx context.Context, data, named string, engine logbook.Engine) (id string, err error) {
	if named != Last {
		return named, nil
	}
	if !HasLogbook(data) {
		return folder.LastID(data)
	}
	book, err := archive.Open(data, archive.Options{Engine: engine, ReadOnly: true})
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	return book.Last(ctx)
}

// HasLogbook reports whether a data directory has a logbook.
func HasLogbook(data string) bool {
	_, err := os.Stat(filepath.Join(data, "logbook.db"))
	return err == nil
}

// HasSessions reports whether a data directory has session folders.
func HasSessions(data string) bool {
	_, err := os.Stat(folder.Sessions(data))
	return err == nil
}
