package nats

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/web/cluster/flow"
)

// What asks it is told that it was asked, and until when it would have waited.
var errAsked = final{errors.New("asked")}

type askedJetStream struct {
	jetstream.JetStream
	until time.Time
	bound bool
}

func (a *askedJetStream) Stream(ctx context.Context, _ string) (jetstream.Stream, error) {
	a.until, a.bound = ctx.Deadline()
	return nil, errAsked
}

type askedStream struct {
	jetstream.Stream
	until time.Time
	bound bool
}

func (a *askedStream) GetMsg(ctx context.Context, _ uint64, _ ...jetstream.GetMsgOpt) (*jetstream.RawStreamMsg, error) {
	a.until, a.bound = ctx.Deadline()
	return nil, errAsked
}

// unconnected is an engine of one stream, without a server.
func unconnected(t *testing.T, js jetstream.JetStream, open jetstream.Stream) *Engine {
	t.Helper()
	e := &Engine{
		set: Settings{Node: "north", Cluster: "school", URLs: []string{"h:4222"}, Keeping: Keeping{Streams: 1}},
		js:  js,
	}
	if err := e.set.complete(); err != nil {
		t.Fatal(err)
	}
	e.ctx, e.end = context.WithCancel(t.Context())
	t.Cleanup(e.end)
	e.streams.open = []jetstream.Stream{open}
	e.streams.away, e.streams.full = make([]time.Time, 1), make([]time.Time, 1)
	return e
}

// A question that a server has lost, as one does that is killed, is asked again: no question may take as long as all
// that is to be read.
func TestBound(t *testing.T) {
	js, s := &askedJetStream{}, &askedStream{}
	within, cancel := context.WithTimeout(t.Context(), time.Hour)
	defer cancel()
	err := unconnected(t, js, nil).try(within, 0, 0, func(context.Context, jetstream.Stream) error { return nil })
	if err == nil || !js.bound || time.Until(js.until) > mostAttempt {
		t.Errorf("which stream it is may be asked until %v: %v", js.until, err)
	}
	err = more(within, s, place{rec: "x."}, 1, 2)
	if err == nil || !s.bound || time.Until(s.until) > mostAttempt {
		t.Errorf("whether there is more may be asked until %v: %v", s.until, err)
	}
}

// What a stream answered last is said when the time is over in the middle of the next attempt, which says nothing.
func TestSaidWhenLate(t *testing.T) {
	e := unconnected(t, nil, &askedStream{})
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	n := 0
	err := e.try(ctx, 0, time.Hour, func(ctx context.Context, _ jetstream.Stream) error {
		if n++; n == 1 {
			return jetstream.ErrNoStreamResponse
		}
		cancel()
		<-ctx.Done()
		return ctx.Err()
	})
	if !errors.Is(err, flow.ErrAway) || !errors.Is(err, context.Canceled) ||
		!strings.Contains(err.Error(), "stream halfturn-st-00 has no leader at NATS (h:4222)") {
		t.Errorf("%v", err)
	}
}

// Who begins to listen while an engine is closed does not listen: nobody would end it.
func TestNoEarAfterClose(t *testing.T) {
	var s ears
	if !s.add(&ear{sub: &client.Subscription{}}) {
		t.Error("an ear is refused")
	}
	s.stop()
	late := &ear{sub: &client.Subscription{}}
	if s.add(late) || len(s.all) > 0 || !late.stopped {
		t.Error("an ear is added after the end")
	}
}

// What a connection notes is said with the address and what to do, and the same once in a minute: a server says it of
// each message. No more than some is said of what differs.
func TestTrouble(t *testing.T) {
	e := unconnected(t, nil, nil)
	var said []string
	e.set.Trouble = func(err error) { said = append(said, err.Error()) }
	for range 3 {
		e.trouble(nil, nil, client.ErrAuthorization)
		e.trouble(nil, nil, client.ErrStaleConnection)
		e.trouble(nil, nil, fmt.Errorf(`%w: Permissions Violation for Subscription to "halfturn.ask.north"`,
			client.ErrPermissionViolation))
	}
	for i, words := range []string{
		"at h:4222 refuses the credentials; check the user, token or credentials file",
		"the connection to NATS at h:4222: nats: stale connection",
		`at h:4222 does not let this node subscribe to "halfturn.ask.north"; give its user the right`,
	} {
		if len(said) != 3 || !strings.Contains(said[i], words) {
			t.Errorf("%q; must be three, and say %q", said, words)
		}
	}
	if e.notes.lacking(time.Now()) != nil {
		t.Error("what is asked and told has to do with the store")
	}
	for i := range 10 * mostSaid {
		e.warn(fmt.Errorf("fault %d", i))
	}
	if len(said) != mostSaid || len(e.notes.said) != mostSaid {
		t.Errorf("%d faults are said in a minute, %d known", len(said), len(e.notes.said))
	}
	if now := time.Now().Add(2 * sayAgain); !e.notes.fresh("fault 1", now) || len(e.notes.said) != 1 {
		t.Error("it is not said again later")
	}
}

// Of a stream that takes nothing it is said once, and it is away until it takes something: that it is read, and has a
// leader, says nothing about that.
func TestFull(t *testing.T) {
	e := unconnected(t, nil, &askedStream{})
	s := &e.streams
	if !s.failed(0, true) || s.failed(0, true) {
		t.Error("it is new once")
	}
	s.answered(0, false)
	if e.Away().IsZero() {
		t.Error("it was read")
	}
	s.full[0] = time.Now().Add(-2 * untried) // and nobody wants to keep anything
	s.answered(0, false)
	if !e.Away().IsZero() || s.gone.Load() != 0 {
		t.Error("nobody has tried for long")
	}
	s.failed(0, true)
	err := e.keep(t.Context(), 0, func(context.Context, jetstream.Stream) error { return nil })
	if err != nil || !e.Away().IsZero() {
		t.Errorf("it has taken something: %v", err)
	}
}
