package live

import (
	"bufio"
	"context"
	"io"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/who"
)

// sayAgain says what was said last once more for each line that is typed, to those who fly without a page. A terminal
// cannot be told to stop reading, so nobody waits for this; it ends with the program, or where the reader does.
func (s *Server) sayAgain(ctx context.Context, typed io.Reader) {
	for lines := bufio.NewScanner(typed); lines.Scan() && ctx.Err() == nil; {
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
