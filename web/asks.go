package web

import (
	"net/http"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// asks tells who makes a request: whoever can reach the pages is taken for the owner of the machine.
func asks(*http.Request) who.Who { return who.Owner() }

// command has something done to a station by whoever makes the request.
func (s *Server) command(r *http.Request, station string, a command.Action) error {
	now := time.Now()
	if err := s.desk.Do(r.Context(), command.New(ids.New(now), now, station, asks(r), a)); err != nil {
		return &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.OfError(err)}
	}
	return nil
}
