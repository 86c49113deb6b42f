package record

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"halfturn/stream/phrase"
)

// The states of a recording.
const (
	On      = "on"
	Failing = "failing"
)

// A Status is the state of a recording.
type Status struct {
	State   string        // On or Failing
	Words   phrase.Phrase // what is wrong, for people; nothing when all is well
	Written uint64        // datagrams that are on the disk
	Lost    uint64        // datagrams that were not recorded
}

// Words returns why nothing can be recorded, and what to do.
func Words(err error) phrase.Phrase {
	var p *os.PathError
	if !errors.As(err, &p) {
		return phrase.CannotWrite.Of(phrase.Name("why", err.Error()))
	}
	dir := filepath.Dir(p.Path)
	switch {
	case errors.Is(err, syscall.ENOSPC):
		return phrase.NoRoom.Of(phrase.Name("folder", dir))
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return phrase.MayNotWrite.Of(phrase.Name("folder", dir))
	}
	return phrase.CannotWriteIn.Of(phrase.Name("folder", dir), phrase.Name("why", p.Err.Error()))
}
