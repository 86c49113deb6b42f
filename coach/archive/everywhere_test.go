package archive

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// TestRemovedEverywhere: what is removed on one node is gone on the other, also for a node that comes back with its
// copy, and for a rebuild.
func TestRemovedEverywhere(t *testing.T) {
	c := newCluster(t)
	data := t.TempDir()
	a, b := c.node(t, "a", data, nil), c.node(t, "b", "", nil)
	id := flown(t, a, began, "Ada Example")
	stays := flown(t, a, began.Add(time.Hour), "Bo Example")
	folderOf(t, b, id)
	old := Retention{Age: time.Minute}
	gone, err := b.Prune(t.Context(), who.Owner(), old, began.Add(time.Hour+2*time.Minute), false)
	if must(t, err); len(gone) != 1 || gone[0].ID != id {
		t.Fatalf("removed are %+v", gone)
	}
	var none *logbook.NotFound
	for name, n := range map[string]*Archive{"a": a, "b": b} {
		if _, err := n.Folder(id); !errors.As(err, &none) {
			t.Errorf("%s: the folder: %v", name, err)
		}
		if err := remarked(n, id, "too late"); !errors.As(err, &none) {
			t.Errorf("%s: a remark: %v", name, err)
		}
	}
	if n, err := a.Rebuild(t.Context(), who.Owner(), nil); n != 1 || err != nil {
		t.Errorf("rebuilt are %d, %v", n, err)
	}
	must(t, c.depot.List(t.Context(), "", func(o depot.Object) error {
		if strings.Contains(o.Name, id) && o.Size > 0 {
			t.Errorf("the depot still has %s", o.Name)
		}
		return nil
	}))
	if _, err := a.NewID(began, "seat"); err != nil {
		t.Error(err)
	}
	if next, err := b.NewID(began, "seat"); err != nil || next == id {
		t.Errorf("the name of a session that was removed is given again: %q, %v", next, err)
	}
	folderOf(t, b, stays)
}

// TestSizes: retention by size counts what is in the depot, not what is here.
func TestSizes(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", "", nil), c.node(t, "b", "", nil)
	flown(t, a, began, "Ada Example")
	flown(t, a, began.Add(time.Hour), "Bo Example")
	all, err := b.Prune(t.Context(), who.Owner(), Retention{Size: 1}, time.Now(), true)
	if must(t, err); len(all) != 2 || all[0].Bytes < 1000 {
		t.Errorf("removed would be %+v", all)
	}
}

// TestOnlyInTheDepot: opening, repairing and rebuilding on a node without folders takes nothing out of the logbook.
func TestOnlyInTheDepot(t *testing.T) {
	c := newCluster(t)
	a := c.node(t, "a", "", nil)
	for n := range 3 {
		flown(t, a, began.Add(time.Duration(n)*time.Hour), "Ada Example")
	}
	was := whole(t, a)
	check := func(what string, n *Archive) {
		t.Helper()
		if d := cmp.Diff(was, whole(t, n)); d != "" {
			t.Errorf("%s (-was +is):\n%s", what, d)
		}
	}
	b := c.node(t, "b", "", nil)
	check("opened", b)
	if n, err := b.Rebuild(t.Context(), who.Owner(), nil); n != 3 || err != nil {
		t.Errorf("rebuilt are %d, %v", n, err)
	}
	check("rebuilt", b)
	c.depot.Off(true)
	if _, err := b.Rebuild(t.Context(), who.Owner(), nil); !errors.Is(err, depot.ErrAway) {
		t.Errorf("while the depot is away: %v", err)
	}
	check("not rebuilt", b)
	alone := c.node(t, "c", "", nil)
	if list, err := alone.List(t.Context(), logbook.Filter{}); err != nil || !cmp.Equal(list.Sessions, was.Sessions) {
		t.Errorf("opened while the depot is away: %+v, %v", list, err)
	}
	d, err := alone.Session(t.Context(), was.Sessions[0].ID)
	if must(t, err); !strings.Contains(d.Problem.String(), "does not answer; try again later") {
		t.Errorf("why the recording cannot be shown: %q", d.Problem)
	}
	// A logbook that is lost is made of the depot at the next start, and not of the folders here alone.
	must(t, a.Close(), b.Close())
	must(t, os.Rename(c.index, c.index+"-lost"))
	var said string
	lost := c.node(t, "d", "", func(o *Options) { o.Tell = func(words string) { said += words } })
	if _, err := lost.Last(t.Context()); err == nil || !strings.Contains(said, "sessions rebuild") {
		t.Errorf("%v; told is %q", err, said)
	}
	c.depot.Off(false)
	check("made of the depot", c.node(t, "e", "", nil))
}

