// Package claim is the rule by which nodes agree on which of them coaches a station. It is pure: what a node knows goes
// in, and what it does comes out.
//
// The rule leaves a station to another node only where that one says itself that it coaches. That the store has a lease
// of another node is not enough: a node that has claimed may have left the station since, and two that leave it to each
// other leave it to nobody. So
//
//	this node       what it knows                                             it
//	coaches         another node holds the station by a greater claim         leaves it to that one
//	coaches         the store has a lease of another node,
//	                  which has said since that it does not hold the station  takes the lease again
//	                  of which was not heard since, for as long as it may be
//	                    silent                                                waits for that, and coaches
//	                  which is silent since for so long that it is gone       takes the lease again
//	                  the same, and this node is in doubt                     leaves it, to take it over
//	coaches         anything else                                             coaches
//	does not coach  another node holds the station                            stands by
//	does not coach  others were not heard since it began, or stood still      waits for that
//	does not coach  another node that is there has not spoken since this one
//	                  left the station                                        waits for that
//	does not coach  nobody holds it, this node is the first of those that
//	                  hear the station                                        takes it over
//	does not coach  anything else                                             stands by
//
// Two nodes may coach a station at once, for as long as a sign of life takes: what they say is the same, and is shown
// once. That none coaches is what must not be. Nodes that cannot reach each other, but the store, and of which each
// takes over from the other again and again, are beyond the rule.
package claim

import (
	"cmp"
	"time"
)

// A Claim is by which right a node holds a station.
type Claim struct {
	Fence uint64 // of the lease that it has, or took over from
	Over  bool   // it took the station over from that lease, and has none yet
	Doubt bool   // it stood still since it last knew the lease to be its own: another node may have taken over
}

// Compare orders two claims of a station, each with the name of its node: the greater one holds. Of one fence the node
// with the lease holds, unless it stood still for so long that another one had to take over; and of two of those the
// first by name.
func (c Claim) Compare(node string, other Claim, otherNode string) int {
	return cmp.Or(cmp.Compare(c.Fence, other.Fence), cmp.Compare(c.weight(), other.weight()),
		cmp.Compare(otherNode, node))
}

func (c Claim) weight() int {
	switch {
	case c.Over:
		return 1
	case c.Doubt:
		return 0
	}
	return 2
}

// An Other is another node that is there: what it said last.
type Other struct {
	Name  string
	Heard time.Time // when it said so
	Holds bool      // it coaches the station
	Claim Claim     // by this
	Hears bool      // it hears the station, and has not to hear others first
}

// A Refusal is that the store has the lease of another node, "" of one that gave it back, under the next fences.
type Refusal struct {
	Node   string
	Fence  uint64
	At     time.Time // when this node came to know
	Waited bool      // that is so long ago that a node which has not spoken since is gone
}

// A Sight is what a node knows of a station.
type Sight struct {
	Name    string // of the node
	Coaches bool
	Claim   Claim     // of a node that coaches
	Refused *Refusal  // nil: the store has not refused what a node that coaches wanted to keep
	Hears   bool      // it hears the station, for long enough for others to have said so too
	Listens bool      // it began, stood still or was away just now: others are to be heard first
	Left    time.Time // when it left the station to another node; zero is never
	Others  []Other   // those that are there
}

// An Act is what a node does about a station.
type Act int

// The acts.
const (
	Stay  Act = iota // it goes on as it does: it coaches, or stands by
	Take             // it coaches the station from now on
	Leave            // it coaches it no more: another node does, or has recorded of it what this one has not
	Renew            // it takes the lease again, after that of another node
)

// Decide says what the node does, and which node it leaves the station to.
func (s *Sight) Decide() (do Act, to string) {
	if s.Coaches {
		return s.keep()
	}
	if !s.Hears || s.Listens {
		return Stay, ""
	}
	for i := range s.Others {
		switch o := &s.Others[i]; {
		case o.Holds, !o.Heard.After(s.Left), o.Hears && o.Name < s.Name:
			return Stay, ""
		}
	}
	return Take, ""
}

// keep says what a node does that coaches.
func (s *Sight) keep() (do Act, to string) {
	for i := range s.Others {
		if o := &s.Others[i]; o.Holds && o.Claim.Compare(o.Name, s.Claim, s.Name) > 0 {
			return Leave, o.Name
		}
	}
	r := s.Refused
	switch {
	case r == nil, s.Listens:
		return Stay, ""
	case r.Node == "", r.Node == s.Name:
		return Renew, ""
	}
	for i := range s.Others {
		switch o := &s.Others[i]; {
		case o.Name != r.Node:
		case o.Holds, !o.Heard.After(r.At): // it knows of its lease soon
			return Stay, ""
		default:
			return Renew, ""
		}
	}
	switch {
	case !r.Waited: // this node may have heard nobody before
		return Stay, ""
	case s.Claim.Doubt: // it did not hear all that the other one has recorded
		return Leave, r.Node
	}
	return Renew, ""
}
