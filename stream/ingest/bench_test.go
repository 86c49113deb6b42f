package ingest

import (
	"net/netip"
	"strings"
	"sync"
	"testing"
	"time"
)

// go test -bench Deliver -benchmem ./stream/ingest
func BenchmarkDeliver(b *testing.B) {
	done := make(chan struct{})
	config := Config{}
	config.fill()
	h := newSenders(config, func(netip.AddrPort) Handler { return signal(done) })
	datagram := []byte(strings.Repeat("x", 500))
	b.ReportAllocs()
	for b.Loop() {
		h.deliver(nil, from(1000), datagram, time.Now())
		<-done
	}
	h.close()
}

// BenchmarkDeliverMany is one datagram to each of a thousand senders in turn: what waking a goroutine costs where many
// wait. The figure is per datagram.
func BenchmarkDeliverMany(b *testing.B) {
	const senders = 1000
	config := Config{}
	config.fill()
	var done sync.WaitGroup
	h := newSenders(config, func(netip.AddrPort) Handler { return counted{&done} })
	datagram := []byte(strings.Repeat("x", 400))
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		done.Add(1)
		h.deliver(nil, from(1000+n%senders), datagram, time.Now())
		if n++; n%32 == 0 {
			done.Wait()
		}
	}
	done.Wait()
	h.close()
}

// A counted handler says when a datagram was taken.
type counted struct{ done *sync.WaitGroup }

func (c counted) Datagram([]byte, time.Time) { c.done.Done() }
func (counted) Take(Request) bool            { return false }
func (counted) Tick(time.Time)               {}
func (counted) End()                         {}
