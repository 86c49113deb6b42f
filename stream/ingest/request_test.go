package ingest

import (
	"context"
	"fmt"
	"net/netip"
	"slices"
	"testing"
	"testing/synctest"
	"time"
)

// A call is a request of the tests: a function that is run with the handler, which ends when that returns true.
type call func(Handler) bool

func (call) Request() {}

// do has a function run with the handler of a sender.
func (h *senders) do(ctx context.Context, address netip.AddrPort, f func(Handler)) error {
	return h.send(ctx, address, call(func(it Handler) bool { f(it); return false }))
}

// finish has a function run that reports whether the handler of a sender ends.
func (h *senders) finish(ctx context.Context, address netip.AddrPort, f func(Handler) bool) error {
	return h.end(ctx, address, call(f))
}

// busy keeps the handler of a sender busy until what it returns is closed.
func (h *hall) busy(t *testing.T) chan struct{} {
	t.Helper()
	goOn := make(chan struct{})
	go h.do(t.Context(), from(1000), func(Handler) { <-goOn })
	synctest.Wait()
	return goOn
}

// A request has its place among the datagrams: it is taken after those that came before it, and before those that
// came after.
func TestRequestsAreInOrder(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{})
		h.send(1000, "first")
		synctest.Wait()
		s, goOn := h.handlers[from(1000)][0], h.busy(t)
		want := []string{"first"}
		for n := range mostRequests {
			text := fmt.Sprint(n)
			h.send(1000, text)
			want = append(want, text, "after "+text)
			go h.do(t.Context(), from(1000), func(it Handler) {
				k := it.(*keeper)
				k.datagrams = append(k.datagrams, "after "+text)
			})
			synctest.Wait() // until it is in the queue
		}
		close(goOn)
		synctest.Wait()
		h.close()
		if !slices.Equal(s.datagrams, want) {
			t.Errorf("taken were %q, must be %q", s.datagrams, want)
		}
	})
}

// Requests that are not taken fill no memory, and those that were given up are never taken.
func TestTooManyRequests(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{Queue: 2})
		h.send(1000, "first")
		synctest.Wait()
		s, goOn := h.handlers[from(1000)][0], h.busy(t)
		for range 10 {
			h.send(1000, "waits")
		}
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		late := func(Handler) { t.Error("taken after it was given up") }
		for range mostRequests {
			go func() {
				if err := h.do(ctx, from(1000), late); err != context.Cause(ctx) {
					t.Errorf("one that waits: %v", err)
				}
			}()
			synctest.Wait()
		}
		if err := h.do(ctx, from(1000), late); err != ErrBusy {
			t.Errorf("one too many: %v", err)
		}
		<-ctx.Done()
		synctest.Wait()
		close(goOn)
		synctest.Wait()
		done := false
		if err := h.do(t.Context(), from(1000), func(Handler) { done = true }); err != nil || !done {
			t.Errorf("once there is room again: %v", err)
		}
		h.close()
		if len(s.datagrams) != 3 { // of those that waited there was room for two
			t.Errorf("taken were %q", s.datagrams)
		}
	})
}

// A request is for the handler that was there when it was sent. Left in the queue, it makes no new one, and is not
// taken by the one that follows.
func TestRequestsOfAnEarlierHandler(t *testing.T) {
	for _, comesBack := range []bool{false, true} {
		synctest.Test(t, func(t *testing.T) {
			h := newHall(Config{})
			h.send(1000, "first")
			synctest.Wait()
			goOn := h.busy(t)
			go h.finish(t.Context(), from(1000), func(Handler) bool { return true })
			synctest.Wait()
			failed := make(chan error, 1)
			go func() {
				failed <- h.do(t.Context(), from(1000), func(Handler) { t.Error("taken after the end") })
			}()
			synctest.Wait()
			if comesBack {
				h.send(1000, "again")
			}
			close(goOn)
			if err := <-failed; err != ErrNotThere {
				t.Errorf("a request behind the one that ended: %v", err)
			}
			synctest.Wait()
			want := 1
			if comesBack {
				want = 2
			}
			if n := len(h.handlers[from(1000)]); n != want {
				t.Errorf("%d handlers were made, must be %d", n, want)
			}
			h.close()
		})
	}
}
