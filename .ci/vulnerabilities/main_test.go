package main

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// A database with one vulnerability, in the form of https://go.dev/doc/security/vuln/database: in fmt.Println.
var files = map[string]string{
	"/index/db.json.gz": `{"modified": "2000-01-02T00:00:00Z"}`,
	"/index/modules.json.gz": `[{"path": "stdlib",
		"vulns": [{"id": "GO-2000-0001", "modified": "2000-01-02T00:00:00Z"}]}]`,
	"/ID/GO-2000-0001.json.gz": `{"schema_version": "1.3.1", "id": "GO-2000-0001",
		"modified": "2000-01-02T00:00:00Z", "published": "2000-01-02T00:00:00Z",
		"summary": "Too many words", "details": "Words.",
		"database_specific": {"url": "https://pkg.go.dev/vuln/GO-2000-0001"},
		"affected": [{"package": {"name": "stdlib", "ecosystem": "Go"},
		"ranges": [{"type": "SEMVER", "events": [{"introduced": "0"}]}],
		"ecosystem_specific": {"imports": [{"path": "fmt", "symbols": ["Println"]}]}}]}`,
}

func serve(t *testing.T, files map[string]string) string {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		text, ok := files[r.URL.Path]
		if !ok {
			http.NotFound(w, r)
			return
		}
		z := gzip.NewWriter(w)
		_, _ = z.Write([]byte(text))
		_ = z.Close()
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// module writes a program that calls what is vulnerable, or not.
func module(t *testing.T, call string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":  "module probe\n\ngo 1.26\n",
		"main.go": "package main\n\nimport \"fmt\"\n\nfunc main() { " + call + " }\n",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// With a database that answers, what is found fails, and is shown.
func TestFound(t *testing.T) {
	tool := filepath.Join(t.TempDir(), "govulncheck")
	build := exec.Command("go", "build", "-o", tool, "golang.org/x/vuln/cmd/govulncheck")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	db := serve(t, files)
	for call, want := range map[string]int{"fmt.Println()": 1, "_ = fmt.Sprint()": 0} {
		var said bytes.Buffer
		status := look(t.Context(), db, time.Minute, &said, []string{tool, "-C", module(t, call)}, "./...")
		if status != want || (want == 1) != strings.Contains(said.String(), "GO-2000-0001") {
			t.Errorf("%s: status %d, said %q", call, status, said.String())
		}
	}
}

// Without a database, or with something else in its place, that is said in one line, and nothing is run.
func TestNotReached(t *testing.T) {
	gone := httptest.NewServer(http.NotFoundHandler())
	gone.Close()
	silent := httptest.NewServer(http.HandlerFunc(func(_ http.ResponseWriter, r *http.Request) {
		<-r.Context().Done()
	}))
	defer silent.Close()
	page := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		_, _ = w.Write([]byte("<html>Sign in"))
	}))
	defer page.Close()
	const why = "vulnerabilities: not looked up, since the database cannot be reached: "
	for name, db := range map[string]string{
		"gone":    gone.URL,
		"silent":  silent.URL,
		"a page":  page.URL,
		"another": serve(t, map[string]string{"/index/db.json.gz": "{}"}),
		"empty":   serve(t, nil),
		"no name": "https://no-such-host.invalid",
	} {
		var said bytes.Buffer
		status := look(t.Context(), db, 200*time.Millisecond, &said, []string{"/no/such/program"}, "./...")
		if status != 0 || !strings.HasPrefix(said.String(), why) || strings.Count(said.String(), "\n") != 1 {
			t.Errorf("%s: status %d, said %q", name, status, said.String())
		}
	}
}

// A tool that fails while the database is there is a failure.
func TestToolFails(t *testing.T) {
	var said bytes.Buffer
	status := look(t.Context(), serve(t, files), time.Minute, &said, []string{"/no/such/program"})
	if status != 1 || !strings.Contains(said.String(), "govulncheck failed") {
		t.Errorf("status %d, said %q", status, said.String())
	}
}
