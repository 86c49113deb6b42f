package socket

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/prometheus/procfs"
)

// The table is as proc(5) describes it, the lines as read on a running system.
func TestOwnerInTables(t *testing.T) {
	proc := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		file := filepath.Join(proc, name)
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	const head = "   sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode " +
		"ref pointer drops\n"
	write("net/udp", head+
		"  204: 0100007F:1C0D 00000000:0000 07 00000000:00000000 00:00000000 00000000  1000        0 48211 2 "+
		"0000000000000000 0\n"+
		"  205: 00000000:A1C0 00000000:0000 07 00000000:00000000 00:00000000 00000000     0        0 0 2 "+
		"0000000000000000 0\n"+
		"  206: 00000000:1C0E 00000000:0000 07 00000000:00000000 00:00000000 00000000     0        0 48299 2 "+
		"0000000000000000 0\n")
	write("net/udp6", head+
		"  304: 00000000000000000000000000000000:1C0F 00000000000000000000000000000000:0000 07 00000000:00000000 "+
		"00:00000000 "+
		"00000000  1000        0 48210 2 0000000000000000 0\n")
	for pid, inode := range map[string]string{"12": "48210", "345": "48211"} {
		write(filepath.Join(pid, "comm"), "program-"+pid+"\n")
		fd := filepath.Join(proc, pid, "fd")
		if err := os.MkdirAll(fd, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink("socket:["+inode+"]", filepath.Join(fd, "7")); err != nil {
			t.Fatal(err)
		}
	}
	fs, err := procfs.NewFS(proc)
	if err != nil {
		t.Fatal(err)
	}
	for port, want := range map[uint64]string{
		0x1C0D: "program-345 (process 345)",
		0x1C0F: "program-12 (process 12)",
		0xA1C0: "", // a socket that nobody has any more
		0x1C0E: "", // another user's
		0x1C10: "",
	} {
		if got := ownerIn(fs, port); got != want {
			t.Errorf("port %d: %q, must be %q", port, got, want)
		}
	}
}
