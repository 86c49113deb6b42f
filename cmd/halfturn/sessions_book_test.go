package main

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/sessions"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
)

// TestSessionsBook goes through a logbook by its commands alone.
func TestSessionsBook(t *testing.T) {
	data := t.TempDir()
	id := importedInto(t, data, recordedFlight)[0].Session
	copied := filepath.Join(t.TempDir(), "copy.db")
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"remark", id, "--leg", "2", "--at", "61.5", "--by", "B. Example", "See", "the", "apex"}, 0,
			"Remark 1 is kept"},
		{[]string{"student", id, "Ada", "Example"}, 0, "flown by Ada Example"},
		{[]string{"keep", id}, 0, "never removed"},
		{[]string{"list"}, 0, id + " (kept)"},
		{[]string{"list", "--text", "ape", "--student", "Ada Example", "--maneuver", "wing-over"}, 0, "“See the apex”"},
		{[]string{"list", "--student", "Nobody"}, 0, "No session is like that."},
		{[]string{"list", "--from", "2031-02-30"}, 2, "--from: the date is"},
		{[]string{"list", "--limit=-1"}, 2, "--limit is -1"},
		{[]string{"show", id}, 0, "Leg 2 at 1:02: See the apex (B. Example)"},
		{[]string{"show", id, "--grading", "2"}, 1, "has no grading 2"},
		{[]string{"show", "2031"}, 1, "there is no session \"2031\" in the logbook; most like it: " + id},
		{[]string{"regrade", id, "--maneuver", "wing-over", "--standard", "check"}, 0, "The new grades are kept"},
		{[]string{"show", id, "--grading", "2"}, 0, "wing-over, check standard"},
		{[]string{"prune"}, 2, "say by what"},
		{[]string{"prune", "--age", "ninety"}, 2, "must be a number with h, d or w"},
		{[]string{"prune", "--size", "0GB"}, 2, "must be a number with KB"},
		{[]string{"prune", "--size", "1KB", "--yes"}, 0, "Nothing is to be removed."},
		{[]string{"keep", id, "--off"}, 0, "may be removed"},
		{[]string{"prune", "--size", "1KB"}, 0, "To be removed: 1 session, "},
		{[]string{"backup", copied}, 0, "is copied"},
		{[]string{"backup", copied}, 1, "is there already"},
		{[]string{"backup", copied + ".2", "--format", "json"}, 0, "\"file\": \"" + copied + ".2\""},
		{[]string{"rebuild", "--format", "json"}, 0, "\"sessions\": 1"},
		{[]string{"backup"}, 2, "halfturn sessions backup --help"},
		{[]string{"rebuild"}, 0, "holds 1 session."},
		{[]string{"list", "--text", "apex"}, 0, "Ada Example"},
		{[]string{"show", id}, 0, "Grading 2"},
		{[]string{"prune", "--size", "1KB", "--yes"}, 0, "Removed: 1 session, "},
		{[]string{"list"}, 0, "No session is like that."},
	} {
		args := append([]string{"sessions", c.args[0], "--data", data}, c.args[1:]...)
		status, out, errs := call(t, nil, args...)
		if status != c.status || !strings.Contains(out+errs, c.want) {
			t.Errorf("%v: status %d, want %d and %q:\n%s%s", c.args, status, c.status, c.want, out, errs)
		}
	}
	if _, err := os.Stat(filepath.Join(data, "sessions", id)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("its folder stays: %v", err)
	}
}

