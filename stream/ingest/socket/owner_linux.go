package socket

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/prometheus/procfs"
)

// owner names the program that has a UDP port, as "name (process 123)", "" when the system does not say: processes of
// other users are hidden.
func owner(port string) string {
	n, err := strconv.ParseUint(port, 10, 16)
	if err != nil {
		return ""
	}
	fs, err := procfs.NewDefaultFS()
	if err != nil {
		return ""
	}
	return ownerIn(fs, n)
}

// ownerIn is owner by the tables of a proc(5) file system.
func ownerIn(fs procfs.FS, port uint64) string {
	for _, table := range []func() (procfs.NetUDP, error){fs.NetUDP, fs.NetUDP6} {
		sockets, err := table()
		if err != nil {
			continue
		}
		for _, s := range sockets {
			if s.LocalPort == port && s.Inode != 0 {
				return holder(fs, s.Inode)
			}
		}
	}
	return ""
}

// holder finds the process that has a socket open.
func holder(fs procfs.FS, inode uint64) string {
	all, err := fs.AllProcs()
	if err != nil {
		return ""
	}
	for _, p := range all {
		open, err := p.FileDescriptorTargets()
		if err != nil || !slices.Contains(open, fmt.Sprintf("socket:[%d]", inode)) {
			continue
		}
		name, err := p.Comm()
		if err != nil {
			return ""
		}
		return fmt.Sprintf("%s (process %d)", name, p.PID)
	}
	return ""
}
