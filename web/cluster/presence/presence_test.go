package presence

import (
	"encoding/json"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/web/cluster/flow"
)

// say is a sign of life as it is told.
func say(t *testing.T, node string, b Beat) flow.Told {
	t.Helper()
	data, err := json.Marshal(b)
	if err != nil {
		t.Fatal(err)
	}
	return flow.Told{Topic: flow.Nodes, Node: node, Bytes: data}
}

// TestPeers: of the other nodes is known what each said last, until it is silent for too long or says that it goes.
func TestPeers(t *testing.T) {
	s := New(time.Minute)
	take := func(node string, b Beat, fresh bool) {
		t.Helper()
		if _, is, err := s.Take(say(t, node, b)); err != nil || is != fresh {
			t.Errorf("%s is heard of for the first time: %v, %v; must be %v", node, is, err, fresh)
		}
	}
	eve, bo := who.Who{ID: "e", Name: "Eve Example"}, who.Who{ID: "b", Name: "Bo Example"}
	watched := func(nameless int, by ...who.Who) map[string]*message.Watching {
		return map[string]*message.Watching{"A": {Watchers: by, Nameless: nameless}}
	}
	take("b", Beat{Hears: []string{"A"}, Holds: []Hold{{Station: "A"}}, Audience: watched(1, eve)}, true)
	take("a", Beat{Hears: []string{"A", "B"}, Audience: watched(2, bo)}, true)
	take("c", Beat{Hears: []string{"A"}}, true)
	take("c", Beat{Hears: []string{"A"}, Leaves: true}, false)
	s.Put(&Peer{Name: "d", Beat: Beat{Hears: []string{"A"}}, Heard: time.Now().Add(-2 * time.Minute)})
	if _, _, err := s.Take(flow.Told{Node: "e", Bytes: []byte(`{"hears":1}`)}); err == nil {
		t.Error("a sign of life that cannot be read is taken")
	}
	if got := s.Hearing("A"); !slices.Equal(got, []string{"a", "b"}) {
		t.Errorf("A is heard by %v", got)
	}
	if diff := cmp.Diff(map[string]bool{"A": true}, s.Held()); diff != "" {
		t.Errorf("held (-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(watched(3, bo, eve), s.Audience()); diff != "" {
		t.Errorf("who watches (-want +got):\n%s", diff)
	}
	for node, silent := range map[string]bool{"a": false, "c": true, "d": true, "e": true} {
		if got := s.Silent(node, 90*time.Second); got != silent {
			t.Errorf("%s is silent: %v", node, got)
		}
		if alive := s.Living(node) != nil; alive == silent {
			t.Errorf("%s is alive: %v", node, alive)
		}
	}
}
