package practice

import (
	"net/netip"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/coach/playback"
)

// A Tap hears what is recorded, as it is: whatever shares a station with another Halfturn. Its calls come from the
// goroutines of stations and recorders, and must not block.
type Tap interface {
	// Begin says that a session is recorded from now on.
	Begin(b Beginning)
	// Datagram takes a datagram that is recorded. Its bytes and comments are valid during the call.
	Datagram(session string, d Datagram)
	// End says that a session is not flown any more.
	End(session string)
	// Stored says how much of a file of the recording is on the disk to stay, bytes.
	Stored(session, file string, size int64)
	// Complete says that a file of the recording is complete.
	Complete(session, file string)
	// Over says that all of a session is on the disk, and that it is not to be resumed.
	Over(session string)
	// Private says that the pilot of a station shares it with nobody, or does again. No session goes on over that.
	Private(station string, on bool)
	// Shared says for the pages how a station is shared; nil when it is not.
	Shared(station string) *message.Share
}

// A Beginning is how a session begins to be recorded, or goes on being.
type Beginning struct {
	Station string
	Opening playback.Opening // with what was chosen since it was first recorded
	Head    []Datagram       // those before the first sample; valid during the call
	// Recorded is the opening at the head of the recording, but for the number of the part.
	Recorded playback.Opening
}

// A Datagram is one as it is recorded.
type Datagram struct {
	Bytes    []byte
	From, To netip.AddrPort
	Received time.Time
	Comments []string // before it
}

// tapped tells the Tap, if there is one, that the session is recorded from now on.
func (s *live) tapped() {
	if s.common.Tap == nil || s.recorder == nil {
		return
	}
	o := s.opening // with what was chosen since, if the session goes on
	o.Choice, o.Settings.Prompts, o.Private = s.choice, s.session.Prompts(), s.session.Private()
	head := make([]Datagram, len(s.before))
	for i := range s.before {
		head[i] = s.recorded(&s.before[i])
	}
	s.common.Tap.Begin(Beginning{Station: s.name, Opening: o, Head: head, Recorded: s.opening})
}

// turn ends the session before the station becomes private, or is shared again, so that a session is sent to another
// Halfturn as a whole or not at all. Nothing of a private flight is held for the session that follows it.
func (p *Practice) turn(c command.Command) {
	private, is := c.Action.(command.Private)
	if !is || p.common.Tap == nil || private.On == p.session.Private() {
		return
	}
	p.next()
	if p.rest != nil && !private.On {
		p.before, p.waiting = nil, 0
	}
	p.common.Tap.Private(p.name, private.On)
}

// tellShare shows on the panel how the station is shared.
func (s *live) tellShare() {
	if s.common.Tap != nil && !s.owner.sender.Demonstration {
		s.session.SetShare(s.common.Tap.Shared(s.name))
	}
}

// recorded is a datagram as it is recorded.
func (s *live) recorded(d *datagram) Datagram {
	return Datagram{
		Bytes:    d.bytes,
		From:     d.from,
		To:       s.common.Receiver(d.from),
		Received: d.received,
		Comments: d.controls,
	}
}

// add records a datagram.
func (s *live) add(d *datagram) {
	r := s.recorded(d)
	s.recorder.Add(r.Bytes, r.From, r.To, r.Received, r.Comments...)
	if s.common.Tap != nil {
		s.common.Tap.Datagram(s.id, r)
	}
}

// over notes that a session is not to be resumed.
func (c *Common) over(id string) error {
	err := c.Book.Folders().Finish(id)
	if err == nil && c.Tap != nil {
		c.Tap.Over(id)
	}
	return err
}
