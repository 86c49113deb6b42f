package natsserver

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"syscall"
	"testing"
	"time"
)

// variable holds the Config of a process that is a server.
const variable = "HALFTURN_TEST_NATS"

// Main is for TestMain of a package that calls Start: there the test binary itself is run again as a server. It returns
// when this process is none.
func Main() {
	text := os.Getenv(variable)
	if text == "" {
		return
	}
	var c Config
	err := json.Unmarshal([]byte(text), &c)
	if err == nil {
		err = serve(c)
	}
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// serve runs a server until the process is killed, and writes a line when it takes clients.
func serve(c Config) error {
	s, err := c.run()
	if err != nil {
		return err
	}
	fmt.Println("ready")
	s.WaitForShutdown()
	return nil
}

// Processes are servers in processes of their own.
type Processes struct {
	t       testing.TB
	configs []Config
	running []*exec.Cmd // nil: killed
}

// Start starts servers as processes, and kills them when the test is over.
func Start(t testing.TB, n int) *Processes {
	t.Helper()
	p := &Processes{t: t, configs: Configs(t, n), running: make([]*exec.Cmd, n)}
	ready := make([]func(), n)
	for i := range n {
		ready[i] = p.start(i)
	}
	for i := range n {
		ready[i]()
	}
	return p
}

// URLs are where clients connect.
func (p *Processes) URLs() (all []string) {
	for _, c := range p.configs {
		all = append(all, c.URL())
	}
	return all
}

// Named is the number of the server of a name.
func (p *Processes) Named(name string) int {
	p.t.Helper()
	for i, c := range p.configs {
		if c.Name == name {
			return i
		}
	}
	p.t.Fatalf("no server is called %q", name)
	return 0
}

// start starts a server, and returns what waits until it takes clients.
func (p *Processes) start(i int) (ready func()) {
	p.t.Helper()
	text, err := json.Marshal(p.configs[i])
	if err != nil {
		p.t.Fatal(err)
	}
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), variable+"="+string(text))
	cmd.Stderr = os.Stderr
	cmd.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL} // it must not outlive the test
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		p.t.Fatal(err)
	}
	p.running[i] = cmd
	p.t.Cleanup(func() {
		if p.running[i] == cmd {
			p.Kill(i)
		}
	})
	line := make(chan string, 1)
	go func() {
		s, _ := bufio.NewReader(out).ReadString('\n')
		line <- s
	}()
	return func() {
		p.t.Helper()
		select {
		case s := <-line:
			if s != "ready\n" {
				p.t.Fatalf("server %d does not start: %q", i, s)
			}
		case <-time.After(patience):
			p.t.Fatalf("server %d does not start", i)
		}
	}
}

// Kill ends a server as a crash does: it can do nothing more.
func (p *Processes) Kill(i int) {
	p.t.Helper()
	p.signal(i, syscall.SIGKILL)
	p.running[i].Wait()
	p.running[i] = nil
}

// Restart starts a server that was killed, with what it had kept.
func (p *Processes) Restart(i int) {
	p.t.Helper()
	p.start(i)()
}

// Freeze has a server do nothing, with its connections open, until Thaw.
func (p *Processes) Freeze(i int) {
	p.t.Helper()
	p.signal(i, syscall.SIGSTOP)
}

// Thaw has a frozen server go on.
func (p *Processes) Thaw(i int) {
	p.t.Helper()
	p.signal(i, syscall.SIGCONT)
}

func (p *Processes) signal(i int, s syscall.Signal) {
	p.t.Helper()
	if err := p.running[i].Process.Signal(s); err != nil {
		p.t.Fatal(err)
	}
}
