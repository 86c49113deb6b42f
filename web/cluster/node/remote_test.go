package node

import (
	"context"
	"encoding/json"
	"fmt"
	"sync/atomic"
	"testing"

	"halfturn/coach/message"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
)

// toldEvent is an event as a node tells it.
func toldEvent(t *testing.T, station, run string, seq uint64) []byte {
	t.Helper()
	body, err := json.Marshal(message.Message{Station: station, Seq: seq, Body: live(station, "")})
	if err != nil {
		t.Fatal(err)
	}
	b, err := flow.EncodeEvent(&flow.Event{ID: fmt.Sprint(run, seq), Seq: seq, Run: run, Body: body})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestAskedOnce: a node that misses events asks for them once for each event that it hears, however little the other
// node knows of the station: one that has it no more, and one that answers nothing.
func TestAskedOnce(t *testing.T) {
	for name, says := range map[string]answer{
		"the station is gone":  {Gone: true},
		"nothing":              {},
		"events without words": {Events: []flow.Event{{ID: "r1", Seq: 1, Run: "r"}}},
	} {
		t.Run(name, func(t *testing.T) {
			store := memory.New()
			other := store.Join("a")
			defer other.Close()
			var asked atomic.Int64
			text, err := json.Marshal(says)
			if err == nil {
				err = other.Answer(func(context.Context, []byte) []byte {
					asked.Add(1)
					return text
				})
			}
			if err != nil {
				t.Fatal(err)
			}
			b := newRig(t, store, "b")
			const events = 20
			for i := range int64(events) {
				other.Tell(flow.Events, "Seat", toldEvent(t, "Seat", "r", uint64(10+2*i)))
				until(t, func() bool {
					st := b.station("Seat")
					st.mu.Lock()
					defer st.mu.Unlock()
					return asked.Load() > i && !st.asking
				}, func() string { return fmt.Sprintf("after %d events it asked %d times", i+1, asked.Load()) })
			}
			if n := asked.Load(); n != events {
				t.Errorf("of %d events it asked %d times", events, n)
			}
		})
	}
}

// TestSceneGone: a node that is asked for a station which it shows no more says so.
func TestSceneGone(t *testing.T) {
	b := newRig(t, memory.New(), "b")
	st := b.station("Seat")
	st.mu.Lock()
	st.numbers.Note(&flow.Event{ID: "r1", Seq: 1, Run: "r"}, true)
	st.mu.Unlock()
	if a := b.scene(&question{Kind: askScene, Station: "Seat", Run: "r", Seq: 1}); !a.Gone || len(a.Events) > 0 {
		t.Errorf("%+v; must be gone", a)
	}
}
