package web

import (
	"net/http"
	"time"

	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// How many requests of a kind are worked on at once. Each may take tens of megabytes or a processor.
const (
	mostExports = 4
	mostImports = 2
	mostWork    = 8
)

// How long another request waits for its turn: a page for a moment, a capture for about as long as importing one takes.
const (
	gateWait   = 5 * time.Second
	importWait = time.Minute
)

// gates are those of a Server.
type gates struct{ exports, imports, work *guard.Gate }

func newGates() gates {
	full := func(p phrase.Phrase) *guard.Problem {
		return &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: p}
	}
	return gates{
		exports: guard.NewGate(mostExports, gateWait, full(phrase.TooManyExports.Of())),
		imports: guard.NewGate(mostImports, importWait, full(phrase.TooManyImports.Of())),
		work:    guard.NewGate(mostWork, gateWait, full(phrase.Busy.Of())),
	}
}
