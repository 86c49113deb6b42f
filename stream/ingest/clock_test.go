package ingest

import (
	"net/netip"
	"testing"
	"time"
	"unsafe"
)

// A watch keeps when it was called.
type watch struct{ datagrams []time.Time }

func (w *watch) Datagram(_ []byte, received time.Time) { w.datagrams = append(w.datagrams, received) }
func (*watch) Tick(time.Time)                          {}
func (*watch) Take(Request) bool                       { return false }
func (*watch) End()                                    {}

// set returns the moment that many seconds after t as a machine tells it whose clock was set meanwhile: its wall clock
// is off by that, its monotonic clock is not. In package time the seconds of the wall are above 30 bits of nanoseconds,
// and the monotonic clock is the word behind it.
func set(t time.Time, passed, off int64) time.Time {
	words := (*[2]uint64)(unsafe.Pointer(&t))
	words[0] += uint64((passed + off) << 30)
	words[1] += uint64(passed * int64(time.Second))
	return t
}

// Where the machine's clock is set by an hour, forward or back, datagrams come as far apart as before. After a silence
// they have the new time.
func TestClockIsSet(t *testing.T) {
	for _, off := range []int64{3600, -3600} {
		config := Config{}
		config.fill()
		w := new(watch)
		h := newSenders(config, func(netip.AddrPort) Handler { return w })
		began := time.Now()
		var last time.Time
		for _, passed := range []int64{0, 1, 2, 3, 4, 5, 60} {
			wall := int64(0)
			if passed >= 3 {
				wall = off
			}
			last = set(began, passed, wall)
			if d := last.Round(0).Sub(began.Round(0)); d != time.Duration(passed+wall)*time.Second ||
				last.Sub(began) != time.Duration(passed)*time.Second {
				t.Fatalf("the clocks are %v and %v on", d, last.Sub(began))
			}
			h.deliver(nil, from(1000), []byte("a"), last)
		}
		h.close()
		if len(w.datagrams) != 7 {
			t.Fatalf("%d datagrams", len(w.datagrams))
		}
		for i, at := range w.datagrams[1:6] {
			if d := at.Round(0).Sub(w.datagrams[i].Round(0)); d != time.Second {
				t.Errorf("set by %d s, datagram %d comes %v after the one before", off, i+1, d)
			}
		}
		if got := w.datagrams[6]; !got.Round(0).Equal(last.Round(0)) {
			t.Errorf("set by %d s, after a silence it is %v, not %v", off, got, last)
		}
	}
}
