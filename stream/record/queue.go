package record

import (
	"iter"
	"net/netip"
	"sync"
	"sync/atomic"
	"time"
)

// Limits on what waits for the disk.
const (
	queueLength = 8192
	queueBytes  = 16 << 20
)

// When a batch is full: about a second of a stream at 60 Hz. Where the disk was slow there is more in it.
const (
	keptItems = 128
	keptBytes = 32 << 10
)

// An item is a datagram that waits, without its bytes.
type item struct {
	source, receiver netip.AddrPort
	received         time.Time
	comments         []string
	end              int // of its bytes in those of the batch
}

// A batch is datagrams one after another, their bytes in one buffer.
type batch struct {
	items []item
	bytes []byte
}

// all yields the datagrams in order.
func (b *batch) all() iter.Seq2[*item, []byte] {
	return func(yield func(*item, []byte) bool) {
		if b == nil {
			return
		}
		from := 0
		for i := range b.items {
			it := &b.items[i]
			if !yield(it, b.bytes[from:it.end]) {
				return
			}
			from = it.end
		}
	}
}

// spares are batches that were written, for the next of any recording: each recorder writes once a second, and in
// between the memory would lie idle.
var spares = sync.Pool{New: func() any { return new(batch) }}

// spare passes the memory of a batch on, unless it is unusually large.
func (b *batch) spare() {
	if b == nil || cap(b.items) > 2*keptItems || cap(b.bytes) > 2*keptBytes {
		return
	}
	clear(b.items) // lets go of the comments
	b.items, b.bytes = b.items[:0], b.bytes[:0]
	spares.Put(b)
}

// An ending is what is asked for after a batch.
type ending struct{ flush, closed bool }

// A queue passes datagrams from the goroutine that adds to the one that writes, in batches: waking the writer for each
// datagram would cost more than writing it. The writer is woken for the first, when a batch is full, when what waits is
// older than every by the clock of the datagrams, and when it is asked for something; else it looks by itself once per
// every.
type queue struct {
	every time.Duration
	wake  chan struct{} // holds one
	count atomic.Int64  // datagrams that are not written
	size  atomic.Int64  // their bytes

	mu    sync.Mutex
	next  *batch // nil while nothing waits
	begun bool
	ending
}

func newQueue(every time.Duration) *queue { return &queue{every: every, wake: make(chan struct{}, 1)} }

// put adds a datagram, and copies its bytes. It returns false when there is no room. It is for one goroutine at a time.
func (q *queue) put(b []byte, it item) bool {
	if q.count.Load() >= queueLength || q.size.Load()+int64(len(b)) > queueBytes {
		return false
	}
	q.count.Add(1)
	q.size.Add(int64(len(b)))
	q.mu.Lock()
	if q.next == nil {
		q.next = spares.Get().(*batch)
	}
	q.next.bytes = append(q.next.bytes, b...)
	it.end = len(q.next.bytes)
	q.next.items = append(q.next.items, it)
	waits := it.received.Sub(q.next.items[0].received)
	due := !q.begun || len(q.next.items) >= keptItems || len(q.next.bytes) >= keptBytes || waits >= q.every || waits < 0
	q.begun = true
	q.mu.Unlock()
	if due {
		q.rouse()
	}
	return true
}

// ask asks the writer for something, after what was put before.
func (q *queue) ask(what ending) {
	q.mu.Lock()
	q.flush, q.closed = q.flush || what.flush, q.closed || what.closed
	q.mu.Unlock()
	q.rouse()
}

func (q *queue) rouse() {
	select {
	case q.wake <- struct{}{}:
	default:
	}
}

// take returns what waits, nil when nothing does, and what is asked for after it.
func (q *queue) take() (b *batch, end ending) {
	q.mu.Lock()
	defer q.mu.Unlock()
	b, end = q.next, q.ending
	q.next, q.flush = nil, false
	return b, end
}

// wrote counts a datagram that waits no more.
func (q *queue) wrote(payload []byte) {
	q.size.Add(-int64(len(payload)))
	q.count.Add(-1)
}
