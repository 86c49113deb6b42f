package web

import (
	"fmt"
	"io"
	"net"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// BenchmarkFrame is one frame into the hub, with so many viewers that take it at once.
//
//	go test -run '^$' -bench Frame -benchmem ./web
func BenchmarkFrame(b *testing.B) {
	for _, viewers := range []int{0, 1, 10, 100} {
		b.Run(fmt.Sprintf("viewers=%d", viewers), func(b *testing.B) {
			h, drain := benchHub(b, viewers)
			f := feed.At(1, 50, 0)
			b.ReportAllocs()
			for b.Loop() {
				h.Frame("a", f)
				drain()
			}
		})
	}
}

// BenchmarkEvent is one callout into the hub, encoded once for all.
func BenchmarkEvent(b *testing.B) {
	for _, viewers := range []int{0, 1, 10, 100} {
		b.Run(fmt.Sprintf("viewers=%d", viewers), func(b *testing.B) {
			h, drain := benchHub(b, viewers)
			m := callout("a", 1)
			b.ReportAllocs()
			for b.Loop() {
				h.Event(m)
				drain()
			}
		})
	}
}

func benchHub(b *testing.B, viewers int) (*Hub, func()) {
	h := NewHub("test", zerolog.Nop())
	h.Event(station("a", "live"))
	all := []*viewer{}
	for range viewers {
		v := newViewer()
		h.join(v, wish{}, viewers)
		all = append(all, v)
	}
	return h, func() {
		now := time.Now()
		for _, v := range all {
			v.take(now)
		}
	}
}

// BenchmarkSockets is one callout from the hub through sockets on loopback to so many
// viewers, until the last has read it.
func BenchmarkSockets(b *testing.B) {
	for _, viewers := range []int{1, 10, 100} {
		b.Run(fmt.Sprintf("viewers=%d", viewers), func(b *testing.B) {
			r := run(b, Config{})
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
