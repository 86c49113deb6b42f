// Command vulnerabilities asks govulncheck whether a vulnerability is known in what Halfturn calls. Where the database
// of vulnerabilities cannot be reached it says so in one line, and is content.
package main

import (
	"compress/gzip"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"time"
)

// database is the public one, https://go.dev/doc/security/vuln/database.
const database = "https://vuln.go.dev"

// How long the database may take to answer, and the whole may take.
const (
	patience = 5 * time.Second
	limit    = 5 * time.Minute
)

func main() {
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	os.Exit(look(ctx, database, patience, os.Stderr, []string{"go", "tool", "govulncheck"}, "./..."))
}

// found is govulncheck's exit status when it has found something.
const found = 3

// look runs the command with a database over packages, when the database can be reached, and returns an exit status.
func look(
	ctx context.Context, db string, patience time.Duration, w io.Writer, command []string, packages ...string,
) int {
	if err := reach(ctx, db, patience); err != nil {
		fmt.Fprintf(w, "vulnerabilities: not looked up, since the database cannot be reached: %v\n", err)
		return 0
	}
	args := append(command[1:len(command):len(command)], "-db", db)
	out, err := exec.CommandContext(ctx, command[0], append(args, packages...)...).CombinedOutput()
	var ended *exec.ExitError
	switch {
	case err == nil:
		return 0
	case errors.As(err, &ended) && ended.ExitCode() == found:
		fmt.Fprintf(w, "%s\nvulnerabilities: some are known; update the modules named above: go get MODULE@VERSION\n",
			strings.TrimSpace(string(out)))
		return 1
	case reach(ctx, db, patience) != nil:
		fmt.Fprintf(w, "vulnerabilities: not looked up, since the database could not be reached any more\n")
		return 0
	}
	fmt.Fprintf(w, "%s\nvulnerabilities: govulncheck failed: %v\n", strings.TrimSpace(string(out)), err)
	return 1
}

// reach asks the database for when it was last changed. What else may answer, such as a network's own sign-in page,
// has no such thing.
func reach(ctx context.Context, db string, patience time.Duration) error {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, db+"/index/db.json.gz", nil)
	if err != nil {
		return err
	}
	resp, err := http.DefaultClient.Do(req)
	if err != nil {
		return err
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return fmt.Errorf("%s answers %s", db, resp.Status)
	}
	unzipped, err := gzip.NewReader(io.LimitReader(resp.Body, 1<<20))
	if err != nil {
		return fmt.Errorf("%s answers with something else: %w", db, err)
	}
	var index struct{ Modified time.Time }
	if err := json.NewDecoder(unzipped).Decode(&index); err != nil || index.Modified.IsZero() {
		return fmt.Errorf("%s answers with something else", db)
	}
	return nil
}
