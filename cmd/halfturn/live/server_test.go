package live

import (
	"bytes"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/debrief"
	"halfturn/coach/grading"
	"halfturn/coach/message"
	"halfturn/configs/settings"
	"halfturn/stream/streamtest"
)

// TestLiveIsRegraded plays a recording against the server over UDP: the same legs and checks
// come out as from grading the file.
func TestLiveIsRegraded(t *testing.T) {
	var live *debrief.Report
	plane := t.TempDir() + "/single-b.toml" // of the name that the card has
	if err := os.WriteFile(plane, []byte("name = 'single-b'\ntitle = 'Single'\nsource = 'recorded flights'\nstall = "+
		"52\nentry = 118\napex = 91\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	choose := func(c *settings.Config) { c.SetChoice(nil, nil, &plane) }
	s := serveWith(t, config(t, "", t.TempDir(), choose), func(r *debrief.Report) { live = r })
	s.send(t, streamtest.Payloads(t, brokenOff))
	s.stop()
	if live == nil {
		t.Fatal("the session did not end with a report")
	}
	graded := debrief.FileReport{}
	if err := grading.File(t.Context(), brokenOff, judge(only(config(t, "", "", choose))), &graded); err != nil {
		t.Fatal(err)
	}
	want, got := throughJSON(t, graded.Stations[0]), throughJSON(t, live.Files[0].Stations[0])
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
func throughJSON(t *testing.T, s debrief.StationReport) debrief.StationReport {
	t.Helper()
	b, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	var out debrief.StationReport
	if err := json.Unmarshal(b, &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestBadDatagrams sends everything a network can bring: nothing may stop the service, and
// each reason is counted.
func TestBadDatagrams(t *testing.T) {
	s := serveLive(t, "", nil)
	good := streamtest.Payloads(t, brokenOff)[:120]
	for _, b := range [][]byte{
		{}, bytes.Repeat([]byte{0xff}, 65507), bytes.Repeat([]byte("1,"), 32000), []byte("DATA*\x11\x00\x00"),
		[]byte("DATA"), []byte("NaN,Inf,-Inf,1e999\n"),
		[]byte("\xfe\xff\x00t\x00=\x001"), []byte(`{"time":"soon"}`), []byte("<LABELS> ,Time\n"), {0},
		[]byte("\x1f\x8b\x08junk"),
	} {
		conn, err := net.Dial("udp", s.Addresses()[0].String())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := conn.Write(b); err != nil {
			t.Fatal(err)
		}
		conn.Close()
	}
	s.send(t, good) // and the service still takes a good stream
	resp, err := http.Get(s.URL() + "metrics")
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
	const planInState, gap message.Type = "plan in the state", "gap"
	s := serveLive(t, "", nil)
	conn, _, err := websocket.DefaultDialer.DialContext(t.Context(), "ws"+strings.TrimPrefix(s.URL(), "http")+"live",
		nil)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	// else a leg that does not come is waited for
	if err := conn.SetReadDeadline(time.Now().Add(cmdtest.Patience)); err != nil {
		t.Fatal(err)
	}
	seen := make(chan map[message.Type]int, 1)
	go func() {
		n := map[message.Type]int{}
		defer func() { seen <- n }()
		last := uint64(0)
		for n[message.TypeLeg] == 0 {
			_, data, err := conn.ReadMessage()
			if err != nil {
				return
			}
			m, err := message.Decode(data)
			if err != nil {
				t.Error(err)
				return
			}
			n[m.Type()]++
			if hello, ok := m.Body.(*message.Hello); ok {
				if hello.Plan != nil {
					n[planInState]++
				}
				continue
			}
			if m.Seq > 0 {
				if last > 0 && m.Seq != last+1 {
					n[gap]++
				}
				last = m.Seq
			}
		}
	}()
	s.send(t, streamtest.Payloads(t, brokenOff))
	n := <-seen
	for _, want := range []message.Type{message.TypeHello, message.TypeFrame, message.TypeSetup, message.TypePhase,
		message.TypeCallout, message.TypeLeg, planInState} {
		if n[want] == 0 {
			t.Errorf("no message of type %s came: %v", want, n)
		}
	}
	if n[gap] > 0 {
		t.Errorf("%d gaps in the events", n[gap])
	}
}

// TestWarnOpen: opening the pages to a network is warned of, and only that.
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
		warnOpen(zerolog.New(&log), a, false)
		said := log.String()
		for _, words := range []string{`"level":"warn"`, "halfturn users add", "halfturn tls init", address} {
			if strings.Contains(said, words) != warned {
				t.Errorf("%s: the log says %q", address, said)
			}
		}
		if !warned && said != "" {
			t.Errorf("%s: the log says %q", address, said)
		}
	}
}
