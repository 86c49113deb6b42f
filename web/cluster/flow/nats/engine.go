package nats

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"sync"
	"sync/atomic"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/web/cluster/flow"
)

// How long one attempt may take, and how long the next waits.
const (
	attempt     = 2 * time.Second
	mostAttempt = 8 * time.Second
	leastPause  = time.Millisecond
	mostPause   = 250 * time.Millisecond
	lookAgain   = 500 * time.Millisecond // at streams that do not answer
	untried     = 5 * time.Second        // then a stream that took nothing may take something
)

// An Engine is a node. It has two connections, so that what is told and asked never waits behind what is kept or read.
type Engine struct {
	set   Settings
	store *client.Conn
	js    jetstream.JetStream
	core  *client.Conn
	alone alone // by the core connection
	life

	streams streams
	aliases aliases
	teller  teller
	ears    ears
	clocks  clocks
	counts  counts
	notes   notes
}

// A life is what ends with an engine.
type life struct {
	tasks  sync.WaitGroup
	ctx    context.Context
	end    context.CancelFunc
	closed atomic.Bool
}

var (
	_ flow.Engine = (*Engine)(nil)
	_ flow.Clocks = (*Engine)(nil)
)

// counts are of what went wrong without an error.
type counts struct {
	unsent atomic.Uint64
	lost   atomic.Uint64
	poison atomic.Uint64
}

// Counts are of what went wrong without an error, since the start.
type Counts struct {
	Unsent uint64 // messages that were told and could not be sent
	Lost   uint64 // messages that came faster than they were taken
	Poison uint64 // messages that could not be read, and were passed over
}

// Counts returns them.
func (e *Engine) Counts() Counts {
	return Counts{Unsent: e.counts.unsent.Load(), Lost: e.counts.lost.Load(), Poison: e.counts.poison.Load()}
}

// Open connects a node. When no server can be reached it goes on trying, as it does when the servers are gone later.
// It fails when a server refuses the node (ErrRefused), or its streams are another cluster's (ErrForeign).
func Open(ctx context.Context, s Settings) (*Engine, error) {
	if err := s.complete(); err != nil {
		return nil, err
	}
	e := &Engine{set: s}
	e.ctx, e.end = context.WithCancel(context.Background())
	e.streams.open = make([]jetstream.Stream, s.Keeping.Streams)
	e.streams.away = make([]time.Time, s.Keeping.Streams)
	e.streams.full = make([]time.Time, s.Keeping.Streams)
	e.aliases.of = map[string]alias{}
	if err := e.connect(); err != nil {
		e.Close()
		return nil, err
	}
	e.tasks.Go(e.look)
	e.tasks.Go(e.teller.run(e))
	if err := e.listenToClocks(); err != nil {
		e.Close()
		return nil, err
	}
	if err := e.owned(ctx); err != nil {
		e.Close()
		return nil, err
	}
	return e, nil
}

func (e *Engine) connect() (err error) {
	e.teller.queue = make(chan told, mostUnsent)
	events := []client.Option{
		client.ErrorHandler(e.trouble),
		client.DisconnectErrHandler(func(*client.Conn, error) { e.streams.disconnected(true) }),
		client.ConnectHandler(func(*client.Conn) { e.streams.disconnected(false) }),
		client.ReconnectHandler(func(*client.Conn) { e.streams.disconnected(false) }),
	}
	e.streams.disconnected(true) // before a handler can say otherwise
	if e.store, err = e.set.connect("store", true, events...); err != nil {
		return err
	}
	if e.store.IsConnected() {
		e.streams.disconnected(false)
	}
	if e.js, err = jetstream.New(e.store, jetstream.WithDefaultTimeout(attempt)); err != nil {
		return err
	}
	e.core, err = e.set.connect("core", true, client.ErrorHandler(e.trouble), client.NoEcho())
	return err
}

// An alone notes since when a node reaches no other. Its two connections come back one after the other: the store may
// answer before the others are heard.
type alone struct {
	mu    sync.Mutex
	since time.Time
}

// Alone says since when this node can tell the others nothing, nor hear them.
func (e *Engine) Alone() time.Time {
	a := &e.alone
	a.mu.Lock()
	defer a.mu.Unlock()
	switch {
	case e.core.IsConnected():
		a.since = time.Time{}
	case a.since.IsZero():
		a.since = time.Now()
	}
	return a.since
}

// at is the server that the node is connected to.
func (e *Engine) at() string {
	if at := e.store.ConnectedAddr(); at != "" {
		return at
	}
	return e.set.addresses()
}

// Close disconnects the node.
func (e *Engine) Close() error {
	if e.closed.Swap(true) {
		return nil
	}
	e.end()
	e.ears.stop()
	e.tasks.Wait()
	for _, c := range []*client.Conn{e.core, e.store} {
		if c != nil {
			c.Close()
		}
	}
	return nil
}

// isFile says that an error is about a file.
func isFile(err error) bool {
	var path *fs.PathError
	return errors.As(err, &path) || errors.Is(err, os.ErrNotExist)
}
