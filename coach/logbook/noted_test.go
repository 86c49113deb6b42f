package logbook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
)

// changes are what is noted in the folder of a session and in the database.
var changes = map[string]func(b *Book, id string) error{
	"student": func(b *Book, id string) error { return b.SetStudent(id, "Bo Example") },
	"keep":    func(b *Book, id string) error { return b.SetKeep(id, true) },
	"end":     func(b *Book, id string) error { return b.End(id, began.Add(17*time.Hour)) },
	"remark": func(b *Book, id string) error {
		_, err := b.Remark(id, Remark{Leg: 2, Words: "late over the top", By: "B. Example", At: began})
		return err
	},
	"regrade": func(b *Book, id string) error {
		return b.Regrade(id, Grading{At: began, Maneuver: "wing-over", Standard: "check",
			Report: sitting(id, flight(1, coach.Finished, coach.Near, coach.Good, 70, "")), Differences: []string{"leg 1 is near"}})
	},
	"begin": func(b *Book, _ string) error {
		id := "2031-05-05T09-00-00Z_new"
		if err := os.MkdirAll(filepath.Join(b.Dir(), id), 0o750); err != nil {
			return err
		}
		return b.Begin(Entry{ID: id, Station: "new", Student: "Cy Example", Began: began.Add(24 * time.Hour), Cards: cards})
	},
}

// breakOff is the test binary started again: it makes a change, and is gone at one of its steps.
func breakOff(what string) int {
	step, what, _ := strings.Cut(what, " ")
	change, data, _ := strings.Cut(what, " ")
	b, err := Open(data, Options{Version: "1.2"})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	b.onStep = func(at string) {
		if at == step {
			os.Exit(77)
		}
	}
	list, err := b.List(context.Background(), Filter{})
	if err == nil {
		err = changes[change](b, list.Sessions[0].ID)
	}
	fmt.Fprintln(os.Stderr, err)
	return 1 // it did not come to that step
}

// TestBrokenOff breaks off every kind of change at every step. Once the logbook was opened again, folder and database
// say the same: the change was made, or it was not.
func TestBrokenOff(t *testing.T) {
	exe, err := os.Executable()
	must(t, err)
	for _, c := range []struct {
		step string
		made bool
	}{{stepChanged, false}, {stepMarked, false}, {stepNoted, true}, {stepCommitted, true}} {
		for name := range changes {
			t.Run(name+" "+c.step, func(t *testing.T) {
				t.Parallel()
				data, was := sat(t)
				want := was
				if c.made {
					want = changed(t, name)
				}
				cmd := exec.Command(exe)
				cmd.Env = append(os.Environ(), "HALFTURN_TEST_BREAKS="+c.step+" "+name+" "+data)
				said, err := cmd.CombinedOutput()
				var exit *exec.ExitError
				if !errors.As(err, &exit) || exit.ExitCode() != 77 {
					t.Fatalf("%v: %s", err, said)
				}
				b, err := Open(data, Options{Version: "1.2"})
				must(t, err)
				defer b.Close()
				is := whole(t, b)
				if d := cmp.Diff(want, is); d != "" {
					t.Errorf("(-want +is):\n%s", d)
				}
				folderAgrees(t, b)
				if left, _ := filepath.Glob(filepath.Join(data, notingMark+"*")); len(left) > 0 {
					t.Errorf("left %v", left)
				}
				if name == "regrade" || name == "begin" && !c.made {
					return // the command writes the new grades into a file before; a rebuild takes in a bare folder as well
				}
				_, err = b.Rebuild(t.Context(), nil)
				must(t, err)
				if d := cmp.Diff(is, whole(t, b)); d != "" {
					t.Errorf("made of the folders it is another (-was +is):\n%s", d)
				}
			})
		}
	}
}

// changed is the logbook of sat after a change that nothing broke off.
func changed(t *testing.T, name string) everything {
	t.Helper()
	data, _ := sat(t)
	b, err := Open(data, Options{Version: "1.2"})
	must(t, err)
	defer b.Close()
	list, err := b.List(t.Context(), Filter{})
	must(t, err, changes[name](b, list.Sessions[0].ID))
	all := whole(t, b)
	if name == "regrade" { // the file of its grades is missing here: a folder has no such grading
		for _, d := range all.Details {
			d.Regrades = []Regrade{}
		}
	}
	return all
}

