package hub

import (
	"fmt"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/web/internal/feed"
)

// BenchmarkFrame is one frame into the hub, with a number of viewers that take it at once.
//
//	go test -run '^$' -bench Frame -benchmem ./web/hub
func BenchmarkFrame(b *testing.B) {
	for _, viewers := range []int{0, 1, 100, 1000} {
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
	for _, viewers := range []int{0, 1, 100, 1000} {
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
	h := New("test", zerolog.Nop())
	h.Event(station("a", "live"))
	all := []*Viewer{}
	for range viewers {
		v, _ := h.Join(Wish{}, viewers)
		all = append(all, v)
	}
	return h, func() {
		now := time.Now()
		for _, v := range all {
			v.take(now)
		}
	}
}
