package guard

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

	"github.com/rs/zerolog"
)

// Connections over the limit are refused with a reason; a closed one makes room.
func TestCrowd(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := serve(t, 64, healthy)
		defer s.end()
		ask := func(c net.Conn) (int, string) {
			t.Helper()
			go fmt.Fprint(c, get) // the server may close the connection unread
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
			c := s.pipes.Dial(from)
			defer c.Close()
			var p struct{ Error string }
			status, body := ask(c)
			err := json.Unmarshal([]byte(body), &p)
			if status != http.StatusServiceUnavailable || err != nil || !strings.Contains(p.Error, words) {
				t.Errorf("one more of %s: %d, %v: %s; want %q", from, status, err, body, words)
			}
		}
		fill := func(from string, n int) {
			t.Helper()
			for i := range n {
				c := s.pipes.Dial(from)
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

// However connections come and go, no limit is exceeded, and in the end no count is left over.
func TestCrowdCounts(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 7))
	for range 200 {
		c := NewCrowd(nil, 1+random.IntN(100), zerolog.Nop(), func() {})
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

// Refused clients that do nothing are not waited for long, however many there are.
func TestCrowdTurnsAwayManyAtOnce(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := serve(t, 1, healthy)
		defer s.end()
		defer s.pipes.Dial("127.0.0.1").Close()
		began := time.Now()
		closed := make(chan time.Duration, 300)
		for range cap(closed) {
			c := s.pipes.Dial("127.0.0.1") // would wait if the server did
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