// TestDepotAway: copies can be read, what this node holds goes on, other sessions are not changed; and what waited is
// stored when the depot is back.
func TestDepotAway(t *testing.T) {
	c := newCluster(t)
	var unsent sync.Map
	a := c.node(t, "a", "", nil)
	b := c.node(t, "b", "", func(o *Options) { o.Depot.Unsent = func(id string) { unsent.Store(id, true) } })
	copied, never := flown(t, a, began, "Ada Example"), flown(t, a, began.Add(time.Hour), "Ada Example")
	before := bytesIn(t, folderOf(t, b, copied))
	c.depot.Off(true)
	if d := cmp.Diff(before, bytesIn(t, folderOf(t, b, copied))); d != "" {
		t.Errorf("the copy (-was +is):\n%s", d)
	}
	_, folder := b.Folder(never)
	for what, err := range map[string]error{
		"a folder that is not here": folder,
		"a remark":                  remarked(b, copied, "not now"),
		"a remark elsewhere":        remarked(b, never, "not now"),
		"removal":                   b.remove(copied),
	} {
		if !errors.Is(err, depot.ErrAway) || !strings.Contains(err.Error(), "try again later") {
			t.Errorf("%s: %v", what, err)
		}
	}
	if d := cmp.Diff(before, bytesIn(t, b.path(copied))); d != "" {
		t.Errorf("after changes that failed (-was +is):\n%s", d)
	}
	id, err := b.folders.New(began.Add(2*time.Hour), "seat")
	must(t, err)
	e := booktest.Entry(id, began.Add(2*time.Hour), "Bo Example")
	must(t, b.Begin(*e), remarked(b, id, "while it is away"), b.End(id, began.Add(3*time.Hour)))
	if _, ok := unsent.Load(id); !ok {
		t.Error("nobody is told that something waits")
	}
	if ids, err := b.Waiting(); err != nil || !slices.Equal(ids, []string{id}) {
		t.Errorf("%q wait, %v", ids, err)
	}
	c.depot.Off(false)
	sent(t, b, id)
	if ids, err := b.Waiting(); err != nil || len(ids) > 0 {
		t.Errorf("%q still wait, %v", ids, err)
	}
	if d := cmp.Diff(bytesIn(t, b.own(id)), bytesIn(t, folderOf(t, a, id))); d != "" {
		t.Errorf("what waited (-b +a):\n%s", d)
	}
}

// TestBothSides: acts of the node that flies a session while the depot is away, and of another that reaches it, are all
// kept.
func TestBothSides(t *testing.T) {
	c := newCluster(t)
	a := c.node(t, "a", "", func(o *Options) { o.Depot.Unsent = func(string) {} })
	b := c.node(t, "b", "", nil)
	id, err := a.NewID(began, "seat")
	must(t, err, record.Mark(a.own(id)), a.Begin(*booktest.Entry(id, began, "Ada Example")))
	if whole, err := a.Send(t.Context(), id, Sending{}); whole || err != nil {
		t.Fatalf("a session that is flown is whole: %v, %v", whole, err)
	}
	must(t, remarked(b, id, "from b")) // to a session that another node flies
	c.depot.Off(true)
	must(t, remarked(a, id, "from a, alone"))
	c.depot.Off(false)
	must(t, remarked(b, id, "from b, meanwhile"))
	_, err = a.Send(t.Context(), id, Sending{})
	must(t, err)
	for name, n := range map[string]*Archive{"a": a, "b": b} {
		acts, err := n.Acts(id)
		must(t, err)
		d, err := n.Session(t.Context(), id)
		must(t, err)
		if len(acts) != 3 || len(d.Said) != 3 {
			t.Errorf("%s: %d acts, %d remarks in the logbook; must be 3", name, len(acts), len(d.Said))
		}
	}
	if !record.Unfinished(b.path(id)) || !record.Unfinished(a.own(id)) {
		t.Error("it does not say that the session goes on")
	}
}

