package ingest

import (
	"net/netip"
	"testing"
	"testing/synctest"
	"time"
)

// TestStrain: the longest wait of a datagram behind others, what did not fit into a queue, and what the system dropped,
// are told once each.
func TestStrain(t *testing.T) {
	const each = 40 * time.Millisecond
	synctest.Test(t, func(t *testing.T) {
		config := Config{Queue: 5}
		config.fill()
		h := newSenders(config, func(netip.AddrPort) Handler { return &laborer{each} })
		in := h.inlet("here")
		for range 8 { // one is worked on, five wait, two do not fit
			h.deliver(in, from(1), []byte("a"), time.Now())
			synctest.Wait()
		}
		if in.lost != nil {
			h.lose(in, 3)
		}
		<-time.After(time.Second)
		is := h.strain()
		if is.Wait != 5*each || is.Dropped != 2 || in.lost != nil && is.Unread != 3 {
			t.Errorf("%+v; must be a wait of %v, and 2 dropped", is, 5*each)
		}
		if again := h.strain(); again != (Strain{}) {
			t.Errorf("told again: %+v", again)
		}
		h.deliver(in, from(1), []byte("b"), time.Now())
		h.close()
		if is := h.strain(); is != (Strain{}) {
			t.Errorf("%+v after a datagram that did not wait", is)
		}
	})
}

// A laborer takes its time for each datagram.
type laborer struct{ each time.Duration }

func (l *laborer) Datagram([]byte, time.Time) { <-time.After(l.each) } // of the bubble's own time
func (*laborer) Take(Request) bool            { return false }
func (*laborer) Tick(time.Time)               {}
func (*laborer) End()                         {}
