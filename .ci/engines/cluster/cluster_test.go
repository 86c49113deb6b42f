// Package cluster holds servers of a cluster to what they promise, as processes that are killed, over real engines.
package cluster

import (
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach/message"
	"halfturn/engines/natsserver"
	"halfturn/stream/streamtest"
)

func TestMain(m *testing.M) {
	natsserver.Main()
	os.Exit(m.Run())
}

const (
	root   = "../../.."
	flight = root + "/coach/session/testdata/flights/wo-turboprop-b-good-1.pcap.gz" // two good legs
)

// program builds the program once.
var program = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "halfturn")
	if err != nil {
		return "", err
	}
	name := filepath.Join(dir, "halfturn")
	build := exec.Command("go", "build", "-o", name, "./cmd/halfturn")
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return name, nil
})

// A server is a process that is a node.
type server struct {
	*exec.Cmd
	pages, udp string
}

// free is an address at which nobody listens.
func free(t *testing.T, network string) string {
	t.Helper()
	if network == "tcp" {
		l, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		defer l.Close()
		return l.Addr().String()
	}
	c, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	return c.LocalAddr().String()
}

// serve starts a node.
func serve(t *testing.T, name string, urls []string) *server {
	t.Helper()
	binary, err := program()
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "cluster.toml")
	text := fmt.Sprintf("node = %q\nnats.urls = [\"%s\"]\nnats.streams = 2\n", name, strings.Join(urls, `", "`))
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	s := &server{pages: free(t, "tcp"), udp: free(t, "udp")}
	s.Cmd = exec.Command(binary, "serve", "--cluster", file, "--http", s.pages, "--udp", s.udp, "--data", dir)
	s.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	log, err := os.Create(filepath.Join(dir, "log"))
	if err != nil {
		t.Fatal(err)
	}
	s.Stderr, s.Stdout = log, log
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = s.Process.Kill()
		_ = s.Wait()
		log.Close()
		if t.Failed() {
			text, _ := os.ReadFile(log.Name())
			t.Logf("%s said:\n%s", name, text)
		}
	})
	until(t, name+" to serve", func() bool {
		answer, err := http.Get("http://" + s.pages + "/healthz")
		if err != nil {
			return false
		}
		answer.Body.Close()
		return answer.StatusCode == http.StatusOK
	})
	return s
}

func until(t *testing.T, what string, is func() bool) {
	t.Helper()
	for began := time.Now(); !is(); <-time.After(20 * time.Millisecond) {
		if time.Since(began) > 30*time.Second {
			t.Fatalf("waited for %s", what)
		}
	}
}

// A page is what a page of a server got.
type page struct {
	mu     sync.Mutex
	last   uint64
	gaps   []string
	hellos int
	legs   []float64 // when each that ended began, of the stream
	told   time.Time // when something came
	wait   time.Duration
}

// watch opens a page.
func watch(t *testing.T, s *server, station string) *page {
	t.Helper()
	conn, _, err := websocket.DefaultDialer.Dial("ws://"+s.pages+"/live?station="+station, nil)
	if err != nil {
		t.Fatal(err)
	}
	p := &page{}
	done := make(chan struct{})
	go func() {
		defer close(done)
		for {
			_, data, err := conn.ReadMessage()
			if err != nil {
				return
			}
			if m, err := message.Decode(data); err == nil {
				p.take(m)
			}
		}
	}()
	t.Cleanup(func() {
		conn.Close()
		<-done
	})
	return p
}

func (p *page) take(m message.Message) {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := time.Now()
	if !p.told.IsZero() {
		p.wait = max(p.wait, now.Sub(p.told))
	}
	p.told = now
	switch b := m.Body.(type) {
	case *message.Hello:
		p.hellos++
		p.last = m.Seq
		return
	case message.Leg:
		p.legs = append(p.legs, b.Start)
	}
	if m.Seq == 0 {
		return
	}
	if p.last > 0 && m.Seq != p.last+1 {
		p.gaps = append(p.gaps, fmt.Sprintf("%d after %d", m.Seq, p.last))
	}
	p.last = m.Seq
}

// TestKilled: the node that coaches is killed in the middle of a leg. A page of the other one goes on within 2 s,
// misses no event and gets none twice, and sees both legs finished.
func TestKilled(t *testing.T) {
	urls := natsserver.Run(t, 1, nil)
	a, b := serve(t, "a", urls), serve(t, "b", urls)
	from, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	station := from.LocalAddr().String()
	p := watch(t, b, station)
	list := streamtest.Payloads(t, flight)
	killed := false
	for i, datagram := range list {
		for _, s := range []*server{a, b} {
			to, err := net.ResolveUDPAddr("udp", s.udp)
			if err != nil {
				t.Fatal(err)
			}
			if _, err := from.WriteTo(datagram, to); err != nil && !killed {
				t.Fatal(err)
			}
		}
		if i == len(list)/2 {
			p.mu.Lock()
			if p.wait = 0; p.hellos == 0 || p.last == 0 {
				t.Error("the page of b shows nothing of what a coaches")
			}
			p.mu.Unlock()
			if err := a.Process.Kill(); err != nil {
				t.Fatal(err)
			}
			killed = true
		}
		<-time.After(4 * time.Millisecond)
	}
	until(t, "the second leg", func() bool {
		p.mu.Lock()
		defer p.mu.Unlock()
		return len(p.legs) >= 2
	})
	p.mu.Lock()
	defer p.mu.Unlock()
	t.Logf("longest wait %v, %d hellos, %d legs", p.wait, p.hellos, len(p.legs))
	if p.wait > 2*time.Second {
		t.Errorf("the page heard nothing for %v", p.wait)
	}
	if len(p.gaps) > 0 || len(p.legs) != 2 || p.legs[0] == p.legs[1] {
		t.Errorf("gaps %v, legs begun at %v", p.gaps, p.legs)
	}
}
