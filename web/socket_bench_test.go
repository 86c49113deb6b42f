package web

import (
	"fmt"
	"io"
	"net"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// BenchmarkSockets is one callout from the hub through sockets on loopback to a number of
// viewers, until the last has read it.
func BenchmarkSockets(b *testing.B) {
	for _, viewers := range []int{1, 100, 1000} {
		b.Run(fmt.Sprintf("viewers=%d", viewers), func(b *testing.B) {
			r := run(b, Config{MaxViewers: viewers})
			r.hub.Event(station("a", "live"))
			var got sync.WaitGroup
			for range viewers {
				c, _, err := dial(b, r.url, nil)
				if err != nil {
					b.Fatal(err)
				}
				next(b, c)
				_ = c.SetReadDeadline(time.Time{})
				go readAll(c, &got)
			}
			m := message.Message{Station: "a", Body: message.Callout{Callout: feed.Callouts()[0]}}
			b.ReportAllocs()
			for b.Loop() {
				got.Add(viewers)
				r.hub.Event(m)
				got.Wait()
			}
			b.StopTimer()
			if err := r.stop(); err != nil {
				b.Error(err)
			}
		})
	}
}

func readAll(c *websocket.Conn, got *sync.WaitGroup) {
	for {
		_, body, err := c.NextReader()
		if err != nil {
			return
		}
		if _, err := io.Copy(io.Discard, body); err != nil && err != net.ErrClosed {
			return
		}
		got.Done()
	}
}
