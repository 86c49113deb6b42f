// Package contain keeps a fault in the program, a panic, to the part of it in which it happened: one station, viewer,
// replay or link ends, and the others go on. It is the only place that recovers from panics. A fault that leaves
// something shared half changed is not for it: whoever contains a part sees to it that locks are released by defer.
package contain

import (
	"fmt"
	"maps"
	"runtime/debug"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"
)

// A Fault is a panic that was contained.
type Fault struct {
	Part  string // what failed, such as "station": one of a few words
	Of    string // which one, such as its address
	Value any    // of the panic
	Stack []byte
}

// Error says what failed and asks for a report; the stack follows on lines of its own.
func (f *Fault) Error() string {
	return fmt.Sprintf("%s %s was ended by a fault in the program, please report it: %v\n%s",
		f.Part, f.Of, f.Value, f.Stack)
}

// quietFor is how long a fault of the same part is only counted after it was told; it may come with every datagram.
const quietFor = time.Minute

// mostTold bounds how many parts are remembered; then those of other parts are only counted.
const mostTold = 64

// Faults contains panics, counts them, and tells of each kind now and then. It is safe for concurrent use. A nil
// *Faults contains nothing: a panic ends the program, as a test would have it.
type Faults struct {
	total *prometheus.CounterVec
	tell  func(error)

	mu   sync.Mutex
	told map[string]time.Time // when a part was told of
}

// New returns Faults that tell of each one; tell may be nil.
func New(tell func(error)) *Faults {
	if tell == nil {
		tell = func(error) {}
	}
	f := &Faults{
		total: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_faults_total",
			Help: "Faults in the program that ended a part of it, by part.",
		}, []string{"part"}),
		tell: tell,
		told: map[string]time.Time{},
	}
	for _, part := range parts {
		f.total.WithLabelValues(part)
	}
	return f
}

// parts are those of a server: they are counted from zero.
var parts = []string{
	"demonstration", "grading", "replay", "school", "share", "speech", "station", "upkeep", "viewer",
}

// Collector is the counter of faults.
func (f *Faults) Collector() prometheus.Collector { return f.total }

// Run runs a part of the program, and reports whether it ended without a fault. part is one of a few fixed words, of
// says which one.
func (f *Faults) Run(part, of string, work func()) (whole bool) {
	if f == nil {
		work()
		return true
	}
	defer func() {
		value := recover()
		if value == nil {
			return
		}
		f.total.WithLabelValues(part).Inc()
		if f.first(part+" "+of, time.Now()) {
			f.tell(&Fault{Part: part, Of: of, Value: value, Stack: debug.Stack()})
		}
	}()
	work()
	return true
}

// first reports whether a part is to be told of now.
func (f *Faults) first(what string, now time.Time) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	maps.DeleteFunc(f.told, func(_ string, at time.Time) bool { return now.Sub(at) > quietFor })
	if _, lately := f.told[what]; lately || len(f.told) >= mostTold {
		return false
	}
	f.told[what] = now
	return true
}
