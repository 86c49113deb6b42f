//go:build linux

package main

import (
	"bytes"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
	"unsafe"
)

// atOnce is how long a command may take to end after a signal.
const atOnce = 2 * time.Second

// A running is the program in a process of its own, and what it has written.
type running struct {
	*exec.Cmd
	ended chan struct{} // closed when it has

	mu  sync.Mutex
	err bytes.Buffer
}

func (p *running) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.err.Write(b)
}

func (p *running) said() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.err.String()
}

// command prepares the program; what prepare does to it comes before its start.
func command(t *testing.T, prepare func(*exec.Cmd), args ...string) *running {
	t.Helper()
	p := &running{Cmd: program(t, nil, args...), ended: make(chan struct{})}
	p.Stderr = p
	if prepare != nil {
		prepare(p.Cmd)
	}
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	go func() {
		defer close(p.ended)
		_ = p.Wait() // its state says it
	}()
	return p
}

// says waits until the program has written some words on standard error.
func (p *running) says(t *testing.T, words string) {
	t.Helper()
	until(t, func() bool { return strings.Contains(p.said(), words) },
		func() string { return fmt.Sprintf("no %q in\n%s", words, p.said()) })
}

func (p *running) signal(t *testing.T, s os.Signal) {
	t.Helper()
	if err := p.Process.Signal(s); err != nil {
		t.Fatal(err)
	}
}

// ends waits for its end, and returns its exit status.
func (p *running) ends(t *testing.T) int {
	t.Helper()
	asked := time.Now()
	select {
	case <-p.ended:
	case <-time.After(patience):
		t.Fatalf("it has not ended; it said\n%s", p.said())
	}
	if took := time.Since(asked); took > atOnce {
		t.Errorf("it took %v to end", took)
	}
	return p.ProcessState.ExitCode()
}

// ports has a server choose free ones.
var ports = []string{"--http", "127.0.0.1:0", "--udp", "127.0.0.1:0"}

// serving is a call of the server, with a folder of its own.
func serving(t *testing.T) []string {
	return append([]string{"serve", "--data", t.TempDir()}, ports...)
}

const listens = `"message":"listening; Ctrl-C stops"`

// Every command that goes on until it is ended ends with the first signal, in good order.
func TestSignalEnds(t *testing.T) {
	for _, c := range []struct {
		args  []string
		words string // on standard error, or a datagram
	}{
		{append([]string{"serve"}, ports...), listens},
		{append([]string{"demo", "--no-open"}, ports...), listens},
		{[]string{"fly", "--to"}, ""}, // a sink of each test
		{[]string{"probe", "--udp", "127.0.0.1:0"}, "listening"},
	} {
		for _, s := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM} {
			t.Run(c.args[0]+" "+s.String(), func(t *testing.T) {
				t.Parallel()
				sink, err := net.ListenPacket("udp", "127.0.0.1:0")
				if err != nil {
					t.Fatal(err)
				}
				defer sink.Close()
				args := slices.Clone(c.args)
				if args[0] == "serve" || args[0] == "demo" {
					args = append(args, "--data", t.TempDir())
				}
				if c.words == "" {
					args = append(args, sink.LocalAddr().String())
				}
				p := command(t, nil, args...)
				if c.words != "" {
					p.says(t, c.words)
				} else if _, _, err := sink.ReadFrom(make([]byte, 1)); err != nil {
					t.Fatal(err)
				}
				p.signal(t, s)
				if status := p.ends(t); status != exitDone && c.args[0] != "probe" { // that heard nothing
					t.Errorf("exit status %d, it said\n%s", status, p.said())
				}
			})
		}
	}
}

// A second signal ends the program while its end is held up: here nobody reads what it prints about the session. The
// same touch of a key that is passed on twice is no second one.
func TestSecondSignal(t *testing.T) {
	t.Parallel()
	for _, silent := range []bool{false, true} { // nobody reads standard error either
		out, in, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		defer out.Close()
		defer in.Close()
		filled(t, in)
		p := command(t, func(c *exec.Cmd) { c.Stdout = in }, serving(t)...)
		p.says(t, listens)
		flyInto(t, p.said())
		if silent {
			p.mu.Lock() // it is read no more
		}
		p.signal(t, syscall.SIGINT)
		p.signal(t, syscall.SIGTERM)
		select {
		case <-p.ended:
			t.Fatal("it is not held up: that proves nothing")
		case <-time.After(500 * time.Millisecond):
		}
		p.signal(t, os.Interrupt)
		if silent {
			time.AfterFunc(atOnce/2, p.mu.Unlock) // or its end is not noticed
		}
		if status := p.ends(t); status != exitFailed {
			t.Errorf("exit status %d", status)
		}
		if !strings.HasSuffix(p.said(),
			"\nhalfturn: ended at once, as a second signal asked for; what was not written yet is lost\n") {
			t.Errorf("it said\n%s", p.said())
		}
	}
}

