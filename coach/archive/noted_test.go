package archive

import (
	"context"
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
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// changes are what is noted in the folder of a session and in the database.
var changes = map[string]func(b *Archive, id string) error{
	"student": func(b *Archive, id string) error { return b.SetStudent(who.Owner(), id, "Bo Example") },
	"keep":    func(b *Archive, id string) error { return b.SetKeep(who.Owner(), id, true) },
	"end":     func(b *Archive, id string) error { return b.End(id, began.Add(17*time.Hour)) },
	"remark": func(b *Archive, id string) error {
		_, err := b.Remark(who.Owner(), id, logbook.Remark{
			Leg:   2,
			Key:   "01RAPX74ERHMQVA329N788TK0R",
			Words: "late over the top",
			By:    "B. Example",
			At:    began,
		})
		return err
	},
	"regrade": func(b *Archive, id string) error {
		_, err := b.Regrade(who.Owner(), id, logbook.Grading{At: began, Maneuver: "wing-over", Standard: "check",
			Report: reportOf(id, flight(1, coach.Finished, coach.Near, coach.Good, 70,
				"")), Differences: []phrase.Phrase{phrase.Plain("leg 1 is near")}})
		return err
	},
	"begin": func(b *Archive, _ string) error {
		id := "2031-05-05T09-00-00Z_new"
		if err := os.MkdirAll(filepath.Join(b.Dir(), id), 0o750); err != nil {
			return err
		}
		return b.Begin(logbook.Entry{ID: id, Station: "new", Student: logbook.Student{Name: "Cy Example"},
			Began: began.Add(24 * time.Hour), Cards: cards})
	},
}

// breakOff is the test binary started again: it makes a change, and is gone at one of its steps.
func breakOff(what string) int {
	step, what, _ := strings.Cut(what, " ")
	change, data, _ := strings.Cut(what, " ")
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	b.onStep = func(at string) {
		if at == step {
			os.Exit(77)
		}
	}
	list, err := b.List(context.Background(), logbook.Filter{})
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
	}{{stepChecked, false}, {stepMarked, false}, {stepNoted, true}, {stepEntered, true}} {
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
				b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
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
				if (name == "regrade" || name == "begin") && !c.made {
					return // a rebuild takes in a file of grades, and a bare folder, as well
				}
				_, err = b.Rebuild(t.Context(), who.Owner(), nil)
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
	b := openedBy(t, data, sqlite.Engine{})
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err, changes[name](b, list.Sessions[0].ID))
	return whole(t, b)
}

// folderAgrees fails when the folder of a session does not say what the logbook does.
func folderAgrees(t *testing.T, b *Archive) {
	t.Helper()
	for _, d := range whole(t, b).Details {
		stored := b.reader().Stored(filepath.Join(b.dir, d.ID), false)
		must(t, stored.Why)
		e, err := b.book.Entry(t.Context(), d.ID)
		must(t, err)
		stored.Entry.Cards, stored.Entry.Student = nil, e.Student
		if diff := cmp.Diff(&stored.Entry, e); diff != "" {
			t.Errorf("%s (-folder +logbook):\n%s", d.ID, diff)
		}
		is := logbook.Standing{Student: e.Student, Keep: d.Keep, Remarks: d.Said, Judging: d.Judging}
		stored.Standing.Student.ID = is.Student.ID
		if diff := cmp.Diff(stored.Standing, is); diff != "" {
			t.Errorf("%s (-folder +logbook):\n%s", d.ID, diff)
		}
	}
}

// failing is a disk that fails while it has an error.
type failing struct{ err error }

// failingEngine keeps books on such a disk.
type failingEngine struct {
	logbook.Engine
	disk *failing
}

func (e failingEngine) Open(file string, check bool) (logbook.Book, error) {
	b, err := e.Engine.Open(file, check)
	return failingBook{b, e.disk}, err
}

type failingBook struct {
	logbook.Book
	disk *failing
}

func (b failingBook) Act(id string, s *logbook.Standing) error {
	if b.disk.err != nil {
		return b.disk.err
	}
	return b.Book.Act(id, s)
}

func (b failingBook) End(id string, at time.Time) error {
	if b.disk.err != nil {
		return b.disk.err
	}
	return b.Book.End(id, at)
}

func (b failingBook) RememberStation(by who.Who, station string, c maneuver.Choice, at time.Time) error {
	if b.disk.err != nil {
		return b.disk.err
	}
	return b.Book.RememberStation(by, station, c, at)
}

// openedBy opens a data directory for the length of a test.
func openedBy(t *testing.T, data string, engine logbook.Engine) *Archive {
	t.Helper()
	b, err := Open(data, Options{Engine: engine, Version: "1.2"})
	must(t, err)
	t.Cleanup(func() { _ = b.Close() }) // a test may have closed it, or have broken what it lies on
	return b
}

// A change that the logbook does not take is taken back in the folder, and is reported.
func TestChangeTakenBack(t *testing.T) {
	data, was := sat(t)
	disk := &failing{}
	b := openedBy(t, data, failingEngine{sqlite.Engine{}, disk})
	id := was.Sessions[0].ID
	disk.err = errors.New("no room")
	for what, err := range map[string]error{"keep": b.SetKeep(who.Owner(), id, true), "end": b.End(id,
		began.Add(99*time.Hour))} {
		if !errors.Is(err, disk.err) {
			t.Errorf("%s: told %v", what, err)
		}
	}
	if d := cmp.Diff(was, whole(t, b)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
	folderAgrees(t, b)
	if left, _ := filepath.Glob(filepath.Join(data, notingMark+"*")); len(left) > 0 {
		t.Errorf("left %v", left)
	}
	disk.err = nil
	must(t, b.SetKeep(who.Owner(), id, true))
	folderAgrees(t, b)
}

// A removal that breaks off is gone on with at the next start of whoever owns the directory.
func TestRemovalBrokenOff(t *testing.T) {
	for _, step := range []string{stepMarked, stepEntered} {
		t.Run(step, func(t *testing.T) {
			data, was := sat(t)
			b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
			must(t, err)
			b.onStep = func(at string) {
				if at == step {
					panic("broken off")
				}
			}
			id := was.Sessions[2].ID
			func() {
				defer func() { _ = recover() }()
				_, _ = b.Prune(t.Context(), who.Owner(), Retention{Size: 1}, began.Add(48*time.Hour), false)
				t.Error("it was not broken off")
			}()
			must(t, b.Close())
			b, err = Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2", Repair: true})
			must(t, err)
			defer b.Close()
			list, err := b.List(t.Context(), logbook.Filter{})
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
	b := openedBy(t, data, sqlite.Engine{})
	oldest, next, last := was.Sessions[2].ID, was.Sessions[1].ID, was.Sessions[0].ID
	b.onStep = func(at string) {
		if at == stepEntered { // the oldest is removed
			b.onStep = nil
			must(t, b.SetKeep(who.Owner(), next, true))
		}
	}
	gone, err := b.Prune(t.Context(), who.Owner(), Retention{Age: time.Hour}, began.Add(48*time.Hour), false)
	if err != nil || len(gone) != 2 || gone[0].ID != oldest || gone[1].ID != last {
		t.Errorf("%+v, %v", gone, err)
	}
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.Sessions[0].ID != next {
		t.Errorf("%+v", list.Sessions)
	}
}
