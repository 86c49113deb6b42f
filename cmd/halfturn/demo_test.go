package main

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/adrg/xdg"
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

// TestDemoKeepsApart: the demonstration's flights stay apart from the student's own.
func TestDemoKeepsApart(t *testing.T) {
	home, given := t.TempDir(), t.TempDir()
	was := xdg.DataHome
	t.Cleanup(func() { xdg.DataHome = was })
	xdg.DataHome = home
	for _, c := range []struct {
		flags []string
		want  string
	}{
		{nil, filepath.Join(home, "halfturn", "demo", "logbook.db")},
		{[]string{"--data", given}, filepath.Join(given, "logbook.db")},
	} {
		ctx, stop := context.WithCancel(t.Context())
		args := append([]string{"demo", "--no-open", "--http", "127.0.0.1:0", "--udp", "127.0.0.1:0"}, c.flags...)
		if status := run(ctx, args, streamsTo(io.Discard, &untilSaid{"The page:", stop},
			noVariables)); status != exitDone {
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
