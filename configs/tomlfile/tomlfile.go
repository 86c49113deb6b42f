// Package tomlfile reads the user's TOML files from disk, within the limits of package strict.
package tomlfile

import (
	"io/fs"
	"os"

	"halfturn/configs/strict"
)

// Read reads a file for [strict.Decode]. It fails, without reading it, when the file is larger than
// [strict.Largest], or is one that does not end, such as a pipe or a device. The error names the file.
func Read(name string) ([]byte, error) { return strict.ReadFS(disk{}, name) }

// disk is the file system by its own names, which may be absolute or begin with "..".
type disk struct{}

var _ fs.StatFS = disk{}

func (disk) Open(name string) (fs.File, error)     { return os.Open(name) }
func (disk) Stat(name string) (fs.FileInfo, error) { return os.Stat(name) }
