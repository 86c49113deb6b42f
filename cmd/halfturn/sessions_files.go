package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"

	"halfturn/coach/archive/play"
)

// sessionID is what the folder of a session may be called: no path leads out of the data directory.
var sessionID = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)

// findRecorded finds what is meant by an argument: a session of the data directory by its name, the folder of a
// session, or a capture file.
func findRecorded(ctx context.Context, data, arg string) (*play.Recording, error) {
	if sessionID.MatchString(arg) {
		dir := filepath.Join(data, "sessions", arg)
		if info, err := os.Stat(dir); err == nil && info.IsDir() {
			rec, err := play.Open(ctx, dir)
			var empty *play.EmptyError
			if errors.As(err, &empty) {
				return nil, fmt.Errorf("session %q has no recording: nothing can be made of it", arg)
			}
			return rec, err
		}
	}
	rec, err := play.Open(ctx, arg)
	var empty *play.EmptyError
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, fmt.Errorf("%q is neither a session in %q nor a recording; name one of the folders there, or a pcap or pcapng file", arg, filepath.Join(data, "sessions"))
	case errors.As(err, &empty):
		return nil, fmt.Errorf("%q is a folder without a recording; name a session, its folder, or one capture file", arg)
	case err != nil:
		return nil, fmt.Errorf("%s: %w", arg, plain(err))
	}
	return rec, nil
}
