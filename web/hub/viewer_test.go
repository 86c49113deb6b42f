package hub

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// A fakeSink keeps what is written; gate, when set, holds writes back.
type fakeSink struct {
	mu       sync.Mutex
	wrote    [][]byte
	times    []time.Time
	controls []int
	closing  []byte
	gate     chan struct{}
	deadline time.Time
}

func (f *fakeSink) SetWriteDeadline(t time.Time) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.deadline = t
	return nil
}

func (f *fakeSink) WriteMessage(_ int, m []byte) error {
	if f.gate != nil {
		f.mu.Lock()
		wait := time.Until(f.deadline)
		f.mu.Unlock()
		select {
		case <-f.gate:
		case <-time.After(wait):
			return errors.New("write deadline passed")
		}
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	f.wrote = append(f.wrote, m)
	f.times = append(f.times, time.Now())
	return nil
}

func (f *fakeSink) WriteControl(kind int, data []byte, _ time.Time) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.controls = append(f.controls, kind)
	if kind == websocket.CloseMessage {
		f.closing = data
	}
	return nil
}

func (f *fakeSink) count() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return len(f.wrote)
}

// start runs a viewer's writer on a sink inside a synctest bubble.
func start(t *testing.T, v *Viewer, s sink) (ended chan error, stop func()) {
	t.Helper()
	done := make(chan struct{})
	ended = make(chan error, 1)
	go func() { ended <- v.pump(s, done) }()
	return ended, sync.OnceFunc(func() { close(done) })
}

func TestAFrameGoesAtOnceWhenNoneWentLately(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		v, s := newViewer(&pace{}), &fakeSink{}
		_, stop := start(t, v, s)
		defer stop()
		sent := time.Now()
		v.offer([]byte("a"))
		synctest.Wait()
		if len(s.times) != 1 || !s.times[0].Equal(sent) {
			t.Errorf("the frame went at %v, want at once", s.times)
		}
	})
}

func TestEventsKeepTheirOrderAndAreNeverCoalesced(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		v, s := newViewer(&pace{}), &fakeSink{}
		_, stop := start(t, v, s)
		defer stop()
		want := [][]byte{}
		for i := range 200 {
			m := fmt.Append(nil, i)
			want = append(want, m)
			if !v.put(m) {
				t.Fatalf("event %d of 200 was refused", i)
			}
		}
		synctest.Wait()
		if !slices.EqualFunc(s.wrote, want, bytes.Equal) {
			t.Errorf("%d events came out, want 200 in order", len(s.wrote))
		}
	})
}

func TestTooSlowAViewerIsClosedAndToldToComeBack(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		v, s := newViewer(&pace{}), &fakeSink{gate: make(chan struct{})}
		ended, stop := start(t, v, s)
		defer stop()
		v.put([]byte("held"))
		synctest.Wait() // the writer hangs in this one
		overflows := 0
		for i := range queueSize + 10 {
			if !v.put(fmt.Append(nil, i)) {
				overflows++
			}
		}
		if overflows != 1 {
			t.Errorf("put reported %d overflows, want 1: on the edge only", overflows)
		}
		close(s.gate)
		if err := <-ended; err != nil {
			t.Fatal(err)
		}
		if want := websocket.FormatCloseMessage(closeTryAgain, "too slow: come back for what you missed"); string(
			s.closing,
		) != string(
			want,
		) {
			t.Errorf("closed with %q, want %q", s.closing, want)
		}
		if n := s.count(); n != 1 {
			t.Errorf("%d messages went out, want the one that hung: the queue is dropped, the ring has it", n)
		}
	})
}

func TestADeadViewerIsGivenUpAfterTheWriteDeadline(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		v, s := newViewer(&pace{}), &fakeSink{gate: make(chan struct{})}
		ended, stop := start(t, v, s)
		defer stop()
		begin := time.Now()
		v.put([]byte("never read"))
		if err := <-ended; err == nil {
			t.Error("the writer ended without an error")
		}
		if took := time.Since(begin); took != writeWait {
			t.Errorf("given up after %v, want %v", took, writeWait)
		}
	})
}

func TestIdleViewersArePinged(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		v, s := newViewer(&pace{}), &fakeSink{}
		_, stop := start(t, v, s)
		defer stop()
		<-time.After(3*pingEvery + time.Second) // of the bubble's clock
		s.mu.Lock()
		defer s.mu.Unlock()
		if len(s.controls) != 3 || s.controls[0] != websocket.PingMessage {
			t.Errorf("controls %v after three ping times, want three pings", s.controls)
		}
	})
}

func TestASlowViewerCostsTheOthersNothing(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("test", zerolog.Nop())
		h.Event(message.Message{Station: "a", Body: feed.Station("a", "live")})
		slow, _ := h.Join(Wish{}, 10)
		quick, _ := h.Join(Wish{}, 10)
		slowSink, quickSink := &fakeSink{gate: make(chan struct{})}, &fakeSink{}
		for _, v := range []*Viewer{slow, quick} {
			if v == nil {
				t.Fatal("not let in")
			}
			defer h.Leave(v)
		}
		slowEnd, stopSlow := start(t, slow, slowSink)
		defer stopSlow()
		_, stopQuick := start(t, quick, quickSink)
		defer stopQuick()
		synctest.Wait()
		begin := time.Now()
		for i := range 1000 {
			h.Event(message.Message{Station: "a", Body: message.Callout{Callout: &coach.Callout{Time: float64(i)}}})
			synctest.Wait()
		}
		if took := time.Since(begin); took != 0 {
			t.Errorf("1,000 events took %v of waiting", took)
		}
		if n := quickSink.count(); n != 1001 {
			t.Errorf("the quick viewer has %d messages, want a hello and 1,000 events", n)
		}
		if err := <-slowEnd; err == nil {
			t.Error("the slow viewer was never given up")
		}
	})
}

func TestCloseReasonsFitAControlFrame(t *testing.T) {
	// RFC 6455, section 5.5: a control frame carries at most 125 bytes, 2 of them the code.
	for _, reason := range []string{"too slow: come back for what you missed", "the server is stopping",
		"the server failed"} {
		if len(reason) > 123 || strings.ContainsAny(reason, "\n") {
			t.Errorf("close reason %q does not fit", reason)
		}
	}
}

// A frame that waits goes before an event that is newer; the frames after the event follow. Frames in the queue do not
// count against the events that a viewer may be behind.
func TestEventsDoNotOvertakeFrames(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		v, s := newViewer(&pace{}), &fakeSink{}
		v.offer([]byte("frame 1"))
		v.offer([]byte("frame 2"))
		v.put([]byte("leg"))
		v.put([]byte("series"))
		v.offer([]byte("frame 3"))
		_, stop := start(t, v, s)
		defer stop()
		synctest.Wait()
		got := string(bytes.Join(s.wrote, []byte(", ")))
		if want := "frame 2, leg, series, frame 3"; got != want {
			t.Errorf("sent %s; must be %s", got, want)
		}
	})
	v := newViewer(&pace{})
	for i := range queueSize {
		v.offer([]byte("frame"))
		if !v.put([]byte("event")) {
			t.Fatalf("event %d was refused", i)
		}
	}
	if v.put([]byte("event")) || !v.ended {
		t.Error("a viewer that is too far behind is kept")
	}
}
