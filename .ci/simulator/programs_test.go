//go:build simulator

package simulator

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// grace is how long a program is given to end by itself.
const grace = 10 * time.Second

// program prepares a program that ends with the context, or at the end of the test.
func program(ctx context.Context, name string, args ...string) *exec.Cmd {
	c := exec.CommandContext(ctx, name, args...)
	c.Cancel = func() error { return c.Process.Signal(syscall.SIGTERM) }
	c.WaitDelay = grace
	return c
}

// run starts a program and returns what stops it and waits.
func run(t *testing.T, c *exec.Cmd) (stop func(os.Signal)) {
	t.Helper()
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	done := make(chan struct{})
	go func() { defer close(done); _ = c.Wait() }()
	stop = func(s os.Signal) {
		_ = c.Process.Signal(s) // it may have ended
		select {
		case <-done:
		case <-time.After(grace):
			_ = c.Process.Kill()
			<-done
		}
	}
	t.Cleanup(func() { stop(syscall.SIGTERM) })
	return stop
}

// screen starts a screen without a display and returns its name.
func screen(ctx context.Context, t *testing.T) string {
	t.Helper()
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	c := program(ctx, "Xvfb", "-displayfd", "3", "-screen", "0", "320x240x24", "-nolisten", "tcp")
	c.ExtraFiles = []*os.File{w}
	run(t, c)
	w.Close()
	defer r.Close()
	line, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		t.Fatalf("Xvfb opened no screen: %v", err)
	}
	return ":" + strings.TrimSpace(line)
}

// headless are the simulator's options for a machine without a graphics card: everything
// that draws is off, else the stream stalls for seconds.
var headless = strings.Fields(`--restore-defaults --disable-save-on-exit
	--disable-real-weather-fetch --disable-terrasync --disable-sound --disable-ai-models --disable-ai-traffic
	--disable-fgcom
	--disable-clouds --disable-clouds3d --disable-random-objects --disable-random-vegetation --disable-random-buildings
	--disable-specular-highlight --fog-fastest --shading-flat --disable-hud --disable-anti-alias-hud --disable-panel
	--disable-splash-screen --disable-mouse-pointer --disable-fullscreen --geometry=160x120 --bpp=24 --visibility=3000
	--prop:/sim/rendering/multithreading-mode=SingleThreaded --prop:/sim/rendering/multi-sample-buffers=0
	--prop:/sim/rendering/multi-samples=0 --prop:/sim/rendering/shaders/quality-level=0
	--prop:/sim/rendering/shaders/skydome=false
	--prop:/sim/rendering/draw-mask/terrain=false --prop:/sim/rendering/draw-mask/aircraft=false
	--prop:/sim/rendering/draw-mask/models=false --prop:/sim/rendering/draw-mask/clouds=false
	--prop:/sim/rendering/shadows/enabled=false --prop:/sim/rendering/particles=false
	--prop:/sim/rendering/max-paged-lod=50
	--prop:/sim/startup/save-on-exit=false --prop:/sim/menubar/visibility=false`)

// flight is where and how the flight begins: the standard light single, in the air over the
// sea, no wind, fuel not used up.
var flight = strings.Fields(`--aircraft=c172p --lat=21.80 --lon=-158.30 --altitude=6000 --vc=110 --heading=090 --in-air
	--trim
	--timeofday=noon --wind=0@0 --turbulence=0.0 --enable-fuel-freeze --max-fps=60`)

// startSimulator starts the simulator: Halfturn's own set-up file feeds the UDP address, the
// truth goes to a port of the test. It returns the port that takes the pilot's hands, and
// where the simulator's words are kept.
func startSimulator(ctx context.Context, t *testing.T, halfturn string, truth int) (hands int, words string) {
	t.Helper()
	fgfs, err := exec.LookPath("fgfs")
	if err != nil {
		fgfs = "/usr/games/fgfs" // where Debian has it, which root's search path lacks
	}
	host, port, err := net.SplitHostPort(halfturn)
	if err != nil {
		t.Fatal(err)
	}
	hands = freePort(t)
	home := t.TempDir()
	args := append([]string{"--data=" + folder(t, "../../configs/simulators/flightgear"), "--data=" + folder(t, "."),
		fmt.Sprintf("--generic=socket,out,30,%s,%s,udp,halfturn", host, port),
		fmt.Sprintf("--generic=socket,out,60,127.0.0.1,%d,udp,truth", truth),
		fmt.Sprintf("--generic=socket,in,60,127.0.0.1,%d,udp,control", hands)}, flight...)
	c := program(ctx, fgfs, append(args, headless...)...)
	// Without DBUS_FATAL_WARNINGS=0 it aborts where there is no session bus.
	c.Env = []string{
		"PATH=" + os.Getenv("PATH"),
		"DISPLAY=" + screen(ctx, t),
		"HOME=" + home,
		"FG_HOME=" + filepath.Join(home, "settings"),
		"XDG_RUNTIME_DIR=" + home,
		"DBUS_FATAL_WARNINGS=0",
		"LIBGL_ALWAYS_SOFTWARE=1",
		"GALLIUM_DRIVER=llvmpipe",
		"LP_NUM_THREADS=1",
		"OSG_THREADING=SingleThreaded",
	}
	words = filepath.Join(t.TempDir(), "simulator.txt")
	f, err := os.Create(words)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	c.Stdout, c.Stderr = f, f
	run(t, c)
	return hands, words
}

func folder(t *testing.T, name string) string {
	t.Helper()
	dir, err := filepath.Abs(name)
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

// freePort finds a UDP port that nobody uses.
func freePort(t *testing.T) int {
	t.Helper()
	c, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	return c.LocalAddr().(*net.UDPAddr).Port
}

// lastWords are the last lines of a file, for an error message.
func lastWords(name string) string {
	b, err := os.ReadFile(name)
	if err != nil {
		return err.Error()
	}
	lines := strings.Split(strings.TrimSpace(string(b)), "\n")
	return strings.Join(lines[max(0, len(lines)-12):], "\n")
}

// A server is a running "halfturn serve".
type server struct {
	pages, udp string
	summary    *strings.Builder // what it prints at its end
	stop       func(os.Signal)
}

// startServer builds Halfturn and serves on ports of the system's choice.
func startServer(ctx context.Context, t *testing.T) *server {
	t.Helper()
	binary := filepath.Join(t.TempDir(), "halfturn")
	if out, err := program(ctx, "go", "build", "-o", binary, "halfturn/cmd/halfturn").CombinedOutput(); err != nil {
		t.Fatalf("halfturn does not build: %v\n%s", err, out)
	}
	c := program(ctx, binary, "serve", "--http", "127.0.0.1:0", "--udp", "127.0.0.1:0", "--data", t.TempDir(),
		"--maneuver", "chandelle-civil", "--aircraft", "light-single")
	c.Env = append(os.Environ(), "HALFTURN_LOG_FORMAT=json")
	s := &server{summary: &strings.Builder{}}
	c.Stdout = s.summary
	log, err := c.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	s.stop = run(t, c)
	lines := json.NewDecoder(log)
	var said struct {
		Message, Pages string
		UDP            []string
	}
	for said.Pages == "" {
		if err := lines.Decode(&said); err != nil {
			t.Fatalf("halfturn serve did not say where it listens: %v", err)
		}
	}
	s.pages, s.udp = said.Pages, said.UDP[0]
	go func() { _, _ = io.Copy(io.Discard, log) }() // ends with the program
	return s
}
