package live

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream/streamtest"
)

// An overhearing output passes on what sessions say, and hands the test what is spoken.
type overhearing struct {
	session.Output
	said chan *coach.Callout
}

func (o overhearing) Event(m message.Message) {
	if c, ok := m.Body.(message.Callout); ok && c.Words != "" && c.Kind != coach.Cue {
		select {
		case o.said <- c.Callout:
		default: // the test has heard enough
		}
	}
	o.Output.Event(m)
}

// Whoever flies by the voice of the server, without a page, asks for the last words again with the Enter key.
func TestEnterSaysItAgain(t *testing.T) {
	file := filepath.Join(t.TempDir(), "c.toml")
	if err := os.WriteFile(file, fmt.Appendf(nil, "[speech]\ncommand = [%q]\n", os.Args[0]), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Setenv("HALFTURN_TEST_SPEAKER", filepath.Join(t.TempDir(), "none")) // it cannot speak, and nobody minds
	keys := make(chan struct{})
	enter := func(ctx context.Context) bool {
		select {
		case <-keys:
			return true
		case <-ctx.Done():
			return false
		}
	}
	said := make(chan *coach.Callout, 64)
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	l, err := Start(ctx, Options{
		Config: config(t, file, t.TempDir()),
		Log:    zerolog.Nop(),
		Before: func(next session.Output) session.Output { return overhearing{next, said} },
		Enter:  enter,
	})
	if err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- l.Serve(ctx) }()
	keys <- struct{}{} // nothing was said yet
	s := &server{Server: l}
	s.send(t, streamtest.Payloads(t, brokenOff))
	last := <-said
	for last.Kind != coach.Result {
		last = <-said
	}
	keys <- struct{}{}
	for again := range said {
		if again.Kind != coach.Again {
			last = again
			continue
		}
		if again.Words != last.Words || !strings.HasPrefix(again.ID, last.Kind) {
			t.Errorf("%+v is said again as %+v", last, again)
		}
		break
	}
	cancel()
	if err := <-done; err != nil {
		t.Error(err)
	}
}
