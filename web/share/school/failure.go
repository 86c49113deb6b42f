package school

import (
	"errors"
	"time"

	"halfturn/stream/phrase"
	"halfturn/stream/record"
	"halfturn/web/share/link"
)

// retryEvery is how soon what could not be written is tried again: as often as the recorder of a station tries.
const retryEvery = 5 * time.Second

// A failure is that a recording cannot be written here. The live lane goes on meanwhile; what the home sends of its
// recording is left aside, and asked for again once it can be written.
type failure struct {
	err     error // nil: all is well
	session string
	again   time.Time
	asked   bool // the home was told to go on, and what it sends tells whether that is possible
}

// sessionOf is the session that a message of the back lane is about.
func sessionOf(m link.Message) string {
	switch m := m.(type) {
	case *link.Offer:
		return m.Session
	case *link.Begin:
		return m.Session
	case *link.Piece:
		return m.Session
	case *link.Whole:
		return m.Session
	case *link.Finish:
		return m.Session
	}
	return ""
}

// isFaultOfHome reports whether an error ends the link because of what the home sent.
func isFaultOfHome(err error) bool {
	var wrong *wrongError
	var told *phrase.Error
	return errors.As(err, &wrong) || errors.As(err, &told)
}

// try takes a message of the back lane. An error of the disk is kept, and is none.
func (m *mailbox) try(received link.Message, now time.Time, answer func(link.Message)) (link.Message, error) {
	if _, acts := received.(*link.Acts); m.fails.err != nil && !m.fails.asked && !acts {
		return nil, nil
	}
	reply, err := m.take(received, answer)
	if err == nil || isFaultOfHome(err) && m.book.Waits() == nil {
		switch received.(type) {
		case *link.Piece, *link.Whole, *link.Finish:
			m.fails = failure{}
		}
		return reply, err
	}
	m.fail(err, sessionOf(received), now)
	return nil, nil
}

// fail notes that a recording cannot be written.
func (m *mailbox) fail(err error, session string, now time.Time) {
	if m.fails.err == nil {
		m.log.Error().Err(err).Str("station", m.station).Str("session", session).
			Msg("the recording of the home cannot be written; it is tried again, and the live lane goes on")
	}
	m.close()
	m.fails = failure{err: err, session: session, again: now.Add(retryEvery)}
}

// retry tells the home where to go on, once that was not possible for a while; nil while it is not.
func (m *mailbox) retry(now time.Time) link.Message {
	f := m.fails
	if f.err == nil || f.asked || now.Before(f.again) {
		return nil
	}
	if why := m.book.Waits(); why != nil {
		m.fail(why, f.session, now)
		return nil
	}
	reply, err := m.offer(f.session)
	if err != nil {
		m.fail(err, f.session, now)
		return nil
	}
	m.fails.asked = true
	if h, ok := reply.(*link.Have); ok {
		h.Rewind = true
	}
	return reply
}

// recording shows whether the recording is written here.
func (s *station) recording(err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.failing = err
	s.tellRecording()
}

// tellRecording shows on the panel whether the recording is written here. mu is held.
func (s *station) tellRecording() {
	switch {
	case s.play == nil || s.session == "":
	case s.failing == nil:
		s.play.Session.SetRecording("on", phrase.Phrase{})
	default:
		s.play.Session.SetRecording("failing", record.Words(s.failing))
	}
}
