package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach/probe"
)

// probeOf runs probe on a free port, sends datagrams to it from each of the senders, and returns what
// it printed.
func probeOf(t *testing.T, senders [][]string, args ...string) (out, msg string) {
	t.Helper()
	status, out, msg := probed(t, senders, args...)
	if status != exitDone {
		t.Fatalf("exit status %d: %s", status, msg)
	}
	return out, msg
}

func probed(t *testing.T, senders [][]string, args ...string) (status int, out, msg string) {
	t.Helper()
	free, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	to := free.LocalAddr().String()
	free.Close()
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	stop := make(chan struct{})
	go func() {
		defer close(stop)
		conns := make([]net.Conn, len(senders))
		for i := range senders {
			conns[i], _ = net.Dial("udp", to)
			defer conns[i].Close()
		}
		ticker := time.NewTicker(10 * time.Millisecond)
		defer ticker.Stop()
		for n := 0; ; n++ {
			select {
			case <-ctx.Done():
				return
			case <-ticker.C:
			}
			for i, lines := range senders {
				_, _ = conns[i].Write([]byte(lines[n%len(lines)]))
			}
		}
	}()
	var o, e bytes.Buffer
	status = run(ctx, append([]string{"probe", "--udp", to}, args...), streamsTo(&o, &e, noVariables))
	cancel()
	<-stop
	return status, o.String(), e.String()
}

// good is ten seconds of level flight that lacks a ball.
func good() []string {
	list := make([]string, 1000)
	for i := range list {
		const sample = `{"time": %.2f, "heading": 90.%d, "pitch": 2, "bank": 0, "airspeed": 130, "altitude": 5000}`
		list[i] = fmt.Sprintf(sample, float64(i)/100, i%9)
	}
	return list
}

var junk = []string{"\x01\x02\x03\x04 nothing known"}

// Without a terminal: a line when something changes, all that is known at the end.
func TestProbeText(t *testing.T) {
	out, msg := probeOf(t, [][]string{good(), junk}, "--for", "1s")
	for _, want := range []string{
		"live, JSON lines, lacks ", "format   JSON lines", "format   not recognized", "samples a second, jitter",
		"* nose", "* ball",
		"missing", "to do 1  For height above ground: ", `let the bridge add the member "ball" (balls) to every line.`,
		"Nothing in these datagrams can be read",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if strings.Contains(out, "\x1b") {
		t.Error("escape sequences without a terminal")
	}
	if !strings.Contains(msg, "listening on 127.0.0.1:") {
		t.Errorf("on standard error: %q", msg)
	}
}

func TestProbeJSON(t *testing.T) {
	out, _ := probeOf(t, [][]string{good()}, "--for", "500ms", "--format", "json")
	var got struct {
		Version int
		Senders []probe.Probe
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	if got.Version != 1 || len(got.Senders) != 1 || got.Senders[0].Station.Format != "JSON lines" ||
		got.Senders[0].Samples == 0 || len(got.Senders[0].Needs) == 0 {
		t.Errorf("%+v", got)
	}
}

// Nothing heard is a failure, told in one line with the address that was listened on, and no other.
func TestProbeNothing(t *testing.T) {
	for format, want := range map[string]string{"text": "", "json": "{\n  \"senders\": [],\n  \"version\": 1\n}\n"} {
		status, out, msg := probed(t, nil, "--for", "50ms", "--format", format)
		lines := strings.Split(strings.TrimSpace(msg), "\n")
		var port int
		if _, err := fmt.Sscanf(lines[0], "listening on 127.0.0.1:%d;", &port); err != nil {
			t.Fatalf("%v: %q", err, msg)
		}
		last := fmt.Sprintf("halfturn: nothing came on 127.0.0.1:%d in 0 s. Is the simulator's output switched on, "+
			"and does it send to 127.0.0.1:%[1]d? "+
			"From another machine, listen with --udp :%[1]d and let the simulator send to this machine's address, "+
			"port %[1]d; ", port)
		if status != exitFailed || out != want || len(lines) != 2 || !strings.HasPrefix(lines[1], last) ||
			!strings.Contains(lines[1], "--subscribe auto") {
			t.Errorf("%s: exit status %d, printed %q, told %q; want %q", format, status, out, msg, last)
		}
	}
}

// A port that a running Halfturn has: who has it, and where the same is shown.
func TestProbeBusy(t *testing.T) {
	udp, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer udp.Close()
	status, _, msg := call(t, nil, "probe", "--udp", udp.LocalAddr().String())
	if status != exitFailed || !strings.Contains(msg, "is already in use") ||
		!strings.Contains(msg, "shows the same at http://127.0.0.1:7180/setup") || strings.Count(msg, "\n") != 1 {
		t.Errorf("exit status %d: %q", status, msg)
	}
}

func TestSimulatorsCommand(t *testing.T) {
	dir := t.TempDir()
	if status, out, _ := call(t, nil, "simulators"); status != exitDone || !strings.Contains(out, "x-plane-ask") ||
		!strings.Contains(out, "simulators copy DIR") {
		t.Errorf("list: %d %q", status, out)
	}
	if status, out, _ := call(t, nil, "simulators", "show", "flightgear"); status != exitDone ||
		!strings.Contains(out, "--native-fdm=socket,out,60,HOST,7181,udp") {
		t.Errorf("show: %d %q", status, out)
	}
	if status, _, msg := call(t, nil, "simulators", "show", "kite"); status != exitUsage ||
		!strings.Contains(msg, "there are: x-plane-ask") {
		t.Errorf("no such guide: %d %q", status, msg)
	}
	for range 2 { // again changes nothing
		status, out, msg := call(t, nil, "simulators", "copy", dir)
		if status != exitDone || !strings.Contains(out, "bridge.mjs") || !strings.Contains(out, "README.md") {
			t.Errorf("copy: %d %q %q", status, out, msg)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "README.md"), []byte("other text"), 0o600); err != nil {
		t.Fatal(err)
	}
	if status, _, msg := call(t, nil, "simulators", "copy", dir); status != exitFailed ||
		!strings.Contains(msg, "is there already and differs") {
		t.Errorf("over another file: %d %q", status, msg)
	}
}
