// Package practice runs the practice sessions of a station, one after another: each is coached, recorded, and entered
// in the logbook.
//
// A [Practice] begins a session with the first sample that flies, keeps legs in the logbook as they end, and ends the
// session when its user says so, after a silence, or when the server stops. Commands change what is flown: they reach a
// practice in order with its datagrams, carry who asks and when, and are recorded. What a practice does by itself
// (begin a session, keep its legs, end it, save it) carries no asker, because nobody asks for it.
//
// One goroutine at a time uses a Practice, and it never waits for the disk while it flies: the recorder, the queue of
// the archive and [Common.Wait] do.
package practice

import (
	"net/netip"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/callout"
	"halfturn/coach/debrief"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/measure"
	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/coach/probe"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
	"halfturn/stream/record"
	"halfturn/web/desk/identity"
	"halfturn/web/desk/menu"
	"halfturn/web/desk/outlet"
)

// Recording says how sessions are recorded.
type Recording struct {
	Rotate int64                                  // bytes after which a new file begins; 0 is 64 MiB
	Open   func(name string) (record.File, error) // creates a file; nil: on the disk
}

// Common is what the practices of a server share.
type Common struct {
	Menu      func() *menu.Menu // by which sessions are flown that begin now
	Directory *identity.Directory
	Book      *archive.Archive
	Writer    *queue.Writer // enters sessions into the Book; nil: they are not entered
	Recording *Recording    // nil: nothing is recorded
	Output    session.Output
	Counts    *outlet.Counts
	Deck      float64 // ft MSL, 0 is none
	Voice     callout.Options
	Version   string        // of the program
	Idle      time.Duration // a session interrupted for longer is not resumed
	Log       zerolog.Logger

	Receiver func(from netip.AddrPort) netip.AddrPort // where a sender's datagrams were sent to, as far as it is known
	Complete func(file string)                        // called with each complete file of a recording
	Ended    func(station string, r *debrief.Report)  // called with each session that ended after something was flown
	Over     func()                                   // called when a session is over for good
	Tap      Tap                                      // hears what is recorded; nil: nothing does
	Resumes  func(station string, on bool)            // called before and after sessions of the last run are played
	Faults   *contain.Faults                          // contains those of sessions; nil: they end the program

	Recorded record.Totals // of all sessions

	closing sync.WaitGroup
}

// Wait waits until the sessions that ended are on the disk.
func (c *Common) Wait() { c.closing.Wait() }

// Options are those common to all sessions.
func (c *Common) Options(st pipeline.Options) session.Options { return c.options(st, c.Menu()) }

// options are those of sessions by the cards of a menu.
func (c *Common) options(st pipeline.Options, cards *menu.Menu) session.Options {
	return session.Options{Station: st, Aircraft: cards.Aircraft(), Coach: judge.Options{
		Deck:   c.Deck,
		Voice:  c.Voice,
		Others: cards.Others(),
	}}
}

// A Practice is the sessions of a station, one after another. It may outlive its sender: a restarted simulator
// continues it from another port, and a restarted server from its recording.
type Practice struct {
	*live
	sender  identity.Sender
	address netip.AddrPort
}

// New begins the practice of a station. The cards that the sender names must exist.
func New(c *Common, station string, sender identity.Sender, address netip.AddrPort) *Practice {
	p := &Practice{sender: sender, address: address}
	log := c.Log.With().Str("station", station).Logger()
	p.live = newLive(c, p, station, &sender, address, log)
	return p
}

// GoOn continues the practice with another sender.
func (p *Practice) GoOn(sender identity.Sender, address netip.AddrPort) {
	p.sender, p.address = sender, address
	p.session.SetAddress(address.String())
	if p.recorder == nil && p.id != "" {
		p.record()
		p.tapped()
	}
	p.tellRecording()
	if p.id != "" {
		p.log.Info().Str("session", p.id).Msg("the session goes on")
	}
}

