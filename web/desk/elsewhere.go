package desk

import (
	"net/netip"
	"time"

	"halfturn/coach/playback"
	"halfturn/stream/ingest"
	"halfturn/web/desk/practice"
)

// A cluster coaches each station on one of its machines. What others coach reaches the desk only when it is handed
// over: as a session to adopt; and what the desk coaches may be taken from it.

// NameOf returns the name that a sender gets, if no other sender uses it; own says that it is this program itself,
// which shows a demonstration.
func (d *Desk) NameOf(address netip.AddrPort) (name string, own bool) {
	s := d.directory.Of(address)
	if s.Name == address.String() {
		return d.like(address), s.Demonstration
	}
	return s.Name, s.Demonstration
}

// Follow begins to follow a session that another machine flies.
func (d *Desk) Follow(o playback.Opening) (*practice.Shadow, error) {
	return practice.Follow(&d.practices, o)
}

// GoOn goes on with a session that was followed. It waits for its station, as one of the last run does.
func (d *Desk) GoOn(s *practice.Shadow, now time.Time) error {
	p, err := s.GoOn(now)
	if err != nil {
		return err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.paused[p.Name()] = p
	return nil
}

// Abandon leaves a session that waits for its station to another machine. It returns its id, "" when none waits.
func (d *Desk) Abandon(station string) (session string) {
	d.mu.Lock()
	backlog := d.backlog
	d.mu.Unlock()
	if backlog != nil {
		if session = backlog.Leave(station); session != "" {
			return session
		}
	}
	d.mu.Lock()
	p := d.paused[station]
	delete(d.paused, station)
	d.mu.Unlock()
	if p == nil {
		return ""
	}
	return p.Abandon()
}

// Refuse has a request fail that came for a station which is coached elsewhere by now.
func Refuse(r ingest.Request) { r.(request).refuse() }

// refuse marks a request as not carried out.
func (a *asked) refuse() { a.refused = true }

// wasRefused reports whether a request was not carried out.
func (a *asked) wasRefused() bool { return a.refused }

// Name is the name of the station.
func (s *station) Name() string { return s.name }

// Session is the id of the session; "" before its first sample.
func (s *station) Session() string {
	if s.given {
		return ""
	}
	return s.practice.SessionID()
}

// Abandon leaves the session to another machine, in place of End, and returns its id.
func (s *station) Abandon() (session string) {
	if s.given {
		return ""
	}
	defer s.desk.left(s)
	return s.practice.Abandon()
}
