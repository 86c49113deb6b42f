package desk

import (
	"fmt"
	"net/netip"
	"time"

	"halfturn/coach/names"
	"halfturn/coach/stations"
)

// identify returns the id of the session's station. A station gets its id with its first session.
func (s *practice) identify(now time.Time) string {
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

// reserve claims the station of a session that the server's last run left.
func (s *practice) reserve(now time.Time) {
	if s.opening.StationID == "" {
		return
	}
	s.desk.cfg.Stations.Restore(
		stations.Station{ID: s.opening.StationID, Name: lasting(s.name), Sender: s.sender, Seen: now},
	)
	s.desk.mu.Lock()
	defer s.desk.mu.Unlock()
	s.desk.held[s.opening.StationID] = s
}

// inherit claims the station of the previous session.
func (s *practice) inherit(before *practice) {
	if s.opening.StationID = before.opening.StationID; s.opening.StationID == "" {
		return
	}
	s.desk.mu.Lock()
	defer s.desk.mu.Unlock()
	s.desk.held[s.opening.StationID] = s
}

// release frees the station for another session.
func (s *practice) release() {
	s.desk.mu.Lock()
	defer s.desk.mu.Unlock()
	if s.desk.held[s.opening.StationID] == s {
		delete(s.desk.held, s.opening.StationID)
	}
}

// renamed tells whether a known station may be the one that now sends from the same address under another name: no
// session holds it, and the configuration does not name another sender by its old name. mu is held.
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

// senderOf is the lasting part of a sender's address. It includes the port only where the configuration distinguishes
// senders of one machine by port.
func senderOf(known *Named, address netip.AddrPort) string {
	if known.Address.Port() != 0 && known.Name != address.String() {
		return known.Address.String()
	}
	return address.Addr().String()
}

// save writes the ids of stations to the disk.
func (d *Desk) save() {
	if err := d.cfg.Stations.Save(); err != nil {
		d.quiet.Say("stations", "", func(int) { d.cfg.Log.Warn().Err(err).Msg("it is tried again") })
	}
}
