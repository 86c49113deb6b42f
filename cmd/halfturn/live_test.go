package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/gorilla/websocket"

	"halfturn/coach/debrief"
	"halfturn/coach/session"
	"halfturn/stream/capture"
)

// server is a live server on ports of the system's choice.
type server struct {
	*live
	stop func() error
	out  *bytes.Buffer
	data string
}

func serveLive(t testing.TB, args common, ended func(*debrief.Report)) *server {
	t.Helper()
	cfg, err := loadConfig(&args, noVariables)
	if err != nil {
		t.Fatal(err)
	}
	cfg.HTTP, cfg.UDP, cfg.Data, cfg.Log.Level = "127.0.0.1:0", []string{"127.0.0.1:0"}, t.TempDir(), "error"
	ctx, cancel := context.WithCancel(t.Context())
	var out bytes.Buffer
	l, err := start(ctx, cfg, streams{&out, io.Discard, noVariables}, ended, nil)
	if err != nil {
		cancel()
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- l.serve(ctx) }()
	stopped := false
	s := &server{live: l, out: &out, data: cfg.Data, stop: func() error {
		if stopped {
			return nil
		}
		stopped = true
		cancel()
		return <-done
	}}
	t.Cleanup(func() { _ = s.stop() })
	return s
}

// payloads reads a recording's datagrams.
func payloads(t testing.TB, name string) [][]byte {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, err := capture.Open(f)
	if err != nil {
		t.Fatal(err)
	}
	var list [][]byte
	for {
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			return list
		}
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, bytes.Clone(d.Payload))
	}
}

// send sends datagrams from one socket, a few at a time, and waits until the station has
// taken them, as its own report says. It returns the station's name.
func (s *server) send(t *testing.T, list [][]byte) string {
	t.Helper()
	conn, err := net.Dial("udp", s.listener.Addresses()[0].String())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	name := conn.LocalAddr().String()
	for i, b := range list {
		if _, err := conn.Write(b); err != nil {
			t.Fatal(err)
		}
		if i%50 == 0 || i == len(list)-1 {
			s.await(t, name, i+1)
		}
	}
	return name
}

// patience is how long a test waits for what takes milliseconds.
const patience = 30 * time.Second

// until asks again and again whether something is so. The test fails when it is not in time: what says what was
// waited for, and how far it came.
func until(t *testing.T, so func() bool, what func() string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	for !so() {
		if ctx.Err() != nil {
			t.Fatalf("waited %v: %s", patience, what())
		}
		runtime.Gosched()
	}
}

// await waits until the station has taken n datagrams.
func (s *server) await(t *testing.T, name string, n int) {
	t.Helper()
	taken := 0
	until(t, func() bool {
		if r, ok := s.desk.Legs(t.Context(), name); ok {
			st := r.(debrief.Station)
			taken = int(st.Samples)
			for _, d := range st.Drops {
				taken += d
			}
		}
		return taken >= n-1 // the line of labels gives no sample and is no fault
	}, func() string { return fmt.Sprintf("station %s took %d of %d datagrams", name, taken, n) })
}

