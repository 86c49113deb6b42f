package desk

import (
	"context"
	"errors"
	"time"

	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
)

// answerWait is how long a station may take to answer: it does within milliseconds, unless its disk does not.
const answerWait = 5 * time.Second

// ask has the seat of a station take a request. The error's words are for a user. A seat must not call it.
func (d *Desk) ask(ctx context.Context, station string, r request) error {
	d.mu.Lock()
	s, senders := d.seats[station], d.senders
	d.mu.Unlock()
	if s == nil || senders == nil {
		return gone(station)
	}
	ctx, cancel := context.WithTimeout(ctx, answerWait)
	defer cancel()
	err := senders.Send(ctx, s.address, r)
	if errors.Is(err, ingest.ErrNotThere) { // it may be listed before it can be asked
		select {
		case <-s.ready:
			err = senders.Send(ctx, s.address, r)
		case <-ctx.Done():
			err = ctx.Err()
		}
	}
	switch {
	case err == nil:
		return nil
	case errors.Is(err, ingest.ErrNotThere):
		return gone(station)
	}
	return phrase.StationMute.Error(phrase.Name("station", station))
}
