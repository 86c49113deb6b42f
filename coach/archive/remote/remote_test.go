package remote

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/directory"
	"halfturn/stream/record"
)

const id = "2031-05-04T09-00-07Z_seat"

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// nodes are two nodes with one depot.
func nodes(t *testing.T) (a, b *Sessions) {
	t.Helper()
	d, err := directory.Open(t.TempDir())
	must(t, err)
	return In(d, "a"), In(d, "b")
}

// put writes a file of a session.
func put(t *testing.T, dir, name, text string) {
	t.Helper()
	file := filepath.Join(dir, filepath.FromSlash(name))
	must(t, os.MkdirAll(filepath.Dir(file), 0o750), os.WriteFile(file, []byte(text), 0o600))
}

func text(t *testing.T, dir, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	return string(data)
}

func objects(t *testing.T, s *Sessions, prefix string) (names []string) {
	t.Helper()
	must(t, s.depot.List(t.Context(), prefix, func(o depot.Object) error {
		names = append(names, strings.TrimPrefix(o.Name, prefix))
		return nil
	}))
	return names
}

func push(t *testing.T, s *Sessions, dir string, p Push) *Manifest {
	t.Helper()
	m, err := s.Push(t.Context(), id, dir, p)
	must(t, err)
	return m
}

func bring(t *testing.T, s *Sessions, dir string, whole bool) *Manifest {
	t.Helper()
	m, err := s.Bring(t.Context(), id, dir, whole)
	must(t, err)
	return m
}

var everything = func(string) bool { return true }

// TestPushAndBring: a folder is brought as it was stored; what was changed is stored again, and nothing else; what was
// removed goes.
func TestPushAndBring(t *testing.T) {
	a, b := nodes(t)
	from, to := t.TempDir(), filepath.Join(t.TempDir(), id)
	put(t, from, "notes.json", "{}")
	put(t, from, "cards/maneuver/wing-over.toml", "card")
	put(t, from, record.PartName(1), "recording")
	put(t, from, ".writing-1", "half")
	must(t, record.Mark(from))
	first := push(t, a, from, Push{Held: true, Parts: everything, Whole: true})
	if first.Number != 1 || len(first.Files) != 3 || !first.Whole || first.Node != "a" {
		t.Errorf("stored is %+v", first)
	}
	if again := push(t, a, from, Push{Held: true, Parts: everything, Whole: true}); again.Number != 1 {
		t.Errorf("what was not changed is stored again: %+v", again)
	}
	bring(t, b, to, false)
	if text(t, to, "cards/maneuver/wing-over.toml") != "card" || text(t, to, record.PartName(1)) != "" {
		t.Error("without the recording: a card is missing, or it is there")
	}
	bring(t, b, to, true)
	if text(t, to, record.PartName(1)) != "recording" || Changed(to) || record.Unfinished(to) {
		t.Error("the recording is not as it was stored")
	}
	put(t, to, "notes.json", `{"changed": true}`)
	must(t, os.Remove(filepath.Join(to, "cards", "maneuver", "wing-over.toml")))
	if !Changed(to) {
		t.Error("a change is not seen")
	}
	if m := push(t, b, to, Push{}); m.Number != 2 || len(m.Files) != 2 || !m.Whole {
		t.Errorf("stored is %+v", m)
	}
	bring(t, a, from, true)
	if text(t, from, "notes.json") != `{"changed": true}` || text(t, from, "cards/maneuver/wing-over.toml") != "" {
		t.Error("the change is not brought")
	}
	if n := objects(t, a, "files/"+id+"/"); len(n) != 2 {
		t.Errorf("there are %q; must be the two files of the folder", n)
	}
}

// TestStale: who changes what another changed meanwhile is told so, and stores nothing; with Merge it stores both.
func TestStale(t *testing.T) {
	a, b := nodes(t)
	one, two := t.TempDir(), filepath.Join(t.TempDir(), id)
	const first, x, y = `{"id":"1"}` + "\n", `{"id":"x"}` + "\n", `{"id":"y"}` + "\n"
	put(t, one, "acts.jsonl", first)
	push(t, a, one, Push{Held: true, Fence: 1})
	bring(t, b, two, true)
	put(t, one, "acts.jsonl", first+x)
	put(t, two, "acts.jsonl", first+y)
	push(t, b, two, Push{})
	if _, err := a.Push(t.Context(), id, one, Push{Held: true, Fence: 1}); !errors.Is(err, ErrStale) {
		t.Errorf("the error is %v", err)
	}
	push(t, a, one, Push{Held: true, Fence: 1, Merge: true})
	bring(t, b, two, true)
	for _, dir := range []string{one, two} {
		if is := text(t, dir, "acts.jsonl"); is != first+y+x {
			t.Errorf("acts are %q", is)
		}
	}
}

