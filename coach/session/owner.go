package session

import (
	"halfturn/coach/measure"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
)

// Guide is the measurement that goes on, with its pilot; nil when none does.
func (s *Session) Guide() *measure.Guide { return s.guide }

// SetGuide begins a measurement, goes on with one, or ends it (nil).
func (s *Session) SetGuide(g *measure.Guide) { s.guide = g }

// SetID sets the id of the session in the station message.
func (s *Session) SetID(id string) {
	s.status.known.id = id
	s.status.outdate()
}

// SetEnded sets the id of the session before, which is over.
func (s *Session) SetEnded(id string) {
	s.status.known.ended = id
	s.status.outdate()
}

// SetStudent sets the name of the pilot; "" is not known. A step that is flown was the step of the pilot before.
func (s *Session) SetStudent(name string) {
	if s.task.trial != nil {
		s.leaveTask()
	}
	s.status.known.student = name
	s.status.outdate()
}

// SetRecording sets the state of the recording, "on", "off" or "failing", and why in words.
func (s *Session) SetRecording(state string, words phrase.Phrase) {
	if k := &s.status.known; k.recording != state || !k.words.Equal(words) {
		k.recording, k.words = state, words
		s.status.outdate()
	}
}

// SetTrouble sets what went wrong here with the session before; nothing is no more. The next leg clears it.
func (s *Session) SetTrouble(trouble phrase.Phrase) {
	if k := &s.status.known; !k.trouble.Equal(trouble) {
		k.trouble = trouble
		s.status.outdate()
	}
}

// SetShare sets how the station is shared with another Halfturn; nil is not.
func (s *Session) SetShare(share *message.Share) {
	if !s.status.known.share.Same(share) {
		s.status.known.share = share
		s.status.outdate()
	}
}
