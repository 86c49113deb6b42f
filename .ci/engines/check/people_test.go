package check

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"halfturn/coach/archive/depot"
	s3depot "halfturn/coach/archive/depot/s3"
)

// until waits until something is so.
func until(t *testing.T, what string, is func() bool) {
	t.Helper()
	ctx, stop := context.WithTimeout(t.Context(), time.Minute)
	defer stop()
	for !is() {
		select {
		case <-ctx.Done():
			t.Fatal("waited in vain for ", what)
		case <-time.After(50 * time.Millisecond):
		}
	}
}

// serve starts a node whose station is that of a student, and returns where it takes datagrams, and what ends it.
func (e *engines) serve() (udp string, end func()) {
	e.t.Helper()
	config := filepath.Join(e.dir, "halfturn.toml")
	text := "session-idle = '5s'\n[[station]]\naddress = '127.0.0.1'\nname = 'Seat 3'\nstudent = 'Ada Example'\n"
	if err := os.WriteFile(config, []byte(text), 0o600); err != nil {
		e.t.Fatal(err)
	}
	c := e.command(nil, map[string]string{"HALFTURN_LOG_FORMAT": "json"}, "serve", "--config", config, "--http",
		"127.0.0.1:0", "--udp", "127.0.0.1:0", "--data", filepath.Join(e.dir, "data"), "--cluster")
	log, err := os.Create(filepath.Join(e.dir, "log"))
	if err != nil {
		e.t.Fatal(err)
	}
	c.Stderr = log
	if err := errors.Join(c.Start(), log.Close()); err != nil {
		e.t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	end = func() {
		e.t.Helper()
		if err := errors.Join(c.Process.Signal(syscall.SIGTERM), <-ended); err != nil {
			e.t.Error(err)
		}
	}
	listens := regexp.MustCompile(`"udp":\["([^"]*)"\]`)
	until(e.t, "the server", func() bool {
		text, err := os.ReadFile(log.Name())
		if found := listens.FindSubmatch(text); err == nil && found != nil {
			udp = string(found[1])
		}
		return udp != ""
	})
	return udp, end
}

// TestPeopleOfCluster: users and students of a cluster are listed, added, exported and forgotten by commands on any
// machine that has its file. Whoever is flying is not forgotten.
func TestPeopleOfCluster(t *testing.T) {
	e, store, _, _ := start(t)
	do := func(status int, says string, args ...string) string {
		t.Helper()
		out, got := e.run(nil, nil, args...)
		if got != status || !strings.Contains(out, says) {
			t.Errorf("%q: status %d; must be %d, and say %q: %s", args, got, status, says, out)
		}
		return out
	}
	do(2, "owner", "users", "add", "--station", "Seat 3", "Ada Example", "--cluster") // the first must be one
	do(0, "B. Example", "users", "add", "--role", "owner", "B. Example", "--cluster")
	do(0, "Ada Example", "users", "add", "--station", "Seat 3", "Ada Example", "--cluster")
	do(0, "Ada Example", "users", "list", "--cluster")
	do(0, "Seat 3", "stations", "add", "Seat 3", "--cluster")
	do(2, "two places", "users", "list", "--data", t.TempDir(), "--cluster")

	udp, end := e.serve()
	flying, stop := context.WithCancel(t.Context())
	defer stop()
	fly := exec.CommandContext(flying, e.program, "fly", "--to", udp, "--legs", "1", "--pace", "2")
	if err := fly.Start(); err != nil {
		t.Fatal(err)
	}
	students := func() (all []struct {
		Name     string
		Sessions int
	}) {
		var list struct {
			Students []struct {
				Name     string
				Sessions int
			}
		}
		out := do(0, "", "students", "list", "--format", "json", "--cluster")
		if err := json.Unmarshal([]byte(out), &list); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		return list.Students
	}
	until(t, "a session", func() bool { return len(students()) == 1 })
	do(1, "is not over yet", "students", "forget", "Ada", "Example", "--yes", "--cluster")
	zip := filepath.Join(t.TempDir(), "ada.zip")
	export := []string{"students", "export", "Ada", "Example", "-o", zip, "--cluster"}
	do(1, "is not over yet", export...)
	stop()
	_ = fly.Wait() // it was killed
	until(t, "the session to end", func() bool {
		out, status := e.run(nil, nil, export...)
		done := strings.Contains(out, "sessions flown by Ada Example: 1") && strings.Contains(out, "users: 1,")
		if done != (status == 0) || !done && !strings.Contains(out, "is not over yet") {
			t.Fatal(out)
		}
		return done
	})
	do(0, "Sessions deleted: 1.", "students", "forget", "Ada", "Example", "--yes", "--cluster")
	if all := students(); len(all) > 0 {
		t.Errorf("students are %+v", all)
	}
	do(1, "Ada Example", "students", "export", "Ada", "Example", "-o", zip, "--force", "--cluster")
	end()
	bucket, err := s3depot.Open(store.Options("ours"))
	if err != nil {
		t.Fatal(err)
	}
	defer bucket.Close()
	if err := bucket.List(t.Context(), "", func(o depot.Object) error {
		text, err := depot.Read(t.Context(), bucket, o.Name)
		if bytes.Contains(text, []byte("Ada Example")) {
			t.Errorf("%s still holds the name", o.Name)
		}
		return err
	}); err != nil {
		t.Error(err)
	}
}
