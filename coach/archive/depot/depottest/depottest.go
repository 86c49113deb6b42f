// Package depottest holds an engine to the contract of package depot: each sentence of it is one test.
package depottest

import (
	"bytes"
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/iotest"
	"time"

	"halfturn/coach/archive/depot"
)

// Run tests the depots that fresh returns: each call an empty one of its own.
func Run(t *testing.T, fresh func(t *testing.T) depot.Depot) {
	for name, test := range map[string]func(*testing.T, depot.Depot){
		"put and read":                     putAndRead,
		"sizes":                            sizes,
		"an unknown length":                unknownLength,
		"a wrong length":                   wrongLength,
		"put replaces":                     replaces,
		"create is once":                   once,
		"one of many creates":              oneOfMany,
		"ranges":                           ranges,
		"what is not there":                missing,
		"a failing reader leaves nothing":  failingReader,
		"a canceled call leaves nothing":   canceled,
		"lists are in order":               listed,
		"a list ends with an error":        listEnds,
		"delete":                           deleted,
		"names":                            names,
		"whole or not at all":              whole,
		"it says where it is":              says,
		"many at once":                     together,
		"a reader that is not read to end": abandoned,
	} {
		t.Run(name, func(t *testing.T) { test(t, fresh(t)) })
	}
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func put(t *testing.T, d depot.Depot, name, text string) depot.Object {
	t.Helper()
	o, err := d.Put(t.Context(), name, strings.NewReader(text), int64(len(text)))
	must(t, err)
	return o
}

func read(t *testing.T, d depot.Depot, name string, from, length int64) string {
	t.Helper()
	r, err := d.Open(t.Context(), name, from, length)
	must(t, err)
	data, err := io.ReadAll(r)
	must(t, err, r.Close())
	return string(data)
}

func sum(data []byte) string {
	is := sha256.Sum256(data)
	return hex.EncodeToString(is[:])
}

func is(t *testing.T, err, sentinel error) {
	t.Helper()
	if !errors.Is(err, sentinel) {
		t.Errorf("the error is %v; must be %q", err, sentinel)
	}
}

func list(t *testing.T, d depot.Depot, prefix string) (names []string) {
	t.Helper()
	must(t, d.List(t.Context(), prefix, func(o depot.Object) error {
		names = append(names, o.Name)
		return nil
	}))
	return names
}

func putAndRead(t *testing.T, d depot.Depot) {
	before := time.Now().Add(-time.Minute)
	o := put(t, d, "a/b.json", "some text")
	if o.Name != "a/b.json" || o.Size != 9 || o.Sum != sum([]byte("some text")) {
		t.Errorf("stored is %+v", o)
	}
	is, err := d.Stat(t.Context(), "a/b.json")
	must(t, err)
	if is.Name != o.Name || is.Size != o.Size || is.Sum != o.Sum || is.Stored.Before(before) {
		t.Errorf("known of it is %+v", is)
	}
	if text := read(t, d, "a/b.json", 0, -1); text != "some text" {
		t.Errorf("read is %q", text)
	}
}

// sizes holds what is stored to what is read, at the edges of blocks and parts.
func sizes(t *testing.T, d depot.Depot) {
	for name, n := range map[string]int{"empty": 0, "one": 1, "part": 5 << 20, "parts": 11<<20 + 777} {
		data := make([]byte, n)
		_, _ = rand.Read(data) // it never fails
		o, err := d.Put(t.Context(), name, bytes.NewReader(data), int64(n))
		must(t, err)
		if o.Sum != sum(data) || o.Size != int64(n) {
			t.Errorf("%s: stored is %+v", name, o)
		}
		if got := read(t, d, name, 0, -1); got != string(data) {
			t.Errorf("%s: %d bytes are read otherwise than they were stored", name, n)
		}
	}
}

func unknownLength(t *testing.T, d depot.Depot) {
	for name, n := range map[string]int{"empty": 0, "small": 1000, "parts": 6 << 20} {
		data := bytes.Repeat([]byte("x"), n)
		o, err := d.Put(t.Context(), name, iotest.OneByteReader(io.LimitReader(bytes.NewReader(data), 3)), -1)
		must(t, err)
		if o.Size != int64(min(n, 3)) {
			t.Errorf("%s: stored are %d bytes", name, o.Size)
		}
		o, err = d.Put(t.Context(), name, io.MultiReader(bytes.NewReader(data)), -1)
		must(t, err)
		if o.Size != int64(n) || o.Sum != sum(data) || read(t, d, name, 0, -1) != string(data) {
			t.Errorf("%s: %d bytes of %d are stored", name, o.Size, n)
		}
	}
}

func wrongLength(t *testing.T, d depot.Depot) {
	for _, size := range []int64{0, 3, 5, 6 << 20} {
		if _, err := d.Put(t.Context(), "x", strings.NewReader("four"), size); err == nil {
			t.Errorf("four bytes are stored as %d", size)
		}
		_, err := d.Stat(t.Context(), "x")
		is(t, err, depot.ErrNotFound)
	}
}

func replaces(t *testing.T, d depot.Depot) {
	put(t, d, "x", "before")
	put(t, d, "x", "after")
	if text := read(t, d, "x", 0, -1); text != "after" {
		t.Errorf("read is %q", text)
	}
}

func once(t *testing.T, d depot.Depot) {
	for _, size := range []int64{-1, 5} {
		name := map[bool]string{true: "known", false: "unknown"}[size > 0]
		_, err := d.Create(t.Context(), name, strings.NewReader("first"), size)
		must(t, err)
		_, err = d.Create(t.Context(), name, strings.NewReader("other"), size)
		is(t, err, depot.ErrExists)
		if text := read(t, d, name, 0, -1); text != "first" {
			t.Errorf("read is %q", text)
		}
	}
	must(t, d.Delete(t.Context(), "known"))
	_, err := d.Create(t.Context(), "known", strings.NewReader("again"), 5)
	must(t, err)
}

func oneOfMany(t *testing.T, d depot.Depot) {
	var wait sync.WaitGroup
	var created atomic.Int32
	var winner atomic.Pointer[string]
	for i := range 8 {
		wait.Go(func() {
			text := strings.Repeat(string(rune('a'+i)), 1000)
			_, err := d.Create(t.Context(), "contended/name", strings.NewReader(text), int64(len(text)))
			switch {
			case err == nil:
				created.Add(1)
				winner.Store(&text)
			case !errors.Is(err, depot.ErrExists):
				t.Error(err)
			}
		})
	}
	wait.Wait()
	if n := created.Load(); n != 1 {
		t.Fatalf("%d of 8 created it; must be 1", n)
	}
	if read(t, d, "contended/name", 0, -1) != *winner.Load() {
		t.Error("what is there is not of the one who created it")
	}
}

func ranges(t *testing.T, d depot.Depot) {
	put(t, d, "x", "0123456789")
	for _, c := range []struct {
		from, length int64
		want         string
	}{
		{0, -1, "0123456789"},
		{0, 0, ""},
		{0, 4, "0123"},
		{3, 4, "3456"},
		{3, -1, "3456789"},
		{8, 100, "89"},
		{9, 1, "9"},
		{10, -1, ""},
		{10, 5, ""},
		{1000, -1, ""},
		{1000, 5, ""},
	} {
		if got := read(t, d, "x", c.from, c.length); got != c.want {
			t.Errorf("%d bytes from %d are %q; must be %q", c.length, c.from, got, c.want)
		}
	}
	put(t, d, "empty", "")
	if got := read(t, d, "empty", 0, -1); got != "" {
		t.Errorf("an empty object reads as %q", got)
	}
}

func missing(t *testing.T, d depot.Depot) {
	_, err := d.Open(t.Context(), "none", 0, -1)
	is(t, err, depot.ErrNotFound)
	_, err = d.Open(t.Context(), "none", 5, 5)
	is(t, err, depot.ErrNotFound)
	_, err = d.Stat(t.Context(), "none")
	is(t, err, depot.ErrNotFound)
	put(t, d, "folder/x", "")
	_, err = d.Stat(t.Context(), "folder/y")
	is(t, err, depot.ErrNotFound)
}

func failingReader(t *testing.T, d depot.Depot) {
	broken := errors.New("the disk broke")
	for _, n := range []int{0, 10, 6 << 20} {
		r := io.MultiReader(bytes.NewReader(make([]byte, n)), iotest.ErrReader(broken))
		for _, size := range []int64{-1, int64(n) + 10} {
			_, err := d.Put(t.Context(), "x", io.MultiReader(r), size)
			if !errors.Is(err, broken) {
				t.Errorf("after %d bytes of %d: %v", n, size, err)
			}
			r = iotest.ErrReader(broken)
		}
	}
	if all := list(t, d, ""); len(all) > 0 {
		t.Errorf("there are %q", all)
	}
}

func canceled(t *testing.T, d depot.Depot) {
	put(t, d, "there", "text")
	over, end := context.WithCancel(t.Context())
	end()
	errs := map[string]error{}
	_, errs["put"] = d.Put(over, "x", strings.NewReader("text"), 4)
	_, errs["create"] = d.Create(over, "x", strings.NewReader("text"), -1)
	_, errs["open"] = d.Open(over, "there", 0, -1)
	_, errs["stat"] = d.Stat(over, "there")
	errs["list"] = d.List(over, "", func(depot.Object) error { return nil })
	errs["delete"] = d.Delete(over, "there")
	for call, err := range errs {
		if !errors.Is(err, context.Canceled) && !errors.Is(err, depot.ErrAway) {
			t.Errorf("%s: %v", call, err)
		}
	}
	// And in the middle of what is stored.
	during, end := context.WithCancel(t.Context())
	defer end()
	r := io.MultiReader(bytes.NewReader(make([]byte, 6<<20)), ending{end}, bytes.NewReader(make([]byte, 6<<20)))
	if _, err := d.Put(during, "x", r, -1); err == nil {
		t.Error("an object is stored whose context ended")
	}
	if all := list(t, d, ""); !slices.Equal(all, []string{"there"}) {
		t.Errorf("there are %q", all)
	}
}

// An ending ends a context where it is read.
type ending struct{ end context.CancelFunc }

func (e ending) Read([]byte) (int, error) {
	e.end()
	return 0, io.EOF
}

func listed(t *testing.T, d depot.Depot) {
	all := []string{"a/1", "a/10", "a/2", "ab/1", "b-1", "b/1/x", "b/1/y", "b/2", "c"}
	for _, i := range []int{5, 0, 8, 3, 1, 7, 2, 6, 4} {
		put(t, d, all[i], all[i])
	}
	for prefix, want := range map[string][]string{
		"":       all,
		"a":      all[:4],
		"a/":     all[:3],
		"a/1":    all[:2],
		"b":      all[4:8],
		"b/1/":   all[5:7],
		"b/1/y":  all[6:7],
		"none":   nil,
		"none/x": nil,
		"c":      all[8:],
	} {
		if got := list(t, d, prefix); !slices.Equal(got, want) {
			t.Errorf("of %q there are %q; must be %q", prefix, got, want)
		}
	}
	must(t, d.List(t.Context(), "c", func(o depot.Object) error {
		if o.Size != 1 || o.Stored.IsZero() {
			t.Errorf("listed is %+v", o)
		}
		return nil
	}))
}

func listEnds(t *testing.T, d depot.Depot) {
	put(t, d, "a", "")
	put(t, d, "b", "")
	enough, calls := errors.New("enough"), 0
	err := d.List(t.Context(), "", func(depot.Object) error {
		calls++
		return enough
	})
	if !errors.Is(err, enough) || calls != 1 {
		t.Errorf("after %d calls: %v", calls, err)
	}
}

func deleted(t *testing.T, d depot.Depot) {
	put(t, d, "a/x", "text")
	must(t, d.Delete(t.Context(), "a/x"), d.Delete(t.Context(), "a/x"), d.Delete(t.Context(), "never/there"))
	_, err := d.Stat(t.Context(), "a/x")
	is(t, err, depot.ErrNotFound)
	if all := list(t, d, ""); len(all) > 0 {
		t.Errorf("there are %q", all)
	}
}

func names(t *testing.T, d depot.Depot) {
	long := strings.Repeat("x", 200) + "/" + strings.Repeat("y", 200)
	for _, name := range []string{"A-z_0.9", "a/b/c/d/e", long} {
		put(t, d, name, name)
		if read(t, d, name, 0, -1) != name {
			t.Errorf("%q reads otherwise", name)
		}
	}
	for _, name := range []string{
		"", "/", "a/", "/a", "a//b", ".", "..", "a/../b", "../a", ".a", "a b", "a\\b", "ä", "a\x00", "\xff", "a\nb",
		strings.Repeat("x", 1000),
	} {
		_, put := d.Put(t.Context(), name, strings.NewReader(""), 0)
		_, create := d.Create(t.Context(), name, strings.NewReader(""), 0)
		_, open := d.Open(t.Context(), name, 0, -1)
		_, stat := d.Stat(t.Context(), name)
		for call, err := range map[string]error{
			"put": put, "create": create, "open": open, "stat": stat, "delete": d.Delete(t.Context(), name),
		} {
			if err == nil || !strings.Contains(err.Error(), "cannot be the name of an object") {
				t.Errorf("%s of %q: %v", call, name, err)
			}
		}
	}
}

// whole reads an object again and again while it is replaced.
func whole(t *testing.T, d depot.Depot) {
	texts := []string{strings.Repeat("a", 100_000), strings.Repeat("b", 100_000)}
	put(t, d, "x", texts[0])
	var wait sync.WaitGroup
	defer wait.Wait()
	done := make(chan struct{})
	wait.Go(func() {
		defer close(done)
		for i := range 20 {
			if _, err := d.Put(t.Context(), "x", strings.NewReader(texts[i%2]), 100_000); err != nil {
				t.Error(err)
			}
		}
	})
	for {
		if got := read(t, d, "x", 0, -1); !slices.Contains(texts, got) {
			t.Fatalf("%d bytes are read that were never stored", len(got))
		}
		select {
		case <-done:
			return
		default:
		}
	}
}

func says(t *testing.T, d depot.Depot) {
	if d.String() == "" {
		t.Error("it does not say where it is")
	}
	_, err := d.Stat(t.Context(), "none")
	if err == nil || !strings.Contains(err.Error(), d.String()) {
		t.Errorf("the error does not say that it is of %s: %v", d, err)
	}
}

func together(t *testing.T, d depot.Depot) {
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			name := "many/" + string(rune('a'+i))
			for n := range 5 {
				data := bytes.Repeat([]byte{byte(i)}, 1000*n)
				o, err := d.Put(t.Context(), name, bytes.NewReader(data), int64(len(data)))
				if err != nil || o.Sum != sum(data) {
					t.Errorf("%s: %+v, %v", name, o, err)
				}
			}
		})
	}
	wait.Wait()
	if n := len(list(t, d, "many/")); n != 8 {
		t.Errorf("there are %d objects; must be 8", n)
	}
}

func abandoned(t *testing.T, d depot.Depot) {
	put(t, d, "x", strings.Repeat("x", 1<<20))
	for range 20 { // it must let go of what it holds
		r, err := d.Open(t.Context(), "x", 0, -1)
		must(t, err)
		_, err = io.ReadFull(r, make([]byte, 10))
		must(t, err, r.Close())
	}
}
