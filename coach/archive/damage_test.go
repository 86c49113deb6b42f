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
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
)

// However the file is damaged, it is moved aside and rebuilt from the folders, and nothing is lost.
func TestDamaged(t *testing.T) {
	spoil := func(at int64, with []byte) func(t *testing.T, name string) {
		return func(t *testing.T, name string) {
			f, err := os.OpenFile(name, os.O_RDWR, 0)
			must(t, err)
			_, err = f.WriteAt(with, at)
			must(t, err, f.Close())
		}
	}
	for what, damage := range map[string]func(*testing.T, string){
		"another file": func(t *testing.T, name string) {
			must(t, os.WriteFile(name, []byte(strings.Repeat("not a logbook ", 500)), 0o600))
		},
		"head gone":      spoil(0, make([]byte, 100)),
		"schema gone":    spoil(100, []byte(strings.Repeat("\xff", 3996))),
		"cut off":        func(t *testing.T, name string) { must(t, os.Truncate(name, 5000)) },
		"a page of junk": spoil(4096, []byte(strings.Repeat("\xa5", 4096*6))),
	} {
		t.Run(what, func(t *testing.T) {
			data, was := sat(t)
			file := filepath.Join(data, "logbook.db")
			damage(t, file)
			// A journal left behind says that the program was not ended in order: then all is read through.
			must(t, os.WriteFile(file+"-wal", []byte("left behind"), 0o600))
			var told []string
			b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2", Repair: true,
				Tell: func(s string) { told = append(told, s) }})
			if err != nil {
				t.Fatal(err)
			}
			defer b.Close()
			if d := cmp.Diff(was, whole(t, b)); d != "" {
				t.Errorf("rebuilt it is another (-was +is):\n%s", d)
			}
			aside, _ := filepath.Glob(file + ".damaged-*Z")
			if len(aside) != 1 || len(told) == 0 || !strings.Contains(told[0], aside[0]) {
				t.Errorf("aside %v, told %q", aside, told)
			}
		})
	}
}

// Who does not own the data directory leaves a damaged file alone, and says what to do.
func TestDamagedNotOwned(t *testing.T) {
	data, _ := sat(t)
	file := filepath.Join(data, "logbook.db")
	must(t, os.WriteFile(file, []byte(strings.Repeat("not a logbook ", 500)), 0o600))
	for _, o := range []Options{{}, {ReadOnly: true}} {
		o.Engine = sqlite.Engine{}
		if _, err := Open(data, o); err == nil || !strings.Contains(err.Error(), "sessions rebuild") ||
			strings.Contains(err.Error(), "\n") {
			t.Errorf("%+v: %v", o, err)
		}
	}
	if left, _ := filepath.Glob(file + ".damaged-*"); len(left) > 0 {
		t.Errorf("moved aside: %v", left)
	}
}

// Folders that are half written, empty, foreign or damaged do not keep the others out.
func TestRebuildFromRuins(t *testing.T) {
	data, was := sat(t)
	dir := filepath.Join(data, "sessions")
	ruin := func(id, name, text string) {
		must(t, os.MkdirAll(filepath.Join(dir, id), 0o750))
		if name != "" {
			must(t, os.WriteFile(filepath.Join(dir, id, name), []byte(text), 0o600))
		}
	}
	ruin("no-date", "", "")
	ruin("2030-01-01T00-00-00Z_empty", "", "")
	ruin("2030-01-02T00-00-00Z_half", "summary.json", `{"version":1,"files":[{"stat`)
	ruin("2030-01-03T00-00-00Z_junk", "notes.json", "\x00\x01")
	ruin("2030-01-04T00-00-00Z_recorded", "stream-0001.pcapng", "raw")
	ruin(".import-1", "notes.json", "{}")
	must(t, os.WriteFile(filepath.Join(dir, "a-file"), nil, 0o600), os.Remove(filepath.Join(data, "logbook.db")))
	var told []string
	graded := ""
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2",
		Tell: func(s string) { told = append(told, s) }, Regrade: func(dir string) (*debrief.Report, error) {
			graded = filepath.Base(dir)
			r := reportOf(graded, flight(1, coach.Finished, coach.Met, coach.Good, 88, ""))
			r.Session, r.Files[0].Stations[0].Duration = nil, 90
			return r, nil
		}})
	must(t, err)
	defer b.Close()
	all := whole(t, b)
	if len(all.Sessions) != len(was.Sessions)+4 {
		t.Errorf("%d sessions of %d whole and four that have a date", len(all.Sessions), len(was.Sessions))
	}
	if d := cmp.Diff(was.Sessions, all.Sessions[:3]); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
	if r := all.Sessions[3]; graded != "2030-01-04T00-00-00Z_recorded" || r.ID != graded || r.Legs != 1 ||
		*r.Score != 88 || r.Station != "seat" || r.Ended != "2030-01-04T00:01:30Z" {
		t.Errorf("graded again %q: %+v", graded, r)
	}
	text := strings.Join(told, "\n")
	for _, want := range []string{"no-date is left out", "2030-01-02T00-00-00Z_half", "2030-01-03T00-00-00Z_junk"} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing told of %s:\n%s", want, text)
		}
	}
}

