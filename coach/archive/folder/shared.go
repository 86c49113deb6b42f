package folder

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"halfturn/coach/archive/disk"
)

// SharedFile says whose session it is that came from another Halfturn. While such a session is not over, its recording
// is continued from there, and never played or ended here.
const SharedFile = "shared.json"

// A Shared session came from another Halfturn.
type Shared struct {
	Station string `json:"station"` // by whose key it came
	Session string `json:"session"` // its id there
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
