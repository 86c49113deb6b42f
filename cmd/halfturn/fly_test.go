package main

import (
	"net"
	"strings"
	"testing"
	"time"
)

// With nobody listening fly says so once, whatever the number of stations, flies on, and fails at the end.
func TestFlyToNobody(t *testing.T) {
	free, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	to := free.LocalAddr().String()
	free.Close()
	for _, stations := range []string{"1", "20"} {
		status, out, msg := call(t, nil, "fly", "--to", to, "--pace", "100", "--rate", "10", "--stations", stations)
		lines := strings.Split(strings.TrimSpace(msg), "\n")
		if status != exitFailed || len(lines) != 2 || !strings.Contains(lines[0], "nobody listens at "+to+"; start halfturn serve") ||
			!strings.HasPrefix(lines[1], "halfturn: nobody listens at "+to) || !strings.Contains(out, "datagrams sent to "+to) {
			t.Errorf("%s stations: exit status %d, %q, %q", stations, status, out, msg)
		}
	}
}

// With somebody listening there is nothing to say.
func TestFlyToSomebody(t *testing.T) {
	l, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	status, out, msg := call(t, nil, "fly", "--to", l.LocalAddr().String(), "--pace", "100", "--rate", "10")
	if status != exitDone || msg != "" || !strings.Contains(out, " 0 refused, 0 failed") {
		t.Errorf("exit status %d, %q, %q", status, out, msg)
	}
	_ = l.SetReadDeadline(time.Now().Add(time.Second))
	if n, _, err := l.ReadFrom(make([]byte, 4096)); err != nil || n == 0 {
		t.Errorf("%d bytes came, %v", n, err)
	}
}