// TestHeldByAnother: a greater fence refuses, and so does a session of the same name.
func TestHeldByAnother(t *testing.T) {
	a, b := nodes(t)
	one, two := t.TempDir(), t.TempDir()
	put(t, one, "notes.json", `{"a": 1}`)
	put(t, two, "notes.json", `{"b": 1}`)
	push(t, a, one, Push{Held: true, Fence: 3})
	for fence := range uint64(4) {
		if _, err := b.Push(t.Context(), id, two, Push{Held: true, Fence: fence}); !errors.Is(err, ErrFenced) {
			t.Errorf("with fence %d: %v", fence, err)
		}
	}
	push(t, b, two, Push{Held: true, Fence: 4, Merge: true})
	if _, err := a.Push(t.Context(), id, one, Push{Held: true, Fence: 3, Merge: true}); !errors.Is(err, ErrFenced) {
		t.Errorf("the former holder: %v", err)
	}
}

// TestRemoved: what was removed stays so for everybody, and only what says so is left.
func TestRemoved(t *testing.T) {
	a, b := nodes(t)
	one := t.TempDir()
	put(t, one, "notes.json", "a")
	push(t, a, one, Push{Held: true})
	must(t, a.Store(t.Context(), id, 0, Piece{1, 0, 3}, bytes.NewReader([]byte("abc"))))
	must(t, b.Remove(t.Context(), id), b.Remove(t.Context(), id))
	put(t, one, "notes.json", "changed")
	if _, err := a.Push(t.Context(), id, one, Push{Held: true, Merge: true}); !errors.Is(err, ErrRemoved) {
		t.Errorf("the error is %v", err)
	}
	if _, err := b.Bring(t.Context(), id, t.TempDir(), true); !errors.Is(err, ErrRemoved) {
		t.Errorf("the error is %v", err)
	}
	if left := objects(t, a, ""); !slices.Equal(left, []string{manifestName(id, 2)}) {
		t.Errorf("left are %q", left)
	}
	must(t, a.All(t.Context(), func(id string) error { return errors.New(id) }))
	if taken, err := a.Taken(t.Context(), id); !taken || err != nil {
		t.Errorf("its name is taken: %v, %v", taken, err)
	}
}

// TestAll lists the sessions in their order, however often they were changed, and keeps few of their states.
func TestAll(t *testing.T) {
	a, _ := nodes(t)
	var want []string
	for n := range 3 {
		id, dir := fmt.Sprintf("2031-05-04T09-00-0%dZ_seat", n), t.TempDir()
		want = append(want, id)
		for k := range 10 * (n + 1) {
			put(t, dir, "notes.json", fmt.Sprint(k))
			_, err := a.Push(t.Context(), id, dir, Push{Held: true})
			must(t, err)
		}
	}
	var all []string
	must(t, a.All(t.Context(), func(id string) error {
		all = append(all, id)
		return nil
	}))
	if !slices.Equal(all, want) {
		t.Errorf("listed are %q", all)
	}
	if n := len(objects(t, a, manifests+want[2])); n != manifestsKept {
		t.Errorf("%d states are kept", n)
	}
}

