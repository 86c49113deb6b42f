package main

import (
	"bytes"
	"fmt"
	"net"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
	"halfturn/web/guard"
)

func TestConnections(t *testing.T) {
	for _, tt := range []struct{ files, stations, want int }{
		{0, 64, guard.MostOpen}, // no limit
		{1 << 20, 64, guard.MostOpen},
		{1 << 20, 10000, guard.MostOpen},
		{4096, 64, guard.MostOpen},
		{1024, 64, 1024 - 48 - 128},
		{256, 64, 256 - 48 - 128},
		{128, 64, 32},
		{64, 64, 16},
		{64, 1, 16},
		{1024, 10000, 256},
		{4, 64, 1},
		{1, 64, 1},
	} {
		if got := connections(tt.files, tt.stations); got != tt.want {
			t.Errorf("%d files, %d stations: %d connections, want %d", tt.files, tt.stations, got, tt.want)
		}
	}
}

// TestWarnOpen: whoever opens the pages to a network is told what that means; whoever does not is not.
func TestWarnOpen(t *testing.T) {
	for address, warned := range map[string]bool{
		"127.0.0.1:7180": false, "127.5.5.5:7180": false, "[::1]:7180": false,
		"0.0.0.0:7180": true, "[::]:7180": true, "192.0.2.7:7180": true, "[2001:db8::7]:7180": true,
	} {
		a, err := net.ResolveTCPAddr("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		var log bytes.Buffer
		warnOpen(zerolog.New(&log), a)
		said := log.String()
		for _, words := range []string{`"level":"warn"`, "without a password", address} {
			if strings.Contains(said, words) != warned {
				t.Errorf("%s: the log says %q", address, said)
			}
		}
		if !warned && said != "" {
			t.Errorf("%s: the log says %q", address, said)
		}
	}
}

// The program with few descriptors records every datagram of several stations, however many connections its pages are
// asked for.
func TestRecordedBesideConnections(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("the shell's ulimit is of Unix")
	}
	const idle, senders, each = 150, 6, 250
	data := t.TempDir()
	s := startServed(t, data, []string{"sh", "-c", `ulimit -n 64 && exec "$0" "$@"`})
	before := s.taken(t) // by a connection that stays
	address := strings.TrimSuffix(strings.TrimPrefix(s.pages, "http://"), "/")
	for range idle {
		c, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		// One that is turned away may be closed already.
		_, _ = fmt.Fprintf(c, "GET /healthz HTTP/1.1\r\nHost: %s\r\n\r\n", address)
	}
	encoder, err := encode.New("labels")
	if err != nil {
		t.Fatal(err)
	}
	sent := map[string]int{}
	for i := range senders {
		flight := trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: demoAircraft, Seed: uint64(i)}
		pilot, err := trainer.NewSequence(flight)
		if err != nil {
			t.Fatal(err)
		}
		p := &demoPilot{pilot: pilot, encoder: encoder}
		p.connect(t)
		list, _ := p.fly(t, s, each)
		for _, d := range list {
			sent[d]++
		}
	}
	all := func() bool { return s.taken(t) >= before+senders*each }
	until(t, all, func() string { return "not all datagrams were taken" })
	refused := 0
	for line := range strings.Lines(get(t, s.pages+"metrics")) {
		if n, err := fmt.Sscanf(line, "halfturn_connections_refused_total %d", &refused); n == 1 && err == nil {
			break
		}
	}
	if refused < idle/2 {
		t.Errorf("%d connections were turned away: that proves little", refused)
	}
	if err := s.cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	<-s.read
	if err := s.cmd.Wait(); err != nil {
		t.Error(err)
	}
	<-s.legs
	for _, d := range allRecorded(t, data) {
		sent[d]--
	}
	lost := 0
	for _, n := range sent {
		lost += max(n, 0)
	}
	if lost > 0 {
		t.Errorf("%d of %d datagrams are not recorded", lost, senders*each)
	}
}
