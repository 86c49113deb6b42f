//go:build unix

package tomlfile

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// A pipe that nobody writes to would be waited for without end.
func TestReadPipe(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "pipe.toml")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skipf("no pipes here: %v", err)
	}
	for name, want := range map[string]string{pipe: "is a pipe; must be a TOML file",
		"/dev/zero": "/dev/zero: is a device"} {
		if _, err := Read(name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; must be %q", err, want)
		}
	}
}
