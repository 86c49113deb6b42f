// Package check holds halfturn cluster check to what it promises, over real engines: a NATS server, PostgreSQL and an
// S3-compatible store.
package check

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/logbook/postgres/pgtest"
	"halfturn/engines/natsserver"
	"halfturn/engines/s3"
)

var postgres *pgtest.Cluster

func TestMain(m *testing.M) {
	natsserver.Main()
	os.Exit(pgtest.Main(m, func(c *pgtest.Cluster) { postgres = c }))
}

// A report is what the command prints.
type report struct {
	OK       bool
	Findings []struct {
		Part, Says string
		OK         bool
	}
}

// says reports whether a finding of a part holds words, and whether all is well with it.
func (r *report) says(part, words string, ok bool) bool {
	for _, f := range r.Findings {
		if strings.HasPrefix(f.Part, part) && strings.Contains(f.Says, words) && f.OK == ok {
			return true
		}
	}
	return false
}

// built is the program, in a folder.
func built(t *testing.T, dir string) string {
	t.Helper()
	program := filepath.Join(dir, "halfturn")
	build := exec.Command("go", "build", "-o", program, "./cmd/halfturn")
	build.Dir = "../../.."
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return program
}

// TestCheck: of engines that hold nothing all is made, and said; the second time all is there. The versions are those
// of the servers. An engine that is away is named, with what to do, and the others are looked at all the same.
func TestCheck(t *testing.T) {
	store, urls, dsn := s3.Start(t), natsserver.Run(t, 1, nil), postgres.New(t)
	dir := t.TempDir()
	program := built(t, dir)
	file := filepath.Join(dir, "cluster.toml")
	text := fmt.Sprintf("node = 'n1'\nnats.urls = [%q]\nnats.streams = 2\npostgres.dsn-env = 'DSN'\n"+
		"s3.endpoint = 'http://%s'\ns3.bucket = 'ours'\ns3.access-key-env = 'KEY'\ns3.secret-key-env = 'SECRET'\n",
		urls[0], store.Address)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	check := func() (r report, status int) {
		c := exec.Command(program, "cluster", "check", "--json", file)
		c.Env = append(os.Environ(), "DSN="+dsn, "KEY="+s3.Key, "SECRET="+s3.Secret)
		out, _ := c.Output() // the status says what came of it
		if err := json.Unmarshal(out, &r); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		if strings.Contains(string(out), s3.Secret) {
			t.Error("the secret is in what it prints")
		}
		return r, c.ProcessState.ExitCode()
	}
	version, err := exec.Command(filepath.Join(pgtest.Programs(), "postgres"), "--version").Output()
	if err != nil {
		t.Fatal(err)
	}
	number := strings.Fields(strings.TrimPrefix(string(version), "postgres (PostgreSQL) "))[0]
	for n, c := range []struct{ tables, bucket string }{
		{"had no tables: they were made now", "was made now, and can be used"},
		{"has the tables", "ours at http://" + store.Address + " can be used"},
	} {
		r, status := check()
		if !r.OK || status != 0 || !r.says("PostgreSQL", c.tables, true) || !r.says("S3", c.bucket, true) ||
			!r.says("PostgreSQL", "version "+number, true) || !r.says("S3", "calls itself VERSITYGW", true) ||
			!r.says("NATS", "version 2.", true) || !r.says("PostgreSQL", "connections are free", true) {
			t.Errorf("time %d: status %d, %+v", n+1, status, r)
		}
	}
	store.Kill()
	postgres.Stop()
	r, status := check()
	if err := postgres.Start(); err != nil {
		t.Fatal(err)
	}
	if r.OK || status != 1 || !r.says("S3", "start the store", false) ||
		!r.says("PostgreSQL", "see that it runs", false) || !r.says("NATS", "version 2.", true) {
		t.Errorf("while two engines are away: status %d, %+v", status, r)
	}
}
