package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/adrg/xdg"
	"github.com/google/go-cmp/cmp"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/debrief"
)

const recording = "testdata/wo-single-b-rolled-out-early-1.pcap.gz"

// noVariables is an environment without variables.
func noVariables(string) (string, bool) { return "", false }

// streamsTo has the program write to these, with an environment.
func streamsTo(out, err io.Writer, env func(string) (string, bool)) base.Streams {
	return base.Streams{Out: out, Err: err, Env: env}
}

// call runs the program with an environment of its own.
func call(t *testing.T, env map[string]string, args ...string) (status int, out, err string) {
	t.Helper()
	var o, e bytes.Buffer
	status = run(t.Context(), args, streamsTo(&o, &e, func(k string) (string, bool) { v, ok := env[k]; return v, ok }))
	return status, o.String(), e.String()
}

func TestHelpIsEnough(t *testing.T) {
	for _, c := range []struct {
		args string
		want []string
	}{
		{"--help", []string{"serve", "demo", "fly", "grade", "brief", "cards", "probe", "version",
			"simulator practice only"}},
		{"serve --help", []string{"--config", "--data", "--http", "--udp", "--maneuver", "--aircraft"}},
		{"demo --help", []string{"--once", "--no-open", "--pace", "factor, 0.01 to 100;", "debug, info, warn, error"}},
		{"fly --help", []string{"--to", "--format", "--rate", "--pace", "--maneuver", "--direction", "--flaw", "--wind",
			"--stations", "overbanked", "labels",
			"flight, 1 to 1000.", "factor, 0.01 to 1000;", "play, 1 to 5000.", "legs, 1 to 100;", "speed 0 to 100.",
			"from 0.25 to 1.5"}},
		{"grade --help", []string{"--maneuver", "--aircraft", "--format", "--map", "pcapng"}},
		{"probe --help", []string{"--udp", "--for"}},
		{"cards --help", []string{"list", "show", "check", "copy"}},
	} {
		status, out, _ := call(t, nil, strings.Fields(c.args)...)
		if status != exitDone {
			t.Errorf("%q: exit status %d", c.args, status)
		}
		out = strings.Join(strings.Fields(out), " ") // it is wrapped
		for _, w := range c.want {
			if !strings.Contains(out, w) {
				t.Errorf("%q does not speak of %q", c.args, w)
			}
		}
	}
}

// TestHelpAsked: help and a command are what that command and --help are.
func TestHelpAsked(t *testing.T) {
	for _, command := range []string{"", "serve", "users", "users add", "grade"} {
		asked := strings.Fields(command)
		_, want, _ := call(t, nil, append(asked, "--help")...)
		status, out, errs := call(t, nil, append([]string{"help"}, asked...)...)
		if status != exitDone || out != want || errs != "" {
			t.Errorf("help %s: status %d, %q, differs: %s", command, status, errs, cmp.Diff(want, out))
		}
	}
	for _, unknown := range []string{"soar", "users soar"} {
		_, _, want := call(t, nil, strings.Fields(unknown)...)
		status, out, errs := call(t, nil, strings.Fields("help "+unknown)...)
		if status != exitUsage || out != "" || errs != want {
			t.Errorf("help %s: status %d, %q, %q; must say %q", unknown, status, out, errs, want)
		}
	}
}

