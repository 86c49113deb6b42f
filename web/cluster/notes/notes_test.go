package notes

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rs/zerolog"
)

// Folders below a directory.
type folders string

func (f folders) Aside(id, to string) error {
	if id == "busy" {
		return errors.New("somebody reads it")
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o700); err != nil {
		return err
	}
	err := os.Rename(filepath.Join(string(f), id), to)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}

// TestFlown: what is noted is there after a start, one session for each station; a file that cannot be read is as none.
func TestFlown(t *testing.T) {
	data := t.TempDir()
	n := In(data, folders(data), zerolog.Nop())
	want := map[string]Flown{}
	for i, f := range []Flown{{"A", "a1", 1}, {"B", "b1", 2}, {"A", "a2", 3}, {"B", "", 0}, {"C", "c", 1 << 60}} {
		n.Fly(f.Station, f.Session, f.Fence)
		if want[f.Station] = f; f.Session == "" {
			delete(want, f.Station)
		}
		if diff := cmp.Diff(want, In(data, folders(data), zerolog.Nop()).Flown()); diff != "" {
			t.Errorf("after %d notes (-want +got):\n%s", i+1, diff)
		}
	}
	if err := os.WriteFile(filepath.Join(data, "cluster", flownFile), []byte(`{"A":`), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := In(data, folders(data), zerolog.Nop()).Flown(); len(got) > 0 {
		t.Errorf("of a broken file is read %v", got)
	}
}

// TestManyFly: what many stations note at once is all on the disk once each was told so, and what has landed is not.
func TestManyFly(t *testing.T) {
	data := t.TempDir()
	n := In(data, folders(data), zerolog.Nop())
	name := func(i int) string { return fmt.Sprint("station ", i) }
	var all sync.WaitGroup
	for i := range 50 {
		all.Go(func() {
			n.Fly(name(i), "s", uint64(i+1))
			if f := In(data, folders(data), zerolog.Nop()).Flown()[name(i)]; f.Fence != uint64(i+1) {
				t.Errorf("%s is noted as %+v", name(i), f)
			}
		})
	}
	all.Wait()
	n.Landed([]string{name(3), name(7), "none"})
	got := In(data, folders(data), zerolog.Nop()).Flown()
	if _, is := got[name(7)]; len(got) != 48 || is {
		t.Errorf("%d are noted, %v", len(got), is)
	}
}

// TestAside: folders that are moved aside are listed with their stations until they are removed; one that cannot be
// moved, and one that is not there, are not.
func TestAside(t *testing.T) {
	data := t.TempDir()
	n := In(data, folders(data), zerolog.Nop())
	for _, session := range []string{"one", "two", "busy"} {
		if err := os.Mkdir(filepath.Join(data, session), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	for _, session := range []string{"one", "two", "busy", "none", ""} {
		n.Aside("of "+session, session)
	}
	want := []Left{{"of one", "one", n.folder("one")}, {"of two", "two", n.folder("two")}}
	if diff := cmp.Diff(want, n.Left()); diff != "" {
		t.Errorf("aside (-want +got):\n%s", diff)
	}
	n.Remove("one")
	n.Remove("none")
	if n.IsAside("one") || !n.IsAside("two") || n.IsAside("busy") || len(n.Left()) != 1 {
		t.Errorf("aside are %v", n.Left())
	}
}
