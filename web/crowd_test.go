package web

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"net/netip"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"
)

// More connections than may be are turned away with words; one that is closed makes room.
func TestCrowd(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := servePipes(t, Config{MaxOpen: 64})
		defer s.end()
		ask := func(c net.Conn) (int, string) {
			t.Helper()
			go fmt.Fprintf(c, get, "/healthz") // one that is turned away may not read it
			answer, err := http.ReadResponse(bufio.NewReader(c), nil)
			if err != nil {
				t.Fatal(err)
			}
			body, err := io.ReadAll(answer.Body)
			if err != nil {
				t.Fatal(err)
			}
			return answer.StatusCode, string(body)
		}
		open := map[string][]net.Conn{}
		full := func(from, words string) {
			t.Helper()
			c := s.dial(from)
			defer c.Close()
			var p struct{ Error string }
			status, body := ask(c)
			if err := json.Unmarshal([]byte(body), &p); status != http.StatusServiceUnavailable || err != nil || !strings.Contains(p.Error, words) {
				t.Errorf("one more of %s: %d, %v: %s; want %q", from, status, err, body, words)
			}
		}
		fill := func(from string, n int) {
			t.Helper()
			for i := range n {
				c := s.dial(from)
				if status, body := ask(c); status != http.StatusOK {
					t.Fatalf("%s, %d of %d: %d, %s", from, i, n, status, body)
				}
				open[from] = append(open[from], c)
			}
		}
		fill("192.0.2.1", 16)
		full("192.0.2.1", "16 connections of your address")
		full("::ffff:192.0.2.1", "16 connections of your address") // the same
		fill("2001:db8::1", 16)
		full("2001:db8::1", "16 connections of your address")
		fill("127.0.0.1", 32)
		full("127.0.0.1", "64 connections are open")
		full("192.0.2.2", "64 connections are open")
		_ = open["2001:db8::1"][0].Close()
		synctest.Wait()
		fill("192.0.2.2", 1)
		full("192.0.2.2", "64 connections are open")
		for _, list := range open {
			for _, c := range list {
				_ = c.Close()
			}
		}
		synctest.Wait()
		fill("127.0.0.1", 48)
		full("127.0.0.1", "48 connections of your address")
		for _, c := range open["127.0.0.1"] {
			_ = c.Close()
		}
		if n := strings.Count(s.said.String(), "turned away"); n != 2 { // the words, and how many
			t.Errorf("the log says it %d times: %s", n, s.said)
		}
	})
}

// However connections come and go, no bound is passed, and in the end nothing is left over.
func TestCrowdCounts(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		c := newCrowd(nil, 1+random.IntN(100), zerolog.Nop(), func() {})
		var inside []netip.Addr
		from := map[netip.Addr]int{}
		for range 2000 {
			if random.IntN(3) == 0 && len(inside) > 0 {
				i := random.IntN(len(inside))
				c.left(inside[i])
				from[inside[i]]--
				inside = append(inside[:i], inside[i+1:]...)
				continue
			}
			who := netip.AddrFrom4([4]byte{byte(127 * random.IntN(2)), 0, 2, byte(random.IntN(6))})
			room := len(inside) < c.most && from[who] < c.share(who)
			if full := c.admit(who, time.Time{}); (full == nil) != room {
				t.Fatalf("%d of %d inside, %d of %d of %v: %v", len(inside), c.most, from[who], c.share(who), who, full)
			} else if full == nil {
				inside = append(inside, who)
				from[who]++
			}
		}
		for _, who := range inside {
			c.left(who)
		}
		if c.open != 0 || len(c.from) != 0 {
			t.Fatalf("%d open, %v", c.open, c.from)
		}
	}
}

// One that is turned away and does nothing is not waited for long, nor are many.
func TestCrowdTurnsAwayManyAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := servePipes(t, Config{MaxOpen: 1})
		defer s.end()
		defer s.dial("127.0.0.1").Close()
		began := time.Now()
		closed := make(chan time.Duration, 300)
		for range cap(closed) {
			c := s.dial("127.0.0.1") // would wait if the server did
			go func() {
				<-time.After(toldWait) // of the bubble: reads nothing till then
				_, _ = io.Copy(io.Discard, c)
				closed <- time.Since(began)
			}()
		}
		for range cap(closed) {
			if d := <-closed; d > toldWait {
				t.Errorf("closed after %v", d)
			}
		}
	})
}

// A live socket is a connection: it counts until it is closed, and gets its messages as ever.
func TestCrowdCountsSockets(t *testing.T) {
	r := run(t, Config{MaxOpen: 12})
	r.hub.Event(station("Seat 3", "live"))
	var sockets []*websocket.Conn
	for range 9 { // three quarters
		c, _, err := dial(t, r.url, nil)
		if err != nil {
			t.Fatal(err)
		}
		next(t, c)
		sockets = append(sockets, c)
	}
	if _, answer, err := dial(t, r.url, nil); err == nil || answer.StatusCode != http.StatusServiceUnavailable {
		t.Error("a tenth of 12 was let in from one address")
	}
	r.hub.Event(callout("Seat 3", 1))
	for _, c := range sockets {
		if got := next(t, c); got.Type() != "callout" {
			t.Errorf("got %+v, want the callout", got)
		}
	}
}
