package ingest

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/netip"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"
)

// A handler that is ended is gone when End returns; the sender's next datagram makes a new one.
func TestEnd(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{})
		agree := func(Handler) bool { return true }
		h.send(1000, "a")
		synctest.Wait()
		if err := h.finish(t.Context(), from(1000), func(Handler) bool { return false }); err != nil ||
			h.handlers[from(1000)][0].ends.Load() != 0 {
			t.Errorf("it did not agree, %v, and is ended", err)
		}
		if err := h.finish(t.Context(), from(1000), agree); err != nil || h.handlers[from(1000)][0].ends.Load() != 1 ||
			len(h.addresses()) != 0 {
			t.Errorf("%v, ended %d times, stations %v", err, h.handlers[from(1000)][0].ends.Load(), h.addresses())
		}
		for _, port := range []int{1000, 1} {
			if err := h.finish(t.Context(), from(port), agree); err != ErrNotThere {
				t.Errorf("a station that is not there: %v", err)
			}
		}
		h.send(1000, "b")
		h.close()
		if s := h.handlers[from(1000)]; len(s) != 2 || len(s[1].datagrams) != 1 {
			t.Errorf("%d handlers", len(s))
		}
	})
}

// A slow handler takes its time to be made and to end, and notes the datagrams of all handlers of its sender.
type slow struct {
	sender *slowSender
	end    time.Duration
}

type slowSender struct {
	started, made int // both of one goroutine at a time
	datagrams     []string
}

func (s *slow) Datagram(b []byte, _ time.Time) {
	s.sender.datagrams = append(s.sender.datagrams, string(b))
}
func (s *slow) Take(r Request) bool { return r.(call)(s) }
func (s *slow) Tick(time.Time)      {}
func (s *slow) End() {
	<-time.After(s.end) // of the bubble's own time
	s.sender.started--
}

// A few hundred senders fall silent for about as long as they may, and come back while their handler is ending, or has
// just ended. None has two handlers at a time, and nothing is lost. The factories look for every other sender, as those
// do that look for the handler of a simulator that was started again.
func TestReturnsAroundExpiry(t *testing.T) {
	const addresses, each = 300, 20
	synctest.Test(t, func(t *testing.T) {
		random := rand.New(rand.NewPCG(1, 2))
		var mu sync.Mutex
		upTo := func(d time.Duration) time.Duration {
			mu.Lock()
			defer mu.Unlock()
			return time.Duration(random.Int64N(int64(d)))
		}
		all := make([]slowSender, addresses)
		config := Config{Idle: 5 * time.Second, Metrics: nil, Warn: func(err error) { t.Error(err) }}
		config.fill()
		var h *senders
		h = newSenders(config, func(a netip.AddrPort) Handler {
			s := &all[a.Port()]
			s.made++
			if s.started++; s.started != 1 {
				t.Errorf("%v has %d handlers", a, s.started)
			}
			_ = h.do(t.Context(), a, func(Handler) { t.Error("a sender has a handler before it is made") })
			_ = h.do(t.Context(), from(int(upTo(addresses))), func(Handler) {})
			<-time.After(upTo(300 * time.Millisecond))
			return &slow{s, upTo(time.Second)}
		})
		var wait sync.WaitGroup
		for port := range addresses {
			wait.Go(func() {
				for n := range each {
					h.deliver(nil, from(port), fmt.Append(nil, n), time.Now())
					<-time.After(config.Idle - 100*time.Millisecond + upTo(1500*time.Millisecond))
				}
			})
		}
		wait.Wait()
		h.close()
		want, handlers := make([]string, each), 0
		for n := range want {
			want[n] = fmt.Sprint(n)
		}
		for port := range all {
			s := &all[port]
			handlers += s.made
			if s.started != 0 || !slices.Equal(s.datagrams, want) {
				t.Errorf("sender %d: %d handlers not ended, got %v", port, s.started, s.datagrams)
			}
		}
		if handlers < 10*addresses {
			t.Errorf("only %d handlers: that proves little", handlers)
		}
	})
}

// Factories that look for each other's handlers do not wait for each other; nor does one wait for a handler that is
// ending.
func TestFactoriesLookForEachOther(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		config := Config{Idle: time.Second}
		config.fill()
		var h *senders
		var both, asked sync.WaitGroup
		both.Add(2)
		asked.Add(2)
		h = newSenders(config, func(a netip.AddrPort) Handler {
			if a == from(1) {
				return &slow{&slowSender{}, time.Hour}
			}
			both.Done()
			both.Wait() // now both are being made
			other := from(2001 - int(a.Port()))
			before := time.Now()
			if err := h.do(t.Context(), other, func(Handler) { t.Error("there is a handler") }); err != ErrNotThere {
				t.Errorf("Do: %v", err)
			}
			if err := h.finish(t.Context(), other,
				func(Handler) bool { t.Error("there is a handler"); return true }); err != ErrNotThere {
				t.Errorf("End: %v", err)
			}
			if waited := time.Since(before); waited != 0 {
				t.Errorf("it waited %v", waited)
			}
			asked.Done()
			asked.Wait()
			return &slow{&slowSender{}, 0}
		})
		h.deliver(nil, from(1000), []byte("a"), time.Now())
		h.deliver(nil, from(1001), []byte("a"), time.Now())
		h.deliver(nil, from(1), []byte("a"), time.Now())
		<-time.After(2 * time.Second) // all have been silent for long, and one takes an hour to end
		if err := h.do(t.Context(), from(1), func(Handler) { t.Error("it is ending") }); err != ErrNotThere {
			t.Errorf("Do: %v", err)
		}
		ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
		defer cancel()
		err := h.finish(ctx, from(1), func(Handler) bool { t.Error("it is ending"); return true })
		if !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("End: %v", err)
		}
		if err := h.finish(t.Context(), from(1),
			func(Handler) bool { t.Error("it is ending"); return true }); err != ErrNotThere {
			t.Errorf("End: %v", err)
		}
		h.mu.Lock()
		if len(h.all) != 0 {
			t.Errorf("End returned before its handler had ended")
		}
		h.mu.Unlock()
		h.close()
	})
}

// A factory that fails, for every datagram, ends nothing but the life it was to begin.
func TestFactoryFails(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := newHall(Config{})
		h.senders.factory = func(netip.AddrPort) Handler { panic("no handler") }
		for range 100 {
			h.send(1000, "a")
			synctest.Wait()
		}
		h.close()
		if n := h.dropped("fault"); n != 102 || len(h.all) != 0 { // the datagrams, and two faults
			t.Errorf("%v faults, stations %v", n, h.all)
		}
		if len(h.warnings) != 1 {
			t.Errorf("%d warnings", len(h.warnings))
		}
	})
}
