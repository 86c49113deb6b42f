package speech

import (
	"bufio"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"go.uber.org/goleak"
)

// The test binary is the program in some tests: as a parent that starts a child and waits for it.
// Both hold a connection to the test, which sees it close when they die.
func TestMain(m *testing.M) {
	if address := os.Getenv("HALFTURN_TEST_SPEAKER"); address != "" {
		c, err := net.Dial("unix", address)
		if err != nil {
			_, _ = os.Stderr.WriteString("no such voice\nand more\n")
			os.Exit(3)
		}
		if os.Getenv("HALFTURN_TEST_CHILD") == "" {
			child := exec.Command(os.Args[0])
			child.Env = append(os.Environ(), "HALFTURN_TEST_CHILD=1")
			if child.Start() != nil {
				os.Exit(4)
			}
		}
		_, _ = c.Write([]byte("here\n"))
		_, _ = io.Copy(io.Discard, c) // until the test hangs up
		os.Exit(0)
	}
	goleak.VerifyTestMain(m)
}

func TestArguments(t *testing.T) {
	tests := []struct {
		argv  []string
		words string
		args  []string
		input string
	}{
		{[]string{"say", "-s", "{rate}", "{words}"}, "Roll out", []string{"-s", "150", "Roll out"}, ""},
		{[]string{"say"}, "Roll out", nil, "Roll out\n"},
		{[]string{"say", "--text={words}"}, `"; rm -rf / #`, []string{`--text="; rm -rf / #`}, ""},
		{[]string{"say", "{words}"}, "--output=x", []string{"output=x"}, ""},
		{[]string{"say", "{words}"}, "{rate}", []string{"{rate}"}, ""},
	}
	for _, tt := range tests {
		c := &command{argv: tt.argv, rate: 150}
		args, input := c.arguments(tt.words)
		if !slices.Equal(args, tt.args) || input != tt.input {
			t.Errorf("%q of %q: %q and input %q, wanted %q and %q", tt.argv, tt.words, args, input, tt.args, tt.input)
		}
	}
}

func TestProgramNotThere(t *testing.T) {
	for _, argv := range [][]string{nil, {""}, {"no-such-program-of-this-name"}} {
		if _, err := newCommand(argv, 150); err == nil {
			t.Errorf("%q: no error", argv)
		}
	}
}

// What overtakes a program ends it and all that it started.
func TestKillEndsTheGroup(t *testing.T) {
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
	r, err := (&command{argv: []string{os.Args[0]}, rate: 150}).start("Roll out")
	if err != nil {
		t.Fatal(err)
	}
	var both []*bufio.Reader
	for range 2 {
		c, err := l.Accept()
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		if err := c.SetDeadline(time.Now().Add(20 * time.Second)); err != nil {
			t.Fatal(err)
		}
		b := bufio.NewReader(c)
		if s, err := b.ReadString('\n'); s != "here\n" {
			t.Fatalf("%q, %v", s, err)
		}
		both = append(both, b)
	}
	r.kill()
	if err := <-r.done(); err == nil {
		t.Error("ended as if by itself")
	}
	for _, b := range both {
		if _, err := b.ReadByte(); err == nil || os.IsTimeout(err) {
			t.Errorf("still there: %v", err)
		}
	}
}

// A reference program: Debian's espeak-ng, which writes the sound to its standard output here.
func TestReferenceProgram(t *testing.T) {
	for _, argv := range [][]string{{"espeak-ng", "--stdout", "-s", "{rate}", "{words}"}, {"espeak-ng", "--stdout"}} {
		c, err := newCommand(argv, 150)
		if err != nil {
			t.Skipf("espeak-ng is not installed (apt install espeak-ng): %v", err)
		}
		r, err := c.start("Ninety degrees. Roll out slowly.")
		if err != nil {
			t.Fatal(err)
		}
		if err := <-r.done(); err != nil {
			t.Errorf("%q: %v", argv, err)
		}
	}
}

func TestProgramComplains(t *testing.T) {
	t.Setenv("HALFTURN_TEST_SPEAKER", "/nowhere")
	r, err := (&command{argv: []string{os.Args[0]}, rate: 150}).start("Roll out")
	if err != nil {
		t.Fatal(err)
	}
	if err := <-r.done(); err == nil || err.Error() != "exit status 3: no such voice" {
		t.Errorf("error %v, wanted the status and the first line of what the program said", err)
	}
}

// Syllables as English dictionaries divide them; those of "degrees" are two.
func TestSyllables(t *testing.T) {
	for words, want := range map[string]float64{"": 0, "bank": 1, "degrees": 2, "roll out slowly": 4, "90°": 4,
		"Level on 1 8 0": 7, "Bank 75, nose level": 8} {
		if got := syllables(words); got != want {
			t.Errorf("%q has %g, wanted %g", words, got, want)
		}
	}
	l := newLengths(150)
	l.learn("Roll out slowly", 2)
	if got := l.of("Roll out slowly"); got != 2 {
		t.Errorf("takes %g s, heard 2", got)
	}
	if a, b := newLengths(150).of("Less bank"), l.of("Less bank"); b <= a {
		t.Errorf("%g s before hearing a slow voice, %g after", a, b)
	}
}
