//go:build linux

package main

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/play"
)

// sessionsIn lists the sessions of a data directory, and what else lies among them.
func sessionsIn(t *testing.T, data string) (sessions, others []string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(data, "sessions"))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	for _, e := range entries {
		if folder.IsID(e.Name()) {
			sessions = append(sessions, e.Name())
		} else {
			others = append(others, e.Name())
		}
	}
	return sessions, others
}

// TestImportsAtOnce: one capture that ten processes import at once is one session.
func TestImportsAtOnce(t *testing.T) {
	t.Parallel()
	const n = 10
	data := t.TempDir()
	var all []*process
	for range n {
		all = append(all, begin(t, nil, "sessions", "import", "--data", data, recordedFlight))
	}
	for _, p := range all {
		if status := p.endsWithin(t, cmdtest.Patience); status != exitDone {
			t.Errorf("exit status %d: %s", status, p.words())
		}
	}
	if sessions, others := sessionsIn(t, data); len(sessions) != 1 || len(others) > 0 {
		t.Errorf("sessions %v, and %v", sessions, others)
	}
}

// TestImportKilled: what an import that was killed leaves is cleared up by the next start, of an import or a server.
func TestImportKilled(t *testing.T) {
	t.Parallel()
	flight := recordTo(t, trainerFlight, 10)
	file := endless(t, filepath.Join(t.TempDir(), "flight.pcap.zst"), flight[:24], flight[24:])
	// What arrives is not limited, so that it takes long enough to be killed.
	endlessly := func(data string) *process {
		return begin(t, nil, "sessions", "import", "--most-size", "0", "--most-ratio", "0", "--data", data, file)
	}
	for name, start := range map[string]func(data string){
		"import": func(data string) { importedInto(t, data, recordedFlight) },
		"server": func(data string) { beginServer(t, nil, data).stop(t) },
	} {
		data := t.TempDir()
		first := endlessly(data)
		cmdtest.Until(t, func() bool {
			streams, _ := filepath.Glob(filepath.Join(data, "sessions", ".import-*", "*", "stream-*"))
			return len(streams) > 0
		}, func() string { return "nothing is imported" })
		first.kill(t)
		if _, others := sessionsIn(t, data); len(others) != 1 {
			t.Errorf("the killed import leaves %v", others)
		}
		// One that is under way meanwhile keeps what is its own.
		other := endlessly(data)
		cmdtest.Until(t, func() bool {
			streams, _ := filepath.Glob(filepath.Join(data, "sessions", ".import-*", "*", "stream-*"))
			return len(streams) > 1 || len(streams) == 1 && reads(other.Process.Pid, file)
		}, func() string { return "nothing is imported" })
		start(data)
		if _, others := sessionsIn(t, data); len(others) != 1 {
			t.Errorf("%s: of two imports, one killed and one under way, there are left %v", name, others)
		}
		other.kill(t)
	}
}

// TestStartTidies: a server removes what a compression that was killed left in a session.
func TestStartTidies(t *testing.T) {
	t.Parallel()
	data := t.TempDir()
	id := importedInto(t, data, recordedFlight)[0].Session
	left := filepath.Join(data, "sessions", id, ".zst-stream-0001.pcapng")
	if err := os.WriteFile(left, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	server := beginServer(t, nil, data)
	cmdtest.Until(t, func() bool {
		_, err := os.Lstat(left)
		return errors.Is(err, os.ErrNotExist)
	}, func() string { return left + " is still there" })
	server.stop(t)
	if rec, err := play.Open(t.Context(), filepath.Join(data, "sessions", id)); err != nil || len(rec.Files) != 1 {
		t.Errorf("%+v, %v", rec, err)
	}
}
