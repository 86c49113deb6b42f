package replay

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/play"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
	"halfturn/web/guard"
)

// Sessions finds the recorded sessions of an archive, for replays and for the pictures of the debrief.
type Sessions struct {
	Book interface {
		Folder(id string) (string, error)
		Recording(id string) []string
	}
	// Follow says how a recording is followed: by its cards as they stood.
	Follow func(*play.Recording) (play.Following, error)
}

// Find returns the recording of a session; it is empty where only the grades were kept. An unknown id is a
// [guard.Problem].
func (s Sessions) Find(id string) (Recording, error) {
	dir, err := s.Book.Folder(id)
	if err != nil {
		var none *logbook.NotFound
		if errors.As(err, &none) {
			return Recording{}, &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.OfError(err)}
		}
		return Recording{}, err
	}
	rec, err := play.Open(context.Background(), dir)
	var empty *play.EmptyError
	if errors.As(err, &empty) {
		return Recording{}, nil
	}
	if err != nil {
		return Recording{}, err
	}
	follow, err := s.Follow(rec)
	return Recording{Recording: rec, Following: follow}, err
}

// Graded returns the series of a session as they were graded when it was flown; nil where that is not kept.
func (s Sessions) Graded(id string) []coach.Series {
	dir, err := s.Book.Folder(id)
	if err != nil {
		return nil
	}
	return GradedIn(dir)
}

// GradedIn is Graded by the folder of the session.
func GradedIn(dir string) []coach.Series {
	r, ok, err := folder.ReadReport(filepath.Join(dir, folder.SummaryFile))
	if err != nil || !ok {
		return nil // it is shown as it is graded now
	}
	var all []coach.Series
	for _, s := range logbook.Stations(r) {
		all = append(all, s.Series...)
	}
	return all
}

// Grown returns a text that changes whenever the recording of a session does, and when the session is over.
func (s Sessions) Grown(id string) string {
	var b strings.Builder
	if dir, err := s.Book.Folder(id); err == nil {
		fmt.Fprint(&b, record.Unfinished(dir) && folder.LeftIn(dir) == nil, " ")
	}
	for _, name := range s.Book.Recording(id) {
		if info, err := os.Stat(name); err == nil {
			fmt.Fprint(&b, filepath.Base(name), info.Size(), " ")
		}
	}
	return b.String()
}
