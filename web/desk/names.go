package desk

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"time"

	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/ingest"
	"halfturn/stream/pipeline"
)

// A Named is a station known beforehand by the sender's address.
type Named struct {
	Address  netip.AddrPort // port 0 is any
	Name     string
	Maneuver string
	Standard string // "" is the server's own
	Aircraft string
	Student  string // who flies there, "" when not said
	Station  pipeline.Options
}

// named returns what is known of a sender; of one not known, its address is the name. An entry
// with a port goes before one without.
func (d *Desk) named(address netip.AddrPort) Named {
	n := Named{Address: address, Name: address.String(), Maneuver: d.cfg.Maneuver, Aircraft: d.cfg.Aircraft, Station: d.cfg.Station}
	for _, k := range d.cfg.Named {
		if k.Address == address {
			return d.lastChosen(k, address)
		}
		if k.Address.Port() == 0 && k.Address.Addr() == address.Addr() {
			n = k
		}
	}
	return d.lastChosen(n, address)
}

// lastChosen puts in what was last chosen at the station, where the cards of that are still there.
func (d *Desk) lastChosen(n Named, address netip.AddrPort) Named {
	if d.cfg.Book == nil || d.cfg.Forget {
		return n
	}
	key := lasting(n.Name)
	d.mu.Lock()
	st, known := d.cfg.Stations.Find(key, senderOf(&n, address), d.renamed)
	d.mu.Unlock()
	c, ok, err := maneuver.Choice{}, false, error(nil)
	if known {
		c, ok, err = d.cfg.Book.StationChoice(st.ID)
	}
	if !ok { // it was chosen with a version that knew stations by their names alone
		c, ok, err = d.cfg.Book.StationChoice(key)
	}
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

// chose records what somebody chose at a station, for when the station comes back.
func (d *Desk) chose(by who.Who, station, id string, c maneuver.Choice) {
	if d.cfg.Book == nil || d.cfg.Forget {
		return
	}
	if err := d.cfg.Book.RememberStation(by, id, c); err != nil {
		d.cfg.Log.Warn().Err(err).Str("station", station).Msg("what was chosen is not remembered")
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

// claim gives a seat its name, and the session that it goes on with, if any. Where the seat of that name is silent, the
// simulator was started again and sends from another port: that seat is ended, and its session goes on in the new one.
// Where several send at once, the second is "Seat 3 (2)". It is called while the seat is made.
func (d *Desk) claim(s *seat, want string) (string, *sitting) {
	if want == s.address.String() {
		want = d.like(s.address)
	}
	goes := d.takeOver(s, want)
	d.mu.Lock()
	defer d.mu.Unlock()
	name := want
	for n := 2; ; n++ {
		// A sender has one seat at a time: another of its own is one that failed.
		if holder := d.seats[name]; holder == nil || holder.address == s.address {
			d.seats[name] = s
			if p := d.paused[name]; p != nil && goes == nil {
				goes = p
				delete(d.paused, name)
			}
			return name, goes
		}
		name = fmt.Sprintf("%s (%d)", want, n)
	}
}

// takeOverWait is how long a silent seat may take to give its session away: it has nothing to do.
const takeOverWait = 5 * time.Second

// takeOver ends the seat of a name when it is silent, gives the name to another, and returns the session. It waits for
// nothing but a seat that has been made and is not ending.
func (d *Desk) takeOver(s *seat, name string) *sitting {
	d.mu.Lock()
	holder, senders := d.seats[name], d.senders
	d.mu.Unlock()
	if holder == nil || senders == nil || holder.address == s.address || !d.fellSilent(holder) {
		return nil
	}
	ctx, cancel := context.WithTimeout(context.Background(), takeOverWait)
	defer cancel()
	h := &handOver{desk: d, from: holder, to: s}
	err := senders.End(ctx, holder.address, h)
	if err != nil && !errors.Is(err, ingest.ErrNotThere) {
		d.cfg.Log.Warn().Err(err).Str("station", name).Msg("the station is silent and does not end")
	}
	return h.goes
}

// fellSilent tells whether another sender may take the place of a seat.
func (d *Desk) fellSilent(s *seat) bool { return d.silent(s, pipeline.SilentAfter) }

// like returns the name under which a sender that has none goes on: that of the one station without
// a name of the same address that is silent, for a simulator that was started again often sends from
// another port. Where there is none, or more than one, it is the sender's own address.
func (d *Desk) like(address netip.AddrPort) string {
	own := address.String()
	unnamed := func(name string) bool {
		a, err := netip.ParseAddrPort(name)
		return err == nil && a.Addr() == address.Addr()
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if _, back := d.paused[own]; back || d.senders == nil {
		return own
	}
	var names []string
	for name := range d.paused {
		if unnamed(name) {
			names = append(names, name)
		}
	}
	for name, s := range d.seats {
		if unnamed(name) && s.proven.Load() && d.silent(s, unnamedAfter) {
			names = append(names, name)
		}
	}
	if len(names) != 1 {
		return own
	}
	return names[0]
}

// unnamedAfter is how long a sender without a name has to be silent before another one of its address is taken
// for it, s: two simulators of one machine may both stutter, and none starts again faster.
const unnamedAfter = 5

// silent tells whether nothing came to a seat for that many seconds.
func (d *Desk) silent(s *seat, after float64) bool {
	return (time.Since(d.opened) - time.Duration(s.heard.Load())).Seconds() > after
}
