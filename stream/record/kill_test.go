package record

import (
	"bufio"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"testing"
	"time"

	"go.uber.org/goleak"
)

const (
	killedDir = "HALFTURN_TEST_KILLED" // where the process that is killed records
	perSecond = 20
)

// TestMain fails when a test leaves a goroutine behind. It is also the process that is killed: it records
// twenty datagrams a second of flight, and reports each one once the recorder has taken it.
func TestMain(m *testing.M) {
	dir := os.Getenv(killedDir)
	if dir == "" {
		goleak.VerifyTestMain(m) // exits
	}
	r := Begin(dir, Options{Rotate: 8_000})
	for i := range 100_000 {
		r.Add(fmt.Appendf(nil, "datagram %d", i), simulator, here, noon.Add(time.Duration(i)*time.Second/perSecond))
		drained(r)
		if _, err := os.Stdout.Write([]byte{'.'}); err != nil {
			os.Exit(1)
		}
	}
}

var kills = flag.Int("kills", 50, "how many recordings are killed")

// Killed at any moment, a recording opens after its repair, and lacks at most a second.
func TestKilled(t *testing.T) {
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	random := rand.New(rand.NewPCG(3, 4))
	for range *kills {
		dir, n := t.TempDir(), 1+random.IntN(5*perSecond)
		cmd := exec.Command(self)
		cmd.Env = append(os.Environ(), killedDir+"="+dir)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		if _, err := io.ReadFull(bufio.NewReaderSize(out, 16), make([]byte, n)); err != nil {
			t.Error(err)
		}
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // was killed
		if _, err := Repair(dir); err != nil {
			t.Fatal(err)
		}
		payloads, _, _ := read(t, dir)
		if len(payloads) < n-perSecond-1 {
			t.Errorf("killed after %d datagrams: %d are there", n, len(payloads))
		}
		if !slices.Equal(payloads, numbered(len(payloads))) {
			t.Errorf("killed after %d datagrams: they are not those that came", n)
		}
	}
}