// An interrupted rebuild leaves the logbook as it was.
func TestRebuildInterrupted(t *testing.T) {
	data, was := sat(t)
	b, err := Open(data, Options{Engine: sqlite.Engine{}})
	must(t, err)
	defer b.Close()
	ctx, stop := context.WithCancel(context.Background())
	if _, err := b.Rebuild(ctx, who.Owner(), func(done, _ int) { stop() }); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	if d := cmp.Diff(was, whole(t, b)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
}

// A program that is killed in its first rebuild leaves a database that holds nothing; the next start does not take it
// for whole.
func TestRebuildKilled(t *testing.T) {
	data, was := sat(t)
	fresh := t.TempDir()
	b, err := Open(fresh, Options{Engine: sqlite.Engine{}})
	must(t, err)
	must(t, b.Close())
	for _, name := range []string{"logbook.db", "logbook.db-wal", "logbook.db-shm"} {
		must(t, os.RemoveAll(filepath.Join(data, name)))
	}
	must(t, os.Rename(filepath.Join(fresh, "logbook.db"), filepath.Join(data, "logbook.db")))
	b, err = Open(data, Options{Engine: sqlite.Engine{}})
	must(t, err)
	defer b.Close()
	if d := cmp.Diff(was, whole(t, b)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
}

// otherProcess is the test binary started again: it writes remarks while the test does.
func otherProcess(data string) int {
	b, err := Open(data, Options{Engine: sqlite.Engine{}})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	if err := errors.Join(remarks(b, "other"), b.Close()); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}

const manyRemarks = 40

func remarks(b *Archive, by string) error {
	list, err := b.List(context.Background(), logbook.Filter{})
	if err != nil {
		return err
	}
	for n := range manyRemarks {
		if _, err := b.Remark(who.Owner(), list.Sessions[0].ID, logbook.Remark{Words: fmt.Sprint("number ", n),
			By: by}); err != nil {
			return err
		}
	}
	return nil
}

// Two programs write at once, and several goroutines of one: nothing is lost, in the database and
// in the folder.
func TestTwoProcesses(t *testing.T) {
	data, _ := sat(t)
	exe, err := os.Executable()
	must(t, err)
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), "HALFTURN_TEST_WRITES="+data)
	var said strings.Builder
	cmd.Stderr = &said
	must(t, cmd.Start())
	b, err := Open(data, Options{Engine: sqlite.Engine{}})
	must(t, err)
	defer b.Close()
	var wait sync.WaitGroup
	for range 2 {
		wait.Go(func() {
			if err := remarks(b, "this"); err != nil {
				t.Error(err)
			}
		})
	}
	wait.Wait()
	if err := cmd.Wait(); err != nil {
		t.Fatalf("the other process: %v: %s", err, said.String())
	}
	list, err := b.List(context.Background(), logbook.Filter{Limit: 1})
	must(t, err)
	const want = 1 + 3*manyRemarks
	if got := list.Sessions[0].Remarks; got != want {
		t.Errorf("%d remarks, want %d", got, want)
	}
	acts, err := b.Acts(list.Sessions[0].ID)
	if err != nil || len(acts) != want {
		t.Errorf("%d acts in the folder, %v", len(acts), err)
	}
}

