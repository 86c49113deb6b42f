package desk

import (
	"fmt"
	"net/netip"
	"time"

	"halfturn/stream/ingest"
	"halfturn/stream/station"
)

// A Named is a station known beforehand by the sender's address.
type Named struct {
	Address  netip.AddrPort // port 0 is any
	Name     string
	Maneuver string
	Aircraft string
	Station  station.Options
}

// named returns what is known of a sender; of one not known, its address is the name. An entry
// with a port goes before one without.
func (d *Desk) named(address netip.AddrPort) Named {
	n := Named{Address: address, Name: address.String(), Maneuver: d.cfg.Maneuver, Aircraft: d.cfg.Aircraft, Station: d.cfg.Station}
	for _, k := range d.cfg.Named {
		switch {
		case k.Address == address:
			return k
		case k.Address.Port() == 0 && k.Address.Addr() == address.Addr():
			n = k
		}
	}
	return n
}

// claim gives a sender its name. A seat of that name which is silent is ended first: the
// simulator was started again and sends from another port. Where several send at once, the
// second is "Seat 3 (2)".
func (d *Desk) claim(address netip.AddrPort, want string) string {
	d.mu.Lock()
	holder, taken := d.seats[want]
	doer := d.doer
	d.mu.Unlock()
	if taken && doer != nil {
		silent := false
		doer.Do(holder, func(s ingest.Seat) { silent = time.Since(s.(*seat).last).Seconds() > station.SilentAfter })
		if silent {
			doer.End(holder)
		}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	name := want
	for n := 2; ; n++ {
		if _, taken := d.seats[name]; !taken {
			d.seats[name] = address
			return name
		}
		name = fmt.Sprintf("%s (%d)", want, n)
	}
}
