//go:build linux

package main

import (
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"halfturn/coach/archive"
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
		if archive.IsID(e.Name()) {
			sessions = append(sessions, e.Name())
		} else {
			others = append(others, e.Name())
		}
	}
	return sessions, others
}

// TestImportsAtOnce: one capture that ten import at once is one session, be they processes or requests.
func TestImportsAtOnce(t *testing.T) {
	const n = 10
	t.Run("processes", func(t *testing.T) {
		data := t.TempDir()
		var all []*exec.Cmd
		for range n {
			all = append(all, process(t, io.Discard, "sessions", "import", "--data", data, recordedFlight))
		}
		for _, cmd := range all {
			if err := cmd.Wait(); err != nil {
				t.Error(err)
			}
		}
		if sessions, others := sessionsIn(t, data); len(sessions) != 1 || len(others) > 0 {
			t.Errorf("sessions %v, and %v", sessions, others)
		}
	})
	t.Run("requests", func(t *testing.T) {
		data := t.TempDir()
		s, stop := startAt(t, data, nil)
		capture := readFile(t, recordedFlight)
		ids := make([]string, n)
		var wait sync.WaitGroup
		for i := range n {
			wait.Go(func() {
				status, body := s.ask(t, http.MethodPost, "api/sessions/import?name=flight", "application/octet-stream", capture)
				var list importList
				if err := json.Unmarshal(body, &list); status != http.StatusOK || err != nil || len(list.Sessions) != 1 {
					t.Errorf("status %d, %v: %s", status, err, body)
					return
				}
				ids[i] = list.Sessions[0].Session
			})
		}
		wait.Wait()
		slices.Sort(ids)
		if sessions, others := sessionsIn(t, data); len(sessions) != 1 || len(others) > 0 || len(slices.Compact(ids)) != 1 {
			t.Errorf("sessions %v, and %v; told of %v", sessions, others, ids)
		}
		// What is refused, however often, leaves nothing.
		for range 5 {
			if status, body := s.ask(t, http.MethodPost, "api/sessions/import?name=x", "application/octet-stream", newPcap().Bytes()); status != http.StatusBadRequest || !strings.Contains(string(body), "there is no UDP datagram in it") {
				t.Errorf("status %d: %s", status, body)
			}
		}
		if sessions, others := sessionsIn(t, data); len(sessions) != 1 || len(others) > 0 {
			t.Errorf("sessions %v, and %v", sessions, others)
		}
		stop()
	})
}

// TestImportKilled: what an import that was killed leaves is cleared up by the next start, of an import or a server.
func TestImportKilled(t *testing.T) {
	flight := recordTo(t, trainerFlight, 10)
	file := endless(t, filepath.Join(t.TempDir(), "flight.pcap.zst"), flight[:24], flight[24:])
	for name, start := range map[string]func(data string){
		"import": func(data string) { importedInto(t, data, recordedFlight) },
		"server": func(data string) {
			_, stop := startAt(t, data, nil)
			stop()
		},
	} {
		data := t.TempDir()
		cmd := process(t, io.Discard, "sessions", "import", "--most-size", "0", "--most-ratio", "0", "--data", data, file)
		until(t, func() bool {
			streams, _ := filepath.Glob(filepath.Join(data, "sessions", ".import-*", "*", "stream-*"))
			return len(streams) > 0
		}, func() string { return "nothing is imported" })
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // was killed
		if _, others := sessionsIn(t, data); len(others) != 1 {
			t.Errorf("the killed import leaves %v", others)
		}
		// One that is under way meanwhile keeps what is its own.
		other := process(t, io.Discard, "sessions", "import", "--most-size", "0", "--most-ratio", "0", "--data", data, file)
		until(t, func() bool {
			streams, _ := filepath.Glob(filepath.Join(data, "sessions", ".import-*", "*", "stream-*"))
			return len(streams) > 1 || len(streams) == 1 && reads(other.Process.Pid, file)
		}, func() string { return "nothing is imported" })
		start(data)
		if _, others := sessionsIn(t, data); len(others) != 1 {
			t.Errorf("%s: of two imports, one killed and one under way, there are left %v", name, others)
		}
		if err := other.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = other.Wait() // was killed
	}
}

// TestStartTidies: a server removes what a compression that was killed left in a session.
func TestStartTidies(t *testing.T) {
	data := t.TempDir()
	id := importedInto(t, data, recordedFlight)[0].Session
	left := filepath.Join(data, "sessions", id, ".zst-stream-0001.pcapng")
	if err := os.WriteFile(left, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, stop := startAt(t, data, nil)
	until(t, func() bool {
		_, err := os.Lstat(left)
		return errors.Is(err, os.ErrNotExist)
	}, func() string { return left + " is still there" })
	stop()
	if rec, err := play.Open(t.Context(), filepath.Join(data, "sessions", id)); err != nil || len(rec.Files) != 1 {
		t.Errorf("%+v, %v", rec, err)
	}
}
