package ingest

import (
	"sync"
	"time"
)

// A buffer holds one waiting datagram. Most datagrams fit an Ethernet frame; the rest may
// be 64 KiB, so that there are two sizes.
type buffer struct {
	b        []byte
	received time.Time
	lost     Loss // before the datagram
	pool     *sync.Pool
}

const shortBytes = 2048

var shorts, longs sync.Pool

func init() {
	shorts.New = func() any { return &buffer{b: make([]byte, 0, shortBytes), pool: &shorts} }
	longs.New = func() any { return &buffer{b: make([]byte, 0, 1<<16), pool: &longs} }
}

// fill returns a buffer with a copy of b.
func fill(b []byte) *buffer {
	pool := &shorts
	if len(b) > shortBytes {
		pool = &longs
	}
	f := pool.Get().(*buffer)
	f.b = append(f.b[:0], b...)
	return f
}

func (f *buffer) free() { f.pool.Put(f) }
