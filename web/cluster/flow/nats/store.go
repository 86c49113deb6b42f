package nats

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/web/cluster/flow"
)

// streams are those of the cluster, and which of them do not answer.
type streams struct {
	mu   sync.Mutex
	open []jetstream.Stream // nil: not looked at since the start
	away []time.Time        // since when; zero: it answers
	full []time.Time        // when it last answered that it takes nothing; zero: it does
	down time.Time          // since when no server is connected; zero: one is
	gone atomic.Int32       // how many do not answer
}

func (s *streams) disconnected(is bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case !is:
		s.down = time.Time{}
	case s.down.IsZero():
		s.down = time.Now()
	}
}

// failed notes that a stream does not answer, or, with full, that it takes nothing. It says whether that is new.
func (s *streams) failed(k int, full bool) (fresh bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := time.Now()
	if full {
		s.full[k] = now
	}
	if fresh = s.away[k].IsZero(); fresh {
		s.away[k] = now
		s.gone.Add(1)
	}
	return fresh
}

// answered notes that a stream answers. One that takes nothing may be read all the same: it is away until it takes
// something, or nobody has tried for a while.
func (s *streams) answered(k int, took bool) {
	if s.gone.Load() == 0 {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if !took && time.Since(s.full[k]) < untried {
		return
	}
	if s.full[k] = (time.Time{}); !s.away[k].IsZero() {
		s.away[k] = time.Time{}
		s.gone.Add(-1)
	}
}

// Away says since when a part of the store does not answer.
func (e *Engine) Away() (since time.Time) {
	s := &e.streams
	s.mu.Lock()
	defer s.mu.Unlock()
	since = s.down
	for _, t := range s.away {
		if !t.IsZero() && (since.IsZero() || t.Before(since)) {
			since = t
		}
	}
	return since
}

// look asks the streams that did not answer whether they do.
func (e *Engine) look() {
	tick := time.NewTicker(lookAgain)
	defer tick.Stop()
	for {
		select {
		case <-e.ctx.Done():
			return
		case <-tick.C:
		}
		if e.streams.gone.Load() == 0 || !e.store.IsConnected() {
			continue
		}
		for k := range e.set.Keeping.Streams {
			e.streams.mu.Lock()
			gone := !e.streams.away[k].IsZero()
			e.streams.mu.Unlock()
			if gone && e.hasLeader(k) {
				e.streams.answered(k, false)
			}
		}
	}
}

func (e *Engine) hasLeader(k int) bool {
	ctx, cancel := context.WithTimeout(e.ctx, attempt)
	defer cancel()
	s, err := e.js.Stream(ctx, e.set.streamName(k))
	if err != nil {
		return false
	}
	c := s.CachedInfo().Cluster
	return c == nil || c.Leader != ""
}

// stream returns a stream, which is looked at once: whether it is this cluster's.
func (e *Engine) stream(ctx context.Context, k int) (jetstream.Stream, error) {
	e.streams.mu.Lock()
	open := e.streams.open[k]
	e.streams.mu.Unlock()
	if open != nil {
		return open, nil
	}
	ctx, cancel := context.WithTimeout(ctx, mostAttempt) // a question that a server lost is asked again
	defer cancel()
	s, err := e.js.Stream(ctx, e.set.streamName(k))
	if err != nil {
		return nil, err
	}
	if err := e.set.own(s.CachedInfo().Config); err != nil {
		return nil, err
	}
	e.streams.mu.Lock()
	defer e.streams.mu.Unlock()
	e.streams.open[k] = s
	return s, nil
}

// A final error is returned as it is: another attempt would not change it.
type final struct{ error }

func (f final) Unwrap() error { return f.error }

// try has a stream do something, again and again until it answers or the context ends. Limit is how long the first
// attempt may take; later ones may take longer, or a server that is slow would be sent more the slower it is. 0 is as
// long as the context.
func (e *Engine) try(ctx context.Context, k int, limit time.Duration, do func(context.Context, jetstream.Stream) error,
) error {
	var last error
	for pause := leastPause; ; pause = min(2*pause, mostPause) {
		if e.closed.Load() {
			return flow.ErrClosed
		}
		if err := ctx.Err(); err != nil {
			if last == nil {
				return err
			}
			return away(ctx, last)
		}
		err := e.once(ctx, k, limit, do)
		switch {
		case err == nil, isFinal(err):
			e.streams.answered(k, false)
			return unwrapped(err)
		case errors.Is(err, errAgain), code(err) == inFlight, code(err) == sameInFlight:
			e.streams.answered(k, false)
			pause = leastPause
			last = errAgain
		case errors.Is(err, client.ErrConnectionClosed):
			return flow.ErrClosed
		case ctx.Err() == nil || !errors.Is(err, ctx.Err()):
			last = e.sentence(k, err)
			limit = min(2*limit, mostAttempt)
			if e.streams.failed(k, isFull(err)) {
				e.set.Trouble(last)
			}
		case last == nil: // else it says more than that the time is over
			last = err
		}
		select {
		case <-time.After(pause):
		case <-ctx.Done():
		case <-e.ctx.Done():
		}
	}
}

// keep is try for what a stream is to take.
func (e *Engine) keep(ctx context.Context, k int, do func(context.Context, jetstream.Stream) error) error {
	err := e.try(ctx, k, attempt, do)
	if err == nil {
		e.streams.answered(k, true)
	}
	return err
}

// once makes an attempt.
func (e *Engine) once(ctx context.Context, k int, limit time.Duration, do func(context.Context, jetstream.Stream) error,
) error {
	if limit > 0 {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, limit)
		defer cancel()
	}
	s, err := e.stream(ctx, k)
	if err != nil {
		return err
	}
	return do(ctx, s)
}

// isFinal says that another attempt would not change an error.
func isFinal(err error) bool {
	var f final
	return errors.As(err, &f) || errors.Is(err, flow.ErrTaken) || errors.Is(err, ErrForeign) || errors.Is(err,
		client.ErrMaxPayload)
}

func unwrapped(err error) error {
	var f final
	switch {
	case errors.As(err, &f):
		return f.error
	case errors.Is(err, client.ErrMaxPayload):
		return fmt.Errorf("NATS takes no messages of %d bytes; set its max_payload to 1MB: %w", flow.MostBytes,
			flow.ErrTooLong)
	}
	return err
}

// poisoned notes a message that cannot be read; the rest goes on.
func (e *Engine) poisoned(k int, seq uint64, subject string, err error) {
	e.counts.poison.Add(1)
	e.warn(fmt.Errorf("stream %s: message %d (%s) is passed over: %w", e.set.streamName(k), seq, subject, err))
}
