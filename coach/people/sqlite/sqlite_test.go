package sqlite

import (
	"bytes"
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/logbook/sqlite/db"
	"halfturn/coach/people"
	"halfturn/coach/people/peopletest"
)

func opened(t *testing.T, file string) people.Store {
	t.Helper()
	s, err := Open(file)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func TestStore(t *testing.T) {
	peopletest.Run(t, func(t *testing.T) people.Store { return opened(t, filepath.Join(t.TempDir(), FileName)) })
}

// TestPrograms: several programs on one file are as one store.
func TestPrograms(t *testing.T) {
	file := filepath.Join(t.TempDir(), FileName)
	peopletest.Nodes(t, func(t *testing.T) people.Store { return opened(t, file) })
}

// The file is its owner's alone, and a file of another kind is refused and left as it is.
func TestOpen(t *testing.T) {
	dir := t.TempDir()
	logbook := filepath.Join(dir, "logbook.db")
	f, err := db.Open(logbook, false)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(logbook); err == nil || !strings.Contains(err.Error(), "another program") {
		t.Errorf("a logbook: %v", err)
	}
	torn := filepath.Join(dir, "torn.db")
	if err := os.WriteFile(torn, []byte(strings.Repeat("not a database ", 500)), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(torn); err == nil || !strings.Contains(err.Error(), "the list of people "+torn) {
		t.Errorf("a damaged file: %v", err)
	}
	name := filepath.Join(dir, "people.db")
	s, err := Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	conns, err := sql.Open("sqlite", db.DSN(name))
	if err != nil {
		t.Fatal(err)
	}
	defer conns.Close()
	var id int
	if err := conns.QueryRow(`PRAGMA application_id`).Scan(&id); err != nil || id != applicationID {
		t.Errorf("the application id is %x, %v", id, err)
	}
	if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file is %v, %v", info.Mode(), err)
	}
}

// A file of a newer version is refused, and stays as it is to the byte.
func TestNewerFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), FileName)
	s, err := Open(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	newer, err := sql.Open("sqlite", file)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := newer.Exec("PRAGMA user_version = 99"); err != nil {
		t.Fatal(err)
	}
	if err := newer.Close(); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Open(file); err == nil || !strings.Contains(err.Error(), "newer version of halfturn (shape 99") {
		t.Errorf("%v", err)
	}
	if after, err := os.ReadFile(file); err != nil || !bytes.Equal(before, after) {
		t.Errorf("it was changed: %v", err)
	}
}
