package desk

import (
	"time"

	"halfturn/stream"
	"halfturn/stream/pipeline"
)

// A session that was ended by a touch is over for whoever touched, though the simulator goes on sending: who parks, or
// flies home, has begun nothing new. So after a touch the station rests. It is coached as ever, but the next session
// begins only when a maneuver is entered, when the airplane flies again after a pause, a silence, a jump or a stand on the
// ground, or when something is chosen. What was sent meanwhile is held, a minute of it, and the next session begins with
// that: the set-up of the maneuver it begins with is in its recording, and is graded from it as it was live.

// A rest is what a station knows between the end of a session by a touch and the next one.
type rest struct {
	head     []datagram // how the stream begins: it may say there how to read it
	broke    bool       // the flight of the session before was interrupted since
	received time.Time  // of the datagram before
}

// Limits on what is held of a stream at rest.
const (
	mostRest      = time.Minute
	mostRestCount = 16384
	mostRestBytes = 4 << 20
	restSilence   = 5 * time.Second // longer than a stutter
	taxiSpeed     = 40.0            // kt: faster is no stand on the ground, whatever the stream says
)

// next ends the session by a touch; false when nothing was flown. The station rests; its next session flies what
// this one flew last, and reads the stream as this one did.
func (s *seat) next() bool {
	if s.began.IsZero() {
		return false
	}
	over := s.sitting
	report := s.end(true)
	s.desk.note(s.name, &report.Files[0].Stations[0])
	if s.desk.cfg.Ended != nil {
		s.desk.cfg.Ended(report)
	}
	s.sitting = s.following(over)
	s.rest = &rest{head: over.before, received: over.last}
	s.session.SetEnded(over.id)
	s.tellRecording()
	for _, d := range over.before {
		s.session.Feed(d.bytes, Seconds(over.last))
	}
	return true
}

// following makes the sitting that goes on as another ended.
func (s *seat) following(over *sitting) *sitting {
	known := s.known
	known.Student, known.Maneuver, known.Standard, known.Aircraft = over.opening.Student, over.choice.Maneuver, over.choice.Standard, over.choice.Aircraft
	next := s.desk.sit(s.name, &known, s.address, s.log)
	next.last = over.last
	return next
}

// stirs tells whether a datagram at rest begins the next session.
func (s *seat) stirs(r pipeline.Result, received time.Time) bool {
	silence := received.Sub(s.rest.received).Abs()
	s.rest.received = received
	moved := r.Outcome == pipeline.Accepted || r.Outcome == pipeline.Jumped
	stands := moved && s.stands(received)
	if stands || silence > restSilence || r.Outcome == pipeline.Paused || r.Outcome == pipeline.Jumped {
		s.rest.broke = true
	}
	return s.out.entered || s.rest.broke && moved && !stands
}

// stands tells whether the airplane is on the ground, and not taking off or landing.
func (s *seat) stands(now time.Time) bool {
	st := s.session.Station()
	ground, sent := st.Last(stream.OnGround, Seconds(now))
	speed, known := st.Last(stream.Airspeed, Seconds(now))
	return sent && ground.Value > 0 && !(known && speed.Value > taxiSpeed)
}

// wake begins the next session with what was held of the stream.
func (s *seat) wake(held []datagram) {
	head := s.rest.head
	s.sitting = s.following(s.sitting)
	s.out.mute = true // it was told already
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
	s.out.mute = false
	s.tellRecording()
	s.session.TellAgain()
	s.session.Tick(Seconds(s.last))
}

// touched begins the next session of a station that rests, for something was chosen.
func (s *seat) touched() {
	if s.rest != nil {
		s.wake(nil)
	}
}