func TestWrongUse(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		p := filepath.Join(dir, name)
		if err := os.WriteFile(p, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return p
	}
	junk := write("junk.pcap", "this is no recording")
	badConfig := write("bad.toml", "http = '127.0.0.1:0'\nudpp = []\n")
	wrongType := write("type.toml", "max-stations = 'many'\n")
	badCard := write("card.toml", "name = 'x'\nturns = 3\n")
	escapes := write("escapes.toml", "\"\\u001b[31m\" = 1\n")
	plane := write("plane.toml", "name = 'plane'\ntitle = 'Plane'\nsource = 'ours'\nstall = 90\nentry = 60\n")
	for name, c := range map[string]struct {
		args   []string
		env    map[string]string
		status int
		want   string // in the one line on standard error
	}{
		"unknown command": {args: []string{"soar"}, status: exitUsage, want: "halfturn --help"},
		"unknown flag":    {args: []string{"grade", "--loud", recording}, status: exitUsage, want: "--loud"},
		"unknown maneuver": {args: []string{"grade", "--maneuver", "loop", recording}, status: exitUsage,
			want: "there are: chandelle-civil"},
		"unknown aircraft": {args: []string{"brief", "--aircraft", "kite"}, status: exitUsage,
			want: "radial-trainer"},
		"no such recording": {args: []string{"grade", filepath.Join(dir, "none.pcap")}, status: exitFailed,
			want: "none.pcap"},
		"no recording": {args: []string{"grade", junk}, status: exitFailed, want: "junk.pcap"},
		"unknown key": {args: []string{"brief", "--config", badConfig}, status: exitUsage,
			want: "bad.toml:2: udpp: is not a known key"},
		"wrong type": {args: []string{"brief", "--config", wrongType}, status: exitUsage,
			want: "type.toml:1: max-stations"},
		"wrong card": {args: []string{"cards", "check", badCard}, status: exitFailed, want: "turns"},
		"aircraft impossible": {args: []string{"brief", "--aircraft", plane}, status: exitFailed,
			want: "plane.toml:5: entry: is 60 kt; must be above the stall speed of 90 kt"},
		"environment": {args: []string{"brief"}, env: map[string]string{"HALFTURN_MAX_STATIONS": "many"},
			status: exitUsage, want: "HALFTURN_MAX_STATIONS"},
		"unknown flaw": {args: []string{"fly", "--flaw", "backwards"}, status: exitUsage, want: "overbanked"},
		"wind":         {args: []string{"fly", "--wind", "strong"}, status: exitUsage, want: "FROM/SPEED"},
		"wind speed": {args: []string{"fly", "--wind", "270/150"}, status: exitUsage,
			want: "--wind: the speed is 150; must be between 0 and 100"},
		"wind direction": {args: []string{"fly", "--wind", "nan/5"}, status: exitUsage,
			want: "--wind: the direction is NaN; must be between 0 and 360"},
		"rate": {args: []string{"fly", "--rate", "nan"}, status: exitUsage,
			want: "--rate is NaN; must be between 1 and 1000"},
		"rate of 0": {args: []string{"fly", "--rate", "0"}, status: exitUsage,
			want: "--rate is 0; must be between 1 and 1000"},
		"pace": {args: []string{"fly", "--pace", "inf"}, status: exitUsage,
			want: "--pace is +Inf; must be between 0.01 and 1000"},
		"stations": {args: []string{"fly", "--stations", "5001"}, status: exitUsage,
			want: "--stations is 5001; must be between 1 and 5000"},
		"legs": {args: []string{"fly", "--legs", "101"}, status: exitUsage,
			want: "--legs is 101; must be between 1 and 100"},
		"strength": {args: []string{"fly", "--strength", "1.6"}, status: exitUsage,
			want: `--strength is "1.6"; must be mild, medium, clear, or a number between 0.25 and 1.5`},
		"unknown format": {args: []string{"fly", "--format", "morse"}, status: exitUsage,
			want: `--format is "morse"; must be labels`},
		"unknown direction": {args: []string{"fly", "--direction", "up"}, status: exitUsage,
			want: `--direction is "up"; must be both`},
		"unknown airplane": {args: []string{"fly", "--aircraft", "kite"}, status: exitUsage,
			want: `--aircraft is "kite"; must be radial-trainer`},
		"no port": {args: []string{"fly", "--to", "127.0.0.1"}, status: exitUsage,
			want: `--to is "127.0.0.1"; must be HOST:PORT`},
		"port too large": {args: []string{"fly", "--to", "127.0.0.1:70000"}, status: exitUsage,
			want: `--to is "127.0.0.1:70000"; must be HOST:PORT`},
		"unknown host": {args: []string{"fly", "--to", "no such host:7181"}, status: exitFailed,
			want: "give the address in numbers"},
		"demo pace": {args: []string{"demo", "--pace", "nan"}, status: exitUsage,
			want: "--pace is NaN; must be between 0.01 and 100"},
		"demo maneuver": {args: []string{"demo", "--maneuver", "lazy-eight"}, status: exitUsage,
			want: "halfturn fly --maneuver"},
		"demo aircraft": {args: []string{"demo", "--aircraft", "kite"}, status: exitUsage,
			want: "radial-trainer"},
		"probe length": {args: []string{"probe", "--for=-1s"}, status: exitUsage,
			want: "--for is -1s; must be 0 or more"},
		"probe address": {args: []string{"probe", "--udp", "here"}, status: exitUsage,
			want: `--udp: is "here"; must be HOST:PORT such as 127.0.0.1:7181`},
		"brief of all": {args: []string{"brief", "--maneuver", "auto"}, status: exitUsage,
			want: "--maneuver: is auto; a brief is of one"},
		"no card file": {args: []string{"cards", "check", filepath.Join(dir, "none.toml")}, status: exitFailed,
			want: "none.toml: no such file"},
		"a folder": {args: []string{"cards", "check", dir}, status: exitFailed,
			want: "is a folder; must be a TOML file"},
		"escapes": {args: []string{"cards", "show", "\x1b]0;a\a\r\u009b"}, status: exitUsage,
			want: `there is no card "\x1b]0;a\a\r\u009b"`},
		"escape in a flag":    {args: []string{"brief", "--\x1b[31m"}, status: exitUsage, want: `--\x1b[31m`},
		"escape in a command": {args: []string{"\x1b[31m"}, status: exitUsage, want: `\x1b[31m`},
		"escape in a file": {args: []string{"cards", "check", escapes}, status: exitFailed,
			want: `:1: \x1b[31m: is not a known key`},
		"no such card": {args: []string{"cards", "show", "loop"}, status: exitUsage, want: "halfturn cards"},
	} {
		t.Run(name, func(t *testing.T) {
			status, _, err := call(t, c.env, c.args...)
			lines := strings.Split(strings.TrimSpace(err), "\n")
			last := lines[len(lines)-1]
			if strings.ContainsAny(err, "\x1b\a\r\u009b") {
				t.Errorf("%q reaches the terminal", err)
			}
			if status != c.status || !strings.Contains(last, c.want) || !strings.HasPrefix(last, "halfturn: ") {
				t.Errorf("exit status %d, want %d; last line %q, want %q in it", status, c.status, last, c.want)
			}
		})
	}
}