// filled fills a pipe to the brim.
func filled(t *testing.T, w *os.File) {
	t.Helper()
	raw, err := w.SyscallConn()
	if err != nil {
		t.Fatal(err)
	}
	if err := raw.Write(func(fd uintptr) bool {
		for n := 1 << 16; n > 0; {
			if _, err := syscall.Write(int(fd), make([]byte, n)); err != nil {
				n /= 2
			}
		}
		return true
	}); err != nil {
		t.Fatal(err)
	}
}

// flyInto sends a little flight to the server whose log it is given, and waits until it is a session.
func flyInto(t *testing.T, log string) {
	t.Helper()
	_, rest, _ := strings.Cut(log, `"udp":["127.0.0.1:`)
	port, _, _ := strings.Cut(rest, `"`)
	conn, err := net.Dial("udp", "127.0.0.1:"+port)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	_, rest, _ = strings.Cut(log, `"pages":"`)
	pages, _, _ := strings.Cut(rest, `"`)
	n := 0
	until(t, func() bool {
		n++
		_, err := fmt.Fprintf(conn, `{"time": %d.5, "heading": 90, "pitch": 2, "bank": 0, "airspeed": 120}`, n/100)
		return err == nil && strings.Contains(get(t, pages+"api/stations"), `"session":"2`)
	}, func() string { return "no session begins" })
}

// Without a terminal, as a service, SIGHUP ends nothing; under nohup it is not even told.
func TestHangUpOfService(t *testing.T) {
	t.Parallel()
	p := command(t, nil, serving(t)...)
	p.says(t, listens)
	p.signal(t, syscall.SIGHUP)
	p.says(t, "SIGHUP: there is nothing to read again")
	flyInto(t, p.said())
	p.signal(t, syscall.SIGTERM)
	if status := p.ends(t); status != exitDone {
		t.Errorf("exit status %d, it said\n%s", status, p.said())
	}
}

// Where a terminal started the program and goes, it ends as by Ctrl-C; under nohup it goes on.
func TestHangUpOfTerminal(t *testing.T) {
	t.Parallel()
	for _, nohup := range []bool{false, true} {
		master, slave := terminal(t)
		p := command(t, func(c *exec.Cmd) {
			c.Stdin = slave
			c.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
			if nohup {
				c.Args = append([]string{"sh", "-c", `trap "" HUP; exec "$0" "$@"`, c.Path}, c.Args[1:]...)
				c.Path = "/bin/sh"
			}
		}, serving(t)...)
		slave.Close()
		p.says(t, listens)
		flyInto(t, p.said())
		master.Close() // the kernel sends SIGHUP to who leads the session
		if nohup {
			flyInto(t, p.said())
			p.signal(t, syscall.SIGTERM)
		}
		if status := p.ends(t); status != exitDone || !strings.Contains(p.said(), "session kept") {
			t.Errorf("exit status %d, it said\n%s", status, p.said())
		}
	}
}

// terminal makes a pair of pseudo-terminals, as pts(4) says.
func terminal(t *testing.T) (master, slave *os.File) {
	t.Helper()
	fd, err := syscall.Open("/dev/ptmx", syscall.O_RDWR|syscall.O_NOCTTY|syscall.O_CLOEXEC, 0)
	if errors.Is(err, os.ErrNotExist) {
		t.Skip("there are no terminals here")
	}
	if err != nil {
		t.Fatal(err)
	}
	var locked, number int32
	for request, value := range map[uintptr]*int32{syscall.TIOCSPTLCK: &locked, syscall.TIOCGPTN: &number} {
		if _, _, failed := syscall.Syscall(syscall.SYS_IOCTL, uintptr(fd), request,
			uintptr(unsafe.Pointer(value))); failed != 0 {
			t.Fatal(failed)
		}
	}
	master = os.NewFile(uintptr(fd), "master")
	if slave, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|syscall.O_NOCTTY, 0); err != nil {
		t.Fatal(err)
	}
	return master, slave
}
