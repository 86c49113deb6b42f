package node

import (
	"testing"

	"halfturn/coach/message"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
)

// said is an event of station A as a node tells it.
func said(t *testing.T, seq uint64) []byte {
	t.Helper()
	data, err := message.Message{Station: "A", Seq: seq, Body: live("A", "")}.MarshalJSON()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// followsTwo has a node follow a session of station A, of which it has shown two events of the run r.
func (r *rig) followsTwo(t *testing.T) (*station, *goingOn) {
	t.Helper()
	st := r.station("A")
	st.mu.Lock()
	defer st.mu.Unlock()
	on := &goingOn{playing: true, published: map[string]bool{"leg": true, "status": true}}
	st.goesOn, st.coached = on, true
	for seq := range uint64(2) {
		e := flow.Event{ID: "first", Seq: seq + 1, Run: "r", Body: said(t, seq+1)}
		st.relay(&e)
		on.tells([]flow.Event{e})
	}
	return st, on
}

// TestComplete: of the events that a node published last, its successor may have got the ids alone, with the record. It
// publishes them under the numbers that the viewers of the other node have, once: those that its coach made too, and
// those that were told whole. After one that nobody here can say, it goes on with its own numbers.
func TestComplete(t *testing.T) {
	for _, c := range []struct {
		name string
		told []flow.Event // beside the two that came
		want []string     // ids of the events from the third on
	}{
		{"all came", nil, []string{"new", "own"}},
		{"one of its coach", []flow.Event{{ID: "leg", Seq: 3}}, []string{"leg", "new", "own"}},
		{"one that was told whole", []flow.Event{{ID: "status", Seq: 3}}, []string{"status", "new", "own"}},
		{"both", []flow.Event{{ID: "status", Seq: 3}, {ID: "leg", Seq: 4}}, []string{"status", "leg", "new", "own"}},
		{"both, the other way round", []flow.Event{{ID: "leg", Seq: 3}, {ID: "status", Seq: 4}},
			[]string{"leg", "status", "new", "own"}},
		{"one that is not known", []flow.Event{{ID: "gone", Seq: 3}, {ID: "leg", Seq: 4}},
			[]string{"leg", "new", "own"}},
		{"of another numbering", []flow.Event{{ID: "leg", Seq: 3, Run: "other"}}, []string{"new", "own"}},
	} {
		b := newRig(t, memory.New(), "b")
		st, on := b.followsTwo(t)
		for _, e := range c.told {
			if e.Run == "" {
				e.Run = "r"
			}
			if e.ID == "status" {
				e.Body = said(t, e.Seq)
			}
			on.tells([]flow.Event{e})
		}
		callout := message.Message{Station: "A", Body: &message.Mark{ID: "1", Words: "here"}}
		on.kept = []heldBack{{"leg", callout}, {"new", callout}}
		on.says = message.Message{Station: "A", Body: live("A", "")}
		b.goOn(st, on, false)
		run, last, _ := b.hub.Latest("A")
		var got []string
		for seq := uint64(3); seq <= last; seq++ {
			id := st.numbers.Of(run, seq)
			if len(id) > 10 {
				id = "own" // what the station says of itself here
			}
			got = append(got, id)
		}
		if run != "r" || len(got) != len(c.want) {
			t.Errorf("%s: %s %v; must be %v", c.name, run, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %v; must be %v", c.name, got, c.want)
			}
		}
	}
}
