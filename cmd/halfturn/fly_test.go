package main

import (
	"errors"
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
		if status != exitFailed || len(lines) != 2 ||
			!strings.Contains(lines[0], "nobody listens at "+to+"; start halfturn serve") ||
			!strings.HasPrefix(lines[1], "halfturn: nobody listens at "+to) ||
			!strings.Contains(out, "datagrams sent to "+to) {
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

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no space left on device") }

// A result that cannot be written is a failure.
func TestResultCannotBeWritten(t *testing.T) {
	l, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	card := "../../configs/maneuvers/wing-over.toml"
	for _, args := range [][]string{{"version"}, {"causes"}, {"brief"}, {"cards"}, {"cards", "kinds"},
		{"cards", "show", "wing-over"}, {"cards", "check", card},
		{"cards", "explain", "wing-over", "bank-at-90"}, {"cards", "copy", "wing-over", t.TempDir()},
		{"cards", "new", "--from", "wing-over", t.TempDir() + "/a.toml"},
		{"simulators"}, {"simulators", "show", "flightgear"}, {"simulators", "copy", t.TempDir()},
		{"probe", "--udp", "127.0.0.1:0", "--for", "50ms", "--format", "json"},
		{"fly", "--to", l.LocalAddr().String(), "--pace", "1000", "--rate", "1"}, {"grade", recording}} {
		var msg strings.Builder
		status := run(t.Context(), args, streamsTo(full{}, &msg, noVariables))
		if status != exitFailed || !strings.Contains(msg.String(), "no space left on device") {
			t.Errorf("%v: exit status %d, %q", args, status, msg.String())
		}
	}
}
