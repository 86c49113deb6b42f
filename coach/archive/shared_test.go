package archive

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/depot/depottest"
	"halfturn/coach/archive/depot/directory"
	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// at is the logbook that several nodes share, in a file.
type at struct {
	sqlite.Engine
	file string
}

func (e at) Open(_ string, check bool) (logbook.Book, error) { return e.Engine.Open(e.file, check) }

func (e at) OpenReadOnly(string) (logbook.Book, error) { return e.Engine.OpenReadOnly(e.file) }

// A cluster is nodes with one depot and one logbook.
type cluster struct {
	depot *depottest.Switch
	index string
}

func newCluster(t *testing.T) *cluster {
	t.Helper()
	d, err := directory.Open(filepath.Join(t.TempDir(), "depot"))
	must(t, err)
	return &cluster{&depottest.Switch{Depot: d}, filepath.Join(t.TempDir(), "logbook.db")}
}

// node opens a node in a data directory, "" for a new one.
func (c *cluster) node(t *testing.T, name, data string, change func(*Options)) *Archive {
	t.Helper()
	if data == "" {
		data = t.TempDir()
	}
	o := Options{
		Engine:  at{file: c.index},
		Version: "1.2",
		Repair:  true,
		Depot:   Depot{In: c.depot, Node: name, Fresh: -1},
	}
	if change != nil {
		change(&o)
	}
	a, err := Open(data, o)
	must(t, err)
	t.Cleanup(func() { must(t, a.Close()) })
	return a
}

// flown flies a session on a node, ends it, and stores it.
func flown(t *testing.T, a *Archive, began time.Time, student string) string {
	t.Helper()
	id, err := a.Reserve(began, "seat")
	must(t, err)
	r := a.Folders().Record(id, record.Options{})
	for n := range 50 {
		r.Add([]byte(fmt.Sprint("datagram ", n)), netip.AddrPort{}, netip.AddrPort{},
			began.Add(time.Duration(n)*time.Second), "flown by "+student)
	}
	must(t, r.Close())
	e := booktest.Entry(id, began, student)
	e.Key = ""
	graded := reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))
	must(t, a.Begin(*e), a.Keep(id, graded))
	_, err = a.Save(id, graded)
	must(t, err, a.End(id, began.Add(time.Minute)), a.Folders().Finish(id))
	sent(t, a, id)
	return id
}

func sent(t *testing.T, a *Archive, id string) {
	t.Helper()
	if whole, err := a.Send(t.Context(), id, Sending{}); err != nil || !whole {
		t.Fatalf("session %s is whole in the depot: %v, %v", id, whole, err)
	}
}

// bytesIn are the files of a folder that belong to the session.
func bytesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	must(t, filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		if err != nil || e.IsDir() || strings.HasPrefix(e.Name(), ".") {
			return err
		}
		text, err := os.ReadFile(path)
		rel, _ := filepath.Rel(dir, path)
		all[rel] = string(text)
		return err
	}))
	return all
}

func remarked(a *Archive, id, words string) error {
	_, err := a.Remark(who.Owner(), id, logbook.Remark{Words: words, By: "instructor", At: began})
	return err
}

func folderOf(t *testing.T, a *Archive, id string) string {
	t.Helper()
	dir, err := a.Folder(id)
	must(t, err)
	return dir
}

