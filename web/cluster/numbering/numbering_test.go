package numbering

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/message"
	"halfturn/web/cluster/flow"
)

// TestID: two coaches of one flight give their events the same ids, also where the same is said twice; a station says
// of itself what depends on the moment.
func TestID(t *testing.T) {
	mark := func(words string) message.Message { return message.Message{Body: &message.Mark{ID: "1", Words: words}} }
	said := []message.Message{mark("here"), mark("there"), mark("here"), {Body: &message.Station{Name: "A"}}}
	var first, second Contents
	seen := map[string]bool{}
	for i, m := range said {
		id := first.ID(m)
		if again := second.ID(m); id != again {
			t.Errorf("event %d is %s and %s", i, id, again)
		}
		if is := m.Type() == message.TypeStation; is != (id == "") || seen[id] {
			t.Errorf("event %d has the id %q", i, id)
		}
		seen[id] = true
	}
	first.Clear()
	if id := first.ID(mark("here")); id != (&Contents{}).ID(mark("here")) {
		t.Errorf("the first event of a session is %s", id)
	}
}

// TestNumbers: an event is known by its run and number, among as many as a hub keeps, and those of other nodes by their
// ids as long as the run lasts.
func TestNumbers(t *testing.T) {
	var x Numbers
	event := func(run string, seq uint64) *flow.Event {
		return &flow.Event{ID: run + string(rune('a'+seq%26)), Seq: seq, Run: run}
	}
	for seq := uint64(1); seq <= latest+10; seq++ {
		x.Note(event("r", seq), seq%2 == 0)
	}
	for seq, want := range map[uint64]bool{
		1: false, 10: false, 11: true, latest: true, latest + 10: true, latest + 11: false,
	} {
		if got := x.Has(event("r", seq)); got != want || (x.Of("r", seq) != "") != want {
			t.Errorf("event %d is known: %v, as %q", seq, got, x.Of("r", seq))
		}
	}
	if x.Has(event("s", 11)) || len(x.Latest()) != latest || !x.Published()["rc"] || x.Published()["rd"] {
		t.Errorf("%d are known by their numbers; published: %v", len(x.Latest()), x.Published())
	}
	x.Note(event("s", 1), false)
	if diff := cmp.Diff([]flow.Event{{ID: "sb", Seq: 1, Run: "s"}}, x.Latest()); diff != "" || len(x.Published()) > 0 {
		t.Errorf("of the next run are published %v, and known (-want +got):\n%s", x.Published(), diff)
	}
}
