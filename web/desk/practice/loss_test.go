package practice

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/message"
)

// holes are the losses among messages.
func holes(all []message.Message) (list []coach.Hole) {
	for _, m := range all {
		if h, is := m.Body.(message.Hole); is {
			list = append(list, *h.Hole)
		}
	}
	return list
}

// What this machine lost stands in the recording where it was lost: in a leg, between legs, while the station rests
// before a session, and at its end. The recording gives the same events as the session gave live.
func TestLossesReplayed(t *testing.T) {
	s := fliesTo(t)
	var live ear
	s.bench.Output = &live
	s.station = s.bench.station()
	g := &told{s, map[string]command.Kind{}}
	s.station.Lost(Loss{Shared: 1}) // before its first sample
	g.flyTold(func() { s.station.Lost(Loss{Shared: 3}) }, func() { s.station.Lost(Loss{Own: 2, Shared: 4}) })
	s.station.Lost(Loss{Own: 5})
	first := s.station.id
	flown := s.station.Report().Holes
	g.give(command.End{})
	s.bench.Wait()
	if d := cmp.Diff(coached(t, live.sessions[0]), coached(t, replay(t, s.bench, first))); d != "" {
		t.Errorf("its recording says something else (-live +replayed):\n%s", d)
	}
	var lost []Loss
	for _, h := range flown {
		lost = append(lost, Loss{h.Own, h.Shared})
	}
	if d := cmp.Diff([]Loss{{0, 1}, {0, 3}, {2, 4}, {5, 0}}, lost); d != "" {
		t.Errorf("the report (-must be +is):\n%s", d)
	}

	s.station.Lost(Loss{Shared: 7}) // at rest: what comes now begins the next session
	g.flyTold(func() {}, func() { s.station.Lost(Loss{Own: 1}) })
	second := s.station.id
	flown = s.station.Report().Holes
	g.give(command.End{})
	s.bench.Wait()
	if d := cmp.Diff(flown, holes(replay(t, s.bench, second)), cmp.AllowUnexported(flown[0].Words)); d != "" {
		t.Errorf("the second session (-live +replayed):\n%s", d)
	}
	if len(flown) != 2 || flown[0].Shared != 7 {
		t.Errorf("the second session has %+v", flown)
	}
}
