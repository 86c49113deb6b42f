package depottest

import (
	"bytes"
	"context"
	"errors"
	"io"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/iotest"

	"halfturn/coach/archive/depot"
)

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
