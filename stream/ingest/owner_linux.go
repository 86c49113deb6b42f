package ingest

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// owner names the program that has a UDP port, as "name (process 123)", "" when the system does
// not tell: processes of other users are hidden.
func owner(port string) string {
	n, err := strconv.ParseUint(port, 10, 16)
	if err != nil {
		return ""
	}
	for _, table := range []string{"/proc/net/udp", "/proc/net/udp6"} {
		data, err := os.ReadFile(table)
		if err != nil {
			continue
		}
		if inode := inodeOf(data, uint16(n)); inode != "" {
			return holder("/proc", inode)
		}
	}
	return ""
}

// inodeOf finds the inode of the socket with a local port in a table as proc(5) describes it: a
// line a socket, the local address as HEX:HEXPORT in field 2 and the inode in field 10.
func inodeOf(table []byte, port uint16) string {
	want := fmt.Sprintf(":%04X", port)
	for line := range bytes.Lines(table) {
		f := strings.Fields(string(line))
		if len(f) > 9 && strings.HasSuffix(f[1], want) && f[9] != "0" {
			return f[9]
		}
	}
	return ""
}

// holder finds the process that has a socket open.
func holder(proc, inode string) string {
	fds, err := filepath.Glob(filepath.Join(proc, "[0-9]*", "fd", "*"))
	if err != nil {
		return ""
	}
	for _, fd := range fds {
		if to, err := os.Readlink(fd); err != nil || to != "socket:["+inode+"]" {
			continue
		}
		dir := filepath.Dir(filepath.Dir(fd))
		name, err := os.ReadFile(filepath.Join(dir, "comm"))
		if err != nil {
			return ""
		}
		return fmt.Sprintf("%s (process %s)", strings.TrimSpace(string(name)), filepath.Base(dir))
	}
	return ""
}
