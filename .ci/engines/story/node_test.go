package story

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// A node is the program in a process of its own, which can be killed and frozen. It keeps its addresses and its data.
type node struct {
	t     *testing.T
	name  string
	dir   string
	args  []string
	pages string // HOST:PORT
	pprof string // HOST:PORT, where -profile asks for it
	udp   *net.UDPAddr
	link  *link // to the NATS servers; nil: a single machine

	process *exec.Cmd
	ended   chan struct{} // once it has
	log     *os.File
}

// build builds the program.
func build(t *testing.T) (program string) {
	t.Helper()
	name := filepath.Join(t.TempDir(), "halfturn")
	cmd := exec.Command("go", "build", "-o", name, "./cmd/halfturn")
	cmd.Dir = root
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return name
}

// newNode prepares a node. How is what its command line has beside its addresses.
func newNode(t *testing.T, program, name, config string, how ...string) *node {
	t.Helper()
	n := &node{t: t, name: name, dir: t.TempDir(), pages: freeTCP(t), udp: freeUDP(t)}
	file := filepath.Join(n.dir, "halfturn.toml")
	if err := os.WriteFile(file, []byte(config), 0o600); err != nil {
		t.Fatal(err)
	}
	n.args = append([]string{program, "serve", "--config", file, "--http", n.pages, "--udp", n.udp.String(), "--data",
		n.dir}, how...)
	if *profile != "" {
		n.pprof = freeTCP(t)
		n.args = append(n.args, "--pprof", n.pprof)
	}
	var err error
	if n.log, err = os.Create(filepath.Join(n.dir, "log")); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		n.kill()
		n.log.Close()
		n.keepLog()
	})
	return n
}

// keepLog leaves the log where the flag says.
func (n *node) keepLog() {
	if *logs == "" {
		return
	}
	text, err := os.ReadFile(n.log.Name())
	if err == nil {
		err = os.WriteFile(filepath.Join(*logs, n.name+".log"), text, 0o600)
	}
	if err != nil {
		n.t.Error(err)
	}
}

// start starts the process, which serves a little later.
func (n *node) start() {
	n.t.Helper()
	n.process = exec.Command(n.args[0], n.args[1:]...)
	n.process.Stdout, n.process.Stderr = n.log, n.log
	n.process.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	if err := n.process.Start(); err != nil {
		n.t.Fatal(err)
	}
	process, ended := n.process, make(chan struct{})
	n.ended = ended
	go func() {
		defer close(ended)
		_ = process.Wait() // its log says why
	}()
}

// serves waits until the node serves.
func (n *node) serves() {
	n.t.Helper()
	gone := func() bool {
		select {
		case <-n.ended:
			return true
		default:
			return false
		}
	}
	until(n.t, n.name+" to serve", time.Minute, func() bool {
		answer, err := http.Get("http://" + n.pages + "/healthz")
		if err != nil {
			if gone() {
				n.t.Fatalf("%s ended", n.name)
			}
			return false
		}
		answer.Body.Close()
		return answer.StatusCode == http.StatusOK
	})
}

// kill ends the process with signal 9: it can do nothing more.
func (n *node) kill() {
	if n.process == nil {
		return
	}
	_ = n.process.Process.Kill() // it may have ended
	<-n.ended
	n.process = nil
}

// freeze has the process do nothing, with its sockets open, until thaw.
func (n *node) freeze() { n.signal(syscall.SIGSTOP) }

func (n *node) thaw() { n.signal(syscall.SIGCONT) }

func (n *node) signal(s syscall.Signal) {
	if err := n.process.Process.Signal(s); err != nil {
		n.t.Error(err)
	}
}

// metrics are what the node counts, by name with labels; none while it does not answer.
func (n *node) metrics() map[string]float64 {
	all := map[string]float64{}
	client := http.Client{Timeout: 5 * time.Second}
	answer, err := client.Get("http://" + n.pages + "/metrics")
	if err != nil {
		return all
	}
	defer answer.Body.Close()
	for lines := bufio.NewScanner(answer.Body); lines.Scan(); {
		if at := strings.LastIndexByte(lines.Text(), ' '); at > 0 && lines.Text()[0] != '#' {
			if v, err := strconv.ParseFloat(lines.Text()[at+1:], 64); err == nil {
				all[lines.Text()[:at]] = v
			}
		}
	}
	return all
}

// computes is a profile of the processor time of the node, for go tool pprof.
func (n *node) computes() string {
	status, body, err := read(http.Get("http://" + n.pprof + "/debug/pprof/profile?seconds=15"))
	if err != nil || status != http.StatusOK {
		n.t.Errorf("node %s has no profile: %d, %v", n.name, status, err)
	}
	return string(body)
}

// said counts the lines of the log that hold some words.
func (n *node) said(words string) (count int) {
	text, err := os.ReadFile(n.log.Name())
	if err != nil {
		n.t.Error(err)
	}
	return strings.Count(string(text), words)
}

// freeTCP is an address at which nobody listens.
func freeTCP(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

func freeUDP(t *testing.T) *net.UDPAddr {
	t.Helper()
	c, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	return c.LocalAddr().(*net.UDPAddr)
}

// until waits until something holds.
func until(t *testing.T, what string, most time.Duration, holds func() bool) {
	t.Helper()
	for began := time.Now(); !holds(); <-time.After(50 * time.Millisecond) {
		if time.Since(began) > most {
			t.Fatalf("waited %v for %s", most, what)
		}
	}
}

// read is the body of an answer, and its status.
func read(answer *http.Response, err error) (int, []byte, error) {
	if err != nil {
		return 0, nil, err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		return 0, nil, fmt.Errorf("the answer breaks off: %w", err)
	}
	return answer.StatusCode, body, nil
}