// From a disk that cannot be written, what was flown can still be read; a change says why not.
func TestReadOnly(t *testing.T) {
	data, was := sat(t)
	b, err := Open(data, Options{Engine: sqlite.Engine{}, ReadOnly: true})
	must(t, err)
	defer b.Close()
	if d := cmp.Diff(was, whole(t, b)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
	if err := b.SetKeep(who.Owner(), was.Sessions[0].ID, true); err == nil || !strings.Contains(err.Error(),
		"read only") {
		t.Error(err)
	}
	empty := t.TempDir()
	if _, err := Open(empty, Options{Engine: sqlite.Engine{}, ReadOnly: true}); err == nil ||
		!strings.Contains(err.Error(), "nothing was flown") {
		t.Error(err)
	}
	if entries, _ := os.ReadDir(empty); len(entries) > 0 {
		t.Errorf("left %v", entries)
	}
}

// A change that the logbook does not take, as of a full disk, changes nothing, and is over when it does again.
func TestDiskFull(t *testing.T) {
	data, was := sat(t)
	disk := &failing{}
	b := openedBy(t, data, failingEngine{sqlite.Engine{}, disk})
	id := was.Sessions[0].ID
	disk.err = &logbook.Failure{Words: "the disk is full", Unwritable: true}
	if _, err := b.Remark(who.Owner(), id, logbook.Remark{Words: "late"}); err == nil || !strings.Contains(err.Error(),
		"disk is full") {
		t.Fatal(err)
	}
	same(t, was, b)
	disk.err = nil
	r, err := b.Remark(who.Owner(), id, logbook.Remark{Words: "late"})
	if err != nil || r.ID != 2 {
		t.Errorf("%d, %v", r.ID, err)
	}
	folderAgrees(t, b)
}

func TestPrune(t *testing.T) {
	b := open(t)
	var ids []string
	for n := range 5 {
		at := began.Add(time.Duration(n) * 24 * time.Hour)
		id := entered(t, b, at, "")
		must(t, os.WriteFile(filepath.Join(b.Dir(), id, "stream-0001.pcapng"), make([]byte, 100_000), 0o600), b.End(id,
			at.Add(time.Hour)))
		ids = append(ids, id)
	}
	must(t, b.SetKeep(who.Owner(), ids[0], true))
	flying := entered(t, b, began, "") // as old as the first, but not over
	now := began.Add(100 * time.Hour)
	ctx := context.Background()
	names := func(list []Pruned) (all []string) {
		for _, p := range list {
			all = append(all, p.ID+" "+p.Why)
		}
		return all
	}
	want := []string{ids[1] + " age"}
	for _, dry := range []bool{true, false} {
		gone, err := b.Prune(ctx, who.Owner(), Retention{Age: 72 * time.Hour}, now, dry)
		if d := cmp.Diff(want, names(gone)); d != "" || err != nil {
			t.Errorf("by age, dry %v: %v %s", dry, err, d)
		}
	}
	gone, err := b.Prune(ctx, who.Owner(), Retention{Size: 250_000}, now, false)
	if d := cmp.Diff([]string{ids[2] + " size", ids[3] + " size"}, names(gone)); d != "" || err != nil {
		t.Errorf("by size: %v %s", err, d)
	}
	gone, err = b.Prune(ctx, who.Owner(), Retention{Size: 1, Age: 1}, now, false)
	if d := cmp.Diff([]string{ids[4] + " age"}, names(gone)); d != "" || err != nil {
		t.Errorf("all that may go: %v %s", err, d)
	}
	for _, id := range ids {
		_, err := os.Stat(filepath.Join(b.Dir(), id))
		if kept := id == ids[0]; errors.Is(err, fs.ErrNotExist) == kept {
			t.Errorf("%s: %v", id, err)
		}
	}
	list, err := b.List(ctx, logbook.Filter{})
	must(t, err)
	if len(list.Sessions) != 2 || list.Sessions[0].ID != flying && list.Sessions[1].ID != flying {
		t.Errorf("%+v", list.Sessions)
	}
	if gone, err := b.Prune(ctx, who.Owner(), Retention{}, now, false); err != nil || len(gone) > 0 {
		t.Errorf("by nothing: %v, %v", gone, err)
	}
}

func TestBackup(t *testing.T) {
	data, was := sat(t)
	b := openedBy(t, data, sqlite.Engine{})
	there := t.TempDir()
	to := filepath.Join(there, "logbook.db")
	must(t, b.Backup(context.Background(), to))
	c, err := Open(there, Options{Engine: sqlite.Engine{}, ReadOnly: true, Version: "1.2"})
	must(t, err)
	defer c.Close()
	is := whole(t, c)
	for i := range is.Details {
		is.Details[i].Problem = was.Details[i].Problem // its folder is elsewhere
	}
	if d := cmp.Diff(was, is); d != "" {
		t.Errorf("(-was +copy):\n%s", d)
	}
	before, err := os.ReadFile(to)
	must(t, err)
	if err := b.Backup(context.Background(), to); err == nil || !strings.Contains(err.Error(), "there already") {
		t.Error(err)
	}
	after, err := os.ReadFile(to)
	if err != nil || string(before) != string(after) {
		t.Error("written over")
	}
	if err := b.Backup(context.Background(), filepath.Join(there, "no", "x.db")); err == nil ||
		!strings.Contains(err.Error(), "no directory") {
		t.Error(err)
	}
	if left, _ := filepath.Glob(filepath.Join(there, "*.part")); len(left) > 0 {
		t.Errorf("left %v", left)
	}
}
