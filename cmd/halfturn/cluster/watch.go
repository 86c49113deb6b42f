package cluster

import (
	"context"
	"errors"
	"time"

	"github.com/rs/zerolog"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/nats"
)

// watchEvery is how often a watch looks.
const watchEvery = 15 * time.Second

// A watched engine is what a watch looks at.
type watched interface {
	flow.Clocks
	Make(ctx context.Context) (*nats.Found, error)
}

// A watch looks after what a start could not: streams that could not be made while NATS was away, and clocks that go
// apart later, or of nodes that could not be heard then. A server that flies is not ended for that: it is told.
type watch struct {
	engine watched
	log    zerolog.Logger
	made   bool   // the streams are there
	why    string // they are not, as it was told last
	apart  bool   // the clocks are, as it was told last
}

// run looks at each tick until the context ends.
func (w *watch) run(ctx context.Context, ticks <-chan time.Time) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticks:
			w.look(ctx)
		}
	}
}

// look looks once, and tells what is new.
func (w *watch) look(ctx context.Context) {
	if !w.made {
		w.make(ctx)
	}
	err := apart(w.engine, nil)
	switch {
	case err != nil && !w.apart:
		w.log.Error().Err(err).Msg("times in recordings, and the order of what nodes write, are wrong")
	case err == nil && w.apart:
		w.log.Warn().Msg("the clocks of the nodes agree again")
	}
	w.apart = err != nil
}

// make makes the streams.
func (w *watch) make(ctx context.Context) {
	made, cancel := context.WithTimeout(ctx, makeWait)
	defer cancel()
	_, err := w.engine.Make(made)
	switch {
	case err == nil:
		w.made = true
		w.log.Warn().Msg("the store of the cluster can be used now")
	case ctx.Err() != nil:
	case err.Error() != w.why:
		w.why = err.Error()
		level := zerolog.WarnLevel
		if errors.Is(err, nats.ErrForeign) || errors.Is(err, nats.ErrRefused) {
			level = zerolog.ErrorLevel
		}
		w.log.WithLevel(level).Err(err).Msg("the store of the cluster cannot be used; it is tried again")
	}
}

// start begins to look, and returns what ends it.
func (w *watch) start() (stop func()) {
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan struct{})
	ticker := time.NewTicker(watchEvery)
	go func() {
		defer close(done)
		w.run(ctx, ticker.C)
	}()
	return func() {
		ticker.Stop()
		cancel()
		<-done
	}
}
