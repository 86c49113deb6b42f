package node

import (
	"bytes"
	"time"
)

// A ring holds the latest datagrams of a station, up to a number of bytes. They are counted from the first that it ever
// held.
type ring struct {
	most int
	gone int // how many were dropped
	list []held
	size int
}

// A held datagram is one that was heard here.
type held struct {
	bytes    []byte
	received time.Time
}

// heldCost is what a datagram takes beside its bytes.
const heldCost = 64

func (r *ring) add(b []byte, received time.Time) {
	r.list = append(r.list, held{bytes.Clone(b), received})
	r.size += len(b) + heldCost
	n := 0
	for left := r.size; left > r.most && n < len(r.list)-1; n++ {
		left -= len(r.list[n].bytes) + heldCost
	}
	r.drop(n)
}

// from returns what follows the first n that were ever held.
func (r *ring) from(n int) []held { return r.list[min(max(n-r.gone, 0), len(r.list)):] }

// count is how many were ever held.
func (r *ring) count() int { return r.gone + len(r.list) }

// trim drops those that were received before a time.
func (r *ring) trim(before time.Time) {
	n := 0
	for n < len(r.list) && r.list[n].received.Before(before) {
		n++
	}
	r.drop(n)
}

// drop drops the first n.
func (r *ring) drop(n int) {
	for i := range n {
		r.size -= len(r.list[i].bytes) + heldCost
		r.list[i] = held{}
	}
	r.list, r.gone = r.list[n:], r.gone+n
	if cap(r.list) > 2*len(r.list)+1024 { // what is cut off at the front is kept by the array
		r.list = append(make([]held, 0, len(r.list)+512), r.list...)
	}
}

// matched is how many datagrams before are compared to tell where a datagram stands among those that are alike.
const matched = 32

// after returns how many of the datagrams that were ever held another node has recorded: those up to the last one that
// is in its record, which ends with tail. Datagrams are told by what they say: each node has its own times, and may
// have lost some. Where one is there more than once, it is the one before which most is alike, and the latest of these.
// Where none is there, those that came later by the clocks follow.
func (r *ring) after(tail []held) int {
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
	last := tail[len(tail)-1].received
	for i := range r.list {
		if r.list[i].received.After(last) {
			return r.gone + i
		}
	}
	return r.gone + len(r.list)
}

// alike counts how many datagrams at the end of two lists say the same, up to matched.
func alike(a, b []held) (n int) {
	for n < min(len(a), len(b), matched) && bytes.Equal(a[len(a)-1-n].bytes, b[len(b)-1-n].bytes) {
		n++
	}
	return n
}
