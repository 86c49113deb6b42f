package cluster

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/live"
	"halfturn/coach/archive/depot"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/nats"
)

// An engineOf answers as it is told.
type engineOf struct {
	ahead time.Duration
	err   error
	asked int
}

func (e *engineOf) Apart() (string, time.Duration) { return "n2", e.ahead }

func (e *engineOf) Make(context.Context) (*nats.Found, error) {
	e.asked++
	return nil, e.err
}

// TestWatch: streams that could not be made at the start are made as soon as they can be, and clocks that go apart
// later are told, each once.
func TestWatch(t *testing.T) {
	var log bytes.Buffer
	e := &engineOf{err: fmt.Errorf("%w: nobody is at h:4222", flow.ErrAway)}
	w := &watch{engine: e, log: zerolog.New(&log)}
	says := func(when string, words ...string) {
		t.Helper()
		log.Reset()
		for range 3 {
			w.look(t.Context())
		}
		lines := strings.Split(strings.TrimSpace(log.String()), "\n")
		if len(words) == 0 && log.Len() == 0 {
			return
		}
		if len(lines) != len(words) {
			t.Fatalf("%s: %q; must be %d lines", when, lines, len(words))
		}
		for i := range words {
			if !strings.Contains(lines[i], words[i]) {
				t.Errorf("%s: %s; must say %q", when, lines[i], words[i])
			}
		}
	}
	says("away", "nobody is at h:4222")
	e.err = fmt.Errorf("%w: stream x belongs to another", nats.ErrForeign)
	says("foreign", `"level":"error","error":"these streams are not of this cluster: stream x belongs to another"`)
	e.err, e.asked = nil, 0
	says("back", "can be used now")
	if e.asked != 1 {
		t.Errorf("the streams are made %d times", e.asked)
	}
	e.ahead = 5 * time.Minute
	says("clocks", "the clock of this machine is 5m0s behind that of node n2; set both by the network (NTP)")
	e.ahead = 6 * time.Minute
	says("clocks that go on")
	e.ahead = time.Second
	says("clocks that were set", "agree again")
}

// TestWatchEnds: a watch looks at each tick, ends when it is stopped, and tells nothing of a question that this ended.
func TestWatchEnds(t *testing.T) {
	var log bytes.Buffer
	e := &engineOf{}
	w := &watch{engine: e, log: zerolog.New(&log), made: true}
	w.start()()
	ctx, cancel := context.WithCancel(t.Context())
	ticks, done := make(chan time.Time), make(chan struct{})
	go func() {
		defer close(done)
		w.run(ctx, ticks)
	}()
	e.ahead = time.Hour
	ticks <- time.Time{}
	cancel()
	<-done
	if !w.apart {
		t.Error("it does not look")
	}
	log.Reset()
	w.made, e.err = false, errors.New("ended")
	w.make(ctx)
	if log.Len() > 0 {
		t.Errorf("it tells %s", log.String())
	}
}

// TestBucketLater: a bucket that could not be looked at when the server started, and turns out to be another cluster's,
// is left alone. The store answers as S3 does (its API reference, "GetObject", "Error responses").
func TestBucketLater(t *testing.T) {
	var away atomic.Bool
	var changed atomic.Int64
	away.Store(true)
	store := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		switch {
		case away.Load():
			w.WriteHeader(http.StatusServiceUnavailable)
		case r.Method == http.MethodGet && strings.HasSuffix(r.URL.Path, "/"+depot.OwnerName):
			w.Header().Set("ETag", `"x"`)
			w.Header().Set("Last-Modified", "Mon, 02 Jan 2006 15:04:05 GMT")
			_, _ = w.Write([]byte(`{"program": "halfturn", "layout": 1, "cluster": "other"}`))
		case r.Method == http.MethodPut || r.Method == http.MethodPost || r.Method == http.MethodDelete:
			changed.Add(1)
		}
	}))
	defer store.Close()
	env := func(name string) (string, bool) {
		return map[string]string{"DSN": "postgres://db.example/x", "KEY": "k", "SECRET": "s"}[name], true
	}
	o := live.Options{Log: zerolog.Nop()}
	shut, err := Open(t.Context(), written(t, nowhere+"cluster = 'ours'\npostgres.dsn-env = 'DSN'\ns3.endpoint = '"+
		store.URL+"'\ns3.bucket = 'bucket'\ns3.access-key-env = 'KEY'\ns3.secret-key-env = 'SECRET'\n"), env, nil, &o)
	if err != nil {
		t.Fatal(err)
	}
	defer shut()
	away.Store(false)
	_, err = o.Depot.In.Put(t.Context(), "x", strings.NewReader("x"), 1)
	if !errors.Is(err, depot.ErrDenied) || !strings.Contains(err.Error(), `is of the cluster "other"`) {
		t.Errorf("%v; must be denied", err)
	}
	if n := changed.Load(); n != 0 {
		t.Errorf("the bucket of another cluster was changed %d times", n)
	}
}
