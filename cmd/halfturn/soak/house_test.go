package soak

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/netip"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"runtime/pprof"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/cmd/halfturn/demo"
	"halfturn/cmd/halfturn/live"
	"halfturn/configs/settings"
)

// A house is the server under test: in this process, or the program in its own.
type house interface {
	udp() *net.UDPAddr
	pages() string // the address of the pages, with a slash at its end
	data() string
	pid() int
	// reload has the server read a configuration that was changed, and reports whether it took it.
	reload(t *testing.T, text string) bool
	// collect collects garbage.
	collect(t *testing.T)
	// goroutines says what each is doing, for a person.
	goroutines(t *testing.T) string
	// words are what was logged of faults.
	words() string
	// peak is the most memory that the process ever had, in bytes; 0 where the test is part of it.
	peak(t *testing.T) float64
}

// configuration is the file of a configuration that can be used.
func (f *form) configuration(level string) string {
	return fmt.Sprintf("maneuver = 'wing-over'\naircraft = '%s'\nmax-stations = %d\nlog.level = '%s'\n"+
		"recording.keep-size = %d\nsubscribe.nearby = false\n", demo.Airplane, 4*(f.clean+f.faulty), level, f.keepSize)
}

// A log keeps the lines that say that something is wrong with the program.
type log struct {
	mu   sync.Mutex
	rest []byte // of a line that is not whole
	said bytes.Buffer

	pages string // once the server listens
	udp   string
	read  int // configurations taken
	bad   int // configurations refused
}

// mostWords bounds what is kept of the log.
const mostWords = 1 << 16

// Write takes what is logged.
func (l *log) Write(b []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.rest = append(l.rest, b...)
	for {
		line, rest, whole := bytes.Cut(l.rest, []byte("\n"))
		if !whole {
			return len(b), nil
		}
		l.line(line)
		l.rest = append([]byte(nil), rest...)
	}
}

// line takes a whole line. l.mu is held.
func (l *log) line(b []byte) {
	var line struct {
		Level, Message, Pages string
		UDP                   []string
	}
	wrong := json.Unmarshal(b, &line) != nil // a panic, a report of the race detector
	switch {
	case line.Pages != "" && len(line.UDP) > 0:
		l.pages, l.udp = line.Pages, line.UDP[0]
	case strings.HasPrefix(line.Message, "the configuration was read again"):
		l.read++
	case strings.HasPrefix(line.Message, "SIGHUP: "):
		l.bad++
	case strings.Contains(string(b), "fault in the program"):
		wrong = true
	}
	if wrong && l.said.Len() < mostWords {
		l.said.Write(append(b, '\n'))
	}
}

func (l *log) words() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.said.String()
}

// here is the server in this process.
type here struct {
	*live.Server
	log
	config func(text string) (*settings.Config, error)
	dir    string
}

func startHere(t *testing.T, f *form) *here {
	t.Helper()
	h := &here{dir: t.TempDir()}
	file := filepath.Join(t.TempDir(), "halfturn.toml")
	h.config = func(text string) (*settings.Config, error) {
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			return nil, err
		}
		c, err := settings.Load(file, func(string) (string, bool) { return "", false })
		if err != nil {
			return nil, err
		}
		c.HTTP, c.UDP, c.Data, c.Idle.Duration = "127.0.0.1:0", []string{"127.0.0.1:0"}, h.dir, f.idle
		return c, nil
	}
	cfg, err := h.config(f.configuration("info"))
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	h.Server, err = live.Start(ctx, live.Options{Config: cfg, Version: "1.2", Log: zerolog.New(&h.log)})
	if err != nil {
		cancel()
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- h.Serve(ctx) }()
	t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	return h
}

func (h *here) udp() *net.UDPAddr     { return net.UDPAddrFromAddrPort(h.Addresses()[0]) }
func (h *here) pages() string         { return h.URL() }
func (h *here) data() string          { return h.dir }
func (*here) pid() int                { return os.Getpid() }
func (*here) peak(*testing.T) float64 { return 0 }

func (h *here) reload(t *testing.T, text string) bool {
	c, err := h.config(text)
	return err == nil && h.Reload(c) == nil
}

func (*here) collect(*testing.T) {
	runtime.GC()
	debug.FreeOSMemory()
}

func (*here) goroutines(*testing.T) string {
	var b strings.Builder
	_ = pprof.Lookup("goroutine").WriteTo(&b, 1) // to memory
	return b.String()
}

