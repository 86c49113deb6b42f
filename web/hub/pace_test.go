package hub

import (
	"bytes"
	"testing"
	"testing/synctest"
	"time"

	"github.com/rs/zerolog"

	"halfturn/web/internal/feed"
)

// TestFrameGap: a lowered rate holds for viewers of one station and of all, for those that are there too; events go at
// once all the same, and what a viewer does not see is counted.
func TestFrameGap(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("test", zerolog.Nop())
		h.Event(station("a", "live"))
		v, _ := h.Join(Wish{Station: "a"}, 10)
		wall, _ := h.Join(Wish{Wall: true}, 10)
		s, all, frame := &fakeSink{}, &fakeSink{}, 0.0
		first, stop := start(t, v, s)
		second, stopAll := start(t, wall, all)
		fly := func(seconds float64) (frames, walls int) {
			synctest.Wait()
			was, wasAll := s.sent("frame"), all.sent("wall")
			for range int(seconds * 30) {
				frame++
				h.Frame("a", feed.At(frame/30, frame/10, 0))
				<-time.After(time.Second / 30) // of the bubble's own time
			}
			synctest.Wait()
			return s.sent("frame") - was, all.sent("wall") - wasAll
		}
		if one, many := fly(2); one < 58 || many < 30 {
			t.Errorf("%d frames and %d walls in 2 s", one, many)
		}
		h.SetFrameGap(250 * time.Millisecond)
		if one, many := fly(2); one < 7 || one > 9 || many < 7 || many > 9 {
			t.Errorf("%d frames and %d walls in 2 s at one each 250 ms", one, many)
		}
		events := s.sent("callout")
		h.Event(callout("a", 1))
		synctest.Wait()
		if s.sent("callout") != events+1 {
			t.Error("an event waits for the gap")
		}
		h.SetFrameGap(0)
		if one, many := fly(2); one < 58 || many < 30 {
			t.Errorf("again: %d frames and %d walls in 2 s", one, many)
		}
		stop()
		stopAll()
		<-first
		<-second
	})
}

// sent counts the messages of a type.
func (f *fakeSink) sent(kind string) (n int) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, m := range f.wrote {
		if bytes.HasPrefix(m, []byte(`{"type":"`+kind+`"`)) {
			n++
		}
	}
	return n
}
