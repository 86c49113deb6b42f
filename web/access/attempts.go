package access

import (
	"sync"
	"time"
)

// Bounds of what is known of attempts.
const (
	mostTallies = 4096             // per table
	longestWait = 15 * time.Minute // between two attempts
)

// attempts count failed attempts by some key: an address or an account. The zero value with a number of free attempts
// is ready.
type attempts struct {
	free int // failures before the first wait
	mu   sync.Mutex
	seen map[string]*tally
}

// A tally is what is known of one key.
type tally struct {
	failed int
	last   time.Time
}

// wait is how long the key has to wait after its last attempt.
func (t *tally) wait(free int) time.Duration {
	over := t.failed - free
	if over <= 0 {
		return 0
	}
	return min(time.Second<<min(over-1, 20), longestWait)
}

// begin counts an attempt as failed, until it is known to be right. It returns how long the key has to wait instead,
// and then counts nothing.
func (a *attempts) begin(key string, now time.Time) (wait time.Duration) {
	a.mu.Lock()
	defer a.mu.Unlock()
	t := a.seen[key]
	if t != nil {
		if wait := t.last.Add(t.wait(a.free)).Sub(now); wait > 0 {
			return wait
		}
		if now.Sub(t.last) > longestWait { // it has been quiet for long
			t.failed = 0
		}
	} else {
		t = a.room(key)
	}
	t.failed++
	t.last = now
	return 0
}

// right takes back what a right attempt counted, and everything before it where clear says so.
func (a *attempts) right(key string, clear bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	t := a.seen[key]
	switch {
	case t == nil:
	case clear || t.failed <= 1:
		delete(a.seen, key)
	default:
		t.failed--
	}
}

// room makes a tally, in place of the one with the fewest failures where the table is full: keys that were tried once
// cannot push out one that is being guessed at. mu is held.
func (a *attempts) room(key string) *tally {
	if a.seen == nil {
		a.seen = map[string]*tally{}
	}
	if len(a.seen) >= mostTallies {
		least, out := (*tally)(nil), ""
		for k, t := range a.seen {
			if least == nil || t.failed < least.failed || t.failed == least.failed && t.last.Before(least.last) {
				least, out = t, k
			}
		}
		delete(a.seen, out)
	}
	t := &tally{}
	a.seen[key] = t
	return t
}
