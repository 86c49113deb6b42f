package desk

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"slices"
	"time"

	"halfturn/stream/ingest"
	"halfturn/stream/pipeline"
	"halfturn/web/desk/practice"
)

// claim gives a station its name, and the session that it resumes, if any. If the station of that name is silent, the
// simulator was restarted and now sends from another port: the old station ends and the new one continues its session.
// If several senders use the name at once, the second becomes "Seat 3 (2)". It is called while the station is made.
func (d *Desk) claim(s *station, want string) (string, *practice.Practice) {
	if want == s.address.String() {
		want = d.like(s.address)
	}
	goes := d.takeOver(s, want)
	d.mu.Lock()
	defer d.mu.Unlock()
	name := want
	for n := 2; ; n++ {
		// A sender has one handler at a time: another one of the same address has failed.
		holder := d.present[name]
		if !d.reserved(name) && (holder == nil || holder.address == s.address) {
			d.present[name] = s
			if p := d.paused[name]; p != nil && goes == nil {
				goes = p
				delete(d.paused, name)
			}
			return name, goes
		}
		name = fmt.Sprintf("%s (%d)", want, n)
	}
}

// reserved reports whether a name is that of a station elsewhere.
func (d *Desk) reserved(name string) bool { return d.cfg.Reserved != nil && d.cfg.Reserved(name) }

// Has reports whether a sender here has a name.
func (d *Desk) Has(station string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.present[station] != nil || d.paused[station] != nil || slices.Contains(d.unplayed(), station)
}

// takeOverWait is how long a silent station may take to give its session away; it is idle.
const takeOverWait = 5 * time.Second

// takeOver ends the station of a name if it is silent, passes the name on, and returns the session. It waits only for a
// station that has been made and is not ending, so that two stations never wait for each other.
func (d *Desk) takeOver(s *station, name string) *practice.Practice {
	d.mu.Lock()
	holder, senders := d.present[name], d.senders
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

// fellSilent tells whether another sender may take a station over.
func (d *Desk) fellSilent(s *station) bool { return d.silent(s, pipeline.SilentAfter) }

// like returns the name for a sender that the configuration does not name. A restarted simulator often sends from
// another port, so it is the name of the silent unnamed station with the same IP address, if there is exactly one, and
// otherwise the sender's own address.
func (d *Desk) like(address netip.AddrPort) string {
	own := address.String()
	unnamed := func(name string) bool {
		a, err := netip.ParseAddrPort(name)
		return err == nil && a.Addr() == address.Addr()
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	waiting := d.unplayed()
	if _, back := d.paused[own]; back || d.senders == nil || slices.Contains(waiting, own) {
		return own
	}
	names := slices.DeleteFunc(waiting, func(name string) bool { return !unnamed(name) })
	for name := range d.paused {
		if unnamed(name) {
			names = append(names, name)
		}
	}
	for name, s := range d.present {
		if unnamed(name) && s.proven.Load() && d.silent(s, unnamedAfter) {
			names = append(names, name)
		}
	}
	if len(names) != 1 {
		return own
	}
	return names[0]
}

// unnamedAfter is how long an unnamed sender must be silent before another sender of the same IP address is taken for
// it, s. Two simulators on one machine may both stutter for less, and none restarts faster.
const unnamedAfter = 5

// silent tells whether a station received nothing for that many seconds.
func (d *Desk) silent(s *station, after float64) bool {
	return (time.Since(d.opened) - time.Duration(s.heard.Load())).Seconds() > after
}
