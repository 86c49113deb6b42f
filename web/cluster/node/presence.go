package node

import (
	"cmp"
	"encoding/json"
	"slices"
	"time"

	"halfturn/coach/message"
	"halfturn/web/cluster/claim"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/presence"
)

// beat tells the others what this node does.
func (n *Node) beat(now time.Time) {
	b := presence.Beat{
		At:       now,
		Holds:    n.held(),
		Hears:    n.hears(now),
		Audience: map[string]*message.Watching{},
		Listens:  n.gracious(now),
	}
	holders := n.peers.Held()
	n.mu.Lock()
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

func (n *Node) tell(b *presence.Beat) {
	if data, err := json.Marshal(b); err == nil {
		n.opt.Flow.Tell(flow.Nodes, "", data)
	}
}

// held lists what this node coaches.
func (n *Node) held() []presence.Hold {
	var list []presence.Hold
	for _, st := range n.all() {
		if h, ok := st.holds(); ok {
			list = append(list, h)
		}
	}
	if n.opt.Linked != nil {
		for _, name := range n.opt.Linked() {
			list = append(list, presence.Hold{Station: name, Linked: true})
		}
	}
	slices.SortFunc(list, func(a, b presence.Hold) int { return cmp.Compare(a.Station, b.Station) })
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
	p, fresh, err := n.peers.Take(t)
	if err != nil {
		n.opt.Log.Debug().Err(err).Str("node", t.Node).Msg("a sign of life cannot be read")
		return
	}
	if fresh && !p.Beat.Leaves {
		n.stir()
	}
	for _, name := range p.Beat.Watches {
		if st := n.known(name); st != nil {
			st.wanted.Store(int64(time.Since(n.started) + n.opt.Times.Dead))
		}
	}
	for _, h := range p.Beat.Holds {
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

// tellNodes says which nodes came and went. While this one hears nobody it is not the others that went.
func (n *Node) tellNodes(now time.Time) {
	if n.deaf(now) {
		return
	}
	came, gone := n.peers.News()
	for _, p := range came {
		n.opt.Log.Info().Str("node", p.Name).Msg("a node is here")
	}
	for _, p := range gone {
		if p.Beat.Leaves {
			n.opt.Log.Info().Str("node", p.Name).Msg("a node has left")
			continue
		}
		n.opt.Log.Warn().Str("node", p.Name).Int("stations", len(p.Holds)).
			Msg("a node is not heard any more: it ended without a word, stands still, or is cut off")
	}
}

// holder returns the node that holds a station, as far as is known: the one with the greatest claim. "" is none. It may
// be this one.
func (n *Node) holder(station string) (node string, best presence.Hold) {
	if st := n.known(station); st != nil {
		if own, ok := st.holds(); ok {
			node, best = n.opt.Name, own
		}
	}
	for _, p := range n.peers.Alive() {
		if h, ok := p.Holds[station]; ok && (node == "" || h.Rank(p.Name, best, node) > 0) {
			node, best = p.Name, h
		}
	}
	return node, best
}

// sight is what is known of a station, and what these nodes have said of it.
func (n *Node) sight(st *station, others ...*presence.Peer) *claim.Sight {
	s := &claim.Sight{Name: n.opt.Name, Listens: n.gracious(time.Now())}
	if own, ok := st.holds(); ok {
		s.Coaches, s.Claim, s.Listens = true, own.Claim(), n.deaf(time.Now())
	}
	st.mu.Lock()
	if s.Left = st.leftAt; st.refused != nil {
		r := *st.refused
		r.Waited = time.Since(r.At) > n.opt.Times.Dead
		s.Refused = &r
	}
	st.mu.Unlock()
	for _, p := range others {
		o := claim.Other{Name: p.Name, Heard: p.Heard, Hears: !p.Beat.Listens && p.Hears(st.name)}
		if h, ok := p.Holds[st.name]; ok && !(h.Linked && s.Coaches) { // one that has a link has no lease
			o.Holds, o.Claim = true, h.Claim()
		}
		s.Others = append(s.Others, o)
	}
	return s
}

// audience is who watches on the other nodes, by station: nobody at those that nobody watches there.
func (n *Node) audience() map[string]*message.Watching {
	all := n.peers.Audience()
	for _, st := range n.all() {
		if all[st.name] == nil {
			all[st.name] = nobody
		}
	}
	return all
}
