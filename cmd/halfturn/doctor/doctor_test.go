package doctor

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
	"halfturn/coach/layout/layouttest"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/web"
)

var update = flag.Bool("update", false, "write the golden files")

// sound is a machine on which nothing stands in the way.
func sound() *Machine {
	return &Machine{
		System:      "linux",
		UDP:         []string{"127.0.0.1:7181"},
		Port:        "7181",
		Sent:        []Sent{{"127.0.0.1:7181", true}},
		Buffer:      4 << 20,
		BufferAsked: 4 << 20,
		HTTP:        "127.0.0.1:7180",
		URL:         "http://127.0.0.1:7180/",
		Data:        "/home/ada/.local/share/halfturn",
		Free:        120e9,
		PerHour:     56e6,
		Measured:    true,
		Now:         time.Date(2030, 3, 1, 22, 30, 0, 0, time.UTC),
		Newest:      time.Date(2030, 3, 1, 21, 0, 0, 0, time.UTC),
		Files:       1 << 20,
		FilesEnough: 2224,
		Connections: 2048,
		Capacity:    800,
	}
}

// cases are everything that can be found, and how it ends.
var cases = []struct {
	name, finding string
	state         State
	change        func(*Machine)
}{
	{"sound", "Configuration", OK, func(*Machine) {}},
	{"a wrong configuration", "Configuration", Trouble, func(m *Machine) {
		m.ConfigError = errors.New(`/etc/halfturn.toml:3: log.level: is "loud"; must be debug, info, warn or error`)
	}},
	{"a wrong card", "Cards", Trouble, func(m *Machine) { m.CardsError = errors.New("maneuvers/x.toml:1: title") }},
	{"the port is taken", "UDP port", Trouble, func(m *Machine) {
		m.UDPError, m.UDPBusy, m.UDPOwner, m.Sent = errors.New("taken"), true, "other (process 123)", nil
	}},
	{"the port is taken by somebody", "UDP port", Trouble, func(m *Machine) {
		m.UDPError, m.UDPBusy, m.Sent = errors.New("taken"), true, nil
	}},
	{"no such address", "UDP port", Trouble, func(m *Machine) {
		m.UDPError, m.Sent = errors.New("this computer has no address 10.9.9.9"), nil
	}},
	{"running", "UDP port", OK, func(m *Machine) {
		m.UDPError, m.UDPBusy, m.HTTPError, m.HTTPBusy = errors.New("taken"), true, errors.New("taken"), true
		m.Running, m.Sent = true, nil
	}},
	{"not tried", "Datagrams", Note, func(m *Machine) { m.UDPError, m.Sent = errors.New("taken"), nil }},
	{"lost", "Datagrams", Trouble, func(m *Machine) { m.Sent = append(m.Sent, Sent{"192.168.1.20:7181", false}) }},
	{"from the network", "Datagrams", Note, func(m *Machine) { m.Reachable = true }},
	{"from the network of Windows", "Datagrams", Note, func(m *Machine) { m.Reachable, m.System = true, "windows" }},
	{"from the network of macOS", "Datagrams", Note, func(m *Machine) { m.Reachable, m.System = true, "darwin" }},
	{"a small buffer", "Receive buffer", Note, func(m *Machine) { m.Buffer = 212992 }},
	{"a buffer that is not known", "Receive buffer", OK, func(m *Machine) { m.Buffer = 0 }},
	{"the pages' port is taken", "Address of the pages", Trouble, func(m *Machine) {
		m.HTTPError, m.HTTPBusy = errors.New("taken"), true
	}},
	{"no such address of pages", "Address of the pages", Trouble, func(m *Machine) {
		m.HTTPError = errors.New("permission denied")
	}},
	{"a disk that is read-only", "Data directory", Trouble, func(m *Machine) {
		m.DataError = errors.New("read-only file system")
	}},
	{"few hours", "Free disk", Note, func(m *Machine) { m.Free = 500e6 }},
	{"no room", "Free disk", Trouble, func(m *Machine) { m.Free, m.Measured = 5e6, false }},
	{"room that is not known", "Free disk", Note, func(m *Machine) { m.Free = -1 }},
	{"an empty battery", "Clock", Trouble, func(m *Machine) { m.Now = time.Date(1970, 1, 1, 0, 3, 0, 0, time.UTC) }},
	{"a clock behind a session", "Clock", Trouble, func(m *Machine) { m.Newest = m.Now.AddDate(0, 2, 0) }},
	{"a machine that was measured", "Stations", OK, func(*Machine) {}},
	{"more stations than it can take", "Stations", Note, func(m *Machine) { m.MaxStations = 2000 }},
	{"few files", "Open files", Note, func(m *Machine) { m.Files, m.Connections = 256, 80 }},
	{"no speech program", "Speech program", Trouble, func(m *Machine) {
		m.Speech, m.SpeechError = "espeak-ng", errors.New("executable file not found in $PATH")
	}},
	{"a speech program", "Speech program", OK, func(m *Machine) { m.Speech = "espeak-ng" }},
}

