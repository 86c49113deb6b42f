package tenures

import (
	"bytes"
	"time"
)

// A Ring holds the latest datagrams of a station, up to a number of bytes. They are counted from the first that it ever
// held.
type Ring struct {
	Most int // bytes
	gone int // how many were dropped
	list []Held
	size int
}

// A Held datagram is one that was heard here.
type Held struct {
	Bytes    []byte
	Received time.Time
}

// heldCost is what a datagram takes beside its bytes.
const heldCost = 64

// Add adds a datagram, and drops the oldest past the limit.
func (r *Ring) Add(b []byte, received time.Time) {
	r.list = append(r.list, Held{bytes.Clone(b), received})
	r.size += len(b) + heldCost
	n := 0
	for left := r.size; left > r.Most && n < len(r.list)-1; n++ {
		left -= len(r.list[n].Bytes) + heldCost
	}
	r.drop(n)
}

// From returns what follows the first n that were ever held.
func (r *Ring) From(n int) []Held { return r.list[min(max(n-r.gone, 0), len(r.list)):] }

// Count is how many were ever held.
func (r *Ring) Count() int { return r.gone + len(r.list) }

// Trim drops those that were received before a time.
func (r *Ring) Trim(before time.Time) {
	n := 0
	for n < len(r.list) && r.list[n].Received.Before(before) {
		n++
	}
	r.drop(n)
}

// drop drops the first n.
func (r *Ring) drop(n int) {
	for i := range n {
		r.size -= len(r.list[i].Bytes) + heldCost
		r.list[i] = Held{}
	}
	r.list, r.gone = r.list[n:], r.gone+n
	if cap(r.list) > 2*len(r.list)+1024 { // what is cut off at the front is kept by the array
		r.list = append(make([]Held, 0, len(r.list)+512), r.list...)
	}
}

// matched is how many datagrams before are compared to tell where a datagram stands among those that are alike.
const matched = 32

// After returns how many of the datagrams that were ever held another node has recorded: those up to the last one that
// is in its record, which ends with tail. Datagrams are told by what they say: each node has its own times, and may
// have lost some. Where one is there more than once, it is the one before which most is alike, and the latest of these.
// Where none is there, those that came later by the clocks follow.
func (r *Ring) After(tail []Held) int {
	for end := len(tail) - 1; end >= 0; end-- {
		at, best := -1, 0
		for i := len(r.list) - 1; i >= 0; i-- {
			if n := alike(r.list[:i+1], tail[:end+1]); n > best {
				at, best = i, n
			}
		}
		if at >= 0 {
			return r.gone + at + 1
		}
	}
	if len(tail) == 0 {
		return r.gone
	}
	last := tail[len(tail)-1].Received
	for i := range r.list {
		if r.list[i].Received.After(last) {
			return r.gone + i
		}
	}
	return r.gone + len(r.list)
}

// alike counts how many datagrams at the end of two lists say the same, up to matched.
func alike(a, b []Held) (n int) {
	for n < min(len(a), len(b), matched) && bytes.Equal(a[len(a)-1-n].Bytes, b[len(b)-1-n].Bytes) {
		n++
	}
	return n
}
