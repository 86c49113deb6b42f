package memory

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"testing/synctest"
	"time"

	"go.uber.org/goleak"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/flowtest"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

func TestEngine(t *testing.T) {
	flowtest.Run(t, func(t *testing.T) flowtest.Joiner {
		s := New()
		return func(node string) flow.Engine {
			e := s.Join(node)
			t.Cleanup(func() { e.Close() })
			return e
		}
	})
}

// A store that is stopped keeps callers waiting until it answers again, or their contexts end.
func TestStop(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := New()
		e := s.Join("north")
		defer e.Close()
		s.Stop(true)
		began := time.Now()
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		if _, err := e.Claim(ctx, flow.Lease{Station: "Seat 1"}, ""); !errors.Is(err, flow.ErrAway) ||
			!errors.Is(err, context.DeadlineExceeded) || time.Since(began) != time.Second {
			t.Errorf("%v after %v", err, time.Since(began))
		}
		time.AfterFunc(time.Minute, func() { s.Stop(false) })
		<-time.After(time.Second)
		if got := e.Away(); !got.Equal(began) {
			t.Errorf("away since %v; must be %v", got, began)
		}
		if _, err := e.Claim(t.Context(), flow.Lease{Station: "Seat 1"}, ""); err != nil ||
			time.Since(began) != 61*time.Second {
			t.Errorf("%v after %v", err, time.Since(began))
		}
		if got := e.Away(); !got.IsZero() {
			t.Error("away since", got)
		}
	})
}

// A node that is cut off hears and keeps nothing, while the others go on; what it had claimed may be taken over.
func TestCut(t *testing.T) {
	s := New()
	north, south, west := s.Join("north"), s.Join("south"), s.Join("west")
	for _, e := range []*Engine{north, south, west} {
		defer e.Close()
		if err := e.Answer(func(context.Context, []byte) []byte { return []byte(e.node) }); err != nil {
			t.Fatal(err)
		}
	}
	heard := make(chan string, 10)
	for _, e := range []*Engine{north, south, west} {
		if _, err := e.Listen(flow.Live, "", func(told flow.Told) {
			heard <- fmt.Sprintf("%s from %s", e.node, told.Node)
		}); err != nil {
			t.Fatal(err)
		}
	}
	first, err := north.Claim(t.Context(), flow.Lease{Station: "Seat 1"}, "s1")
	if err != nil {
		t.Fatal(err)
	}
	north.Cut(true)
	north.Tell(flow.Live, "", nil)
	south.Tell(flow.Live, "", nil)
	if got := <-heard; got != "west from south" {
		t.Error(got)
	}
	for _, ask := range []struct {
		from *Engine
		to   string
		err  error
	}{{north, "south", flow.ErrNobody}, {south, "north", flow.ErrNobody}, {south, "west", nil}, {north, "north", nil}} {
		if _, err := ask.from.Ask(t.Context(), ask.to, nil); !errors.Is(err, ask.err) {
			t.Errorf("%s asks %s: %v; must be %v", ask.from.node, ask.to, err, ask.err)
		}
	}
	if _, err := south.Claim(t.Context(), first, "s1"); err != nil {
		t.Error(err)
	}
	time.AfterFunc(10*time.Millisecond, func() { north.Cut(false) })
	b := &flow.Batch{Station: "Seat 1", Fence: first.Fence, Number: 1}
	if err := north.Keep(t.Context(), b); !errors.Is(err, flow.ErrTaken) {
		t.Errorf("kept by a node that was cut off: %v", err)
	}
	north.Tell(flow.Live, "", nil)
	for range 2 {
		<-heard
	}
	if len(heard) > 0 {
		t.Errorf("heard: %q", <-heard)
	}
}

// TestIsolate: a node that is separated from the others alone keeps what it has to keep, and hears nothing.
func TestIsolate(t *testing.T) {
	s := New()
	north, south := s.Join("north"), s.Join("south")
	heard := make(chan string, 10)
	for _, e := range []*Engine{north, south} {
		defer e.Close()
		answered := e.Answer(func(context.Context, []byte) []byte { return nil })
		_, err := e.Listen(flow.Live, "", func(told flow.Told) { heard <- told.Node + " to " + e.node })
		if err := errors.Join(answered, err); err != nil {
			t.Fatal(err)
		}
	}
	for _, isolated := range []bool{true, false} {
		north.Isolate(isolated)
		if got := !north.Alone().IsZero(); got != isolated || !south.Alone().IsZero() || !north.Away().IsZero() {
			t.Errorf("isolated %v: north is alone: %v; south: %v; the store is away: %v", isolated, got, south.Alone(),
				north.Away())
		}
		want := error(nil)
		if isolated {
			want = flow.ErrNobody
		}
		for from, to := range map[*Engine]string{north: "south", south: "north"} {
			from.Tell(flow.Live, "", nil)
			if _, err := from.Ask(t.Context(), to, nil); !errors.Is(err, want) {
				t.Errorf("isolated %v: %s asks %s: %v; must be %v", isolated, from.node, to, err, want)
			}
		}
		if _, err := north.Holder(t.Context(), "Seat 1"); err != nil {
			t.Error(err)
		}
		if isolated && len(heard) > 0 {
			t.Errorf("heard: %q", <-heard)
		}
	}
	got := []string{<-heard, <-heard}
	slices.Sort(got)
	if want := []string{"north to south", "south to north"}; !slices.Equal(got, want) {
		t.Errorf("heard: %q; must be %q", got, want)
	}
}
