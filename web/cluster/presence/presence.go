// Package presence is what nodes say of themselves several times a second, and what one of them knows of the others by
// that.
package presence

import (
	"cmp"
	"encoding/json"
	"slices"
	"sync"
	"time"

	"halfturn/coach/message"
	"halfturn/web/cluster/claim"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
)

// A Beat is a sign of life of a node, and what it does.
type Beat struct {
	At       time.Time                    `json:"at"`
	Holds    []Hold                       `json:"holds,omitempty"`
	Hears    []string                     `json:"hears,omitempty"`
	Watches  []string                     `json:"watches,omitempty"`  // stations of other nodes whose frames are needed
	Audience map[string]*message.Watching `json:"audience,omitempty"` // who else watches, by station
	Leaves   bool                         `json:"leaves,omitempty"`   // the last one: the node goes
	Listens  bool                         `json:"listens,omitempty"`  // others are to be heard first
}

// A Hold is a station that a node coaches.
type Hold struct {
	Station string         `json:"station"`
	Fence   uint64         `json:"fence"`
	Over    bool           `json:"over,omitempty"`  // it took the station over from that fence, and has no lease yet
	Doubt   bool           `json:"doubt,omitempty"` // the node began or stood still: another may have taken over
	Session string         `json:"session,omitempty"`
	Kept    *tenures.Point `json:"kept,omitempty"`   // the last batch of the session that is known to be kept
	Linked  bool           `json:"linked,omitempty"` // a station at home, which has a link and no lease
}

// Claim is by which right the node holds the station.
func (h Hold) Claim() claim.Claim { return claim.Claim{Fence: h.Fence, Over: h.Over, Doubt: h.Doubt} }

// Rank orders two claims of a station, each with the name of its node, as package claim says.
func (h Hold) Rank(node string, other Hold, otherNode string) int {
	return h.Claim().Compare(node, other.Claim(), otherNode)
}

// A Peer is another node, and what it said last.
type Peer struct {
	Name  string
	Beat  Beat
	Holds map[string]Hold // by station
	Heard time.Time       // when its last sign of life came; zero where that said that it goes

	hears map[string]bool // by station; nil before it is put
}

// Hears reports whether a node hears a station.
func (p *Peer) Hears(station string) bool {
	if p.hears == nil { // it was not put
		return slices.Contains(p.Beat.Hears, station)
	}
	return p.hears[station]
}

// Peers are the other nodes that were ever heard of. They are safe for concurrent use.
type Peers struct {
	dead time.Duration

	mu    sync.Mutex
	nodes map[string]*Peer
	here  map[string]bool // as News said last
}

// New makes a list of nobody. A node that says nothing for a time is dead.
func New(dead time.Duration) *Peers {
	return &Peers{dead: dead, nodes: map[string]*Peer{}, here: map[string]bool{}}
}

// Take takes a sign of life; fresh says that nothing was heard of the node before.
func (s *Peers) Take(t flow.Told) (p *Peer, fresh bool, err error) {
	p = &Peer{Name: t.Node, Holds: map[string]Hold{}, Heard: time.Now()}
	if err := json.Unmarshal(t.Bytes, &p.Beat); err != nil {
		return nil, false, err
	}
	for _, h := range p.Beat.Holds {
		p.Holds[h.Station] = h
	}
	if p.Beat.Leaves {
		p.Heard = time.Time{}
	}
	return p, s.Put(p), nil
}

// Put notes what a node said last, and reports whether nothing was heard of it before.
func (s *Peers) Put(p *Peer) (fresh bool) {
	p.hears = make(map[string]bool, len(p.Beat.Hears)) // it is asked for each station, many times a second
	for _, station := range p.Beat.Hears {
		p.hears[station] = true
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	fresh = s.nodes[p.Name] == nil
	s.nodes[p.Name] = p
	return fresh
}

// Alive lists the nodes that are heard of, by name.
func (s *Peers) Alive() []*Peer {
	now := time.Now()
	s.mu.Lock()
	defer s.mu.Unlock()
	var list []*Peer
	for _, p := range s.nodes {
		if now.Sub(p.Heard) < s.dead {
			list = append(list, p)
		}
	}
	slices.SortFunc(list, func(a, b *Peer) int { return cmp.Compare(a.Name, b.Name) })
	return list
}

// News lists the nodes that are heard of since the last call, and those that are not any more, by name.
func (s *Peers) News() (came, gone []*Peer) {
	all, alive := s.Alive(), map[string]bool{}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, p := range all {
		if alive[p.Name] = true; !s.here[p.Name] {
			came = append(came, p)
		}
	}
	for name := range s.here {
		if !alive[name] {
			gone = append(gone, s.nodes[name])
		}
	}
	s.here = alive
	slices.SortFunc(gone, func(a, b *Peer) int { return cmp.Compare(a.Name, b.Name) })
	return came, gone
}

// Living returns a node that is heard of; nil when it is not.
func (s *Peers) Living(name string) *Peer {
	for _, p := range s.Alive() {
		if p.Name == name {
			return p
		}
	}
	return nil
}

// Silent reports whether a node was not heard of for a time, or never.
func (s *Peers) Silent(name string, least time.Duration) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	p := s.nodes[name]
	return p == nil || time.Since(p.Heard) > least
}

// Hearing lists the nodes that hear a station, by name.
func (s *Peers) Hearing(station string) (nodes []string) {
	for _, p := range s.Alive() {
		if p.Hears(station) {
			nodes = append(nodes, p.Name)
		}
	}
	return nodes
}

// Held reports for each station that one of the nodes holds that it does.
func (s *Peers) Held() map[string]bool {
	held := map[string]bool{}
	for _, p := range s.Alive() {
		for name := range p.Holds {
			held[name] = true
		}
	}
	return held
}

// Audience is who watches on the other nodes, by station.
func (s *Peers) Audience() map[string]*message.Watching {
	all := map[string]*message.Watching{}
	for _, p := range s.Alive() {
		for name, w := range p.Beat.Audience {
			if all[name] == nil {
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
