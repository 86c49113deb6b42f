package desk

import (
	"context"
	"fmt"
	"net/netip"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"halfturn/stream/record"
)

// seat is where a simulator sends from, and a datagram of level flight that it sends.
func seat(n int) netip.AddrPort {
	return netip.AddrPortFrom(netip.AddrFrom4([4]byte{192, 168, 1, byte(n)}), 49000)
}

func level(at int) []byte {
	return fmt.Appendf(nil, `{"time": %d.%d, "heading": 90, "pitch": 2, "bank": 0, "airspeed": 120}`, at/10, at%10)
}

// TestHeardWhileResumed: while the sessions of the last run are still played, a station that left none flies at once;
// what comes for one that left a session waits for that alone and goes on with it, however late that is. A session that
// nobody comes for ends. Nothing is recorded twice, and nothing is lost.
func TestHeardWhileResumed(t *testing.T) {
	const seats, each = 8, 50
	now := time.Now()
	first, _ := recordingDesk(t)
	ids := map[int]string{}
	for n := range seats {
		s := first.Station(seat(n)).(*station)
		for i := range each {
			s.Datagram(level(i), now.Add(time.Duration(i-each)*100*time.Millisecond))
		}
		first.Stopping()
		ids[n] = s.Session()
		s.End()
	}
	open := make(chan struct{})
	opens := sync.OnceFunc(func() { close(open) })
	d, _ := recordingDesk(t, func(cfg *Config) {
		cfg.Book = first.cfg.Book
		cfg.Resumes = func(_ string, on bool) {
			if on {
				<-open
			}
		}
	})
	defer d.Close()
	defer opens()
	d.Start(t.Context(), now)
	if s := d.Station(seat(100)).(*station); s.Session() != "" { // and this test does not wait for ever
		t.Errorf("a new station goes on with %s", s.Session())
	}
	if !d.Has(seat(3).String()) {
		t.Error("the name of a station whose session is to be played is free")
	}
	var coming sync.WaitGroup
	other := netip.AddrPortFrom(seat(5).Addr(), 50123) // the simulator was started again as well
	for n, from := range map[int]netip.AddrPort{3: seat(3), 7: seat(7), 5: other} {
		coming.Go(func() {
			s := d.Station(from).(*station)
			if s.Session() != ids[n] {
				t.Errorf("seat %d goes on with %q; must be %q", n, s.Session(), ids[n])
			}
			for i := range each {
				s.Datagram(level(each+i), now.Add(time.Duration(i)*100*time.Millisecond))
			}
			s.End()
		})
	}
	until(t, func() bool {
		d.mu.Lock()
		defer d.mu.Unlock()
		return len(d.awaited) == 3
	}, "the stations to wait")
	d.expire(now.Add(time.Hour))
	opens()
	coming.Wait()
	d.Resumed()
	d.expire(now.Add(time.Hour))
	for n, id := range ids {
		dir := filepath.Join(first.cfg.Book.Dir(), id)
		comes := n == 3 || n == 5 || n == 7
		want := each
		if comes {
			want = 2 * each
		}
		if got := recorded(t, dir); got != want || record.Unfinished(dir) {
			t.Errorf("seat %d: %d datagrams are recorded, must be %d; under way: %v", n, got, want,
				record.Unfinished(dir))
		}
	}
	if all, err := os.ReadDir(first.cfg.Book.Dir()); err != nil || len(all) != seats {
		t.Errorf("there are %d sessions, %v; must be %d", len(all), err, seats)
	}
}

// recorded counts the datagrams in the folder of a session.
func recorded(t *testing.T, dir string) (n int) {
	t.Helper()
	parts, err := record.Parts(dir)
	if err != nil {
		t.Fatal(err)
	}
	r := record.Read(parts)
	for _, err = r.Next(); err == nil; _, err = r.Next() {
		n++
	}
	return n
}

// TestAwaitedStays: a session that its station waits for does not end, though it was silent for too long by the time it
// is played.
func TestAwaitedStays(t *testing.T) {
	now := time.Now()
	first, _ := recordingDesk(t)
	s := first.Station(seat(1)).(*station)
	s.Datagram(level(0), now)
	first.Stopping()
	id := s.Session()
	s.End()
	d, _ := recordingDesk(t, func(cfg *Config) { cfg.Book = first.cfg.Book })
	defer d.Close()
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	d.Start(ctx, now)
	d.Resumed()
	d.mu.Lock()
	d.awaited[seat(1).String()]++
	d.mu.Unlock()
	d.expire(now.Add(time.Hour))
	if again := d.Station(seat(1)).(*station); again.Session() != id {
		t.Errorf("it goes on with %q; must be %q", again.Session(), id)
	} else {
		again.End()
	}
}
