package live

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/archive"
	"halfturn/coach/archive/take"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/web"
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
	s := serveLive(t, "", nil)
	before := kept(t, s.data)
	address := s.web.Addr().String()
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
		cmdtest.Until(t, comes, func() string { return "nothing is taken in" })
		_ = c.Close()
		gone := func() bool { return len(kept(t, s.data)) == len(before) }
		cmdtest.Until(t, gone, func() string { return fmt.Sprint("left behind: ", kept(t, s.data)) })
	}
	// A header without packets (draft-ietf-opsawg-pcap, 4): microseconds, version 2.4, raw IP.
	empty := binary.LittleEndian.AppendUint32(nil, 0xa1b2c3d4)
	for _, v := range []uint32{4<<16 | 2, 0, 0, 1 << 16, 101} {
		empty = binary.LittleEndian.AppendUint32(empty, v)
	}
	for name, c := range map[string]struct {
		body []byte
		want string
	}{
		"text":       {[]byte("no capture"), ""},
		"nothing":    {nil, ""},
		"no packets": {empty, "there is no UDP datagram in it"},
	} {
		status, words := s.ask(t, "POST", "api/sessions/import?name=x.pcap", "application/octet-stream", c.body)
		if status != 400 || !strings.Contains(string(words), c.want) {
			t.Errorf("%s: %d, %s", name, status, words)
		}
	}
	if left := kept(t, s.data); len(left) != len(before) {
		t.Errorf("left behind: %v", left)
	}
}

// The same capture sent several times at once becomes one session, and everyone is told its name.
func TestUploadedAtOnce(t *testing.T) {
	s := serveLive(t, written(t, "maneuver = 'wing-over'\n"), nil)
	capture, err := os.ReadFile(flight)
	if err != nil {
		t.Fatal(err)
	}
	const times = 10
	answers := make(chan string, times)
	var wait sync.WaitGroup
	for range times {
		wait.Go(func() {
			status, body := s.ask(t, "POST", "api/sessions/import?name=evening.pcap.gz", "application/octet-stream",
				capture)
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

// TestImportedIsDebriefed takes a capture in over HTTP; the pictures of its debrief are those of its
// grades, and it can be replayed on the hub.
func TestImportedIsDebriefed(t *testing.T) {
	s := serveLive(t, written(t, "maneuver = 'wing-over'\n"), nil)
	capture, err := os.ReadFile(flight)
	if err != nil {
		t.Fatal(err)
	}
	status, body := s.ask(t, "POST", "api/sessions/import?name=evening.pcap.gz", "application/octet-stream", capture)
	var taken struct{ Sessions []take.Imported }
	if err := json.Unmarshal(body, &taken); status != 200 || err != nil || len(taken.Sessions) != 1 {
		t.Fatalf("status %d, %v: %s", status, err, body)
	}
	id := taken.Sessions[0].Session
	status, body = s.ask(t, "GET", "api/sessions/"+id+"/legs", "", nil)
	var list web.FlownLegs
	if err := json.Unmarshal(body, &list); status != 200 || err != nil || len(list.Legs) != 2 {
		t.Fatalf("status %d, %v: %.300s", status, err, body)
	}
	kept, err := os.ReadFile(s.data + "/sessions/" + id + "/summary.json")
	if err != nil {
		t.Fatal(err)
	}
	var report debrief.Report
	if err := json.Unmarshal(kept, &report); err != nil {
		t.Fatal(err)
	}
	for i, leg := range report.Files[0].Stations[0].Series[0].Legs {
		shown := list.Legs[i].Leg
		if d := cmp.Diff(leg.Checks, shown.Checks); d != "" {
			t.Errorf("leg %d is shown otherwise than it was graded (-graded +shown):\n%s", i+1, d)
		}
	}
	status, body = s.ask(t, "POST", "api/sessions/"+id+"/replay", "application/json", []byte(`{"from": 5, "pace": 8}`))
	var state web.ReplayState
	if err := json.Unmarshal(body, &state); status != 200 || err != nil || state.Session != id || state.Pace != 8 {
		t.Errorf("status %d, %v: %s", status, err, body)
	}
	for path, want := range map[string]string{"api/sessions/nothing/legs": "nothing",
		"api/sessions/..%2f..%2fetc/legs": "there is no"} {
		if status, body := s.ask(t, "GET", path, "", nil); status != 404 || !strings.Contains(string(body), want) {
			t.Errorf("%s: status %d: %s", path, status, body)
		}
	}
	s.stop() // the replay ends with the server
}

// TestCapturesForPages takes a capture in as a page does and gives it out in every format.
func TestCapturesForPages(t *testing.T) {
	data := t.TempDir()
	book, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}, Version: "1.2"})
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	c := newCaptures(only(config(t, written(t, "maneuver = 'wing-over'\n"), data)), book, "1.2")
	ctx := context.Background()
	capture, err := os.ReadFile(flight)
	if err != nil {
		t.Fatal(err)
	}
	v, err := c.Import(ctx, "flight.pcap.gz", bytes.NewReader(capture))
	if err != nil {
		t.Fatal(err)
	}
	done := v.(*take.List).Sessions
	if len(done) != 1 || done[0].File != "flight.pcap.gz" || done[0].Legs != 2 {
		t.Fatalf("%+v", done)
	}
	id := done[0].Session
	begins := map[string]string{"csv": "", "parquet": "PAR1", "gpx": "<?xml", "kml": "<?xml", "json": "{",
		"pdf": "%PDF"}
	for format, want := range begins {
		for _, leg := range []int{0, 2} {
			var out bytes.Buffer
			if err := c.Export(ctx, &out, id, web.Export{Format: format, Leg: leg}); err != nil || out.Len() < 1000 ||
				!strings.HasPrefix(out.String(), want) {
				t.Errorf("%s of leg %d: %d bytes, %v", format, leg, out.Len(), err)
			}
		}
	}
	var none *logbook.NotFound
	for _, bad := range []string{"nobody", "../" + id, "..", ""} {
		if err := c.Export(ctx, io.Discard, bad, web.Export{Format: "csv"}); !errors.As(err, &none) {
			t.Errorf("%q: %v", bad, err)
		}
	}
	if err := c.Export(ctx, io.Discard, id, web.Export{Format: "csv", Leg: 9}); !errors.As(err, &none) {
		t.Errorf("leg 9: %v", err)
	}
	var refused *logbook.Refused
	if _, err := c.Import(ctx, "x.txt", strings.NewReader("no capture")); !errors.As(err, &refused) ||
		!strings.HasPrefix(err.Error(), `"x.txt": `) {
		t.Errorf("no capture: %v", err)
	}
	gone, stop := context.WithCancel(ctx)
	stop()
	if err := c.Export(gone, io.Discard, id, web.Export{Format: "csv"}); !errors.Is(err, context.Canceled) {
		t.Errorf("to a reader that left: %v", err)
	}
	left, err := filepath.Glob(filepath.Join(book.Dir(), ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left over: %v, %v", left, err)
	}
}
