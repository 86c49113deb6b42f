package practice

import (
	"time"

	"halfturn/coach/callout"
	"halfturn/stream"
	"halfturn/stream/pipeline"
)

// When the user ends a session, the simulator usually goes on sending: the pilot parks or flies home. So the station
// rests. It is still coached, but the next session begins only when a maneuver is entered, when the airplane flies
// again after a pause, a silence, a jump or a stop on the ground, or when something is chosen. Up to a minute of what
// is sent meanwhile is held, and the next session begins with it, so that its recording contains the set-up of its
// first maneuver and gives the same grades as live.

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
// with the choices of this one, and with the beginning of its stream.
func (p *Practice) next() bool {
	if p.began.IsZero() {
		return false
	}
	over := p.live
	report := over.end()
	p.common.closing.Go(func() { over.contain(func() { over.keepOnDisk(report, true) }) })
	if report != nil {
		p.common.Ended(p.name, report)
	}
	p.live = p.following(over)
	p.rest = &rest{head: over.before, received: over.last}
	p.session.SetEnded(over.id)
	p.tellRecording()
	for _, d := range over.before {
		p.session.Feed(d.bytes, Seconds(over.last))
	}
	return true
}

// following makes the session that continues with the choices of the previous one.
func (p *Practice) following(over *live) *live {
	sender := p.sender
	sender.Student, sender.Choice = over.opening.Student, over.choice
	next := newLive(p.common, p, p.name, &sender, p.address, p.log)
	next.last, next.opening.StationID = over.last, over.opening.StationID
	if how := over.session.Prompts(); how != callout.PromptsCard && next.session.Prompt(how) == nil {
		next.opening.Settings.Prompts = how
	}
	next.session.SetGuide(over.session.Guide())
	next.opening.Private = over.session.Private()
	next.session.SetPrivate(next.opening.Private)
	return next
}

// stirs tells whether a datagram ends the rest.
func (p *Practice) stirs(r pipeline.Result, received time.Time) bool {
	silence := received.Sub(p.rest.received).Abs()
	p.rest.received = received
	moved := flown(r)
	stands := moved && p.stands(received)
	if stands || silence > restSilence || r.Outcome == pipeline.Paused || r.Outcome == pipeline.Jumped {
		p.rest.broke = true
	}
	return p.session.Entered() || p.rest.broke && moved && !stands
}

// stands tells whether the airplane is on the ground, and not taking off or landing.
func (p *Practice) stands(now time.Time) bool {
	st := p.session.Station()
	ground, sent := st.Last(stream.OnGround, Seconds(now))
	speed, known := st.Last(stream.Airspeed, Seconds(now))
	return sent && ground.Value > 0 && !(known && speed.Value > taxiSpeed)
}

// wake begins the next session with the datagrams that were held.
func (p *Practice) wake(held []datagram) {
	head := p.rest.head
	p.live = p.following(p.live)
	p.out.Muted = true // all of it was published already
	from := p.last
	if len(held) > 0 {
		from = held[0].received
	}
	for _, d := range head {
		d.received, d.controls, d.missing = from, nil, Loss{}
		p.session.Feed(d.bytes, Seconds(d.received))
		p.hold(d)
	}
	for _, d := range held {
		if d.missing != (Loss{}) {
			p.Lost(d.missing)
		}
		came := p.session.Feed(d.bytes, Seconds(d.received))
		p.took(d.bytes, d.from, d.received, flown(came))
	}
	p.out.Muted = false
	p.tellRecording()
	p.session.TellAgain()
	p.session.Tick(Seconds(p.last))
}
