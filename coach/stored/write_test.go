package stored

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/logbook/sqlite"
	"halfturn/stream/capture"
)

// A file appears whole or not at all; only a recording that is cut off leaves what could be read.
func TestWriteFile(t *testing.T) {
	failed := errors.New("no more")
	cut := &capture.CutError{Packets: 3, Err: io.ErrUnexpectedEOF}
	for _, c := range []struct {
		name   string
		before string // "" is no file
		force  bool
		fails  error
		after  string
		err    string
	}{
		{name: "a new file", after: "new"},
		{name: "over another", before: "old", after: "old", err: "is there already"},
		{name: "over another by force", before: "old", force: true, after: "new"},
		{name: "a failure", fails: failed, err: "no more"},
		{name: "a failure by force", before: "old", force: true, fails: failed, after: "old", err: "no more"},
		{name: "a recording that is cut off", fails: cut, after: "new", err: cut.Error()},
	} {
		dir := t.TempDir()
		file := filepath.Join(dir, "flight.csv")
		if c.before != "" {
			if err := os.WriteFile(file, []byte(c.before), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		err := WriteFile(file, c.force, func(w io.Writer) error {
			_, err := io.WriteString(w, "new")
			return errors.Join(err, c.fails)
		})
		if (err != nil) != (c.err != "") || err != nil && !strings.Contains(err.Error(), c.err) {
			t.Errorf("%s: %v; must contain %q", c.name, err, c.err)
		}
		if text, _ := os.ReadFile(file); string(text) != c.after {
			t.Errorf("%s: the file holds %q; must be %q", c.name, text, c.after)
		}
		if files, err := os.ReadDir(dir); err != nil || len(files) > 1 || c.after == "" && len(files) > 0 {
			t.Errorf("%s: left behind %v, %v", c.name, files, err)
		}
	}
	err := WriteFile(filepath.Join(t.TempDir(), "none", "flight.csv"), false, func(io.Writer) error { return nil })
	if err == nil || !strings.HasSuffix(err.Error(), "cannot be written: no such file or directory") {
		t.Errorf("in no folder: %v", err)
	}
}

// What is named stays as it is, but for "last"; without a logbook the folders say which session is the newest.
func TestNamed(t *testing.T) {
	data := t.TempDir()
	if _, err := Named(t.Context(), data, Last, sqlite.Engine{}); err == nil {
		t.Error("there is a last session of none")
	}
	if HasSessions(data) || HasLogbook(data) {
		t.Error("an empty folder has sessions or a logbook")
	}
	for _, id := range []string{"2030-03-01T10-00-00Z_bench", "2030-03-02T10-00-00Z_bench"} {
		if err := os.MkdirAll(filepath.Join(data, "sessions", id), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	if !HasSessions(data) || HasLogbook(data) {
		t.Error("sessions without a logbook are not seen as that")
	}
	for named, want := range map[string]string{
		Last:          "2030-03-02T10-00-00Z_bench",
		"flight.pcap": "flight.pcap",
		"":            "",
	} {
		if id, err := Named(t.Context(), data, named, sqlite.Engine{}); err != nil || id != want {
			t.Errorf("%q: %q, %v", named, id, err)
		}
	}
}
