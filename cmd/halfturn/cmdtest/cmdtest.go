// Package cmdtest helps tests of the command that start a server and talk to it.
package cmdtest

import (
	"context"
	"io"
	"net/http"
	"testing"
	"time"
)

// Patience is how long a test waits for what takes milliseconds.
const Patience = 30 * time.Second

// Until asks repeatedly until a condition holds. The test fails when it does not hold within [Patience]; what then says
// what was waited for, and how far it came.
func Until(t testing.TB, holds func() bool, what func() string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), Patience)
	defer cancel()
	again := time.NewTicker(time.Millisecond)
	defer again.Stop()
	for !holds() {
		select {
		case <-ctx.Done():
			t.Fatalf("waited %v: %s", Patience, what())
		case <-again.C:
		}
	}
}

// Get returns the answer to a request.
func Get(t testing.TB, url string) string {
	t.Helper()
	r, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}
