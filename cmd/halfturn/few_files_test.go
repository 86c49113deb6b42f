package main

import (
	"fmt"
	"net"
	"net/http"
	"os/exec"
	"runtime"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/cmd/halfturn/demo"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// The program with few descriptors records every datagram of several stations, however many connections its pages are
// asked for. It says so, and serves again when there is room.
func TestRecordedBesideConnections(t *testing.T) {
	t.Parallel()
	if runtime.GOOS == "windows" {
		t.Skip("the shell's ulimit is of Unix")
	}
	const idle, senders, each = 150, 6, 250
	data := t.TempDir()
	s := beginFollowed(t, func(c *exec.Cmd) {
		c.Args = append([]string{"sh", "-c", `ulimit -n 64 && exec "$0" "$@"`, c.Path}, c.Args[1:]...)
		c.Path = "/bin/sh"
	}, data)
	before := s.taken(t) // by a connection that stays
	address := strings.TrimSuffix(strings.TrimPrefix(s.pages, "http://"), "/")
	var open []net.Conn
	for range idle {
		c, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		open = append(open, c)
		// One that is turned away may be closed already.
		_, _ = fmt.Fprintf(c, "GET /healthz HTTP/1.1\r\nHost: %s\r\n\r\n", address)
	}
	encoder, err := encode.New("labels")
	if err != nil {
		t.Fatal(err)
	}
	sent := map[string]int{}
	for i := range senders {
		flight := trainer.Flight{Maneuver: "wing-over", Direction: "both", Airplane: demo.Airplane, Seed: uint64(i)}
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
	cmdtest.Until(t, all, func() string { return "not all datagrams were taken" })
	refused := 0
	for line := range strings.Lines(cmdtest.Get(t, s.pages+"metrics")) {
		if n, err := fmt.Sscanf(line, "halfturn_connections_refused_total %d", &refused); n == 1 && err == nil {
			break
		}
	}
	if refused < idle/2 {
		t.Errorf("%d connections were turned away: that proves little", refused)
	}
	for _, c := range open {
		c.Close()
	}
	fresh := http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	served := func() bool {
		answer, err := fresh.Get(s.pages + "healthz")
		return err == nil && answer.Body.Close() == nil && answer.StatusCode == http.StatusOK
	}
	cmdtest.Until(t, served, func() string { return "once there is room again no new connection is served" })
	s.stop(t)
	s.told(t)
	if !strings.Contains(s.words(), "connections are turned away") {
		t.Errorf("that connections were turned away was not logged:\n%.2000s", s.words())
	}
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
