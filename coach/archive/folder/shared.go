package folder

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/stream/phrase"
)

// SharedFile says whose session it is that came from another Halfturn. While such a session is not over, its recording
// is continued from there, and never played or ended here.
const SharedFile = "shared.json"

// A Shared session came from another Halfturn.
type Shared struct {
	Station string `json:"station"` // by whose key it came
	Session string `json:"session"` // its id there
	// While it is not complete: since when its home has no link, zero while it has; and when the last datagram was
	// received there that was shown here, by the clock of the home.
	Lost time.Time `json:"lost,omitzero"`
	Seen time.Time `json:"seen,omitzero"`
	Left *Left     `json:"left,omitempty"` // nil unless the session was ended here without its home
}

// Left says that a session was ended here because its home did not return. What there is of its recording was graded.
// The home can still complete it.
type Left struct {
	At      time.Time `json:"at"`
	Missing float64   `json:"missing"` // of what was shown here, at the end of the recording, s
	Revoked bool      `json:"revoked"` // the key of the station was revoked
}

// Words say it to people.
func (l *Left) Words() phrase.Phrase {
	if l.Revoked {
		return phrase.ShareLeftRevoked.Of(phrase.Number("missing", l.Missing, 0, "s"))
	}
	return phrase.ShareLeft.Of(phrase.Number("missing", l.Missing, 0, "s"))
}

// LeftIn tells whether a session was ended without its home; nil when it was not.
func LeftIn(dir string) *Left {
	s, _, _ := ReadShared(dir) // what is damaged is found where the session is received
	return s.Left
}

// ReadShared tells where a session came from; false when it was flown or imported here.
func ReadShared(dir string) (s Shared, ok bool, err error) {
	ok, err = readJSON(filepath.Join(dir, SharedFile), &s)
	return s, ok, err
}

// Write writes the file into the folder of a session.
func (s Shared) Write(dir string) error {
	data, err := json.MarshalIndent(s, "", "  ")
	if err == nil {
		err = disk.WriteWhole(filepath.Join(dir, SharedFile), append(data, '\n'))
	}
	if err != nil {
		return fmt.Errorf("session %s cannot be received: %w", filepath.Base(dir), err)
	}
	return nil
}

// IsShared reports whether a session came from another Halfturn.
func IsShared(dir string) bool {
	_, err := os.Stat(filepath.Join(dir, SharedFile))
	return err == nil
}
