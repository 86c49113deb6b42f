package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/archive/take"
	"halfturn/coach/debrief"
	"halfturn/coach/stored"
)

const recordedFlight = "../../coach/session/testdata/flights/wo-turboprop-b-good-1.pcap.gz"

// importedInto takes captures in and returns the list.
func importedInto(t *testing.T, data string, files ...string) []take.Imported {
	t.Helper()
	status, out, errs := call(t, nil, append([]string{"sessions", "import", "--data", data, "--maneuver", "wing-over",
		"--format", "json"}, files...)...)
	var list struct{ Sessions []take.Imported }
	if err := json.Unmarshal([]byte(out), &list); status != 0 || err != nil {
		t.Fatalf("status %d, %v: %s%s", status, err, out, errs)
	}
	return list.Sessions
}

func TestImportExportRegrade(t *testing.T) {
	data := t.TempDir()
	first := importedInto(t, data, recordedFlight)
	if len(first) != 1 || first[0].Legs == 0 || !first[0].Why.IsZero() {
		t.Fatalf("imported %+v", first)
	}
	if again := importedInto(t, data, recordedFlight); len(again) != 1 || !again[0].Double ||
		again[0].Session != first[0].Session {
		t.Errorf("the same capture again: %+v", again)
	}
	id := first[0].Session
	if left, _ := filepath.Glob(filepath.Join(data, "sessions", ".import-*")); len(left) > 0 {
		t.Errorf("left over: %v", left)
	}

	// The copy gives what the capture gives.
	status, copied, errs := call(t, nil, "sessions", "export", id, "--data", data)
	if status != 0 {
		t.Fatal(errs)
	}
	if _, original, _ := call(t, nil, "sessions", "export", recordedFlight); copied != original {
		t.Error("the samples of the imported session are not those of the capture")
	}
	_, leg, _ := call(t, nil, "sessions", "export", id, "--data", data, "--leg", "1", "--maneuver", "wing-over")
	all, err := csv.NewReader(strings.NewReader(copied)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if rows, err := csv.NewReader(strings.NewReader(leg)).ReadAll(); err != nil || len(rows) < 100 ||
		len(rows) >= len(all) {
		t.Errorf("leg 1 has %d rows of %d, %v", len(rows), len(all), err)
	}
	var graded struct {
		Files []struct{ Stations []debrief.StationReport }
	}
	_, one, _ := call(t, nil, "sessions", "export", id, "--data", data, "--leg", "2", "--format", "json", "--maneuver",
		"wing-over")
	if err := json.Unmarshal([]byte(one), &graded); err != nil || len(graded.Files) != 1 ||
		len(graded.Files[0].Stations[0].Series) != 1 || len(graded.Files[0].Stations[0].Series[0].Legs) != 1 ||
		graded.Files[0].Stations[0].Series[0].Legs[0].Number != 2 {
		t.Errorf("as JSON leg 2 is %.300s, %v", one, err)
	}
	pdf := filepath.Join(data, "d.pdf")
	if status, _, errs := call(t, nil, "sessions", "export", id, "--data", data, "--format", "pdf", "-o",
		pdf); status != 0 {
		t.Fatal(errs)
	}
	if status, _, errs := call(t, nil, "sessions", "export", id, "--data", data, "--format", "pdf", "-o",
		pdf); status != 1 || !strings.Contains(errs, "there already") {
		t.Errorf("over a file that is there: status %d, %s", status, errs)
	}

	// One file of the debrief, for those without Halfturn; a leg that is not there is refused.
	page := filepath.Join(data, "d.html")
	if status, _, errs := call(t, nil, "sessions", "export", id, "--data", data, "--maneuver", "wing-over", "--format",
		"html", "-o", page); status != 0 {
		t.Fatal(errs)
	}
	if html, err := os.ReadFile(page); err != nil || !strings.HasPrefix(string(html), "<!doctype html>") ||
		!strings.Contains(string(html), `"api/sessions/shared/legs/2"`) {
		t.Errorf("the file of the debrief: %d bytes, %v", len(html), err)
	}
	if status, _, errs := call(t, nil, "sessions", "export", id, "--data", data, "--maneuver", "wing-over", "--format",
		"html", "--leg", "99"); status != 1 || !strings.Contains(errs, "99") {
		t.Errorf("a leg that is not there: status %d, %s", status, errs)
	}

	// Unchanged cards grade the same; another standard is kept beside.
	_, out, _ := call(t, nil, "sessions", "regrade", id, "--data", data, "--maneuver", "wing-over")
	if !strings.Contains(out, "Nothing differs.") {
		t.Errorf("by unchanged cards: %s", out)
	}
	was, err := os.ReadFile(filepath.Join(data, "sessions", id, "summary.json"))
	if err != nil {
		t.Fatal(err)
	}
	is, err := os.ReadFile(filepath.Join(data, "sessions", id, "regrade-0001.json"))
	if err != nil || string(was) != string(is) {
		t.Errorf("graded again by unchanged cards the report is not the same to the byte: %v", err)
	}
	_, out, _ = call(t, nil, "sessions", "regrade", id, "--data", data, "--maneuver", "wing-over", "--standard",
		"check", "--format", "json")
	var again stored.Regraded
	if err := json.Unmarshal([]byte(out), &again); err != nil || !again.Compared || len(again.Differences) == 0 ||
		!strings.HasSuffix(again.Kept, "regrade-0002.json") {
		t.Errorf("by another standard: %v\n%.400s", err, out)
	}
}

// TestRegradeAsImported grades an imported session again by what it was judged by: the recording of another program
// does not say which aircraft that was.
func TestRegradeAsImported(t *testing.T) {
	data := t.TempDir()
	status, out, errs := call(t, nil, "sessions", "import", recordedFlight, "--data", data, "--maneuver", "wing-over",
		"--aircraft", "turboprop-trainer", "--format", "json")
	var list struct{ Sessions []take.Imported }
	if err := json.Unmarshal([]byte(out), &list); status != 0 || err != nil || len(list.Sessions) != 1 {
		t.Fatalf("status %d, %v: %s%s", status, err, out, errs)
	}
	id := list.Sessions[0].Session
	if _, out, _ := call(t, nil, "sessions", "regrade", id, "--data", data); !strings.Contains(out,
		"Nothing differs.") {
		t.Errorf("by unchanged cards: %s", out)
	}
	if _, out, _ := call(t, nil, "sessions", "regrade", id, "--data", data, "--standard",
		"practice"); !strings.Contains(out, "is practice") || strings.Contains(out, "is not measured") {
		t.Errorf("by another standard: %s", out)
	}
	if _, out, _ := call(t, nil, "sessions", "regrade", id, "--data", data, "--aircraft", ""); !strings.Contains(out,
		"is not measured, ") {
		t.Errorf("without an aircraft: %s", out)
	}
}

// TestImportUnknown leaves out what nobody can read today, or keeps it when asked to, and finds each sender of a
// capture.
func TestImportUnknown(t *testing.T) {
	data, file := t.TempDir(), filepath.Join(t.TempDir(), "unknown.pcap")
	// classic, raw IP
	b := []byte("\xd4\xc3\xb2\xa1\x02\x00\x04\x00\x00\x00\x00\x00\x00\x00\x00\x00\xff\xff\x00\x00\x65\x00\x00\x00")
	for i := range byte(4) {
		// Two datagrams of each of two senders, "what" in each: pcap record, IPv4, UDP.
		b = append(b, i, 0, 0, 0x60, 0, 0, 0, 0, 32, 0, 0, 0, 32, 0, 0, 0)
		b = append(b, 0x45, 0, 0, 32, 0, 0, 0, 0, 64, 17, 0, 0, 10, 0, 0, 1+i%2, 10, 0, 0, 9)
		b = append(b, 0x10, 0, 0x20, 0, 0, 12, 0, 0, 'w', 'h', 'a', 't')
	}
	if err := os.WriteFile(file, b, 0o600); err != nil {
		t.Fatal(err)
	}
	status, out, errs := call(t, nil, "sessions", "import", "--data", data, file)
	if want := "datagrams left out because nothing in them can be graded: 4, from 2 of the senders (halfturn " +
		"sessions import --keep-all keeps them)"; status != exitFailed || out != "" || !strings.Contains(errs, want) {
		t.Errorf("exit status %d, %s%s; want %q", status, out, errs, want)
	}
	if left, _ := filepath.Glob(filepath.Join(data, "sessions", "*")); len(left) > 0 {
		t.Errorf("kept: %v", left)
	}
	list := importedInto(t, data, "--keep-all", file)
	if len(list) != 2 {
		t.Fatalf("imported %+v, want a session for each of two senders", list)
	}
	for _, d := range list {
		if d.Why.IsZero() || d.Legs != 0 {
			t.Errorf("%+v: must be not gradable, and say why", d)
		}
		if _, err := os.Stat(filepath.Join(data, "sessions", d.Session, "stream-0001.pcapng")); err != nil {
			t.Errorf("not kept: %v", err)
		}
	}
}

func TestSessionsRefuse(t *testing.T) {
	data := t.TempDir()
	tests := []struct {
		args []string
		want string
	}{
		{[]string{"sessions", "export", "../../etc/passwd", "--data", data}, "neither a session"},
		{[]string{"sessions", "export", "..", "--data", data}, "is a folder"},
		{[]string{"sessions", "export", recordedFlight, "--leg", "99"}, "there is no leg 99"},
		{[]string{"sessions", "import", "main.go", "--data", data}, "must be a pcap or pcapng"},
		{[]string{"sessions", "regrade", recordedFlight, "--against", "main.go"}, "holds no grades"},
	}
	for _, test := range tests {
		if status, _, errs := call(t, nil, test.args...); status != 1 || !strings.Contains(errs, test.want) {
			t.Errorf("%v: status %d, %s; want %q", test.args, status, errs, test.want)
		}
	}
}
