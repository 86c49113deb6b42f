package desk

import (
	"context"
	"errors"
	"time"

	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
)

// answerWait is how long a station may take to answer. It takes milliseconds, unless its disk hangs.
const answerWait = 5 * time.Second

// ask hands a request to a station. Errors are worded for users. A station must not call it, because it would wait for
// itself.
func (d *Desk) ask(ctx context.Context, station string, r request) error {
	d.mu.Lock()
	s, senders := d.present[station], d.senders
	d.mu.Unlock()
	if s == nil || senders == nil {
		return gone(station)
	}
	ctx, cancel := context.WithTimeout(ctx, answerWait)
	defer cancel()
	err := senders.Send(ctx, s.address, r)
	if errors.Is(err, ingest.ErrNotThere) { // a station is listed a moment before it can be asked
		select {
		case <-s.ready:
			err = senders.Send(ctx, s.address, r)
		case <-ctx.Done():
			err = ctx.Err()
		}
	}
	switch {
	case err == nil && r.wasRefused():
		return gone(station)
	case err == nil:
		return nil
	case errors.Is(err, ingest.ErrNotThere):
		return gone(station)
	}
	return phrase.StationMute.Error(phrase.Name("station", station))
}
