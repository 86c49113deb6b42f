package live

import (
	"context"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/who"
)

// sayAgain says what was said last once more for each Enter, to those who fly without a page, until ctx ends.
func (s *Server) sayAgain(ctx context.Context) {
	for s.options.Enter(ctx) {
		station := s.speaker.Station()
		if station == "" {
			continue // nothing was said yet
		}
		now := time.Now()
		c := command.New(ids.New(now), now, station, who.Owner(), command.Again{})
		if err := s.desk.Do(ctx, c); err != nil && ctx.Err() == nil {
			s.log.Warn().Err(err).Msg("what was said last cannot be said again")
		}
	}
}
