package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestSessionLast: "last" is the newest session wherever one is named.
func TestSessionLast(t *testing.T) {
	data, out := t.TempDir(), t.TempDir()
	importedInto(t, data, beginning(t, 200))
	id := importedInto(t, data, recordedFlight)[0].Session // of the same second: it comes after the other
	for _, c := range []struct{ args, want string }{
		{"show last", "Session " + id},
		{"remark last --leg 1 Late", "is kept with session " + id},
		{"student last Ada Example", "Session " + id + " was flown by Ada Example"},
		{"student last ada  EXAMPLE", "was flown by Ada Example"},
		{"keep last", "Session " + id + " is never removed"},
		{"keep last --off", "Session " + id + " may be removed"},
		{"regrade last --maneuver wing-over",
			"regrade-0001.json. To show them: halfturn sessions show " + id + " --grading 2"},
		{"export last --format json", `"file": "` + id},
		{"export last --format csv -o " + filepath.Join(out, "x.csv"), ""},
		{"export last --format pdf -o " + filepath.Join(out, "x.pdf"), ""},
	} {
		args := strings.Fields(c.args)
		status, said, errs := call(t, nil, append([]string{"sessions", args[0], "--data", data}, args[1:]...)...)
		if status != exitDone || !strings.Contains(said, c.want) {
			t.Errorf("%s: status %d, want %q in\n%.600s%s", c.args, status, c.want, said, errs)
		}
		if _, help, _ := call(t, nil, "sessions", args[0],
			"--help"); !strings.Contains(strings.Join(strings.Fields(help), " "), "last is the newest") {
			t.Errorf("sessions %s --help does not tell of it:\n%s", args[0], help)
		}
	}
	for _, name := range []string{"x.csv", "x.pdf"} {
		if info, err := os.Stat(filepath.Join(out, name)); err != nil || info.Size() < 1000 {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := os.Remove(filepath.Join(data, "logbook.db")); err != nil { // then the folders tell
		t.Fatal(err)
	}
	if status, said, errs := call(t, nil, "sessions", "export", "--data", data, "last", "--format",
		"json"); status != exitDone || !strings.Contains(said, `"file": "`+id) {
		t.Errorf("without a logbook: status %d: %.300s%s", status, said, errs)
	}
	for _, command := range []string{"show", "export", "regrade"} {
		if status, _, errs := call(t, nil, "sessions", command, "--data", t.TempDir(), "last"); status != exitFailed ||
			strings.Count(errs, "\n") != 1 || !strings.Contains(errs, "--data") && !strings.Contains(errs,
			"no session") {
			t.Errorf("%s of nothing: status %d: %s", command, status, errs)
		}
	}
}

// TestSessionsLeftOut: a file of notes that cannot be taken in keeps one session out, which every command and the log
// of the server name; the others are there, and the server starts without its database.
func TestSessionsLeftOut(t *testing.T) {
	t.Parallel()
	data := t.TempDir()
	bad, good := importedInto(t, data, recordedFlight)[0].Session, importedInto(t, data, beginning(t, 200))[0].Session
	notes := filepath.Join(data, "sessions", bad, "notes.json")
	text := doubledRemark(t, notes)
	named := func(what string, status, want int, said string) {
		t.Helper()
		if status != want || !strings.Contains(said, bad) || !strings.Contains(said, "two remarks with the id 1") {
			t.Errorf("%s: status %d:\n%s", what, status, said)
		}
	}
	status, out, errs := call(t, nil, "sessions", "rebuild", "--data", data)
	named("rebuild", status, exitFailed, out+errs)
	if !strings.Contains(out, "holds 1 session.") || !strings.Contains(errs, "1 session is left out: "+bad) {
		t.Errorf("rebuild: %s%s", out, errs)
	}
	status, out, errs = call(t, nil, "sessions", "rebuild", "--data", data, "--format", "json")
	named("rebuild as JSON", status, exitFailed, out+errs)
	status, out, _ = call(t, nil, "sessions", "list", "--data", data)
	named("list", status, exitDone, out)
	if !strings.Contains(out, good) {
		t.Errorf("the other is not there:\n%s", out)
	}
	status, out, _ = call(t, nil, "sessions", "list", "--data", data, "--format", "json")
	named("list as JSON", status, exitDone, out)

	if err := os.Remove(filepath.Join(data, "logbook.db")); err != nil {
		t.Fatal(err)
	}
	for range 2 { // rebuilt, and as it is
		server := beginServer(t, nil, data)
		server.stop(t)
		named("the log of the server", exitDone, exitDone, server.words())
	}
	if now, err := os.ReadFile(notes); err != nil || string(now) != text {
		t.Errorf("its notes were touched: %v", err)
	}
}

// doubledRemark puts the same remark into notes twice, and returns their text.
func doubledRemark(t *testing.T, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var n map[string]any
	if err := json.Unmarshal(text, &n); err != nil {
		t.Fatal(err)
	}
	remark := map[string]any{"id": 1, "leg": 0, "time": nil, "by": "B. Example", "words": "Late",
		"at": "2031-05-04T09:00:00Z"}
	n["version"] = 1 // of which notes held the remarks
	n["remarks"] = []any{remark, remark}
	if text, err = json.Marshal(n); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, text, 0o600); err != nil {
		t.Fatal(err)
	}
	return string(text)
}
