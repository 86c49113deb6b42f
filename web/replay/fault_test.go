package replay_test

import (
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/session"
	"halfturn/stream/contain"
	"halfturn/web"
	"halfturn/web/replay"
)

// A broken recording panics when its fourth datagram is fed.
type broken struct{ reelOf }

func (b *broken) Open(id, station string, to session.Output) (replay.Take, error) {
	take, err := b.reelOf.Open(id, station, to)
	return &brokenTake{take, 0}, err
}

type brokenTake struct {
	replay.Take
	n int
}

func (b *brokenTake) Feed() {
	if b.n++; b.n == 4 {
		panic("the recording cannot be coached")
	}
	b.Take.Feed()
}

// A fault in a replay ends it alone: whoever asks something of it is told, another one plays on, and it can be started
// again.
func TestFaultEndsOneReplay(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var told []error
		faults := contain.New(func(err error) { told = append(told, err) })
		m := replay.NewManager(&broken{reelOf{places: every(10, 3)}}, &stage{viewers: 1}, faults, zerolog.Nop())
		defer m.Close()
		for round := range 2 {
			if _, err := m.Start(bg, "a", 0, 1); err != nil {
				t.Fatalf("round %d: %v", round, err)
			}
			<-time.After(2 * time.Second)
			if left := m.List(bg); len(left) != 0 {
				t.Fatalf("round %d: it still plays: %+v", round, left)
			}
			if _, err := m.Control(bg, "a", web.ReplayControl{Pace: ptr(2.0)}); err == nil {
				t.Error("it could be hurried when it was over")
			}
		}
		if len(told) != 1 || !strings.Contains(told[0].Error(), "replay a was ended by a fault") {
			t.Errorf("told %q", told)
		}
	})
}