// Each trouble is found, it alone fails the examination, and says what to do; every examination is provoked.
func TestExamine(t *testing.T) {
	met := map[string]bool{"Voice of the browser": true} // it cannot be seen
	for _, c := range cases {
		m := sound()
		c.change(m)
		r := Examine(m, nil)
		found := false
		for _, f := range r.Findings {
			if f.Name == c.finding {
				found, met[f.Name] = true, true
				if f.State != c.state {
					t.Errorf("%s: %+v; must be %s", c.name, f, c.state)
				}
			}
			if f.What == "" || (f.State != OK && f.Do == "" && f.What != "Not tried, because the port cannot be had." &&
				m.Free >= 0) {
				t.Errorf("%s: %+v does not say what to do", c.name, f)
			}
		}
		if !found {
			t.Errorf("%s: no %q in %+v", c.name, c.finding, r.Findings)
		}
		if r.OK != (c.state != Trouble) && c.name != "not tried" {
			t.Errorf("%s: nothing stands in the way: %t", c.name, r.OK)
		}
	}
	for _, e := range examinations {
		if !met[e.name] {
			t.Errorf("nothing provokes %s", e.name)
		}
	}
}

// Everything that can be said fits 80 columns in every language, has no English in the others, and looks as accepted.
func TestScreen(t *testing.T) {
	for _, code := range phrase.LanguageCodes {
		in, err := web.Language(code)
		if err != nil {
			t.Fatal(err)
		}
		out := &layouttest.Terminal{Columns: 80}
		page := layout.NewPage(out)
		for _, c := range cases {
			m := sound()
			c.change(m)
			r := Examine(m, in)
			if c.name != "sound" {
				name := in.Word(c.finding)
				r.Findings = append([]Finding{}, only(r.Findings, name)...)
			}
			fmt.Fprintf(page, "[%s]\n", c.name)
			r.print(page, in)
		}
		if err := page.Err(); err != nil {
			t.Fatal(err)
		}
		layouttest.Fits(t, out.String(), 80)
		layouttest.Golden(t, *update, "screen-"+code+".txt", out.String())
	}
	for code, words := range translated(t) {
		for _, e := range examinations {
			if words[e.name] == "" {
				t.Errorf("%s has no word for %s", code, e.name)
			}
		}
	}
}

// translated returns the words of the languages that are not English, by code. Reading one takes a tenth of a second.
func translated(t *testing.T) map[string]map[string]string {
	t.Helper()
	all := map[string]map[string]string{}
	for _, code := range []string{"de", "es"} {
		in, err := web.Language(code)
		if err != nil {
			t.Fatal(err)
		}
		all[code] = in.Words
	}
	return all
}

func only(all []Finding, name string) (some []Finding) {
	for _, f := range all {
		if f.Name == name {
			some = append(some, f)
		}
	}
	return some
}

// quoted are the literals that the examinations pass to the language's tables.
var quoted = regexp.MustCompile(`in\.Wordf?\(("(?:[^"\\]|\\.)*"(?:\s*\+\s*"(?:[^"\\]|\\.)*")*)`)

