package replay_test

import (
	"errors"
	"testing"
	"testing/synctest"

	"github.com/rs/zerolog"

	"halfturn/web"
	"halfturn/web/guard"
	"halfturn/web/replay"
)

// TestStop stops replays from several sides at once and begins them again at the same moment: whoever stops finds it
// stopped, whoever starts finds it playing.
func TestStop(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		m := replay.NewManager(&reelOf{places: every(10, 100)}, &stage{viewers: 1}, nil, zerolog.Nop())
		defer m.Close()
		stop := web.ReplayControl{Stop: true}
		const rounds, stoppers = 500, 3
		for round := range rounds {
			if s, err := m.Start(bg, "a", 0, 1); err != nil || s.Session != "a" || s.Over {
				t.Fatalf("round %d: to start it: %+v, %v", round, s, err)
			}
			answers := make(chan error, stoppers)
			for range stoppers {
				go func() {
					s, err := m.Control(bg, "a", stop)
					if s.Session != "a" || s.Station != replay.Station("a") {
						err = errors.Join(err, errors.New("the answer is of "+s.Station))
					}
					answers <- err
				}()
			}
			for range stoppers - 1 { // the last one may come after the next start
				if err := <-answers; err != nil {
					t.Fatalf("round %d: to stop it: %v", round, err)
				}
			}
			if s, err := m.Start(bg, "a", 0, 1); err != nil || s.Session != "a" {
				t.Fatalf("round %d: to start it as it stops: %+v, %v", round, s, err)
			}
			if err := <-answers; err != nil {
				t.Fatalf("round %d: to stop it last: %v", round, err)
			}
		}
		for range 2 {
			if s, err := m.Control(bg, "a", stop); err != nil || s.Session != "a" {
				t.Errorf("to stop it again: %+v, %v", s, err)
			}
		}
		var p *guard.Problem
		if _, err := m.Control(bg, "a", web.ReplayControl{Pace: ptr(2.0)}); !errors.As(err, &p) || p.Status != 404 {
			t.Errorf("to hurry one that is stopped: %v, want to be told that there is none", err)
		}
		if left := m.List(bg); len(left) != 0 {
			t.Errorf("still played: %+v", left)
		}
	})
}
