// Package identity tells who sends: what the configuration says of a sender, which station it is, and what was last
// chosen and who flies there. A station keeps its id over restarts, ports and names (see halfturn/coach/stations).
package identity

import (
	"fmt"
	"net/netip"
	"sync"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/coach/stations"
	"halfturn/coach/who"
	"halfturn/stream/pipeline"
)

// A Sender is what the configuration says of a sender.
type Sender struct {
	Address netip.AddrPort // port 0 matches any port
	Name    string
	Choice  maneuver.Choice // standard "" is the server's default
	Student string          // "" when not named
	Station pipeline.Options

	Demonstration bool // the built-in aircraft, which shows how it is done; its sessions are not kept
}

// Config is what a Directory works with.
type Config struct {
	Named    []Sender           // that the configuration names
	Other    Sender             // for senders that it does not name; Address and Name do not count
	Stations *stations.Register // known stations; nil: none are known or kept
	Book     *archive.Archive   // remembers what was last chosen; nil: nothing does
	Forget   bool               // ignore and do not remember what was last chosen
	Check    func(maneuver.Choice) error
	Warn     func(err error, station, words string) // logs what is wrong at a station
}

// A Directory tells senders apart. It is safe for concurrent use.
type Directory struct {
	cfg Config

	mu       sync.Mutex
	held     map[string]any // by station id: who flies there; a station has one session at a time
	expected map[netip.AddrPort]Sender
}

// New returns a directory.
func New(cfg Config) *Directory {
	if cfg.Stations == nil {
		cfg.Stations = new(stations.Register)
	}
	return &Directory{cfg: cfg, held: map[string]any{}, expected: map[netip.AddrPort]Sender{}}
}

// Expect says who a sender is that this program itself starts, until it is forgotten.
func (d *Directory) Expect(address netip.AddrPort, s Sender) {
	d.mu.Lock()
	defer d.mu.Unlock()
	s.Address = address
	d.expected[address] = s
}

// Unexpect forgets a sender that was expected.
func (d *Directory) Unexpect(address netip.AddrPort) {
	d.mu.Lock()
	defer d.mu.Unlock()
	delete(d.expected, address)
}

// Of returns what is known of a sender. The name of one that the configuration does not name is its address. An entry
// with a port takes precedence over one without. The choice is the one last made at the station, if its cards still
// exist.
func (d *Directory) Of(address netip.AddrPort) Sender {
	d.mu.Lock()
	s, expected := d.expected[address]
	d.mu.Unlock()
	if expected {
		return s
	}
	found := d.cfg.Other
	found.Address, found.Name = address, address.String()
	for _, k := range d.cfg.Named {
		if k.Address == address {
			found = k
			break
		}
		if k.Address.Port() == 0 && k.Address.Addr() == address.Addr() {
			found = k
		}
	}
	return d.lastChosen(found, address)
}

// lastChosen fills in what was last chosen at the station.
func (d *Directory) lastChosen(s Sender, address netip.AddrPort) Sender {
	if d.cfg.Book == nil || d.cfg.Forget {
		return s
	}
	c, ok, err := d.choice(&s, address)
	if err != nil {
		d.cfg.Warn(err, s.Name, "what was last chosen here is not known")
	}
	if ok && d.cfg.Check(c) == nil {
		s.Choice = c
	}
	return s
}

// choice finds what was last chosen at a station: by its id, or by its name, which is all that earlier versions knew.
func (d *Directory) choice(s *Sender, address netip.AddrPort) (c maneuver.Choice, ok bool, err error) {
	name := Lasting(s.Name)
	d.mu.Lock()
	st, known := d.cfg.Stations.Find(name, s.Place(address), d.renamed)
	d.mu.Unlock()
	if known {
		c, ok, err = d.cfg.Book.StationChoice(st.ID)
	}
	if !ok {
		c, ok, err = d.cfg.Book.StationChoice(name)
	}
	return c, ok, err
}

// Chose remembers what was chosen at a station for its next session. Station is its name, for the log.
func (d *Directory) Chose(by who.Who, station, id string, c maneuver.Choice) {
	if d.cfg.Book == nil || d.cfg.Forget {
		return
	}
	if err := d.cfg.Book.RememberStation(by, id, c); err != nil {
		d.cfg.Warn(err, station, "what was chosen is not remembered")
	}
}

// Hold returns the id of the station that a holder flies at, and keeps others from it until Release. A station gets its
// id with its first session. Where two simulators of one machine use a name at once, the second is another station.
func (d *Directory) Hold(holder any, name, place string, now time.Time) string {
	d.mu.Lock()
	defer d.mu.Unlock()
	lasting := Lasting(name)
	for n, unique := 2, lasting; ; n++ {
		st := d.cfg.Stations.Of(unique, place, d.renamed, now)
		if by := d.held[st.ID]; by == nil || by == holder {
			d.held[st.ID] = holder
			return st.ID
		}
		unique = fmt.Sprintf("%s (%d)", lasting, n)
	}
}

// Restore holds the station of a session that the server's last run left.
func (d *Directory) Restore(holder any, s stations.Station) {
	if s.ID == "" {
		return
	}
	s.Name = Lasting(s.Name)
	d.cfg.Stations.Restore(s)
	d.mu.Lock()
	defer d.mu.Unlock()
	d.held[s.ID] = holder
}

// Release frees a station for other sessions, if the holder still holds it.
func (d *Directory) Release(holder any, id string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.held[id] == holder {
		delete(d.held, id)
	}
}

// renamed tells whether a known station may be the one that now sends from the same address under another name: no
// session holds it, and the configuration does not name another sender by its old name. mu is held.
func (d *Directory) renamed(s stations.Station) bool {
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

// Save writes the ids of stations to the disk.
func (d *Directory) Save() error { return d.cfg.Stations.Save() }

// Place is the lasting part of the address that the sender has now. It includes the port only where the configuration
// distinguishes senders of one machine by port.
func (s *Sender) Place(now netip.AddrPort) string {
	if s.Address.Port() != 0 && s.Name != now.String() {
		return s.Address.String()
	}
	return now.Addr().String()
}

// Lasting is the part of a station's name that does not change when the simulator restarts: an address without its port
// where that is the name.
func Lasting(name string) string {
	if a, err := netip.ParseAddrPort(name); err == nil {
		return a.Addr().String()
	}
	return name
}
