package speech

import (
	"errors"
	"fmt"
	"os/exec"
	"slices"
	"strconv"
	"strings"
	"time"
)

// A program starts to speak words. It is there to be replaced in tests.
type program interface {
	start(words string) (running, error)
}

// running is a program that speaks.
type running interface {
	// done yields once, when it has ended.
	done() <-chan error
	// kill ends it and all it started; done yields then.
	kill()
}

// command is the user's own program with its arguments, run without a shell.
type command struct {
	argv []string
	rate int // words a minute
}

// Placeholders of a command's arguments.
const (
	wordsHere = "{words}"
	rateHere  = "{rate}"
)

// newCommand finds the program.
func newCommand(argv []string, wordsPerMinute float64) (*command, error) {
	if len(argv) == 0 || argv[0] == "" {
		return nil, errors.New("no program is given")
	}
	path, err := exec.LookPath(argv[0])
	if err != nil {
		return nil, fmt.Errorf(
			"the program %s is not there; install it, or name another under [speech] command",
			argv[0],
		)
	}
	return &command{argv: append([]string{path}, argv[1:]...), rate: int(wordsPerMinute)}, nil
}

// arguments returns what the program is given, and what is written to its standard input: the
// words, where no argument has them. Words never look like an option.
func (c *command) arguments(words string) (args []string, input string) {
	words = strings.TrimLeft(words, "-− ")
	input = words + "\n"
	for _, a := range c.argv[1:] {
		if strings.Contains(a, wordsHere) {
			input = ""
		}
		args = append(args, strings.NewReplacer(wordsHere, words, rateHere, strconv.Itoa(c.rate)).Replace(a))
	}
	return args, input
}

// endWait is how long the pipes of a program that has ended may stay open.
const endWait = time.Second

func (c *command) start(words string) (running, error) {
	args, input := c.arguments(words)
	cmd := exec.Command(c.argv[0], args...)
	if input != "" {
		cmd.Stdin = strings.NewReader(input)
	}
	complaint := &head{}
	cmd.Stderr = complaint
	cmd.WaitDelay = endWait
	ownGroup(cmd)
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	p := &process{cmd: cmd, end: make(chan error, 1)}
	go func() { // ends with the program, which whoever started it kills
		err := cmd.Wait()
		if line, _, _ := strings.Cut(strings.TrimSpace(complaint.String()), "\n"); err != nil && line != "" {
			err = fmt.Errorf("%w: %s", err, line)
		}
		p.end <- err
	}()
	return p, nil
}

type process struct {
	cmd *exec.Cmd
	end chan error
}

func (p *process) done() <-chan error { return p.end }
func (p *process) kill()              { killGroup(p.cmd) }

// head keeps the first of what is written, and takes all.
type head struct{ kept []byte }

func (h *head) Write(b []byte) (int, error) {
	h.kept = append(h.kept, b[:min(len(b), 300-min(len(h.kept), 300))]...)
	return len(b), nil
}

func (h *head) String() string { return string(slices.Clone(h.kept)) }
