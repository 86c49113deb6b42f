//go:build linux

package main

import (
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"halfturn/cmd/halfturn/cmdtest"
)

const listens = `"message":"listening; Ctrl-C stops"`

// Every command that goes on until it is ended ends with the first signal, in good order.
func TestSignalEnds(t *testing.T) {
	t.Parallel()
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
				p := begin(t, nil, args...)
				if c.words != "" {
					p.says(t, c.words)
				} else if _, _, err := sink.ReadFrom(make([]byte, 1)); err != nil {
					t.Fatal(err)
				}
				p.signal(t, s)
				if status := p.ends(t); status != exitDone && c.args[0] != "probe" { // that heard nothing
					t.Errorf("exit status %d, it said\n%s", status, p.words())
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
		p := beginServer(t, func(c *exec.Cmd) { c.Stdout = in }, t.TempDir())
		flyInto(t, p)
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
		if !strings.HasSuffix(p.words(),
			"\nhalfturn: ended at once, as a second signal asked for; what was not written yet is lost\n") {
			t.Errorf("it said\n%s", p.words())
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

// flyInto sends a little flight to the server, and waits until it is a session.
func flyInto(t *testing.T, p *process) {
	t.Helper()
	conn, err := net.DialUDP("udp", nil, p.udp)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	n := 0
	cmdtest.Until(t, func() bool {
		n++
		_, err := fmt.Fprintf(conn, `{"time": %d.5, "heading": 90, "pitch": 2, "bank": 0, "airspeed": 120}`, n/100)
		return err == nil && strings.Contains(cmdtest.Get(t, p.pages+"api/stations"), `"session":"2`)
	}, func() string { return "no session begins" })
}

// Without a terminal, as a service, SIGHUP ends nothing: the configuration is read again. What a running server can
// take over it does, what needs a restart is named, and a broken file changes nothing and is named with line and key.
func TestHangUpOfService(t *testing.T) {
	t.Parallel()
	passHangUps(t)
	file := filepath.Join(t.TempDir(), "halfturn.toml")
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("max-rate = 500\n")
	p := beginServer(t, nil, t.TempDir(), "--config", file)
	for _, c := range []struct{ text, says string }{
		{"max-rate = 500\n", `"changed":[],"cards":false,`},
		{"max-rate = 400\nhosts = ['x']\n", `"changed":["max-rate"],"cards":false,"needs-restart":["hosts"]`},
		{"max-rate = 400\nmaneuver = 'chandelle-civil'\nallow = ['10.0.0.0/8']\n[[station]]\naddress = '10.0.0.1'\n" +
			"name = 'A'\n", `the configuration was read again; not before a restart: maneuver, allow, station"`},
		{"max-rate = 400\n[log]\nlevel = 'loud'\n", file + `:3: log.level: is \"loud\"; must be debug`},
		{"max-rate = 'fast'\n", file + `:1: max-rate: `},
		{"maxrate = 1\n", file + `:1: maxrate: is not a known key`},
		{"cards = ['/no/such/folder']\n", file + `:1: cards[0]: the folder of cards cannot be read`},
		{"max-rate = 400\nhosts = ['x']\nlog.level = 'error'\n", `"changed":["log.level"],`},
	} {
		write(c.text)
		p.signal(t, syscall.SIGHUP)
		p.says(t, c.says)
	}
	if words := p.words(); strings.Count(words, "the server goes on with the one before") != 4 {
		t.Errorf("it said\n%s", words)
	}
	flyInto(t, p)
	p.signal(t, syscall.SIGTERM)
	if status := p.ends(t); status != exitDone {
		t.Errorf("exit status %d, it said\n%s", status, p.words())
	}
	_, after, _ := strings.Cut(p.words(), `"changed":["log.level"]`)
	if strings.Contains(after, `"level":"info"`) {
		t.Errorf("at level error it said\n%s", after)
	}
}

// Where a terminal started the program and goes, it ends as by Ctrl-C; under nohup it goes on.
func TestHangUpOfTerminal(t *testing.T) {
	t.Parallel()
	passHangUps(t)
	for _, nohup := range []bool{false, true} {
		master, slave := terminal(t)
		p := beginServer(t, func(c *exec.Cmd) {
			c.Stdin = slave
			c.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
			if nohup {
				c.Args = append([]string{"sh", "-c", `trap "" HUP; exec "$0" "$@"`, c.Path}, c.Args[1:]...)
				c.Path = "/bin/sh"
			}
		}, t.TempDir())
		slave.Close()
		flyInto(t, p)
		master.Close() // the kernel sends SIGHUP to the leader of the session
		if nohup {
			flyInto(t, p)
			p.signal(t, syscall.SIGTERM)
		}
		if status := p.ends(t); status != exitDone || !strings.Contains(p.words(), "session kept") {
			t.Errorf("exit status %d, it said\n%s", status, p.words())
		}
	}
}

// passHangUps lets programs started from here have SIGHUP, also where the tests themselves run under nohup: a signal
// that is ignored stays ignored in a program that is started, one that is handled does not.
func passHangUps(t *testing.T) {
	heard := make(chan os.Signal, 1)
	signal.Notify(heard, syscall.SIGHUP)
	t.Cleanup(func() { signal.Stop(heard) })
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
