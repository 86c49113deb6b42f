package record

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// The states of a recording.
const (
	On      = "on"
	Failing = "failing"
)

// A Status is the state of a recording.
type Status struct {
	State   string // On or Failing
	Words   string // what is wrong, for people; "" when all is well
	Written uint64 // datagrams that are on the disk
	Lost    uint64 // datagrams that were not recorded
}

// Words returns why nothing can be recorded, and what to do.
func Words(err error) string {
	var p *os.PathError
	if !errors.As(err, &p) {
		return fmt.Sprintf("nothing can be written (%q); recording goes on by itself once that is mended", err.Error())
	}
	dir := filepath.Dir(p.Path)
	switch {
	case errors.Is(err, syscall.ENOSPC):
		return fmt.Sprintf("no room is left in %q; make some, and recording goes on by itself", dir)
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return fmt.Sprintf("nothing may be written in %q; make it writable, and recording goes on by itself", dir)
	}
	return fmt.Sprintf("nothing can be written in %q (%q); recording goes on by itself once that is mended", dir,
		p.Err.Error())
}
