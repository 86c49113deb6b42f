package ingest

import (
	"net"
	"net/netip"
	"os/exec"
	"runtime"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

// A tally counts datagrams.
type tally struct{ n atomic.Int32 }

func (c *tally) Datagram([]byte, time.Time) { c.n.Add(1) }
func (*tally) Tick(time.Time)               {}
func (*tally) Take(Request) bool            { return false }
func (*tally) End()                         {}

// An address of the machine goes and comes back, as where a cable is pulled out and put in again. The sockets on it,
// and on all addresses, receive again by themselves. It has a network of its own, for which it must be root.
func TestInterfaceGoneAndBack(t *testing.T) {
	if syscall.Getuid() != 0 {
		t.Skip("only root may have a network of its own")
	}
	done := make(chan struct{})
	go func() { // the thread is in that network for good, and ends with its goroutine
		defer close(done)
		runtime.LockOSThread()
		if err := syscall.Unshare(syscall.CLONE_NEWNET); err != nil {
			t.Logf("skipped: no network of its own: %v", err)
			return
		}
		interfaceGoneAndBack(t)
	}()
	<-done
}

func interfaceGoneAndBack(t *testing.T) {
	ip := func(args ...string) bool {
		out, err := exec.Command("ip", args...).CombinedOutput()
		if err != nil {
			t.Logf("skipped: ip %v: %v: %s", args, err, out)
		}
		return err == nil
	}
	const address = "10.99.0.1"
	if !ip("link", "set", "lo", "up") || !ip("address", "add", address+"/32", "dev", "lo") {
		return
	}
	for _, on := range []string{address + ":0", "0.0.0.0:0"} {
		count := new(tally)
		l, err := Listen(t.Context(), Config{Addresses: []string{on}, Idle: time.Minute},
			func(netip.AddrPort) Handler { return count })
		if err != nil {
			t.Error(err)
			return
		}
		defer l.Close()
		to := netip.AddrPortFrom(netip.MustParseAddr(address), l.Addresses()[0].Port())
		conn, err := net.ListenUDP("udp4", &net.UDPAddr{IP: net.IPv4zero})
		if err != nil {
			t.Error(err)
			return
		}
		defer conn.Close()
		arrives := func(n int32) bool {
			if _, err := conn.WriteToUDPAddrPort([]byte("a"), to); err != nil {
				return false
			}
			for end := time.Now().Add(5 * time.Second); count.n.Load() < n && time.Now().Before(end); {
				<-time.After(time.Millisecond)
			}
			return count.n.Load() == n
		}
		if !arrives(1) {
			t.Errorf("%s: nothing arrives", on)
		}
		if !ip("address", "del", address+"/32", "dev", "lo") {
			return
		}
		if arrives(2) {
			t.Errorf("%s: it arrives at an address that is gone: that proves nothing", on)
		}
		if !ip("address", "add", address+"/32", "dev", "lo") {
			return
		}
		if !arrives(2) {
			t.Errorf("%s: nothing arrives when the address is back", on)
		}
	}
}
