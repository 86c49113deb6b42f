// Package ids makes ids that are unique without asking anyone: ULIDs, 26 letters and digits that sort by time
// (github.com/ulid/spec).
package ids

import (
	"crypto/rand"
	"crypto/sha256"
	"time"

	"github.com/oklog/ulid/v2"
)

// New makes an id for something that came to be at a time, which may be anything but far from the years 1970 to 10889:
// another is taken for the nearest of these.
func New(at time.Time) string { return ulid.MustNew(stamp(at), rand.Reader).String() }

// Derive makes the id of something that is older than its id, or that follows from something with an id. The same time
// and parts give the same id on every machine; others give others.
func Derive(at time.Time, parts ...string) string {
	h := sha256.New()
	for _, part := range parts {
		h.Write([]byte(part))
		h.Write([]byte{0})
	}
	var id ulid.ULID
	_ = id.SetTime(stamp(at))          // within its range
	_ = id.SetEntropy(h.Sum(nil)[:10]) // of the length that a ULID has
	return id.String()
}

// Valid reports whether a text is an id.
func Valid(s string) bool {
	_, err := ulid.ParseStrict(s)
	return err == nil
}

func stamp(at time.Time) uint64 {
	return uint64(min(max(at.UnixMilli(), 0), int64(ulid.MaxTime())))
}
