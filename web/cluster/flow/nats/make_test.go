package nats

import (
	"errors"
	"net"
	"strings"
	"testing"

	client "github.com/nats-io/nats.go"

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
	if !errors.Is(err, ErrRefused) || !strings.Contains(err.Error(), "the server at a:1 refuses") {
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
