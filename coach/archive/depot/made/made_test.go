package made_test

import (
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/depottest"
	"halfturn/coach/archive/depot/directory"
	"halfturn/coach/archive/depot/made"
)

// TestMade: a depot that is made before it is used is a depot, and is made once.
func TestMade(t *testing.T) {
	depottest.Run(t, func(t *testing.T) depot.Depot {
		d, err := directory.Open(t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		t.Cleanup(func() {
			if n > 1 {
				t.Errorf("it is made %d times", n)
			}
		})
		return made.Of(d, func(context.Context) error { n++; return nil })
	})
}

// TestMadeLater: nothing is read from and stored in a depot that was away and turns out to be somebody else's; once it
// is the right one it is used.
func TestMadeLater(t *testing.T) {
	d, err := directory.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	ctx, swept := t.Context(), 0
	refused := depot.ErrAway
	m := made.Of(sweeping{d, &swept}, func(context.Context) error { return refused })
	for _, refused = range []error{depot.ErrAway, depot.ErrDenied} {
		_, put := m.Put(ctx, "x", strings.NewReader("x"), 1)
		_, create := m.Create(ctx, "x", strings.NewReader("x"), 1)
		_, open := m.Open(ctx, "x", 0, -1)
		_, stat := m.Stat(ctx, "x")
		_, sweep := m.(depot.Sweeper).Sweep(ctx, time.Now())
		for call, err := range map[string]error{
			"put": put, "create": create, "open": open, "stat": stat, "sweep": sweep, "delete": m.Delete(ctx, "x"),
			"list": m.List(ctx, "", func(depot.Object) error { return nil }),
		} {
			if !errors.Is(err, refused) {
				t.Errorf("%s: %v; must be %q", call, err, refused)
			}
		}
	}
	if err := d.List(ctx, "", func(o depot.Object) error { return errors.New(o.Name) }); err != nil || swept > 0 {
		t.Errorf("it holds %v, and was swept %d times", err, swept)
	}
	refused = nil
	_, err = m.Put(ctx, "x", strings.NewReader("x"), 1)
	if _, again := m.(depot.Sweeper).Sweep(ctx, time.Now()); err != nil || again != nil || swept != 1 {
		t.Errorf("%v, %v, swept %d times", err, again, swept)
	}
}

// sweeping is a depot that counts how often it is swept.
type sweeping struct {
	depot.Depot
	n *int
}

func (s sweeping) Sweep(context.Context, time.Time) (int, error) { *s.n++; return 0, nil }
