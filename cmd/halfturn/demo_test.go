package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// untilSaid calls back when a text was written to it.
type untilSaid struct {
	words string
	then  func()
}

func (u *untilSaid) Write(b []byte) (int, error) {
	if strings.Contains(string(b), u.words) {
		u.then()
	}
	return len(b), nil
}

// TestDemoKeepsApart: the demonstration's flights do not get among the student's own.
func TestDemoKeepsApart(t *testing.T) {
	home, given := t.TempDir(), t.TempDir()
	env := func(k string) (string, bool) {
		return map[string]string{"XDG_DATA_HOME": home}[k], k == "XDG_DATA_HOME"
	}
	for _, c := range []struct {
		flags []string
		want  string
	}{
		{nil, filepath.Join(home, "halfturn", "demo", "logbook.db")},
		{[]string{"--data", given}, filepath.Join(given, "logbook.db")},
	} {
		ctx, stop := context.WithCancel(t.Context())
		args := append([]string{"demo", "--no-open", "--http", "127.0.0.1:0", "--udp", "127.0.0.1:0"}, c.flags...)
		if status := run(ctx, args, streams{io.Discard, &untilSaid{"The page:", stop}, env}); status != exitDone {
			t.Fatalf("halfturn %q ended with %d", args, status)
		}
		stop()
		if _, err := os.Stat(c.want); err != nil {
			t.Error(err)
		}
	}
	if _, err := os.Stat(filepath.Join(home, "halfturn", "logbook.db")); err == nil {
		t.Error("the demonstration wrote into the student's logbook")
	}
}