// TestFenced: a node that comes back with a session which another took over stores nothing of it.
func TestFenced(t *testing.T) {
	c := newCluster(t)
	fenced := func(fence uint64) func(*Options) {
		return func(o *Options) { o.Depot.Holds = func(string) (uint64, bool) { return fence, true } }
	}
	a, b := c.node(t, "a", "", fenced(3)), c.node(t, "b", "", fenced(5))
	e := booktest.Entry("2031-05-04T09-00-00Z_seat", began, "Ada Example")
	for _, n := range []*Archive{a, b} {
		must(t, os.Mkdir(n.own(e.ID), 0o750), n.Begin(*e))
	}
	must(t, remarked(b, e.ID, "the successor"))
	if err := remarked(a, e.ID, "the former holder"); !errors.Is(err, remote.ErrFenced) {
		t.Errorf("the former holder: %v", err)
	}
	if _, err := a.Send(t.Context(), e.ID, Sending{}); !errors.Is(err, remote.ErrFenced) {
		t.Errorf("the former holder: %v", err)
	}
	sent(t, b, e.ID)
	if d, err := b.Session(t.Context(), e.ID); err != nil || len(d.Said) != 1 {
		t.Errorf("%+v, %v", d, err)
	}
}

// TestForgottenEverywhere: nothing in the depot holds the name of somebody who is to be forgotten.
func TestForgottenEverywhere(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", "", nil), c.node(t, "b", "", nil)
	hers := flown(t, a, began, "Ada Example")
	his := flown(t, a, began.Add(time.Hour), "Bo Example")
	must(t, remarked(a, his, "as steady as Ada Example"))
	p, err := b.Person(t.Context(), "ada example")
	must(t, err)
	if !slices.Equal(p.Sessions, []string{hers}) || !slices.Equal(p.Named, []string{his}) {
		t.Errorf("known is %+v", p)
	}
	f, err := b.ForgetPerson(t.Context(), who.Owner(), "Ada Example")
	must(t, err)
	if len(f.Left) > 0 || len(f.Damaged) > 0 {
		t.Errorf("left are %q, damaged %q", f.Left, f.Damaged)
	}
	must(t, c.depot.List(t.Context(), "", func(o depot.Object) error {
		text, err := depot.Read(t.Context(), c.depot, o.Name)
		if strings.Contains(string(text), "Ada") {
			t.Errorf("%s still holds the name", o.Name)
		}
		return err
	}))
	if acts, err := a.Acts(his); err != nil || len(acts) != 1 || strings.Contains(acts[0].Words, "Ada") {
		t.Errorf("%+v, %v", acts, err)
	}
	var none *logbook.NotFound
	if _, err := a.Folder(hers); !errors.As(err, &none) {
		t.Errorf("her session: %v", err)
	}
}

