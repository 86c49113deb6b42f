package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
)

// built compiles the program once for all tests that run it in a process of its own. It is built as it is shipped,
// without the race detector, with which each start takes seconds; what the tests run in their own process has it.
var built = sync.OnceValues(func() (string, error) {
	name := filepath.Join(buildDir, "halfturn.exe") // Windows wants the ending, the others do not mind
	if out, err := exec.Command("go", "build", "-o", name, ".").CombinedOutput(); err != nil {
		return name, fmt.Errorf("go build: %w\n%s", err, out)
	}
	return name, nil
})

// buildDir is where it is built; TestMain makes and removes it.
var buildDir string

// program prepares the program for a process of its own; it ends with the test. A command before it, such as a shell
// that sets a limit, is given the program and its arguments.
func program(t *testing.T, before []string, args ...string) *exec.Cmd {
	t.Helper()
	name, err := built()
	if err != nil {
		t.Fatal(err)
	}
	all := append(append(append([]string{}, before...), name), args...)
	cmd := exec.CommandContext(t.Context(), all[0], all[1:]...)
	cmd.Env = append(os.Environ(), "HALFTURN_LOG_FORMAT=json")
	return cmd
}
