// Package logbook keeps sessions on disk: a folder each, written so that a reader sees
// either the whole of a file or none of it.
package logbook

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"halfturn/coach/debrief"
)

// A Book is a folder of sessions.
type Book struct{ dir string }

// Open makes the folder of a data directory ready for sessions.
func Open(data string) (*Book, error) {
	dir := filepath.Join(data, "sessions")
	if err := os.MkdirAll(dir, 0o750); err != nil {
		return nil, fmt.Errorf("the data directory cannot be used: %w; choose another with --data", err)
	}
	return &Book{dir}, nil
}

// Dir returns the folder of the sessions.
func (b *Book) Dir() string { return b.dir }

// NewID makes the folder of a session that began at a time and returns its name: the time
// (UTC), the station, and a number where two would be the same.
func (b *Book) NewID(began time.Time, station string) (string, error) {
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
func writeWhole(path string, data []byte) (err error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".summary-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	if _, err = f.Write(data); err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}
