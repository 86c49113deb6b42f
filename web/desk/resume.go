package desk

import (
	"context"
	"net/netip"
	"strings"
	"sync"
	"time"

	"halfturn/web/desk/identity"
	"halfturn/web/desk/practice"
)

// resuming is what the server's last run left.
type resuming struct {
	backlog *practice.Backlog // nil before Start
	playing sync.WaitGroup
	stop    context.CancelFunc
	awaited map[string]int // by name of a station: senders that wait for its session; Desk.mu guards it
}

// resume has unfinished sessions played. Those that go on wait for their stations.
func (d *Desk) resume(ctx context.Context, now time.Time) {
	ctx, stop := context.WithCancel(ctx)
	b := practice.LookBack(ctx, &d.practices, now)
	d.mu.Lock()
	d.backlog, d.stop = b, stop
	d.mu.Unlock()
	d.playing.Go(func() { b.Play(ctx, d.pause) })
}

// pause has a session wait for its station.
func (d *Desk) pause(p *practice.Practice) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.paused[p.Name()] = p
}

// stopResuming leaves what is not played yet to the next start.
func (d *Desk) stopResuming() {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.stop != nil {
		d.stop()
	}
}

// Resumed waits until all that the last run left is played.
func (d *Desk) Resumed() { d.playing.Wait() }

// unplayed lists the stations whose sessions are not played yet. mu is held.
func (d *Desk) unplayed() []string {
	if d.backlog == nil {
		return nil
	}
	return d.backlog.Stations()
}

// await waits until the sessions are played that a sender may go on with, and keeps these from ending until came is
// called. False says that the server stops before.
func (d *Desk) await(s *identity.Sender, address netip.AddrPort) (came func(), played bool) {
	d.mu.Lock()
	backlog, names := d.backlog, []string(nil)
	if !s.Demonstration {
		names = d.mayBe(s.Name, address)
	}
	for _, name := range names {
		d.awaited[name]++
	}
	d.mu.Unlock()
	played = true
	for _, name := range names {
		played = backlog.Await(name) && played
	}
	return func() {
		d.mu.Lock()
		defer d.mu.Unlock()
		for _, name := range names {
			if d.awaited[name]--; d.awaited[name] == 0 {
				delete(d.awaited, name)
			}
		}
	}, played
}

// mayBe lists the stations with sessions to be played that a sender may turn out to be: that of its name, or one of
// several that use the name at once; without a name that of its address, or any other of the same machine. mu is held.
func (d *Desk) mayBe(name string, address netip.AddrPort) (names []string) {
	unnamed := name == address.String()
	for _, other := range d.unplayed() {
		switch a, err := netip.ParseAddrPort(other); {
		case unnamed && other == name:
			return []string{name}
		case unnamed && err == nil && a.Addr() == address.Addr(),
			!unnamed && (other == name || strings.HasPrefix(other, name+" (")):
			names = append(names, other)
		}
	}
	return names
}