// beginning writes the first n datagrams of a recorded flight as a capture: records of classic pcap, 16 bytes before
// each
// (draft-ietf-opsawg-pcap, section 5).
func beginning(t *testing.T, n int) string {
	t.Helper()
	f, err := os.Open(recordedFlight)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	all, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	end := 24
	for range n {
		end += 16 + int(binary.LittleEndian.Uint32(all[end+8:]))
	}
	name := filepath.Join(t.TempDir(), "beginning.pcap")
	if err := os.WriteFile(name, all[:end], 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// TestListFlown: what was recorded without a leg is in the list, but not among what was flown.
func TestListFlown(t *testing.T) {
	data := t.TempDir()
	flown, level := importedInto(t, data, recordedFlight)[0], importedInto(t, data, beginning(t, 200))[0]
	if flown.Legs == 0 || level.Legs != 0 {
		t.Fatalf("%+v, %+v", flown, level)
	}
	_, all, _ := call(t, nil, "sessions", "list", "--data", data)
	_, some, _ := call(t, nil, "sessions", "list", "--data", data, "--flown")
	if !strings.Contains(all, level.Session) || strings.Contains(some, level.Session) || !strings.Contains(some,
		flown.Session) {
		t.Errorf("all:\n%s\nflown:\n%s", all, some)
	}
}

// TestSessionsTellJSON: every command of sessions has --format json, an object with a version.
func TestSessionsTellJSON(t *testing.T) {
	data := t.TempDir()
	id := importedInto(t, data, recordedFlight)[0].Session
	said := map[string]bool{}
	for _, c := range []struct{ args, want string }{
		{"list", `"total":1`},
		{"show " + id, `"id":"` + id + `"`},
		{"remark " + id + " --leg 1 Late", `"remark":{"id":1,"leg":1,"time":null,"by":"","words":"Late",`},
		{"student " + id + " Ada Example", `"session":"` + id + `","student":"Ada Example","version":1`},
		{"keep " + id, `"keep":true,"session":"` + id + `","version":1`},
		{"keep " + id + " --off", `"keep":false,"session":"` + id + `","version":1`},
		{"prune --age 1w", `"removed":false`},
		{"export " + id, `"version":1`},
		{"import " + recordedFlight, `"double":true`},
		{"regrade " + id, `"differences":[`},
		{"rebuild", `"sessions":1`},
		{"backup " + filepath.Join(t.TempDir(), "copy.db"), `"file":`},
	} {
		args := strings.Fields(c.args)
		said[args[0]] = true
		status, out, errs := call(t, nil, append([]string{"sessions", args[0], "--data", data, "--format", "json"},
			args[1:]...)...)
		var flat bytes.Buffer
		if status != exitDone || json.Compact(&flat, []byte(out)) != nil || !strings.Contains(flat.String(), c.want) {
			t.Errorf("%s: status %d, want %s in\n%s%s", c.args, status, c.want, out, errs)
		}
		var version struct{ Version int }
		if err := json.Unmarshal([]byte(out), &version); err != nil || version.Version != 1 {
			t.Errorf("%s: version %d, %v", c.args, version.Version, err)
		}
	}
	all := reflect.TypeFor[sessions.Command]()
	for i := range all.NumField() {
		if name := strings.ToLower(all.Field(i).Name); !said[name] {
			t.Errorf("sessions %s was not asked", name)
		}
	}
}

// TestSessionsJSON holds the shapes of what is listed as JSON.
func TestSessionsJSON(t *testing.T) {
	data := t.TempDir()
	id := importedInto(t, data, recordedFlight)[0].Session
	var list logbook.SessionList
	var one sessions.Shown
	var pruned struct {
		Removed  bool
		Sessions []archive.Pruned
	}
	for _, c := range []struct {
		args []string
		into any
	}{{[]string{"list"}, &list}, {[]string{"show", id}, &one}, {[]string{"prune", "--age", "1h"}, &pruned}} {
		_, out, errs := call(t, nil, append([]string{"sessions", c.args[0], "--data", data, "--format", "json"},
			c.args[1:]...)...)
		if err := json.Unmarshal([]byte(out), c.into); err != nil {
			t.Fatalf("%v: %v: %s%s", c.args, err, out, errs)
		}
	}
	if list.Total != 1 || list.Sessions[0].ID != id || list.Sessions[0].Legs != 2 {
		t.Errorf("%+v", list)
	}
	if one.Session.Legs != 2 || len(one.Report.Files[0].Stations[0].Series[0].Legs) != 2 || len(one.Cautions) == 0 {
		t.Errorf("%+v", one)
	}
	if pruned.Removed || len(pruned.Sessions) != 1 || pruned.Sessions[0].Bytes == 0 {
		t.Errorf("%+v", pruned)
	}
}

// Without a data directory the commands that only read make none.
func TestSessionsNothing(t *testing.T) {
	data := filepath.Join(t.TempDir(), "not", "there")
	if err := os.MkdirAll(filepath.Dir(data), 0o750); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"list"}, {"show", "x"}, {"backup", filepath.Join(t.TempDir(), "x.db")}} {
		status, out, errs := call(t, nil, append([]string{"sessions", args[0], "--data", data}, args[1:]...)...)
		if status != 1 || !strings.Contains(errs, "nothing was flown") {
			t.Errorf("%v: status %d: %s%s", args, status, out, errs)
		}
	}
	if _, err := os.Stat(data); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("made a data directory: %v", err)
	}
}
