package live

import (
	"encoding/json"
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/cmd/halfturn/cmdtest"
)

// TestSilentEverywhere: when a station falls silent, its session waits at the node that coaches it. It is not handed
// over to the other one, which says for a moment longer that it hears the station.
func TestSilentEverywhere(t *testing.T) {
	d := newDrill(t, t.TempDir(), t.TempDir())
	hear := func() int {
		return len(d.a.node.HeardBy(simulator.String())) + len(d.b.node.HeardBy(simulator.String()))
	}
	cmdtest.Until(t, func() bool {
		d.a.hears.Tick(at(d.next))
		d.b.hears.Tick(at(d.next))
		return hear() == 0
	}, func() string { return "the station is heard still" })
	if l := d.a.lease(t); l.Node != "a" {
		t.Errorf("the lease is %+v; must be a's", l)
	}
	d.end(d.a)
	want, got := flownEvents(t, d.single.out.list()), flownEvents(t, d.a.out.list())
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("what is published differs (-single +a):\n%s", diff)
	}
}

// TestSilentTooLong: a node dies while its station rests. When the station flies again, later than a session may be
// interrupted, the other node ends the session, when the last datagram of it came, and begins another one, as a single
// server would.
func TestSilentTooLong(t *testing.T) {
	d := newDrill(t, t.TempDir(), t.TempDir())
	cmdtest.Until(t, func() bool { return len(d.a.node.HeardBy(simulator.String())) == 0 },
		func() string { return "b hears the station still" })
	first := sessionsOf(t, d.a.data)
	d.a.engine.Cut(true)
	after := at(len(d.datagrams)).Add(time.Hour)
	i := 0
	fly := func() {
		d.b.hears.Datagram(d.datagrams[i], after.Add(time.Duration(i)*40*time.Millisecond))
		if i++; i == len(d.datagrams) {
			t.Fatal("the flight is over")
		}
	}
	cmdtest.Until(t, func() bool {
		fly()
		<-time.After(5 * time.Millisecond)
		return len(sessionsOf(t, d.b.data)) == 2
	}, func() string { return fmt.Sprintf("b has %v; a had %v", sessionsOf(t, d.b.data), first) })
	for i < len(d.datagrams)-1 {
		fly()
	}
	last := at(d.next - 1).UTC().Format(time.RFC3339)
	var list []byte
	var out struct {
		Sessions []struct{ Ended string } // the latest first
	}
	cmdtest.Until(t, func() bool {
		_, list = d.b.ask(t, "GET", "api/sessions", "", nil)
		return json.Unmarshal(list, &out) == nil && len(out.Sessions) == 2 &&
			out.Sessions[1].Ended != "" && out.Sessions[0].Ended == ""
	}, func() string { return fmt.Sprintf("the logbook has %s", list) })
	if ended := out.Sessions[1].Ended; ended != last {
		t.Errorf("the session that was left ended at %s; must be %s", ended, last)
	}
}
