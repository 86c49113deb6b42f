package main

import (
	"errors"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/session"
	"halfturn/stream/record"
	"halfturn/web"
	"halfturn/web/replay"
)

// recordedSessions finds the recorded sessions of the logbook, for replays and for the pictures of the
// debrief: each by its cards as they stood.
func recordedSessions(cfg *config, book *logbook.Book) replay.Files {
	return replay.Files{Find: func(id string) (replay.Recording, error) {
		dir, err := book.Folder(id)
		if err != nil {
			var none *logbook.NotFound
			if errors.As(err, &none) {
				return replay.Recording{}, &web.Problem{Status: http.StatusNotFound, Words: err.Error()}
			}
			return replay.Recording{}, err
		}
		was, err := cfg.asStood(dir)
		if err != nil {
			return replay.Recording{}, err
		}
		return replay.Recording{Files: book.Recording(id), GoesOn: record.Unfinished(dir), Options: was, Plans: cfg.plansOf(dir)}, nil
	}}
}

// plansOf finds what was chosen in a session, by its cards as they stood.
func (c *config) plansOf(dir string) session.Plans {
	return func(choice session.Choice) (*coach.Plan, []*coach.Plan, error) {
		o, err := c.chosen(dir, choice)
		return o.Coach.Plan, o.Auto, err
	}
}

// chosen is how a session is graded by what was chosen, with its cards as they stood.
func (c *config) chosen(dir string, choice session.Choice) (session.Options, error) {
	was := c.withCardsOf(dir)
	was.Maneuver, was.Standard, was.Aircraft = choice.Maneuver, choice.Standard, choice.Aircraft
	return was.session()
}

// grown changes whenever the recording of a session does, and when the session is over.
func grown(book *logbook.Book) func(id string) string {
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
