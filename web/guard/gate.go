package guard

import (
	"context"
	"net/http"
	"time"
)

// A Gate limits how many requests are worked on at once.
type Gate struct {
	places chan struct{}
	wait   time.Duration
	full   *Problem
}

// NewGate makes a Gate that admits up to a number of requests. Another request waits for its turn; after the given wait
// it is answered with the Problem.
func NewGate(most int, wait time.Duration, full *Problem) *Gate {
	return &Gate{places: make(chan struct{}, most), wait: wait, full: full}
}

// Few wraps a handler so that requests pass the gate. A request keeps its place until its whole answer is written,
// which
// bounds the memory that clients which do not read can hold.
func (g *Gate) Few(fn Handler) Handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		if err := g.enter(r.Context()); err != nil {
			return err
		}
		defer func() { <-g.places }()
		return fn(w, r)
	}
}

func (g *Gate) enter(ctx context.Context) error {
	select {
	case g.places <- struct{}{}:
		return nil
	default:
	}
	late := time.NewTimer(g.wait)
	defer late.Stop()
	select {
	case g.places <- struct{}{}:
		return nil
	case <-late.C:
		return g.full
	case <-ctx.Done():
		return ctx.Err()
	}
}