// Every word has its German and Spanish.
func TestTranslated(t *testing.T) {
	n, tables := 0, translated(t)
	for _, file := range []string{"examine.go", "doctor.go"} {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, found := range quoted.FindAllStringSubmatch(string(text), -1) {
			words := ""
			for _, part := range regexp.MustCompile(`"((?:[^"\\]|\\.)*)"`).FindAllStringSubmatch(found[1], -1) {
				words += part[1]
			}
			n++
			for code, table := range tables {
				if table[words] == "" {
					t.Errorf("%s lacks %q", code, words)
				}
			}
		}
	}
	if n < 40 {
		t.Errorf("only %d words were found", n)
	}
}

// call runs the command with flags, on ports of the system's choice.
func call(t *testing.T, c *Command, env map[string]string) (Report, error) {
	t.Helper()
	var out strings.Builder
	c.JSON = true
	err := c.Run(t.Context(), base.Streams{
		Out: &out,
		Err: &out,
		Env: func(k string) (string, bool) { v, ok := env[k]; return v, ok },
	})
	var r Report
	if wrong := json.Unmarshal([]byte(out.String()), &r); wrong != nil {
		t.Fatalf("%v, %v: %s", err, wrong, out.String())
	}
	return r, err
}

// On a machine that is sound, nothing stands in the way and nothing is left behind; a port that is taken, a folder that
// is a file and a broken configuration do stand in the way.
func TestRun(t *testing.T) {
	dir, any := filepath.Join(t.TempDir(), "none", "yet"), "127.0.0.1:0"
	r, err := call(t, &Command{HTTP: &any, UDP: []string{any}, Data: &dir}, nil)
	if err != nil || !r.OK {
		t.Errorf("%v: %+v", err, r)
	}
	if _, err := os.Stat(filepath.Dir(dir)); err == nil {
		t.Error("it made a folder")
	}
	if f := only(r.Findings, "Datagrams"); len(f) != 1 || f[0].State != OK {
		t.Errorf("%+v", f)
	}
	udp, err := net.ListenPacket("udp", any)
	if err != nil {
		t.Fatal(err)
	}
	defer udp.Close()
	tcp, err := net.Listen("tcp", any)
	if err != nil {
		t.Fatal(err)
	}
	defer tcp.Close()
	go func() { // another server, which says nothing
		for c, err := tcp.Accept(); err == nil; c, err = tcp.Accept() {
			c.Close()
		}
	}()
	file := filepath.Join(t.TempDir(), "halfturn.toml")
	if err := os.WriteFile(file, []byte("max-rate = -1\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	http := tcp.Addr().String()
	for _, c := range []struct {
		finding string
		c       Command
	}{
		{"UDP port", Command{HTTP: &any, UDP: []string{udp.LocalAddr().String()}, Data: &dir}},
		{"Address of the pages", Command{HTTP: &http, UDP: []string{any}, Data: &dir}},
		{"Configuration", Command{Flags: base.Flags{Config: file}}},
	} {
		r, err := call(t, &c.c, nil)
		f := only(r.Findings, c.finding)
		if err == nil || r.OK || len(f) != 1 || f[0].State != Trouble {
			t.Errorf("%s: %v: %+v", c.finding, err, f)
		}
	}
}

// The size of an hour is that of the sessions that were flown: 90 s in 1.5 MB are 60 MB an hour.
func TestMeasured(t *testing.T) {
	data := t.TempDir()
	if _, _, ok := measured(data); ok {
		t.Error("nothing was flown")
	}
	dir := filepath.Join(data, "sessions", "2030-03-01T22-30-00Z_bench")
	if err := os.MkdirAll(dir, 0o750); err != nil {
		t.Fatal(err)
	}
	summary := `{"version": 1, "session": {"began": "2030-03-01T22:30:00Z", "ended": "2030-03-01T22:31:30Z"}}`
	for name, text := range map[string]string{
		"summary.json":       summary,
		"stream-0001.pcapng": strings.Repeat("x", 1_500_000-len(summary)),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	n, newest, ok := measured(data)
	if want := time.Date(2030, 3, 1, 22, 31, 30, 0, time.UTC); n != 60e6 || !newest.Equal(want) || !ok {
		t.Errorf("%d bytes an hour, newest %v, %t", n, newest, ok)
	}
	cfg := &settings.Config{Data: data}
	m := &Machine{}
	m.lookAtData(cfg)
	if m.PerHour != n || !m.Measured || m.DataError != nil {
		t.Errorf("%+v", m)
	}
}
