package stored

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/play"
	"halfturn/stream/phrase"
)

// Find opens the recording that an argument names: a session of the data directory by its name, the folder of a
// session, or a capture file.
func Find(ctx context.Context, data, arg string) (*play.Recording, error) {
	if folder.IsID(arg) {
		dir := filepath.Join(folder.Sessions(data), arg)
		if info, err := os.Stat(dir); err == nil && info.IsDir() {
			rec, err := play.Open(ctx, dir)
			var empty *play.EmptyError
			if errors.As(err, &empty) {
				return nil, phrase.RecordingEmpty.Error(phrase.Name("session", arg))
			}
			return rec, err
		}
	}
	rec, err := play.Open(ctx, arg)
	var empty *play.EmptyError
	switch {
	case errors.Is(err, os.ErrNotExist):
		return nil, phrase.NotARecording.Error(phrase.Name("name", arg), phrase.Name("folder", folder.Sessions(data)))
	case errors.As(err, &empty):
		return nil, phrase.NotARecordingFolder.Error(phrase.Name("name", arg))
	case err != nil:
		return nil, fmt.Errorf("%s: %w", arg, plain(err))
	}
	return rec, nil
}

// In reports whether a recording is a session of a data directory.
func In(data string, rec *play.Recording) bool {
	return rec.Session != "" && filepath.Clean(rec.Dir) == filepath.Join(folder.Sessions(data), rec.Session)
}

// plain is an error of the file system without the file's name, which stands beside it already.
func plain(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return errors.New(strings.ToLower(p.Err.Error()))
	}
	return err
}
