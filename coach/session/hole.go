package session

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/message"
)

// mostHoles is how many holes a report lists; those after them count with the last.
const mostHoles = 64

// Lose notes and publishes that datagrams were lost before the next one: own of this station, shared of all stations at
// the same socket.
func (s *Session) Lose(own, shared uint64) {
	h := coach.Hole{Own: own, Shared: shared}
	if !math.IsNaN(s.last) {
		h.Time = coach.Round(s.last, 3)
	}
	h.Tell(s.flown.time)
	if n := len(s.flown.holes); n < mostHoles {
		s.flown.holes = append(s.flown.holes, h)
	} else {
		last := &s.flown.holes[n-1]
		last.Own, last.Shared = last.Own+own, last.Shared+shared
		last.Tell(s.flown.time)
	}
	s.publish(message.Hole{Hole: &h})
}