// TestLiveIsRegraded plays a recording against the server over UDP: the same legs and checks
// come out as from grading the file.
func TestLiveIsRegraded(t *testing.T) {
	var live *debrief.Report
	plane := t.TempDir() + "/single-b.toml"
	if err := os.WriteFile(plane, []byte("name = 'single-b'\ntitle = 'Single'\nsource = 'recorded flights'\nstall = "+
		"52\nentry = 118\napex = 91\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	args := common{Aircraft: &plane}
	s := serveLive(t, args, func(r *debrief.Report) { live = r })
	s.send(t, payloads(t, recording))
	if err := s.stop(); err != nil {
		t.Fatal(err)
	}
	if live == nil {
		t.Fatal("the session did not end with a report")
	}
	status, out, msg := call(t, nil, "grade", "--aircraft", plane, "--format", "json", recording)
	if status != exitDone {
		t.Fatal(msg)
	}
	var graded debrief.Report
	if err := json.Unmarshal([]byte(out), &graded); err != nil {
		t.Fatal(err)
	}
	want, got := graded.Files[0].Stations[0], throughJSON(t, live.Files[0].Stations[0])
	got.Station = want.Station
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("live and graded differ (-graded +live):\n%s", d)
	}
	if len(want.Series) == 0 {
		t.Error("nothing was flown")
	}
	kept, err := os.ReadFile(s.data + "/sessions/" + live.Session.ID + "/summary.json")
	if err != nil {
		t.Fatal(err)
	}
	var again debrief.Report
	if err := json.Unmarshal(kept, &again); err != nil || len(again.Files[0].Stations[0].Series) != len(want.Series) {
		t.Errorf("summary.json: %v", err)
	}
}

// throughJSON is what a report looks like to its reader.
func throughJSON(t *testing.T, s debrief.Station) debrief.Station {
	t.Helper()
	b, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var out debrief.Station
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestBadDatagrams sends everything a network can bring: nothing may stop the service, and
// each reason is counted.
func TestBadDatagrams(t *testing.T) {
	s := serveLive(t, common{}, nil)
	good := payloads(t, recording)[:120]
	for _, b := range [][]byte{
		{}, bytes.Repeat([]byte{0xff}, 65507), bytes.Repeat([]byte("1,"), 32000), []byte("DATA*\x11\x00\x00"),
		[]byte("DATA"), []byte("NaN,Inf,-Inf,1e999\n"),
		[]byte("\xfe\xff\x00t\x00=\x001"), []byte(`{"time":"soon"}`), []byte("<LABELS> ,Time\n"), {0},
		[]byte("\x1f\x8b\x08junk"),
	} {
		conn, err := net.Dial("udp", s.listener.Addresses()[0].String())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := conn.Write(b); err != nil {
			t.Fatal(err)
		}
		conn.Close()
	}
	s.send(t, good) // and the service still takes a good stream
	resp, err := http.Get(s.url() + "metrics")
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	text, _ := io.ReadAll(resp.Body)
	for _, want := range []string{"halfturn_datagrams_total{format=\"text with labels\"}",
		"halfturn_datagrams_dropped_total{reason=\"empty\"}", "reason=\"unknown-format\""} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the metrics lack %s", want)
		}
	}
}

// TestLiveSocket follows a leg over the WebSocket: the state with its plan, frames, callouts in order and
// without a gap, the leg's result.
func TestLiveSocket(t *testing.T) {
	s := serveLive(t, common{}, nil)
	conn, _, err := websocket.DefaultDialer.DialContext(t.Context(), "ws"+strings.TrimPrefix(s.url(), "http")+"live",
		nil)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	// else a leg that does not come is waited for
	if err := conn.SetReadDeadline(time.Now().Add(patience)); err != nil {
		t.Fatal(err)
	}
	seen := make(chan map[string]int, 1)
	go func() {
		n := map[string]int{}
		defer func() { seen <- n }()
		last := 0.0
		for n[session.TypeLeg] == 0 {
			var m map[string]any
			if conn.ReadJSON(&m) != nil {
				return
			}
			kind := m["type"].(string)
			n[kind]++
			if m["plan"] != nil {
				n["plan in the state"]++
			}
			if seq, ok := m["seq"].(float64); ok && kind != session.TypeHello {
				if last > 0 && seq != last+1 {
					n["gap"]++
				}
				last = seq
			}
		}
	}()
	s.send(t, payloads(t, recording))
	n := <-seen
	for _, want := range []string{session.TypeHello, session.TypeFrame, session.TypeSetup, session.TypePhase,
		session.TypeCallout, session.TypeLeg, "plan in the state"} {
		if n[want] == 0 {
			t.Errorf("no message of type %s came: %v", want, n)
		}
	}
	if n["gap"] > 0 {
		t.Errorf("%d gaps in the events", n["gap"])
	}
}
