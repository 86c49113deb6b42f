package folder

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Grades and notes that a newer program wrote in another form are refused with what to do, and stay as they are, also
// where something is to be added to the session.
func TestNewer(t *testing.T) {
	for name, read := range map[string]func(dir string) error{
		SummaryFile: func(dir string) error {
			_, ok, err := ReadReport(filepath.Join(dir, SummaryFile))
			if ok {
				t.Error("the grades were read")
			}
			return err
		},
		NotesFile: func(dir string) error { _, err := ReadNotes(dir); return err },
	} {
		dir := t.TempDir()
		file := filepath.Join(dir, name)
		text := []byte(`{"version": 99, "station": {"name": "of another form"}, "files": 7}`)
		must(t, os.WriteFile(file, text, 0o600))
		err := read(dir)
		if err == nil || !strings.Contains(err.Error(), file+" was written by a newer version of halfturn (form 99") {
			t.Errorf("%s: %v", name, err)
		}
		if after, err := os.ReadFile(file); err != nil || !bytes.Equal(after, text) {
			t.Errorf("%s was changed: %v", name, err)
		}
	}
}