func TestPortTaken(t *testing.T) {
	tcp, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer tcp.Close()
	udp, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer udp.Close()
	data := t.TempDir()
	for _, c := range []struct{ http, udp, want string }{
		{tcp.Addr().String(), "127.0.0.1:0", "--http"},
		{"127.0.0.1:0", udp.LocalAddr().String(), "--udp"},
	} {
		status, _, msg := call(t, nil, "serve", "--data", data, "--log-level", "error", "--http", c.http, "--udp",
			c.udp)
		lines := strings.Split(strings.TrimSpace(msg), "\n")
		if status != exitFailed || len(lines) != 2 || !strings.Contains(lines[0], coach.Cautions[0]) ||
			!strings.HasPrefix(lines[1], "halfturn: "+c.want+": ") {
			t.Errorf("exit status %d, %q", status, msg)
		}
	}
}

func TestGradeJSON(t *testing.T) {
	plane := filepath.Join(t.TempDir(), "single-b.toml")
	// The recorded aircraft class: stall, entry and apex as measured.
	if err := os.WriteFile(plane, []byte("name = 'single-b'\ntitle = 'Single'\nsource = 'recorded flights'\nstall = "+
		"52\nentry = 118\napex = 91\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	status, out, msg := call(t, nil, "grade", "--maneuver", "wing-over", "--aircraft", plane, "--format", "json",
		recording)
	if status != exitDone {
		t.Fatalf("exit status %d: %s", status, msg)
	}
	var r debrief.Report
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	leg := r.Files[0].Stations[0].Series[0].Legs[0]
	if r.Version != 1 || leg.Direction != "left" || leg.Outcome != "finished" || leg.Exit == nil ||
		leg.Verdict != "missed" {
		t.Errorf("graded %+v", leg)
	}
	status, text, _ := call(t, nil, "grade", "--aircraft", plane, recording)
	if status != exitDone || !strings.Contains(text, "MISSED  Turn at the exit") ||
		!strings.Contains(text, "simulator practice only") {
		t.Errorf("exit status %d:\n%s", status, text)
	}
}

func TestCardsCopyCheckUse(t *testing.T) {
	dir := t.TempDir()
	if status, _, msg := call(t, nil, "cards", "copy", "wing-over", dir); status != exitDone {
		t.Fatal(msg)
	}
	path := filepath.Join(dir, "maneuvers", "wing-over.toml")
	if status, out, _ := call(t, nil, "cards", "check", path); status != exitDone ||
		!strings.Contains(out, "good maneuver card") {
		t.Errorf("check: %d %q", status, out)
	}
	if status, _, _ := call(t, nil, "cards", "copy", "wing-over", dir); status != exitFailed {
		t.Error("copying wrote over a card")
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.Replace(text, []byte(`title = "Wing-over"`), []byte(`title = "Half a turn"`), 1),
		0o600); err != nil {
		t.Fatal(err)
	}
	if _, out, _ := call(t, nil, "brief", "--cards", dir); !strings.Contains(out, "Half a turn") {
		t.Errorf("the user's card does not take the shipped one's place:\n%s", out)
	}
}

func TestVersion(t *testing.T) {
	if status, out, _ := call(t, nil, "version"); status != exitDone ||
		!strings.HasPrefix(out, "halfturn "+base.Version) {
		t.Errorf("%d %q", status, out)
	}
}

func TestMain(m *testing.M) {
	// Nothing of a test may reach the user's own configuration or data.
	os.Setenv("XDG_DATA_HOME", os.TempDir())
	xdg.Reload()
	os.Exit(tested(m))
}

// tested runs the tests, and removes what they built.
func tested(m *testing.M) int {
	var err error
	if buildDir, err = os.MkdirTemp("", "halfturn-test-"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(buildDir)
	return m.Run()
}