// TestForgottenHere: a node removes what it has of a session that was removed on another one, and of one that was
// changed there, without being asked for them. What is only left out of the logbook stays.
func TestForgottenHere(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", "", nil), c.node(t, "b", "", nil)
	hers := flown(t, a, began, "Ada Example")
	his := flown(t, a, began.Add(time.Hour), "Bo Example")
	must(t, remarked(a, his, "as steady as Ada Example"))
	lost := flown(t, a, began.Add(2*time.Hour), "Bo Example")
	has := func(what string, want ...string) {
		t.Helper()
		ids, err := folder.IDs(a.dir)
		if must(t, err); !slices.Equal(ids, want) {
			t.Errorf("%s: a has %q; must have %q", what, ids, want)
		}
	}
	look := func() {
		t.Helper()
		_, err := a.Evict(t.Context(), Eviction{})
		must(t, err)
	}
	look()
	has("nothing happened", hers, his, lost)
	_, err := b.ForgetPerson(t.Context(), who.Owner(), "Ada Example")
	must(t, err, b.book.Forget(lost))
	look()
	has("she is forgotten", his, lost)
	n, err := a.DropOld(t.Context())
	if must(t, err); n != 1 {
		t.Errorf("%d were old", n)
	}
	has("her name was taken out of his", lost)
	if left, _, err := folder.Holding(a.data, "Ada Example"); err != nil || len(left) > 0 {
		t.Errorf("her name is in %q, %v", left, err)
	}
	if acts, err := a.Acts(his); err != nil || len(acts) != 1 {
		t.Errorf("it is not brought again: %+v, %v", acts, err)
	}
}

// TestEvict: what is whole in the depot goes, what was asked for last stays, and what is not stored always does.
func TestEvict(t *testing.T) {
	c := newCluster(t)
	a, b := c.node(t, "a", "", nil), c.node(t, "b", "", nil)
	var ids []string
	for n := range 3 {
		ids = append(ids, flown(t, a, began.Add(time.Duration(n)*time.Hour), "Ada Example"))
		folderOf(t, b, ids[n])
		old := time.Now().Add(-time.Duration(3-n) * time.Hour)
		must(t, os.Chtimes(filepath.Join(b.path(ids[n]), ".depot.json"), old, old))
	}
	held, err := b.folders.New(began.Add(9*time.Hour), "seat")
	must(t, err, os.WriteFile(filepath.Join(b.own(held), folder.NotesFile), []byte("{}"), 0o600))
	if n, err := b.Evict(t.Context(), Eviction{Age: 150 * time.Minute}); n != 1 || err != nil || isDir(b.path(ids[0])) {
		t.Errorf("by age %d are evicted, %v", n, err)
	}
	size, err := sizeOf(b.path(ids[2]))
	must(t, err)
	if n, err := b.Evict(t.Context(), Eviction{Size: size + 10}); n != 1 || err != nil || isDir(b.path(ids[1])) {
		t.Errorf("by size %d are evicted, %v", n, err)
	}
	if n, err := a.Evict(t.Context(), Eviction{Size: 1}); n != 3 || err != nil {
		t.Errorf("of the node that flew them %d are evicted, %v", n, err)
	}
	if n, err := b.Evict(t.Context(), Eviction{Size: 1}); n != 1 || err != nil || !isDir(b.own(held)) {
		t.Errorf("%d are evicted, %v; what is not stored is there: %v", n, err, isDir(b.own(held)))
	}
	for _, id := range ids { // it is brought again
		folderOf(t, a, id)
		folderOf(t, b, id)
	}
	if list, err := a.List(t.Context(), logbook.Filter{}); err != nil || len(list.Sessions) != 3 {
		t.Errorf("%+v, %v", list, err)
	}
}

// TestInterruptedThere breaks off a change of a copy before it is stored: neither folder, depot nor logbook have it.
func TestInterruptedThere(t *testing.T) {
	c := newCluster(t)
	data := t.TempDir()
	a, b := c.node(t, "a", "", nil), c.node(t, "b", data, nil)
	id := flown(t, a, began, "Ada Example")
	was := whole(t, a)
	b.onStep = func(step string) {
		if step == stepNoted {
			panic("the power failed")
		}
	}
	func() {
		defer func() { _ = recover() }()
		_ = remarked(b, id, "never made")
	}()
	must(t, b.Close())
	again := c.node(t, "b", data, nil)
	if d := cmp.Diff(was, whole(t, again)); d != "" {
		t.Errorf("(-was +is):\n%s", d)
	}
	if d := cmp.Diff(bytesIn(t, folderOf(t, a, id)), bytesIn(t, folderOf(t, again, id))); d != "" {
		t.Errorf("(-a +b):\n%s", d)
	}
	must(t, remarked(again, id, "made"))
}
