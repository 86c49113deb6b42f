package directory

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/depottest"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

func TestContract(t *testing.T) {
	depottest.Run(t, func(t *testing.T) depot.Depot {
		d, err := Open(filepath.Join(t.TempDir(), "depot"))
		if err != nil {
			t.Fatal(err)
		}
		return d
	})
}

// TestGone: in the place of a disk that was taken out nothing is made, and every call says that the depot is away.
func TestGone(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "depot")
	d, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	ctx := t.Context()
	_, put := d.Put(ctx, "a/b", strings.NewReader(""), 0)
	_, create := d.Create(ctx, "a/b", strings.NewReader(""), 0)
	_, open := d.Open(ctx, "a/b", 0, -1)
	_, stat := d.Stat(ctx, "a/b")
	for call, err := range map[string]error{
		"put": put, "create": create, "open": open, "stat": stat,
		"list": d.List(ctx, "", func(depot.Object) error { return nil }), "delete": d.Delete(ctx, "a/b"),
	} {
		if !errors.Is(err, depot.ErrAway) {
			t.Errorf("%s: %v", call, err)
		}
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("the directory is made again")
	}
}

// TestUnfinished: what a program was storing when it was stopped is no object, and goes when it is old.
func TestUnfinished(t *testing.T) {
	dir := t.TempDir()
	d, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	now := time.Now()
	for name, at := range map[string]time.Time{"old": now.AddDate(0, 0, -2), "new": now} {
		file := filepath.Join(dir, storing+name)
		if err := errors.Join(os.WriteFile(file, []byte("half"), 0o600), os.Chtimes(file, at, at)); err != nil {
			t.Fatal(err)
		}
	}
	if err := d.List(t.Context(), "", func(o depot.Object) error { return errors.New(o.Name) }); err != nil {
		t.Error(err)
	}
	if n, err := d.Sweep(t.Context(), now.AddDate(0, 0, -1)); n != 1 || err != nil {
		t.Errorf("%d are removed, %v; must be 1", n, err)
	}
	if _, err := os.Stat(filepath.Join(dir, storing+"new")); err != nil {
		t.Error("what another program is storing now is removed")
	}
}
