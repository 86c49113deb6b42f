package hub

import (
	"fmt"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/web/internal/feed"
)

// BenchmarkWall is a tick of a wall of thirty stations: a frame of each, and a message to each viewer.
func BenchmarkWall(b *testing.B) {
	for _, viewers := range []int{1, 4} {
		b.Run(fmt.Sprintf("viewers=%d", viewers), func(b *testing.B) {
			h := New("test", zerolog.Nop())
			frames := []*coach.Frame{feed.At(1, 50, 0), feed.At(2, 51, 0)}
			for i := range 30 {
				arrive(h, fmt.Sprint("Seat ", i))
			}
			all := []*Viewer{}
			for range viewers {
				v, _ := h.Join(Wish{Wall: true}, viewers)
				all = append(all, v)
			}
			now, size := time.Now(), 0
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				for n := range 30 {
					h.Frame(fmt.Sprint("Seat ", n), frames[i%2])
				}
				now = now.Add(wallGap)
				for _, v := range all {
					data, _ := v.wall.next(now)
					size = len(data)
				}
			}
			b.ReportMetric(float64(size), "B/message")
		})
	}
}
