package desk

import (
	"time"

	"halfturn/stream"
	"halfturn/stream/pipeline"
)

// When the user ends a session, the simulator usually goes on sending: the pilot parks or flies home. So the station
// rests. It is still coached, but the next session begins only when a maneuver is entered, when the airplane flies
// again
// after a pause, a silence, a jump or a stop on the ground, or when something is chosen. Up to a minute of what is sent
// meanwhile is held, and the next session begins with it, so that its recording contains the set-up of its first
// maneuver and gives the same grades as live.

// A rest is the state of a station between a session that the user ended and the next one.
type rest struct {
	head     []datagram // the beginning of the stream, which may describe its format
	broke    bool       // the flight was interrupted since the session ended
	received time.Time  // when the previous datagram came
}

// Limits on what is held of a stream at rest.
const (
	mostRest      = time.Minute
	mostRestCount = 16384
	mostRestBytes = 4 << 20
	restSilence   = 5 * time.Second // longer than a stutter
	taxiSpeed     = 40.0            // kt; faster is not a stop on the ground, whatever the stream says
)

// next ends the session for the user; false when nothing was flown. The station then rests. Its next session starts
// with
// the choices of this one, and with the beginning of its stream.
func (s *station) next() bool {
	if s.began.IsZero() {
		return false
	}
	over := s.practice
	report := s.end(true)
	s.desk.note(s.name, &report.Files[0].Stations[0])
	if s.desk.cfg.Ended != nil {
		s.desk.cfg.Ended(report)
	}
	s.practice = s.following(over)
	s.rest = &rest{head: over.before, received: over.last}
	s.session.SetEnded(over.id)
	s.tellRecording()
	for _, d := range over.before {
		s.session.Feed(d.bytes, Seconds(over.last))
	}
	return true
}

// following makes the practice session that continues with the choices of the previous one.
func (s *station) following(over *practice) *practice {
	known := s.known
	known.Student, known.Maneuver, known.Standard, known.Aircraft = over.opening.Student, over.choice.Maneuver,
		over.choice.Standard, over.choice.Aircraft
	known.prompts = over.prompts
	next := s.desk.practice(s.name, &known, s.address, s.log)
	next.last = over.last
	next.inherit(over)
	return next
}

// stirs tells whether a datagram ends the rest.
func (s *station) stirs(r pipeline.Result, received time.Time) bool {
	silence := received.Sub(s.rest.received).Abs()
	s.rest.received = received
	moved := r.Outcome == pipeline.Accepted || r.Outcome == pipeline.Jumped
	stands := moved && s.stands(received)
	if stands || silence > restSilence || r.Outcome == pipeline.Paused || r.Outcome == pipeline.Jumped {
		s.rest.broke = true
	}
	return s.session.Entered() || s.rest.broke && moved && !stands
}

// stands tells whether the airplane is on the ground, and not taking off or landing.
func (s *station) stands(now time.Time) bool {
	st := s.session.Station()
	ground, sent := st.Last(stream.OnGround, Seconds(now))
	speed, known := st.Last(stream.Airspeed, Seconds(now))
	return sent && ground.Value > 0 && !(known && speed.Value > taxiSpeed)
}

// wake begins the next session with the datagrams that were held.
func (s *station) wake(held []datagram) {
	head := s.rest.head
	s.practice = s.following(s.practice)
	s.out.muted = true // all of it was published already
	if len(held) > 0 {
		for _, d := range head {
			d.received, d.controls = held[0].received, nil
			s.session.Feed(d.bytes, Seconds(d.received))
			s.hold(d)
		}
	}
	for _, d := range held {
		came := s.session.Feed(d.bytes, Seconds(d.received))
		s.took(d.bytes, d.from, d.received, came.Outcome == pipeline.Accepted || came.Outcome == pipeline.Jumped)
	}
	s.out.muted = false
	s.tellRecording()
	s.session.TellAgain()
	s.session.Tick(Seconds(s.last))
}

// touched begins the next session of a station that rests, because something was chosen.
func (s *station) touched() {
	if s.rest != nil {
		s.wake(nil)
	}
}
