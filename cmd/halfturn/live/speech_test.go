package live

import (
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/stream/streamtest"
)

// TestSpeaksOnTheServer has a recorded flight coached over UDP with a speech program that hands this test
// what it is to say. The flight comes faster than anyone speaks, so most of its callouts are dropped by rule.
func TestSpeaksOnTheServer(t *testing.T) {
	dir, err := os.MkdirTemp("", "speech") // short: the name of a socket has little room
	if err != nil {
		t.Fatal(err)
	}
	defer os.RemoveAll(dir)
	l, err := net.Listen("unix", filepath.Join(dir, "s"))
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	t.Setenv("HALFTURN_TEST_SPEAKER", l.Addr().String())
	file := filepath.Join(dir, "c.toml")
	if err := os.WriteFile(file, fmt.Appendf(nil, "[speech]\ncommand = [%q]\n", os.Args[0]), 0o600); err != nil {
		t.Fatal(err)
	}
	s := serveLive(t, file, nil)
	c, err := l.Accept()
	if err != nil {
		t.Fatal(err)
	}
	if first, _ := io.ReadAll(c); string(first) != "Halfturn speaks. Simulator only.\n" {
		t.Errorf("first it said %q", first)
	}
	c.Close()
	l.Close() // the program fails from here on, and the coach does not mind
	s.send(t, streamtest.Payloads(t, brokenOff))
	handled := 0
	cmdtest.Until(t, func() bool {
		handled = 0
		for line := range strings.SplitSeq(cmdtest.Get(t, s.URL()+"metrics"), "\n") {
			if strings.HasPrefix(line, "halfturn_speech_total{") {
				n, _ := strconv.Atoi(line[strings.LastIndexByte(line, ' ')+1:])
				handled += n
			}
		}
		return handled >= 3 // the greeting and the results of two legs
	}, func() string { return fmt.Sprintf("%d callouts were handled, wanted are 3", handled) })
}

// speak is the speech program of these tests: it hands its standard input to the test.
func speak(address string) int {
	c, err := net.Dial("unix", address)
	if err != nil {
		return 1
	}
	defer c.Close()
	if _, err := io.Copy(c, os.Stdin); err != nil {
		return 1
	}
	return 0
}
