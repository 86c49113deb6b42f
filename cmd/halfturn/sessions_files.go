package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"halfturn/coach/export"
	"halfturn/stream/capture"
)

// A recorded is the recording of a session or a capture file, ready to be read more than once.
type recorded struct {
	name  string
	dir   string   // of the session; "" for a file
	files []string // its parts in order
}

// sessionID is what the folder of a session may be called: no path leads out of the data directory.
var sessionID = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)

// findRecorded finds what is meant by an argument: a session of the data directory by its name,
// or a capture file.
func findRecorded(data, arg string) (*recorded, error) {
	if sessionID.MatchString(arg) {
		dir := filepath.Join(data, "sessions", arg)
		if info, err := os.Stat(dir); err == nil && info.IsDir() {
			files, err := filepath.Glob(filepath.Join(dir, "stream-*.pcap*"))
			if err != nil {
				return nil, err
			}
			if len(files) == 0 {
				return nil, fmt.Errorf("session %s has no recording: nothing can be made of it", arg)
			}
			slices.Sort(files)
			return &recorded{name: arg, dir: dir, files: files}, nil
		}
	}
	info, err := os.Stat(arg)
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, fmt.Errorf("%q is neither a session in %s nor a capture file; name one of the folders there, or a pcap or pcapng file", arg, filepath.Join(data, "sessions"))
	case err != nil:
		return nil, fmt.Errorf("%s: %w", arg, plain(err))
	case info.IsDir():
		return nil, fmt.Errorf("%s is a folder; name a session or one capture file", arg)
	}
	return &recorded{name: filepath.Base(arg), files: []string{arg}}, nil
}

// open opens the recording from its beginning. The returned function closes it.
func (r *recorded) open() (*export.Readers, func() error, error) {
	var parts export.Readers
	var open []io.Closer
	closeAll := func() (err error) {
		for _, f := range open {
			err = errors.Join(err, f.Close())
		}
		return err
	}
	for _, name := range r.files {
		f, err := os.Open(name)
		if err != nil {
			return nil, nil, errors.Join(fmt.Errorf("%s: %w", name, plain(err)), closeAll())
		}
		open = append(open, f)
		part, err := capture.Open(f)
		if err != nil {
			return nil, nil, errors.Join(fmt.Errorf("%s: %w", name, err), closeAll())
		}
		parts = append(parts, part)
	}
	return &parts, closeAll, nil
}
