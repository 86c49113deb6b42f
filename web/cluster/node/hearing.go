package node

import (
	"net/netip"
	"sync"
	"time"

	"halfturn/stream/ingest"
	"halfturn/web/cluster/tenures"
)

// A phase is where a hearing stands.
type phase int

const (
	unsettled phase = iota // it is not known yet who coaches
	standby                // another node coaches
	taking                 // this node takes over, and plays what was flown
	ready                  // this node coaches with the next call
	coaching               // this node coaches
	leaving                // another node coaches with the next call
)

// A hearing is a sender that this node hears. It holds the latest datagrams, also while this node coaches its
// station. All calls come from the goroutine of the sender, but for those that say so.
type hearing struct {
	node    *Node
	address netip.AddrPort
	coach   Coached // nil unless it is coached here

	mu    sync.Mutex // of what others use
	phase phase
	name  string // of the station
	first time.Time
	heard time.Time
	plays bool // the desk plays what an earlier run left, and what comes waits with the sender
	ring  tenures.Ring
	from  int // of the ring: the first datagram that is still to be coached; of ready

	coached int // of the ring: what came before was coached, here or in a session elsewhere that is over
}

// coachedFor is for how long a datagram is held that was coached: longer than it takes to leave a station and to take
// it over again, with a record of which the store has not kept the latest.
const coachedFor = readWait + 5*time.Second

// Station returns the handler of a new sender. It is an ingest.Factory.
func (n *Node) Station(address netip.AddrPort) ingest.Handler {
	name, own := n.desk.NameOf(address)
	h := &hearing{node: n, address: address, name: name, ring: tenures.Ring{Most: n.opt.Limits.Ring}}
	if own {
		h.begin()
		return h
	}
	if node, _ := n.holder(name); node == n.opt.Name { // another sender is at the station: the desk tells them apart
		h.begin()
	}
	n.mu.Lock()
	n.heard[h] = struct{}{}
	n.mu.Unlock()
	n.stir()
	return h
}

// begin coaches from now on. What waits is coached first. It waits while a session that an earlier run left is played,
// and reports false where another node has the station after that, and when the server stops.
func (h *hearing) begin() bool {
	h.mu.Lock()
	phase := h.phase
	h.plays = true
	h.mu.Unlock()
	coach, ok := h.node.desk.Station(h.address).(Coached) // as Desk says
	h.mu.Lock()
	h.plays = false
	if !ok {
		h.mu.Unlock()
		return false
	}
	if h.phase != phase {
		h.mu.Unlock()
		h.node.abandoned(h.node.station(coach.Name()), coach.Abandon())
		return false
	}
	h.coach, h.name, h.phase = coach, coach.Name(), coaching
	waits := h.ring.From(h.from)
	h.mu.Unlock()
	st := h.node.station(h.coach.Name())
	st.mu.Lock()
	st.coached = true
	st.mu.Unlock()
	for _, d := range waits {
		h.coach.Datagram(d.Bytes, d.Received)
	}
	h.node.stir()
	return true
}

// leave leaves the station to another node.
func (h *hearing) leave() {
	c := h.coach
	h.coach = nil
	session := c.Abandon()
	st := h.node.station(c.Name())
	h.node.abandoned(st, session)
	h.mu.Lock()
	h.phase, h.coached = standby, h.ring.Count()
	h.mu.Unlock()
}

// follow does what was decided about the sender. It reports whether it is coached here.
func (h *hearing) follow() bool {
	h.mu.Lock()
	phase := h.phase
	h.mu.Unlock()
	switch phase {
	case coaching:
		return true
	case ready:
		return h.begin()
	case leaving:
		h.leave()
	}
	return false
}

// Datagram takes one datagram.
func (h *hearing) Datagram(b []byte, received time.Time) {
	here := h.follow()
	h.mu.Lock()
	h.heard = time.Now()
	if h.first.IsZero() {
		h.first = h.heard
	}
	h.ring.Add(b, received)
	if here { // those that another node may have to go on from, or this one, if it leaves the station to nobody
		h.ring.Trim(received.Add(-coachedFor))
	}
	h.mu.Unlock()
	if here {
		h.coach.Datagram(b, received)
	}
}

// Lost takes that datagrams were lost before the next one.
func (h *hearing) Lost(l ingest.Loss) {
	if h.follow() {
		h.coach.Lost(l)
	}
}

// Take carries out a request; it is refused where another node coaches.
func (h *hearing) Take(r ingest.Request) (ends bool) {
	if h.follow() {
		return h.coach.Take(r)
	}
	h.node.opt.Refuse(r)
	return false
}

// Tick lets the session notice silence.
func (h *hearing) Tick(now time.Time) {
	if h.follow() {
		h.coach.Tick(now)
	}
}

// Proven reports whether a sample was ever decoded. Where another node coaches, it is for that one to say.
func (h *hearing) Proven() bool {
	h.mu.Lock()
	phase := h.phase
	h.mu.Unlock()
	return phase != coaching || h.coach == nil || h.coach.Proven()
}

// Fail takes that a fault in the program ended the handler.
func (h *hearing) Fail() {
	if h.coach != nil {
		h.coach.Fail()
	}
}

// End ends the session, unless another node goes on with it.
func (h *hearing) End() {
	h.node.mu.Lock()
	delete(h.node.heard, h)
	h.node.mu.Unlock()
	h.mu.Lock()
	phase := h.phase
	h.phase = standby
	h.mu.Unlock()
	if h.coach == nil {
		if name, _ := h.heardAt(); !h.node.hearsNow(name) {
			h.node.station(name).deafen()
		}
		return
	}
	st := h.node.station(h.coach.Name())
	switch {
	case phase == leaving:
		h.leave()
		return
	case h.node.heardElsewhere(st.name):
		st.release()
		h.leave()
		return
	}
	h.coach.End()
	h.coach = nil
	st.mu.Lock()
	st.coached = false
	st.mu.Unlock()
	h.node.stir()
}

// heardAt returns the name of the station and when it was heard last. Any goroutine may call it.
func (h *hearing) heardAt() (name string, heard time.Time) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.plays {
		return h.name, time.Now()
	}
	return h.name, h.heard
}

// flownElsewhere notes that a session of a station is over which another node flew, and how its record ends: what was
// heard of it here is not of the next one.
func (n *Node) flownElsewhere(station string, ending []tenures.Held) {
	for _, h := range n.hearings() {
		h.mu.Lock()
		if h.name == station && len(ending) > 0 {
			h.coached = max(h.coached, h.ring.After(ending))
		}
		h.mu.Unlock()
	}
}

// become changes the phase, unless it is another one by now. Any goroutine may call it.
func (h *hearing) become(from, to phase) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.phase != from {
		return false
	}
	h.phase = to
	return true
}

// HeardBy lists the other nodes that hear a station, by name.
func (n *Node) HeardBy(station string) (nodes []string) {
	return n.peers.Hearing(station)
}

// heardElsewhere reports whether another node hears a station.
func (n *Node) heardElsewhere(station string) bool { return len(n.HeardBy(station)) > 0 }