// folderAgrees fails when the notes of a session are not what the database says.
func folderAgrees(t *testing.T, b *Book) {
	t.Helper()
	list, err := b.List(t.Context(), Filter{})
	must(t, err)
	for _, s := range list.Sessions {
		n, err := ReadNotes(filepath.Join(b.Dir(), s.ID))
		must(t, err)
		must(t, b.ask(t.Context(), func(tx *sql.Tx) error {
			rows, err := notesOf(tx, s.ID)
			if err != nil {
				return err
			}
			n.Regrades, rows.Regrades = nil, nil
			if d := cmp.Diff(n, rows); d != "" {
				t.Errorf("%s (-folder +database):\n%s", s.ID, d)
			}
			return nil
		}))
	}
}

// A change that the database does not commit is taken back in the folder, and is told of.
func TestCommitFails(t *testing.T) {
	data, was := sat(t)
	b, err := Open(data, Options{Version: "1.2"})
	must(t, err)
	defer b.Close()
	id := was.Sessions[0].ID
	err = b.changeNoted(id, func(tx *sql.Tx) error {
		// A foreign key that leads nowhere, looked at when the change is committed.
		_, err := tx.Exec(`PRAGMA defer_foreign_keys = ON; UPDATE sessions SET keep = 1, student = 4711 WHERE id = ?`, id)
		return err
	})
	if err == nil || !strings.Contains(err.Error(), "constraint") {
		t.Errorf("told: %v", err)
	}
	if d := cmp.Diff(was, whole(t, b)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
	folderAgrees(t, b)
	if left, _ := filepath.Glob(filepath.Join(data, notingMark+"*")); len(left) > 0 {
		t.Errorf("left %v", left)
	}
	must(t, b.SetKeep(id, true))
}

// A removal that breaks off is gone on with at the next start of whoever owns the directory.
func TestRemovalBrokenOff(t *testing.T) {
	for _, step := range []string{stepMarked, stepCommitted} {
		t.Run(step, func(t *testing.T) {
			data, was := sat(t)
			b, err := Open(data, Options{Version: "1.2"})
			must(t, err)
			b.onStep = func(at string) {
				if at == step {
					panic("broken off")
				}
			}
			id := was.Sessions[2].ID
			func() {
				defer func() { _ = recover() }()
				_, _ = b.Prune(t.Context(), Retention{Size: 1}, began.Add(48*time.Hour), false)
				t.Error("it was not broken off")
			}()
			must(t, b.Close())
			b, err = Open(data, Options{Version: "1.2", Repair: true})
			must(t, err)
			defer b.Close()
			list, err := b.List(t.Context(), Filter{})
			must(t, err)
			if list.Total != 2 || list.Sessions[1].ID == id {
				t.Errorf("%d sessions, the oldest is %s", list.Total, list.Sessions[list.Total-1].ID)
			}
			for _, name := range []string{id, goneMark + id} {
				if _, err := os.Stat(filepath.Join(b.Dir(), name)); !errors.Is(err, fs.ErrNotExist) {
					t.Errorf("%s: %v", name, err)
				}
			}
		})
	}
}

// A session is marked while others are removed: it stays, and the others go.
func TestPruneMarkedMeanwhile(t *testing.T) {
	data, was := sat(t)
	b, err := Open(data, Options{Version: "1.2"})
	must(t, err)
	defer b.Close()
	oldest, next, last := was.Sessions[2].ID, was.Sessions[1].ID, was.Sessions[0].ID
	b.onStep = func(at string) {
		if at == stepCommitted { // the oldest is removed
			b.onStep = nil
			must(t, b.SetKeep(next, true))
		}
	}
	gone, err := b.Prune(t.Context(), Retention{Age: time.Hour}, began.Add(48*time.Hour), false)
	if err != nil || len(gone) != 2 || gone[0].ID != oldest || gone[1].ID != last {
		t.Errorf("%+v, %v", gone, err)
	}
	list, err := b.List(t.Context(), Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].ID != next {
		t.Errorf("%+v", list.Sessions)
	}
}