// Datagram takes one datagram.
func (p *Practice) Datagram(b []byte, received time.Time) pipeline.Result {
	r := p.session.Feed(b, Seconds(received))
	p.took(b, p.address, received, flown(r))
	if p.rest != nil && p.stirs(r, received) {
		p.wake(p.before)
	}
	return r
}

// A Loss counts datagrams that this machine received and could not keep.
type Loss struct {
	Own    uint64 // of this station
	Shared uint64 // of all stations at the same socket
}

func (l *Loss) add(more Loss) {
	l.Own += more.Own
	l.Shared += more.Shared
}

// Lost notes in the session and in its recording that datagrams were lost before the next one.
func (p *Practice) Lost(l Loss) {
	p.session.Lose(l.Own, l.Shared)
	p.missing.add(l)
	p.remember(playback.HoleComment(l.Own, l.Shared))
}

// flown tells whether a datagram gave a sample.
func flown(r pipeline.Result) bool {
	return r.Outcome == pipeline.Accepted || r.Outcome == pipeline.Jumped
}

// Tick lets the session notice silence.
func (p *Practice) Tick(now time.Time) {
	p.tellRecording()
	p.tellShare()
	p.session.Tick(Seconds(now))
}

// End ends the session and keeps it; over tells that it is not to be resumed. It waits for the disk.
func (p *Practice) End(over bool) {
	report := p.end()
	p.common.Directory.Release(p, p.opening.StationID)
	if p.began.IsZero() {
		return
	}
	p.keepOnDisk(report, over)
	if report != nil {
		p.common.Ended(p.name, report)
	}
}

// Fail notes that a fault in the program ended the session, which End still keeps as far as it can: what is recorded,
// and the legs until then.
func (p *Practice) Fail() {
	p.failed = true
	p.Trouble()
	p.log.Error().Str("session", p.id).Msg("the session is ended by a fault in the program; what was flown is kept")
}

// Failed reports whether a fault in the program ended the session.
func (p *Practice) Failed() bool { return p.failed }

// Trouble says on the panel that a fault ended the session before, until a leg is flown.
func (p *Practice) Trouble() { p.session.SetTrouble(phrase.FaultBefore.Of()) }

// Name is the name of the station.
func (p *Practice) Name() string { return p.name }

// Last is when the last datagram came.
func (p *Practice) Last() time.Time { return p.last }

// Now is the present moment, counted from the last datagram: the machine's clock may have been set since.
func (p *Practice) Now() time.Time {
	if p.last.IsZero() {
		return time.Now()
	}
	return p.last.Add(time.Since(p.last))
}

// Report is what was flown in the session so far.
func (p *Practice) Report() debrief.StationReport { return p.session.Report() }

// Info is what the pages show of the station.
func (p *Practice) Info() message.Station { return p.session.Info(Seconds(p.last)) }

// Probe is everything known of the station's stream.
func (p *Practice) Probe(now time.Time) probe.Probe { return p.session.Probe(Seconds(now)) }

// Guide is the measurement of the aircraft that goes on; nil when none does.
func (p *Practice) Guide() *measure.Guide { return p.session.Guide() }

// SetGuide begins a measurement, or ends it (nil). It outlasts the session.
func (p *Practice) SetGuide(g *measure.Guide) { p.session.SetGuide(g) }

// IsDemonstration reports whether the built-in aircraft flies.
func (p *Practice) IsDemonstration() bool { return p.sender.Demonstration }

// Flying reports whether a leg is being flown.
func (p *Practice) Flying() bool { return p.session.Flying() }

// Choice is what is flown.
func (p *Practice) Choice() maneuver.Choice { return p.choice }

// Proven tells whether a sample was ever decoded.
func (p *Practice) Proven() bool { return p.session.Proven() }

// Stream is the pipeline of the sender.
func (p *Practice) Stream() *pipeline.Pipeline { return p.session.Station() }

// SessionID is the id of the session; "" before its first sample, and while nothing can be kept.
func (p *Practice) SessionID() string { return p.id }

// Seconds converts a time for sessions, s.
func Seconds(t time.Time) float64 { return stream.Seconds(t) }