// TestTwoNodes: what is flown or changed on one node is read on the other, to the byte.
func TestTwoNodes(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", "", nil), c.node(t, "b", "", nil)
	id := flown(t, a, began, "Ada Example")
	if list, err := b.List(t.Context(), logbook.Filter{}); err != nil || len(list.Sessions) != 1 {
		t.Fatalf("the other node lists %+v, %v", list, err)
	}
	same := func() {
		t.Helper()
		if d := cmp.Diff(bytesIn(t, folderOf(t, a, id)), bytesIn(t, folderOf(t, b, id))); d != "" {
			t.Errorf("the folders differ (-a +b):\n%s", d)
		}
		if n := len(b.Recording(id)); n != 1 {
			t.Errorf("the other node has %d files of the recording", n)
		}
	}
	same()
	must(t, remarked(b, id, "from b"), a.SetKeep(who.Owner(), id, true), remarked(b, id, "from b again"))
	same()
	_, err := b.Regrade(who.Owner(), id, logbook.Grading{At: began, Maneuver: "wing-over", Standard: "check",
		Report: reportOf(id, flight(1, coach.Finished, coach.Near, coach.Good, 70, ""))})
	must(t, err, a.SetStudent(who.Owner(), id, "Bo Example"))
	same()
	for _, n := range []*Archive{a, b} {
		acts, err := n.Acts(id)
		must(t, err)
		d, err := n.Session(t.Context(), id)
		must(t, err)
		if len(acts) != 4 || len(d.Said) != 2 || !d.Keep || d.Student != "Bo Example" || d.Problem.String() != "" {
			t.Errorf("there are %d acts, and the logbook says %+v", len(acts), d)
		}
	}
	// The index made again of what is in the depot says the same, on a node that has nothing.
	was := whole(t, a)
	fresh := c.node(t, "c", "", nil)
	if n, err := fresh.Rebuild(t.Context(), who.Owner(), nil); n != 1 || err != nil {
		t.Fatalf("rebuilt are %d, %v", n, err)
	}
	if d := cmp.Diff(was, whole(t, a)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
}

// TestTogether: what many do to one session at once on several nodes is all there afterwards, in folders and logbook.
func TestTogether(t *testing.T) {
	c := newCluster(t)
	nodes := []*Archive{c.node(t, "a", "", nil), c.node(t, "b", "", nil), c.node(t, "c", "", nil)}
	id := flown(t, nodes[0], began, "Ada Example")
	var wait sync.WaitGroup
	const each = 6
	for i, n := range nodes {
		wait.Go(func() {
			for k := range each {
				words := fmt.Sprintf("remark %d of node %d", k, i)
				for err := remarked(n, id, words); err != nil; err = remarked(n, id, words) {
					if !errors.Is(err, remote.ErrStale) { // it is told to try again
						t.Error(err)
						return
					}
				}
			}
		})
	}
	wait.Wait()
	for i, n := range nodes {
		acts, err := n.Acts(id)
		must(t, err)
		d, err := n.Session(t.Context(), id)
		must(t, err)
		if len(acts) != each*len(nodes) || len(d.Said) != each*len(nodes) {
			t.Errorf("node %d: %d acts in the folder, %d remarks in the logbook", i, len(acts), len(d.Said))
		}
	}
}

// TestLockedEverywhere: with a logbook that can lock, no change is begun again.
func TestLockedEverywhere(t *testing.T) {
	c := newCluster(t)
	var locks sync.Map
	var stale atomic.Int32
	locking := func(o *Options) { o.Engine = lockingEngine{at{file: c.index}, &locks} }
	nodes := []*Archive{c.node(t, "a", "", locking), c.node(t, "b", "", locking)}
	id := flown(t, nodes[0], began, "Ada Example")
	var wait sync.WaitGroup
	for _, n := range nodes {
		n.onStep = func(step string) {
			if step == stepChecked {
				stale.Add(1)
			}
		}
		wait.Go(func() {
			for k := range 5 {
				if err := remarked(n, id, fmt.Sprint("remark ", k)); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	if n := stale.Load(); n != 10 {
		t.Errorf("10 changes were begun %d times", n)
	}
}

type lockingEngine struct {
	at
	locks *sync.Map
}

func (e lockingEngine) Open(file string, check bool) (logbook.Book, error) {
	b, err := e.at.Open(file, check)
	return lockingBook{b, e.locks}, err
}

type lockingBook struct {
	logbook.Book
	locks *sync.Map
}

func (b lockingBook) LockSession(ctx context.Context, id string) (func(), error) {
	l, _ := b.locks.LoadOrStore(id, make(chan struct{}, 1))
	lock := l.(chan struct{})
	select {
	case lock <- struct{}{}:
		return func() { <-lock }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}
