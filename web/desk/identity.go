package desk

import (
	"fmt"
	"net/netip"
	"time"

	"halfturn/coach/names"
	"halfturn/coach/stations"
)

// identify returns the id of the session's station, which has one from its first session on.
func (s *sitting) identify(now time.Time) string {
	if s.opening.StationID != "" {
		return s.opening.StationID
	}
	d := s.desk
	d.mu.Lock()
	defer d.mu.Unlock()
	name := lasting(s.name)
	for n := 2; ; n++ {
		st := d.cfg.Stations.Of(name, s.sender, d.renamed, now)
		if holder := d.held[st.ID]; holder == nil || holder == s {
			s.opening.StationID, d.held[st.ID] = st.ID, s
			return st.ID
		}
		name = fmt.Sprintf("%s (%d)", lasting(s.name), n) // a second simulator of one machine
	}
}

// reserve takes the id of a session that the last run of the server left.
func (s *sitting) reserve(now time.Time) {
	if s.opening.StationID == "" {
		return
	}
	s.desk.cfg.Stations.Restore(stations.Station{ID: s.opening.StationID, Name: lasting(s.name), Sender: s.sender, Seen: now})
	s.desk.mu.Lock()
	defer s.desk.mu.Unlock()
	s.desk.held[s.opening.StationID] = s
}

// inherit takes the id from the session before.
func (s *sitting) inherit(before *sitting) {
	if s.opening.StationID = before.opening.StationID; s.opening.StationID == "" {
		return
	}
	s.desk.mu.Lock()
	defer s.desk.mu.Unlock()
	s.desk.held[s.opening.StationID] = s
}

// release lets another session have the station.
func (s *sitting) release() {
	s.desk.mu.Lock()
	defer s.desk.mu.Unlock()
	if s.desk.held[s.opening.StationID] == s {
		delete(s.desk.held, s.opening.StationID)
	}
}

// renamed tells whether a station that sent from an address before is the one that sends from it now under another
// name: nobody holds it, and its old name is nobody's. mu is held.
func (d *Desk) renamed(s stations.Station) bool {
	if d.held[s.ID] != nil {
		return false
	}
	for i := range d.cfg.Named {
		if names.Key(d.cfg.Named[i].Name) == names.Key(s.Name) {
			return false
		}
	}
	return true
}

// senderOf is the part of a sender's address that stays: the port only where the configuration tells several senders of
// one machine apart by it.
func senderOf(known *Named, address netip.AddrPort) string {
	if known.Address.Port() != 0 && known.Name != address.String() {
		return known.Address.String()
	}
	return address.Addr().String()
}

// save keeps the ids of stations.
func (d *Desk) save() {
	if err := d.cfg.Stations.Save(); err != nil {
		d.quiet.Say("stations", "", func(int) { d.cfg.Log.Warn().Err(err).Msg("it is tried again") })
	}
}
