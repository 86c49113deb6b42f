package desk

import (
	"fmt"
	"net/netip"
	"time"

	"halfturn/coach/logbook"
	"halfturn/stream/ingest"
	"halfturn/stream/station"
	"halfturn/web"
)

// A Named is a station known beforehand by the sender's address.
type Named struct {
	Address  netip.AddrPort // port 0 is any
	Name     string
	Maneuver string
	Standard string // "" is the server's own
	Aircraft string
	Student  string // who flies there, "" when not said
	Station  station.Options
}

// named returns what is known of a sender; of one not known, its address is the name. An entry
// with a port goes before one without.
func (d *Desk) named(address netip.AddrPort) Named {
	n := Named{Address: address, Name: address.String(), Maneuver: d.cfg.Maneuver, Aircraft: d.cfg.Aircraft, Station: d.cfg.Station}
	for _, k := range d.cfg.Named {
		if k.Address == address {
			return d.lastChosen(k)
		}
		if k.Address.Port() == 0 && k.Address.Addr() == address.Addr() {
			n = k
		}
	}
	return d.lastChosen(n)
}

// lastChosen puts in what was last chosen at the station, where the cards of that are still there.
func (d *Desk) lastChosen(n Named) Named {
	if d.cfg.Book == nil || d.cfg.Forget {
		return n
	}
	c, ok, err := d.cfg.Book.StationChoice(lasting(n.Name))
	if err != nil {
		d.cfg.Log.Warn().Err(err).Str("station", n.Name).Msg("what was last chosen here is not known")
	}
	if !ok {
		return n
	}
	if _, err := d.plan(c.Maneuver, c.Standard, c.Aircraft); err == nil {
		n.Maneuver, n.Standard, n.Aircraft = c.Maneuver, c.Standard, c.Aircraft
	}
	return n
}

// chose notes what was chosen at a station, for when it comes back.
func (d *Desk) chose(name string, c web.Choice) {
	if d.cfg.Book == nil || d.cfg.Forget {
		return
	}
	if err := d.cfg.Book.RememberStation(lasting(name), logbook.StationChoice{Maneuver: c.Maneuver, Standard: c.Standard, Aircraft: c.Aircraft}); err != nil {
		d.cfg.Log.Warn().Err(err).Str("station", name).Msg("what was chosen is not remembered")
	}
}

// lasting is the name of a station without what changes from one start of a simulator to the next: the port of
// one that has no other name.
func lasting(name string) string {
	if a, err := netip.ParseAddrPort(name); err == nil {
		return a.Addr().String()
	}
	return name
}

// claim gives a sender its name, and the session that it goes on with, if any. Where a seat of that
// name is silent, the simulator was started again and sends from another port: the seat is ended, and
// its session goes on in the new one. Where several send at once, the second is "Seat 3 (2)".
func (d *Desk) claim(address netip.AddrPort, want string) (string, *sitting) {
	if want == address.String() {
		want = d.like(address)
	}
	goes := d.takeOver(want)
	d.mu.Lock()
	defer d.mu.Unlock()
	name := want
	for n := 2; ; n++ {
		if _, taken := d.seats[name]; !taken {
			d.seats[name] = address
			if p := d.paused[name]; p != nil && goes == nil {
				goes = p
				delete(d.paused, name)
			}
			return name, goes
		}
		name = fmt.Sprintf("%s (%d)", want, n)
	}
}

// takeOver ends the seat of a name when it is silent, and returns its session.
func (d *Desk) takeOver(name string) (goes *sitting) {
	d.mu.Lock()
	holder, taken := d.seats[name]
	doer := d.doer
	d.mu.Unlock()
	if !taken || doer == nil {
		return nil
	}
	doer.Do(holder, func(s ingest.Seat) {
		if s := s.(*seat); s.silent(station.SilentAfter) {
			goes = s.give()
		}
	})
	if goes != nil {
		doer.End(holder)
	}
	return goes
}

// like returns the name under which a sender that has none goes on: that of the one station without
// a name of the same address that is silent, for a simulator that was started again often sends from
// another port. Where there is none, or more than one, it is the sender's own address.
func (d *Desk) like(address netip.AddrPort) string {
	own := address.String()
	d.mu.Lock()
	doer := d.doer
	var names []string
	for name := range d.paused {
		if a, err := netip.ParseAddrPort(name); err == nil && a.Addr() == address.Addr() {
			names = append(names, name)
		}
	}
	seats := map[string]netip.AddrPort{}
	for name, at := range d.seats {
		if a, err := netip.ParseAddrPort(name); err == nil && a.Addr() == address.Addr() {
			seats[name] = at
		}
	}
	_, back := d.paused[own]
	d.mu.Unlock()
	if back || doer == nil {
		return own
	}
	for name, at := range seats {
		doer.Do(at, func(s ingest.Seat) {
			if s := s.(*seat); s.silent(unnamedAfter) && s.Proven() {
				names = append(names, name)
			}
		})
	}
	if len(names) != 1 {
		return own
	}
	return names[0]
}

// unnamedAfter is how long a sender without a name has to be silent before another one of its address is taken
// for it, s: two simulators of one machine may both stutter, and none starts again faster.
const unnamedAfter = 5

// silent tells whether nothing came for so many seconds.
func (s *seat) silent(after float64) bool {
	return !s.given && time.Since(s.last).Seconds() > after
}
