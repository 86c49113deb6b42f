package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/netip"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"halfturn/cmd/halfturn/cmdtest"
)

// built compiles the program once for all tests that run it in a process of its own, as it is shipped.
var built = sync.OnceValues(func() (string, error) {
	name := filepath.Join(buildDir, "halfturn.exe") // Windows needs the ending, the others ignore it
	if out, err := exec.Command("go", "build", "-o", name, ".").CombinedOutput(); err != nil {
		return name, fmt.Errorf("go build: %w\n%s", err, out)
	}
	return name, nil
})

// buildDir is where it is built; TestMain makes and removes it.
var buildDir string

// atOnce is how long the program may take to end once it is asked to.
const atOnce = 2 * time.Second

// A process is the program in a process of its own, and what it has written. It ends with the test.
type process struct {
	*exec.Cmd
	ended chan struct{} // closed when it has, and all that it wrote was read
	pages string        // where a server is, once it listens
	udp   *net.UDPAddr

	mu   sync.Mutex
	said bytes.Buffer
}

// begin starts the program; what prepare changes of it comes before its start.
func begin(t *testing.T, prepare func(*exec.Cmd), args ...string) *process {
	t.Helper()
	name, err := built()
	if err != nil {
		t.Fatal(err)
	}
	p := &process{Cmd: exec.CommandContext(t.Context(), name, args...), ended: make(chan struct{})}
	p.Env = append(os.Environ(), "HALFTURN_LOG_FORMAT=json")
	p.Stdout, p.Stderr = io.Discard, p
	if prepare != nil {
		prepare(p.Cmd)
	}
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	go func() {
		defer close(p.ended)
		_ = p.Cmd.Wait() // its state says it
	}()
	return p
}

// ports has a server choose free ones.
var ports = []string{"--http", "127.0.0.1:0", "--udp", "127.0.0.1:0"}

// beginServer starts a server on a data directory, with more flags, and waits until it listens.
func beginServer(t *testing.T, prepare func(*exec.Cmd), data string, flags ...string) *process {
	t.Helper()
	p := begin(t, prepare, append(append([]string{"serve", "--data", data}, ports...), flags...)...)
	p.listens(t)
	return p
}

// Write takes what the program writes on standard error.
func (p *process) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.said.Write(b)
}

// words is what the program has written on standard error.
func (p *process) words() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.said.String()
}

// says waits until the program has written some words on standard error.
func (p *process) says(t *testing.T, words string) {
	t.Helper()
	cmdtest.Until(t, func() bool { return strings.Contains(p.words(), words) },
		func() string { return fmt.Sprintf("no %q in\n%s", words, p.words()) })
}

// listens waits until the server listens, and notes where.
func (p *process) listens(t *testing.T) {
	t.Helper()
	p.says(t, `"message":"listening; Ctrl-C stops"`)
	for line := range strings.Lines(p.words()) {
		var l struct {
			Pages string
			UDP   []string
		}
		if json.Unmarshal([]byte(line), &l) == nil && l.Pages != "" {
			p.pages, p.udp = l.Pages, net.UDPAddrFromAddrPort(netip.MustParseAddrPort(l.UDP[0]))
		}
	}
	if p.udp == nil {
		t.Fatalf("it does not say where it listens:\n%s", p.words())
	}
}

func (p *process) signal(t *testing.T, s os.Signal) {
	t.Helper()
	if err := p.Process.Signal(s); err != nil {
		t.Fatal(err)
	}
}

// ends waits for its end, which must come at once, and returns its exit status.
func (p *process) ends(t *testing.T) int {
	t.Helper()
	return p.endsWithin(t, atOnce)
}

func (p *process) endsWithin(t *testing.T, most time.Duration) int {
	t.Helper()
	asked := time.Now()
	select {
	case <-p.ended:
	case <-time.After(max(most, cmdtest.Patience)):
		t.Fatalf("it has not ended; it said\n%s", p.words())
	}
	if took := time.Since(asked); took > most {
		t.Errorf("it took %v to end", took)
	}
	return p.ProcessState.ExitCode()
}

// stop ends it as Ctrl-C does; it must succeed.
func (p *process) stop(t *testing.T) {
	t.Helper()
	p.signal(t, os.Interrupt)
	if status := p.endsWithin(t, cmdtest.Patience); status != exitDone {
		t.Errorf("exit status %d, it said\n%s", status, p.words())
	}
}

// kill ends it as the system does.
func (p *process) kill(t *testing.T) {
	t.Helper()
	p.signal(t, os.Kill)
	<-p.ended
}

// taken is how many datagrams the server has taken since it was started.
func (p *process) taken(t *testing.T) (n int) {
	t.Helper()
	for line := range strings.Lines(cmdtest.Get(t, p.pages+"metrics")) {
		if !strings.HasPrefix(line, "halfturn_datagrams_total{") {
			continue
		}
		f := strings.Fields(line)
		k, err := strconv.Atoi(f[len(f)-1])
		if err != nil {
			t.Fatal(err)
		}
		n += k
	}
	return n
}
