//go:build unix

package console

import (
	"context"
	"os"
	"testing"
)

// Enter takes whole lines, and ends with its context or with what is typed.
func TestEnter(t *testing.T) {
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	write := func(s string) {
		t.Helper()
		if _, err := w.WriteString(s); err != nil {
			t.Fatal(err)
		}
	}
	write("again\n")
	if !Enter(t.Context(), r) {
		t.Error("a line was not taken")
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan bool, 1)
	go func() { done <- Enter(ctx, r) }()
	write("half a line")
	cancel()
	if <-done {
		t.Error("half a line, or a context that ended, counts as Enter")
	}
	w.Close()
	if Enter(t.Context(), r) {
		t.Error("the end counts as Enter")
	}
}
