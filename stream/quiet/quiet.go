// Package quiet keeps a log short, whatever is sent to the program. A message that may come with every datagram is
// logged when it first occurs; later occurrences are counted, and the count is logged at intervals while they go on.
package quiet

import (
	"sync"
	"time"
)

const (
	// Interval is how long a message is only counted after it was logged.
	Interval = time.Minute
	// Senders is for how many senders a kind of message is logged in an interval; the others are counted together.
	Senders = 16
)

// A Log decides which messages are logged. It is safe for concurrent use; the zero value is ready.
type Log struct {
	mu      sync.Mutex
	kinds   map[string]*kind
	timer   *time.Timer // nil while nothing was logged in the last interval
	closed  bool
	running sync.WaitGroup // of the timer
}

// A kind is what was logged of one kind of message in the last interval.
type kind struct {
	senders map[string]*held
	others  held // of senders beyond the limit
}

// held is what was counted and not logged.
type held struct {
	more int
	say  func(more int) // the latest
}

// Say calls say with 0, in the caller's goroutine, unless a message of that kind was said of that sender within the
// last Interval, or of as many senders as Senders allows. Otherwise the message is counted: at the end of the interval
// the latest one is said with the number of those that were counted, in another goroutine. The kinds have to be few
// and fixed; say must not call the Log.
func (l *Log) Say(what, sender string, say func(more int)) {
	if l.first(what, sender, say) {
		say(0)
	}
}

func (l *Log) first(what, sender string, say func(int)) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.closed {
		return false
	}
	if l.timer == nil {
		l.start()
	}
	k := l.kinds[what]
	if k == nil {
		k = &kind{senders: map[string]*held{}}
		if l.kinds == nil {
			l.kinds = map[string]*kind{}
		}
		l.kinds[what] = k
	}
	h := k.senders[sender]
	switch {
	case h == nil && len(k.senders) < Senders:
		k.senders[sender] = &held{}
		return true
	case h == nil:
		h = &k.others
	}
	h.more++
	h.say = say
	return false
}

// start begins an interval. mu is held.
func (l *Log) start() {
	l.running.Add(1)
	l.timer = time.AfterFunc(Interval, func() {
		defer l.running.Done()
		l.tell(false)
	})
}

// tell logs what was counted, and forgets the senders without messages in the interval.
func (l *Log) tell(last bool) {
	l.mu.Lock()
	var due []held
	for _, k := range l.kinds {
		for sender, h := range k.senders {
			if h.more == 0 {
				delete(k.senders, sender)
				continue
			}
			due = append(due, *h)
			*h = held{}
		}
		if k.others.more > 0 {
			due = append(due, k.others)
			k.others = held{}
		}
	}
	l.timer = nil
	if len(due) > 0 && !last && !l.closed {
		l.start()
	}
	l.mu.Unlock()
	for _, h := range due {
		h.say(h.more)
	}
}

// Close logs what was counted and not logged yet. Nothing is logged afterwards.
func (l *Log) Close() {
	l.mu.Lock()
	l.closed = true
	timer := l.timer
	l.mu.Unlock()
	if timer != nil && timer.Stop() {
		l.running.Done()
	}
	l.running.Wait()
	l.tell(true)
}
