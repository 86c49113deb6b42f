// Package depottest holds an engine to the contract of package depot: each sentence of it is one test.
package depottest

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
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
