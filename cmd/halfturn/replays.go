package main

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach/archive"
	"halfturn/coach/archive/play"
	"halfturn/coach/logbook"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
	"halfturn/web"
	"halfturn/web/replay"
)

// recordedSessions finds the recorded sessions of the logbook, for replays and for the pictures of the
// debrief: each by its cards as they stood.
func recordedSessions(cfg *settings.Config, book *archive.Archive) replay.Files {
	return replay.Files{Find: func(id string) (replay.Recording, error) {
		dir, err := book.Folder(id)
		if err != nil {
			var none *logbook.NotFound
			if errors.As(err, &none) {
				return replay.Recording{}, &web.Problem{Status: http.StatusNotFound, Phrase: phrase.OfError(err)}
			}
			return replay.Recording{}, err
		}
		rec, err := play.Open(context.Background(), dir)
		var empty *play.EmptyError
		if errors.As(err, &empty) {
			return replay.Recording{}, nil
		}
		if err != nil {
			return replay.Recording{}, err
		}
		follow, err := judging(cfg, nil).Follow(rec)
		return replay.Recording{Recording: rec, Following: follow}, err
	}}
}

// grown changes whenever the recording of a session does, and when the session is over.
func grown(book *archive.Archive) func(id string) string {
	return func(id string) string {
		var b strings.Builder
		if dir, err := book.Folder(id); err == nil {
			fmt.Fprint(&b, record.Unfinished(dir), " ")
		}
		for _, name := range book.Recording(id) {
			if info, err := os.Stat(name); err == nil {
				fmt.Fprint(&b, filepath.Base(name), info.Size(), " ")
			}
		}
		return b.String()
	}
}
