package pipes

import (
	"errors"
	"io"
	"net"
	"testing"
	"testing/synctest"
	"time"
)

// TestPipes: what is dialed is accepted, with the address of the client, and both ends talk until one is closed.
func TestPipes(t *testing.T) {
	l := Listen()
	accepted := make(chan net.Conn)
	go func() {
		c, err := l.Accept()
		if err != nil {
			t.Error(err)
		}
		accepted <- c
	}()
	client := l.Dial("192.0.2.1")
	server := <-accepted
	if a := server.RemoteAddr().String(); a != "192.0.2.1:50000" {
		t.Errorf("the client is %s", a)
	}
	go func() {
		_, err := client.Write([]byte("ping"))
		if err := errors.Join(err, client.Close()); err != nil {
			t.Error(err)
		}
	}()
	if got, err := io.ReadAll(server); string(got) != "ping" || err != nil {
		t.Errorf("it hears %q, %v", got, err)
	}
	if a := l.Addr().String(); a != "127.0.0.1:7180" {
		t.Errorf("it listens at %s", a)
	}
}

// TestClose ends Accept, once and for all.
func TestClose(t *testing.T) {
	l := Listen()
	ended := make(chan error)
	go func() { _, err := l.Accept(); ended <- err }()
	for range 2 {
		if err := l.Close(); err != nil {
			t.Error(err)
		}
	}
	if err := <-ended; !errors.Is(err, net.ErrClosed) {
		t.Errorf("while it waited: %v", err)
	}
	if _, err := l.Accept(); !errors.Is(err, net.ErrClosed) {
		t.Errorf("afterwards: %v", err)
	}
}

// TestLog can be read while it is written.
func TestLog(t *testing.T) {
	var l Log
	for _, s := range []string{"one ", "two"} {
		if n, err := io.WriteString(&l, s); n != len(s) || err != nil {
			t.Error(n, err)
		}
	}
	if l.String() != "one two" {
		t.Errorf("it holds %q", l.String())
	}
}

// TestSince counts whole seconds, to the nearest.
func TestSince(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		start := time.Now()
		for want, after := range []time.Duration{400 * time.Millisecond, 600 * time.Millisecond, 2 * time.Second} {
			<-time.After(after - time.Since(start)) // the clock of the bubble
			if got := Since(start); got != want {
				t.Errorf("%v is %d s; must be %d", after, got, want)
			}
		}
	})
}
