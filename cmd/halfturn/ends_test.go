package main

import (
	"context"
	"net"
	"strings"
	"sync"
	"testing"
	"time"
)

// A lockedLog is written to by a command and read by its test.
type lockedLog struct {
	mu sync.Mutex
	b  strings.Builder
	on chan struct{} // closed with the first line
}

func (l *lockedLog) Write(b []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.b.Len() == 0 {
		close(l.on)
	}
	return l.b.Write(b)
}

func (l *lockedLog) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.b.String()
}

// Every command that goes on by itself ends soon when it is told to, whatever it is doing.
func TestCommandsEnd(t *testing.T) {
	silent, err := net.ListenPacket("udp4", "127.0.0.1:0") // listens, and reads nothing
	if err != nil {
		t.Fatal(err)
	}
	defer silent.Close()
	to := silent.LocalAddr().String()
	for _, args := range [][]string{
		{"fly", "--to", to},
		{"fly", "--to", to, "--stations", "500", "--pace", "1000", "--rate", "1000", "--legs", "100"},
		{"fly", "--to", to, "--rate", "1", "--pace", "0.01"}, // a datagram in 100 s
		{"probe", "--udp", "127.0.0.1:0", "--for", "1h"},
		{"probe", "--udp", "127.0.0.1:0", "--for", "0", "--format", "json", "--subscribe", "127.0.0.1"},
		{"demo", "--no-open", "--http", "127.0.0.1:0", "--udp", "127.0.0.1:0", "--pace", "100", "--data", t.TempDir()},
	} {
		ctx, cancel := context.WithCancel(t.Context())
		msg := &lockedLog{on: make(chan struct{})}
		ended := make(chan int, 1)
		go func() {
			ended <- run(ctx, args, streamsTo(&strings.Builder{}, msg, noVariables))
		}()
		if args[0] == "fly" {
			_ = silent.SetReadDeadline(time.Now().Add(20 * time.Second))
			if _, _, err := silent.ReadFrom(make([]byte, 4096)); err != nil {
				t.Fatalf("%v: nothing came: %v", args, err)
			}
		} else {
			<-msg.on
		}
		cancel()
		select {
		case <-ended:
		case <-time.After(20 * time.Second): // 2 s are asked for; the machine may be busy with other tests
			t.Fatalf("%v does not end: %s", args, msg)
		}
		_ = silent.SetReadDeadline(time.Now().Add(time.Millisecond))
		for err := error(nil); err == nil; { // what is left in the socket
			_, _, err = silent.ReadFrom(make([]byte, 4096))
		}
	}
}

// Cards that are not looked at any more after the end are not checked.
func TestCheckingEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out, msg strings.Builder
	card := "../../configs/maneuvers/wing-over.toml"
	status := run(ctx, []string{"cards", "check", card, card}, streamsTo(&out, &msg, noVariables))
	if status != exitFailed || out.String() != "" || msg.String() != "halfturn: interrupted\n" {
		t.Errorf("exit status %d, %q, %q", status, out.String(), msg.String())
	}
}
