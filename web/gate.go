package web

import (
	"context"
	"net/http"
	"time"

	"halfturn/stream/phrase"
)

// How many requests of a kind are worked on at once. Each may hold tens of megabytes, or a processor.
const (
	mostExports = 4
	mostImports = 2
	mostWork    = 8
)

// How long one more waits for its turn before it is told to come back: a page a moment, a capture longer, as taking
// one in lasts.
const (
	gateWait   = 5 * time.Second
	importWait = time.Minute
)

// A gate lets few requests in at once.
type gate struct {
	places chan struct{}
	wait   time.Duration
	full   *Problem // told to those who waited in vain
}

func newGate(most int, wait time.Duration, full *Problem) *gate {
	return &gate{places: make(chan struct{}, most), wait: wait, full: full}
}

// gates are those of a Server.
type gates struct{ exports, imports, work *gate }

func newGates() gates {
	return gates{
		exports: newGate(mostExports, gateWait, &Problem{http.StatusServiceUnavailable, phrase.TooManyExports.Of()}),
		imports: newGate(mostImports, importWait, &Problem{http.StatusServiceUnavailable, phrase.TooManyImports.Of()}),
		work:    newGate(mostWork, gateWait, &Problem{http.StatusServiceUnavailable, phrase.Busy.Of()}),
	}
}

// few lets a request in when it is its turn. It keeps its place until all of its answer is written: what a client
// that does not read makes the server hold is bounded so.
func (g *gate) few(fn handler) handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		if err := g.enter(r.Context()); err != nil {
			return err
		}
		defer func() { <-g.places }()
		return fn(w, r)
	}
}

func (g *gate) enter(ctx context.Context) error {
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
