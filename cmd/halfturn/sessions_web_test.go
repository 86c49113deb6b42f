package main

import (
	"encoding/json"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"halfturn/coach/archive/take"
)

// kept lists what lies where sessions are kept.
func kept(t *testing.T, data string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(data, "sessions"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// An upload that is broken off or refused leaves nothing behind.
func TestUploadLeavesNothing(t *testing.T) {
	s := serveLive(t, common{}, nil)
	before := kept(t, s.data)
	address := s.live.web.Addr().String()
	for range 20 {
		c, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		_, err = fmt.Fprintf(c,
			"POST /api/sessions/import?name=x.pcap HTTP/1.1\r\nHost: %s\r\nContent-Type: application/octet-stream\r\n"+
				"Content-Length: 100000\r\n\r\n%s", address, strings.Repeat("x", 5000))
		if err != nil {
			t.Fatal(err)
		}
		// It is being written once there is more than before.
		comes := func() bool { return len(kept(t, s.data)) > len(before) }
		until(t, comes, func() string { return "nothing is taken in" })
		_ = c.Close()
		gone := func() bool { return len(kept(t, s.data)) == len(before) }
		until(t, gone, func() string { return fmt.Sprint("left behind: ", kept(t, s.data)) })
	}
	for name, body := range map[string][]byte{"text": []byte("no capture"), "nothing": nil} {
		status, words := s.ask(t, "POST", "api/sessions/import?name=x.pcap", "application/octet-stream", body)
		if status != 400 {
			t.Errorf("%s: %d, %s", name, status, words)
		}
	}
	if left := kept(t, s.data); len(left) != len(before) {
		t.Errorf("left behind: %v", left)
	}
}

// The same capture sent several times at once becomes one session, and everyone is told its name.
func TestUploadedAtOnce(t *testing.T) {
	maneuver := "wing-over"
	s := serveLive(t, common{Maneuver: &maneuver}, nil)
	flight, err := os.ReadFile(recordedFlight)
	if err != nil {
		t.Fatal(err)
	}
	const times = 10
	answers := make(chan string, times)
	var wait sync.WaitGroup
	for range times {
		wait.Go(func() {
			status, body := s.ask(t, "POST", "api/sessions/import?name=evening.pcap.gz", "application/octet-stream",
				flight)
			var made struct{ Sessions []take.Imported }
			if err := json.Unmarshal(body, &made); status != 200 || err != nil || len(made.Sessions) != 1 {
				t.Errorf("status %d, %v: %s", status, err, body)
				return
			}
			answers <- made.Sessions[0].Session
		})
	}
	wait.Wait()
	close(answers)
	names := map[string]bool{}
	for name := range answers {
		names[name] = true
	}
	if left := kept(t, s.data); len(names) != 1 || len(left) != 1 || !names[left[0]] {
		t.Errorf("told are %v, kept %v; want one session", names, left)
	}
}
