package node

import (
	"cmp"
	"encoding/json"
	"slices"
	"time"

	"halfturn/coach/message"
	"halfturn/web/cluster/claim"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
)

// A beat is a sign of life of a node, and what it does.
type beat struct {
	At       time.Time                    `json:"at"`
	Holds    []hold                       `json:"holds,omitempty"`
	Hears    []string                     `json:"hears,omitempty"`
	Watches  []string                     `json:"watches,omitempty"`  // stations of other nodes whose frames are needed
	Audience map[string]*message.Watching `json:"audience,omitempty"` // who else watches, by station
	Leaves   bool                         `json:"leaves,omitempty"`   // the last one: the node goes
	Listens  bool                         `json:"listens,omitempty"`  // others are to be heard first
}

// A hold is a station that a node coaches.
type hold struct {
	Station string         `json:"station"`
	Fence   uint64         `json:"fence"`
	Over    bool           `json:"over,omitempty"`  // it took the station over from that fence, and has no lease yet
	Doubt   bool           `json:"doubt,omitempty"` // the node began or stood still: another may have taken over
	Session string         `json:"session,omitempty"`
	Kept    *tenures.Point `json:"kept,omitempty"`   // the last batch of the session that is known to be kept
	Linked  bool           `json:"linked,omitempty"` // a station at home, which has a link and no lease
}

func (h hold) claim() claim.Claim { return claim.Claim{Fence: h.Fence, Over: h.Over, Doubt: h.Doubt} }

// rank orders two claims of a station, as package claim says.
func (h hold) rank(node string, other hold, otherNode string) int {
	return h.claim().Compare(node, other.claim(), otherNode)
}

// A peer is another node.
type peer struct {
	name  string
	beat  beat
	holds map[string]hold
	heard time.Time // when its last sign of life came
}

// beat tells the others what this node does.
func (n *Node) beat(now time.Time) {
	b := beat{
		At:       now,
		Holds:    n.held(),
		Hears:    n.hears(now),
		Audience: map[string]*message.Watching{},
		Listens:  n.gracious(now),
	}
	n.mu.Lock()
	holders := map[string]bool{}
	for _, p := range n.peers {
		if now.Sub(p.heard) < n.opt.Times.Dead {
			for name := range p.holds {
				holders[name] = true
			}
		}
	}
	names := make([]string, 0, len(n.stations))
	for name := range n.stations {
		names = append(names, name)
	}
	n.mu.Unlock()
	for _, name := range names {
		if holders[name] && n.opt.Hub.Watched(name) {
			b.Watches = append(b.Watches, name)
		}
		if w := n.opt.Hub.Company(name); w != nil {
			b.Audience[name] = w
		}
	}
	n.tell(&b)
}

func (n *Node) tell(b *beat) {
	if data, err := json.Marshal(b); err == nil {
		n.opt.Flow.Tell(flow.Nodes, "", data)
	}
}

// held lists what this node coaches.
func (n *Node) held() []hold {
	var list []hold
	for _, st := range n.all() {
		if h, ok := st.holds(); ok {
			list = append(list, h)
		}
	}
	if n.opt.Linked != nil {
		for _, name := range n.opt.Linked() {
			list = append(list, hold{Station: name, Linked: true})
		}
	}
	slices.SortFunc(list, func(a, b hold) int { return cmp.Compare(a.Station, b.Station) })
	return list
}

// hears lists the stations that are heard here now.
func (n *Node) hears(now time.Time) []string {
	var list []string
	for _, h := range n.hearings() {
		if name, heard := h.heardAt(); now.Sub(heard) < n.opt.Times.Silent && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	slices.Sort(list)
	return list
}

// takeBeat takes a sign of life.
func (n *Node) takeBeat(t flow.Told) {
	var b beat
	if err := json.Unmarshal(t.Bytes, &b); err != nil {
		n.opt.Log.Debug().Err(err).Str("node", t.Node).Msg("a sign of life cannot be read")
		return
	}
	p := &peer{name: t.Node, beat: b, holds: map[string]hold{}, heard: time.Now()}
	for _, h := range b.Holds {
		p.holds[h.Station] = h
	}
	n.mu.Lock()
	_, known := n.peers[t.Node]
	n.peers[t.Node] = p
	if b.Leaves {
		p.heard = time.Time{}
	}
	n.mu.Unlock()
	if !known && !b.Leaves {
		n.opt.Log.Info().Str("node", t.Node).Msg("a node is here")
		n.stir()
	}
	for _, name := range b.Watches {
		if st := n.known(name); st != nil {
			st.wanted.Store(int64(time.Since(n.started) + n.opt.Times.Dead))
		}
	}
	for _, h := range b.Holds {
		st := n.station(h.Station)
		st.last(t.Node, h)
		if h.Linked {
			continue
		}
		if s := n.sight(st, p); s.Coaches {
			if do, to := s.Decide(); do == claim.Leave {
				n.lose(st, to)
			}
		} else if st.waitsFor(h.Session) {
			n.lose(st, t.Node)
		}
	}
}

// alive lists the nodes that are heard of, by name.
func (n *Node) alive() []*peer {
	now := time.Now()
	n.mu.Lock()
	defer n.mu.Unlock()
	var list []*peer
	for _, p := range n.peers {
		if now.Sub(p.heard) < n.opt.Times.Dead {
			list = append(list, p)
		}
	}
	slices.SortFunc(list, func(a, b *peer) int { return cmp.Compare(a.name, b.name) })
	return list
}

// holder returns the node that holds a station, as far as is known: the one with the greatest claim. "" is none. It may
// be this one.
func (n *Node) holder(station string) (node string, best hold) {
	if st := n.known(station); st != nil {
		if own, ok := st.holds(); ok {
			node, best = n.opt.Name, own
		}
	}
	for _, p := range n.alive() {
		if h, ok := p.holds[station]; ok && (node == "" || h.rank(p.name, best, node) > 0) {
			node, best = p.name, h
		}
	}
	return node, best
}

// sight is what is known of a station, and what these nodes have said of it.
func (n *Node) sight(st *station, others ...*peer) *claim.Sight {
	s := &claim.Sight{Name: n.opt.Name, Listens: n.gracious(time.Now())}
	if own, ok := st.holds(); ok {
		s.Coaches, s.Claim = true, own.claim()
	}
	st.mu.Lock()
	s.Refused, s.Left = st.refused, st.leftAt
	st.mu.Unlock()
	for _, p := range others {
		o := claim.Other{Name: p.name, Heard: p.heard, Hears: !p.beat.Listens && slices.Contains(p.beat.Hears, st.name)}
		if h, ok := p.holds[st.name]; ok && !(h.Linked && s.Coaches) { // one that has a link has no lease
			o.Holds, o.Claim = true, h.claim()
		}
		s.Others = append(s.Others, o)
	}
	return s
}

// audience is who watches on the other nodes, by station.
func (n *Node) audience() map[string]*message.Watching {
	all := map[string]*message.Watching{}
	for _, st := range n.all() {
		all[st.name] = nobody
	}
	for _, p := range n.alive() {
		for name, w := range p.beat.Audience {
			if sum := all[name]; sum == nil || sum == nobody {
				all[name] = w
				continue
			}
			both := *all[name]
			both.Nameless += w.Nameless
			both.Watchers = slices.Concat(both.Watchers, w.Watchers)
			all[name] = &both
		}
	}
	return all
}
