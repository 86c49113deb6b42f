package socket

import (
	"fmt"
	"net"
	"net/netip"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

// pair is a socket, and one that sends to it.
func pair(t testing.TB) (to, from *net.UDPConn) {
	t.Helper()
	open, where, err := OpenAll(t.Context(), []string{"127.0.0.1:0"})
	if err != nil {
		t.Fatal(err)
	}
	from, err = net.DialUDP("udp4", nil, net.UDPAddrFromAddrPort(where[0]))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		from.Close()
		CloseAll(open)
	})
	return open[0].UDPConn, from
}

// cpu is the processor time that this process has used, user and system.
func cpu(t testing.TB) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// Processor time of one datagram from the sender's call to the sink, where that many are sent at once: 1 is a quiet
// server, 64 a busy one. Beside it the same without the count of what was dropped; the sender costs both the same.
//
//	go test -run xxx -bench Receive -benchmem ./stream/ingest/socket
func BenchmarkReceive(b *testing.B) {
	for _, burst := range []int{1, 8, 64} {
		for name, open := range map[string]func(Source) reader{
			"counting": newReader,
			"bare":     func(s Source) reader { return newSingle(s) },
		} {
			b.Run(fmt.Sprintf("%s/burst=%d", name, burst), func(b *testing.B) {
				to, from := pair(b)
				datagram := make([]byte, 400)
				var got atomic.Int64
				arrived, over := make(chan struct{}, 1), make(chan struct{})
				go func() {
					defer close(over)
					_ = open(to).receive(func([]byte, netip.AddrPort, uint32) {
						if got.Add(1)%int64(burst) == 0 {
							arrived <- struct{}{}
						}
					})
				}()
				b.ReportAllocs()
				start, n := cpu(b), 0
				for b.Loop() {
					if _, err := from.Write(datagram); err != nil {
						b.Fatal(err)
					}
					if n++; n%burst == 0 {
						<-arrived
					}
				}
				b.ReportMetric(float64((cpu(b)-start).Nanoseconds())/float64(n), "cpu-ns/op")
				to.Close()
				<-over
			})
		}
	}
}