// TestPieces: a copy is put together from pieces, goes on where it ended, and stops where one is missing; those under
// another fence do not count.
func TestPieces(t *testing.T) {
	a, b := nodes(t)
	one, two := t.TempDir(), filepath.Join(t.TempDir(), id)
	put(t, one, "notes.json", "a")
	push(t, a, one, Push{Held: true, Fence: 5, Flying: true})
	store := func(fence uint64, part int, offset int64, text string) {
		must(t, a.Store(t.Context(), id, fence, Piece{part, offset, int64(len(text))}, strings.NewReader(text)))
	}
	store(4, 1, 0, "the former holder")
	for _, c := range []struct {
		part   int
		offset int64
		text   string
		want   string
	}{
		{1, 0, "abc", "abc"},
		{1, 3, "def", "abcdef"},
		{1, 3, "xyz", "abcdef"}, // it is written once
		{1, 9, "jkl", "abcdef"}, // one is missing
		{1, 6, "ghi", "abcdefghijkl"},
	} {
		store(5, c.part, c.offset, c.text)
		bring(t, b, two, true)
		if is := text(t, two, record.PartName(1)); is != c.want {
			t.Errorf("after %q from %d it is %q; must be %q", c.text, c.offset, is, c.want)
		}
	}
	if !record.Unfinished(two) {
		t.Error("it is not seen that the session goes on")
	}
	// The part is complete, and compressed: the pieces go, and what was put together from them.
	put(t, one, record.PartName(1)+".zst", "packed")
	push(t, a, one, Push{Held: true, Fence: 5, Flying: true, Parts: everything})
	store(5, 2, 0, "next")
	bring(t, b, two, true)
	for name, want := range map[string]string{
		record.PartName(1): "", record.PartName(1) + ".zst": "packed", record.PartName(2): "next",
	} {
		if is := text(t, two, name); is != want {
			t.Errorf("%s is %q; must be %q", name, is, want)
		}
	}
	if left := objects(t, a, pieces); len(left) != 1 {
		t.Errorf("pieces that are left: %q", left)
	}
}

// TestDamaged: what does not have the sum it was stored with is not brought, and said.
func TestDamaged(t *testing.T) {
	a, b := nodes(t)
	one := t.TempDir()
	put(t, one, "notes.json", "as it was")
	m := push(t, a, one, Push{Held: true, Whole: true})
	name := files + id + "/" + m.Files[0].Object
	_, err := a.depot.Put(t.Context(), name, strings.NewReader("as it is"), -1)
	must(t, err)
	to := t.TempDir()
	if _, err := b.Bring(t.Context(), id, to, true); err == nil || !strings.Contains(err.Error(), "is damaged") {
		t.Errorf("the error is %v", err)
	}
	if is := text(t, to, "notes.json"); is != "" {
		t.Errorf("brought is %q", is)
	}
}

// TestOutside: a manifest that names a file outside the folder is refused.
func TestOutside(t *testing.T) {
	a, b := nodes(t)
	for _, name := range []string{"../x", "/x", "a/../../x"} {
		must(t, a.create(t.Context(), &Manifest{
			Version: form,
			Session: id,
			Number:  1,
			Whole:   true,
			Files:   []File{{Name: name}},
		}))
		if _, err := b.Bring(t.Context(), id, filepath.Join(t.TempDir(), id), true); err == nil ||
			!strings.Contains(err.Error(), "outside its folder") {
			t.Errorf("%q: %v", name, err)
		}
		must(t, a.depot.Delete(t.Context(), manifestName(id, 1)))
	}
}

// TestSuccessorOfUnknown: a copy that was put together from the pieces of a former holder, and whose state is lost, is
// not gone on with from the pieces of its successor.
func TestSuccessorOfUnknown(t *testing.T) {
	a, b := nodes(t)
	first, second, to := t.TempDir(), t.TempDir(), filepath.Join(t.TempDir(), id)
	put(t, first, "notes.json", "{}")
	push(t, a, first, Push{Held: true, Fence: 1, Flying: true})
	must(t, a.Store(t.Context(), id, 1, Piece{Part: 1, Size: 8}, strings.NewReader("first no")))
	bring(t, b, to, true)
	if is := text(t, to, record.PartName(1)); is != "first no" {
		t.Fatalf("brought is %q", is)
	}
	put(t, second, "notes.json", "{}")
	push(t, b, second, Push{Held: true, Fence: 2, Flying: true, Merge: true})
	must(t, b.Store(t.Context(), id, 2, Piece{Part: 1, Size: 16}, strings.NewReader("second node says")))
	must(t, os.Remove(filepath.Join(to, stateFile)))
	bring(t, a, to, true)
	if is := text(t, to, record.PartName(1)); is != "second node says" {
		t.Errorf("brought is %q", is)
	}
}
