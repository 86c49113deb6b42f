package live

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/archive/depot/depottest"
	"halfturn/coach/archive/depot/directory"
	"halfturn/coach/archive/remote"
	"halfturn/stream/streamtest"
)

// withDepot starts a server that keeps its sessions in a depot.
func withDepot(t *testing.T, cfgFile, data string, d *depottest.Switch) *server {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	cfg := config(t, cfgFile, data)
	l, err := Start(ctx, Options{
		Config:  cfg,
		Version: "1.2",
		Log:     zerolog.New(io.Discard),
		Depot:   &Depot{In: d, Node: "north"},
	})
	if err != nil {
		cancel()
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- l.Serve(ctx) }()
	stop := func() {
		if ctx.Err() != nil {
			return
		}
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	t.Cleanup(stop)
	return &server{Server: l, data: cfg.Data, stop: stop}
}

func newDepot(t *testing.T) *depottest.Switch {
	t.Helper()
	d, err := directory.Open(filepath.Join(t.TempDir(), "depot"))
	if err != nil {
		t.Fatal(err)
	}
	return &depottest.Switch{Depot: d}
}

// TestDepot: a session that was flown is whole in the depot when the server has stopped; while the depot is away a
// server says so, and what waited is stored when it is back.
func TestDepot(t *testing.T) {
	d, data := newDepot(t), t.TempDir()
	s := withDepot(t, written(t, "[recording]\ncompress = false\n"), data, d)
	in := remote.In(d, "reader")
	whole := func() (n int) {
		err := in.All(context.Background(), func(id string) error {
			m, err := in.Newest(context.Background(), id, nil)
			if err == nil && m.Whole && m.Has("stream-0001.pcapng") && m.Has("summary.json") {
				n++
			}
			return err
		})
		if err != nil {
			t.Error(err)
		}
		return n
	}
	fly := func() {
		station := s.send(t, streamtest.Payloads(t, brokenOff))
		status, answer := s.ask(t, "POST", "api/stations/"+station+"/end", "application/json", []byte("{}"))
		if status != 200 {
			t.Fatalf("the end of the session: %d, %s", status, answer)
		}
	}
	fly()
	cmdtest.Until(t, func() bool { return whole() == 1 }, func() string { return "the session is not in the depot" })
	d.Off(true)
	fly()
	cmdtest.Until(t, func() bool { return strings.Contains(cmdtest.Get(t, s.URL()+"healthz"), "does not answer") },
		func() string { return fmt.Sprintf("it is not told: %+v", s.spool.State()) })
	s.stop()
	d.Off(false)
	if n := whole(); n != 1 {
		t.Errorf("%d sessions are whole in the depot; must be 1", n)
	}
	withDepot(t, written(t, "[recording]\ncompress = false\n"), data, d)
	cmdtest.Until(t, func() bool { return whole() == 2 }, func() string { return "what waited is not stored" })
}
