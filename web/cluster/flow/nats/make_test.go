package nats

import (
	"context"
	"errors"
	"net"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/web/cluster/flow"
)

// silent is an address at which nobody listens any more.
func silent(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// Where no server answers, all that were tried are named, once each, and the reason once.
func TestNoneReached(t *testing.T) {
	a, b, c := silent(t), silent(t), silent(t)
	e := unconnected(t, nil, nil)
	e.store = new(client.Conn)
	e.set.URLs = []string{"nats://u:secret@" + a, "nats://" + b, "nats://" + c}
	found, err := e.Make(t.Context())
	if err == nil || !errors.Is(err, flow.ErrAway) || errors.Is(err, ErrRefused) {
		t.Fatalf("%v", err)
	}
	said := err.Error()
	if !strings.Contains(said, "can be reached at "+a+", "+b+", "+c+" (") || strings.Contains(said, "secret") {
		t.Errorf("%v; must name %s, %s and %s", err, a, b, c)
	}
	if strings.Count(said, "can be reached") != 1 || strings.Count(said, client.ErrNoServers.Error()) != 1 {
		t.Errorf("%v; must say once why", err)
	}
	for i, at := range []string{a, b, c} {
		if s := found.Servers[i]; s.Err == nil || !strings.Contains(s.Err.Error(), "can be reached at "+at+" (") {
			t.Errorf("%+v; must name %s alone", s, at)
		}
	}
}

// What the servers say stands in the way of all, whichever comes last: one that refuses is to be mended, and the
// others' reasons are each said once.
func TestNone(t *testing.T) {
	e := unconnected(t, nil, nil)
	e.set.URLs = []string{"a:1", "b:1", "c:1"}
	away := func(at string, why error) Server {
		s := Settings{URLs: []string{at}}
		return Server{Address: at, Err: s.connectFault(why)}
	}
	err := e.none([]Server{away("a:1", client.ErrAuthorization), away("b:1", client.ErrNoServers)})
	if !errors.Is(err, ErrRefused) || errors.Is(err, flow.ErrAway) ||
		!strings.Contains(err.Error(), "the server at a:1 refuses") {
		t.Errorf("%v", err)
	}
	err = e.none([]Server{away("a:1", client.ErrNoServers), away("b:1", client.ErrTimeout),
		away("c:1", client.ErrNoServers)})
	want := "at a:1, b:1, c:1 (" + client.ErrNoServers.Error() + ", " + client.ErrTimeout.Error() + ");"
	if !errors.Is(err, flow.ErrAway) || !errors.Is(err, client.ErrTimeout) || !strings.Contains(err.Error(), want) {
		t.Errorf("%v; must hold %q", err, want)
	}
	if err = e.none([]Server{{Address: "a:1"}}); !strings.Contains(err.Error(), "a:1, b:1, c:1 (it does not answer)") {
		t.Errorf("%v", err)
	}
}

// settling streams have a replica that is behind until they were asked for some times, and do not answer the first.
type settling struct {
	jetstream.JetStream
	asked, until int
}

func (s *settling) Stream(_ context.Context, name string) (jetstream.Stream, error) {
	if s.asked++; s.asked == 1 {
		return nil, context.DeadlineExceeded
	}
	return settlingStream{name: name, behind: s.asked < s.until}, nil
}

type settlingStream struct {
	jetstream.Stream
	name   string
	behind bool
}

func (s settlingStream) CachedInfo() *jetstream.StreamInfo {
	replicas := []*jetstream.PeerInfo{{Current: true}, {Current: !s.behind}}
	return &jetstream.StreamInfo{
		Config:  jetstream.StreamConfig{Name: s.name, Replicas: 3},
		Cluster: &jetstream.ClusterInfo{Leader: "n0", Replicas: replicas},
	}
}

// Replicas of streams that were just made are waited for, for a while; those of others are behind at once.
func TestSettle(t *testing.T) {
	const never = 1 << 30
	for name, c := range map[string]struct {
		fresh         bool
		until, behind int
		least, most   time.Duration
	}{
		"up to date soon":  {true, 4, 0, 1, time.Second},
		"never up to date": {true, never, 1, settleWait, settleWait},
		"made long before": {false, never, 1, 0, 0},
	} {
		synctest.Test(t, func(t *testing.T) {
			js := &settling{until: c.until}
			all := []Stream{{Name: "a"}, {Name: "b", Made: c.fresh, fresh: c.fresh, Behind: 1}}
			began := time.Now()
			unconnected(t, js, nil).settle(t.Context(), all)
			took := time.Since(began)
			if b := all[1]; b.Behind != c.behind || b.Made != c.fresh || b.Name != "b" {
				t.Errorf("%s: %+v; must have %d behind", name, b, c.behind)
			}
			if took < c.least || took > c.most {
				t.Errorf("%s: it took %v; must be %v to %v", name, took, c.least, c.most)
			}
			if all[0] != (Stream{Name: "a"}) {
				t.Errorf("%s: %+v", name, all[0])
			}
		})
	}
}
