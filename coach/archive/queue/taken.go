package queue

import (
	"errors"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/archive/remote"
	"halfturn/coach/logbook"
)

// ErrNotOurs says that another machine has a session: nothing of it is entered here.
var ErrNotOurs = errors.New("another machine has the session")

// A Taken says that another node has taken a session over: that one enters it, and what waits of it here is dropped.
type Taken struct {
	ID  string
	Why error // what the gate, the logbook or the depot said
}

// Error says so.
func (t *Taken) Error() string {
	return "session " + t.ID + " is entered by the node that has taken it over, and not here: " + t.Why.Error()
}

// Unwrap returns why.
func (t *Taken) Unwrap() error { return t.Why }

// A said set is what was said already; it is bounded.
type said map[string]bool

// mostSaid is how much is remembered; what is said after that may be said again.
const mostSaid = 1000

// first reports whether something was not said yet, and notes that it is.
func (s said) first(what string) bool {
	if s[what] {
		return false
	}
	if len(s) >= mostSaid {
		clear(s)
	}
	s[what] = true
	return true
}

// taken is what was dropped of sessions that other nodes have.
type taken struct {
	count prometheus.Counter
	said  said // the sessions of which it was told
}

func newTaken() taken {
	return taken{
		count: prometheus.NewCounter(prometheus.CounterOpts{
			Name: "halfturn_logbook_taken_total",
			Help: "Times that what waited of a session was dropped, as the node that has taken it over enters it.",
		}),
		said: said{},
	}
}

// isTaken reports whether an error says that another node has a session, which is final for the fence under which it
// was to be entered: what waits is dropped then, counted, and told once for each session. It is not so where this node
// has taken the session over again meanwhile, or where that is not known.
func (w *Writer) isTaken(id string, fence uint64, err error) bool {
	var fenced *logbook.Fenced
	switch {
	case errors.Is(err, ErrNotOurs):
	case errors.As(err, &fenced), errors.Is(err, remote.ErrFenced):
		now, unknown := w.allowed(id)
		if unknown != nil && !errors.Is(unknown, ErrNotOurs) || unknown == nil && now > fence {
			return false
		}
	default:
		return false
	}
	w.taken.count.Inc()
	if w.taken.said.first(id) {
		w.warn(&Taken{id, err})
	}
	return true
}
