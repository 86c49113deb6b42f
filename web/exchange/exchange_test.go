package exchange

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"net/http"
	"strings"
	"testing"

	"halfturn/coach/logbook"
	"halfturn/web"
	"halfturn/web/guard"
)

// shelf is a book of one session, in an empty folder.
type shelf struct{ folder string }

func (s shelf) Folder(id string) (string, error) {
	if id != "known" {
		return "", &logbook.NotFound{ID: id}
	}
	return s.folder, nil
}

func (s shelf) Session(context.Context, string) (*logbook.SessionDetail, error) {
	return &logbook.SessionDetail{}, nil
}

// What cannot be exported is told apart: an unknown session, one without a recording, a reader that has gone.
func TestExportRefused(t *testing.T) {
	c := &Captures{Book: shelf{t.TempDir()}}
	var none *logbook.NotFound
	if err := c.Export(t.Context(), io.Discard, "unknown", web.Export{Format: "csv"}); !errors.As(err, &none) {
		t.Errorf("an unknown session: %v", err)
	}
	var refused *logbook.Refused
	err := c.Export(t.Context(), io.Discard, "known", web.Export{Format: "csv"})
	if !errors.As(err, &refused) || !strings.Contains(err.Error(), "has no recording") {
		t.Errorf("a session without a recording: %v", err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := c.Export(ctx, io.Discard, "known", web.Export{Format: "csv"}); !errors.Is(err, context.Canceled) {
		t.Errorf("nobody waits for it: %v", err)
	}
}

// An export ends soon after its reader has gone.
func TestInterruptible(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	var b strings.Builder
	w := &interruptible{ctx, &b}
	if _, err := w.Write([]byte("one")); err != nil {
		t.Fatal(err)
	}
	cancel()
	if _, err := w.Write([]byte("two")); !errors.Is(err, context.Canceled) || b.String() != "one" {
		t.Errorf("%v after %q", err, b.String())
	}
}

func TestNoRoom(t *testing.T) {
	full := &fs.PathError{Op: "write", Path: "/somewhere", Err: errors.New("no space left")}
	var told *guard.Problem
	if err := noRoom(full); !errors.As(err, &told) || told.Status != http.StatusInsufficientStorage ||
		!strings.Contains(told.Error(), "no space left") || strings.Contains(told.Error(), "/somewhere") {
		t.Errorf("a full disk: %v", err)
	}
	if other := errors.New("other"); noRoom(other) != other {
		t.Error("another error changes")
	}
}
