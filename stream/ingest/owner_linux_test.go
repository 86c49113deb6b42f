package ingest

import (
	"os"
	"path/filepath"
	"testing"
)

// The table is as proc(5) describes it, the lines as read on a running system.
func TestOwnerInTables(t *testing.T) {
	table := []byte(`   sl  local_address rem_address   st tx_queue rx_queue tr tm->when retrnsmt   uid  timeout inode ref pointer drops
  204: 0100007F:1C0D 00000000:0000 07 00000000:00000000 00:00000000 00000000  1000        0 48211 2 0000000000000000 0
  205: 00000000:A1C0 00000000:0000 07 00000000:00000000 00:00000000 00000000     0        0 0 2 0000000000000000 0
`)
	for port, want := range map[uint16]string{7181: "48211", 41408: "", 7180: ""} {
		if got := inodeOf(table, port); got != want {
			t.Errorf("port %d: inode %q, want %q", port, got, want)
		}
	}
	proc := t.TempDir()
	for pid, inode := range map[string]string{"12": "48210", "345": "48211"} {
		fd := filepath.Join(proc, pid, "fd")
		if err := os.MkdirAll(fd, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink("socket:["+inode+"]", filepath.Join(fd, "7")); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(proc, pid, "comm"), []byte("program-"+pid+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if got := holder(proc, "48211"); got != "program-345 (process 345)" {
		t.Errorf("holder %q", got)
	}
	if got := holder(proc, "48299"); got != "" {
		t.Errorf("holder of nothing %q", got)
	}
}