// program is the server in a process of its own, as it is shipped.
type program struct {
	log
	cmd     *exec.Cmd
	dir     string
	file    string
	profile string
	ended   chan struct{}
}

func startProgram(t *testing.T, f *form) *program {
	t.Helper()
	p := &program{
		dir:     t.TempDir(),
		file:    filepath.Join(t.TempDir(), "halfturn.toml"),
		profile: cmdtest.FreeAddress(t),
		ended:   make(chan struct{}),
	}
	name := filepath.Join(t.TempDir(), "halfturn")
	if out, err := exec.Command("go", "build", "-o", name, "halfturn/cmd/halfturn").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	if err := os.WriteFile(p.file, []byte(f.configuration("info")), 0o600); err != nil {
		t.Fatal(err)
	}
	p.cmd = exec.CommandContext(context.WithoutCancel(t.Context()), name, "serve", "--config", p.file, "--data", p.dir,
		"--http", "127.0.0.1:0", "--udp", "127.0.0.1:0", "--pprof", p.profile)
	p.cmd.Env = append(os.Environ(), "HALFTURN_LOG_FORMAT=json", "HALFTURN_SESSION_IDLE="+f.idle.String())
	p.cmd.Stderr = &p.log
	hungUp := make(chan os.Signal, 1) // below nohup this is ignored, by the program too, unless it is taken here
	signal.Notify(hungUp, syscall.SIGHUP)
	defer signal.Stop(hungUp)
	if err := p.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	go func() {
		defer close(p.ended)
		_ = p.cmd.Wait() // its state says it
	}()
	t.Cleanup(func() { p.stop(t) })
	cmdtest.Until(t, func() bool { return p.pages() != "" }, func() string { return "no server: " + p.words() })
	return p
}

// stop ends it as a service is ended; it must succeed at once.
func (p *program) stop(t *testing.T) {
	_ = p.cmd.Process.Signal(syscall.SIGTERM) // one that has ended is noticed below
	select {
	case <-p.ended:
	case <-time.After(cmdtest.Patience):
		_ = p.cmd.Process.Kill()
		<-p.ended
	}
	if !p.cmd.ProcessState.Success() {
		t.Errorf("the program ended with %v; it said\n%s", p.cmd.ProcessState, p.words())
	}
}

func (p *program) udp() *net.UDPAddr {
	p.mu.Lock()
	defer p.mu.Unlock()
	return net.UDPAddrFromAddrPort(netip.MustParseAddrPort(p.log.udp))
}

func (p *program) pages() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.log.pages
}

func (p *program) data() string { return p.dir }

func (p *program) pid() int { return p.cmd.Process.Pid }

func (p *program) reload(t *testing.T, text string) bool {
	if err := os.WriteFile(p.file, []byte(text), 0o600); err != nil {
		t.Error(err)
	}
	counted := func() (read, bad int) {
		p.mu.Lock()
		defer p.mu.Unlock()
		return p.read, p.bad
	}
	before, refused := counted()
	if err := p.cmd.Process.Signal(syscall.SIGHUP); err != nil {
		t.Errorf("SIGHUP: %v; the program said\n%s", err, p.words())
		return false
	}
	for range int(cmdtest.Patience / time.Millisecond) {
		if read, bad := counted(); read > before || bad > refused {
			return read > before
		}
		<-time.After(time.Millisecond)
	}
	t.Error("SIGHUP is not answered")
	return false
}

func (p *program) collect(t *testing.T) { p.ask(t, "heap?gc=1") }

func (p *program) goroutines(t *testing.T) string { return p.ask(t, "goroutine?debug=1") }

// ask returns a profile.
func (p *program) ask(t *testing.T, what string) string {
	c := client()
	answer, err := c.Get("http://" + p.profile + "/debug/pprof/" + what)
	if err != nil {
		t.Error(err)
		return ""
	}
	defer answer.Body.Close()
	b, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Error(err)
	}
	return string(b)
}

// peak reads the high-water mark of the resident set, proc_pid_status(5).
func (p *program) peak(t *testing.T) float64 {
	b, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.cmd.Process.Pid))
	if err != nil {
		t.Error(err)
	}
	for line := range strings.Lines(string(b)) {
		if w := strings.Fields(line); len(w) > 1 && w[0] == "VmHWM:" {
			kB, _ := strconv.ParseFloat(w[1], 64)
			return kB * 1024
		}
	}
	return 0
}

// client returns a client of the pages that keeps no connection open.
func client() *http.Client {
	return &http.Client{Transport: &http.Transport{DisableKeepAlives: true}, Timeout: cmdtest.Patience}
}
