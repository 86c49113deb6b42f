package node

import (
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"halfturn/coach/ids"
	"halfturn/coach/message"
	"halfturn/web/cluster/claim"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/numbering"
	"halfturn/web/cluster/presence"
	"halfturn/web/cluster/tenures"
)

// A station is what a node knows of one, wherever it is coached.
type station struct {
	node   *Node
	name   string
	wanted atomic.Int64 // until when another node needs frames, since the node started
	keeper *keeper
	before string // the latest session that was recorded here; the node's lock guards it

	following sync.Mutex // held while another node is followed; taken before mu
	mu        sync.Mutex
	follower
	right
	making
	ending
	showing
}

// A follower is what a node knows of the record that another one makes.
type follower struct {
	shadow *shadow   // nil while none is; following guards it
	tried  time.Time // when following was last begun; likewise

	hurry func()         // ends reading what is to be followed
	heard *tenures.Heard // nil while this node does not listen to the record
	deaf  func()         // ends listening to it
}

// A right is whose a station is, as far as this node knows.
type right struct {
	coached bool           // here
	leaving bool           // here, until what is recorded is kept
	own     bool           // this program itself flies: nobody else is told
	lease   flow.Lease     // the last that is known
	known   bool           // the lease was read or written, and not only heard of
	doubt   bool           // the node began or stood still since it knew the lease for its own
	refused *claim.Refusal // the store has the lease of another node; nil: not that this node knows
	left    string         // the latest session that was left to another node
	leftAt  time.Time
	lastOf  string        // the node that was heard of last as the holder
	lastly  presence.Hold // what it held then
}

// An ending is what became of sessions that were flown here.
type ending struct {
	flew     string     // by this node when it ended, and waits here for its station; "" is none
	past     bool       // that is played: nothing of it is told
	aside    string     // that is to be moved aside once it is played, as another node has it; "" is none
	finished []finished // the latest that are over
}

// A finished session was over here while this node had the lease: it is this node's to be entered, whoever has the
// station by now, unless the lease names it again.
type finished struct {
	session string
	fence   uint64 // it was flown under
}

// mostFinished is how many finished sessions of a station may wait to be entered.
const mostFinished = 64

// A making is the record that is made here.
type making struct {
	session string         // that is flown here; "" is none
	tenure  *tenure        // nil while nothing is recorded here
	kept    *tenures.Point // the last batch of the session that is known to be kept
	goesOn  *goingOn       // the session of another node that is being adopted, or was
	pending []pending      // published here and not told yet
}

// A showing is the events of a station as they are shown here.
type showing struct {
	numbers numbering.Numbers  // of those from here and elsewhere
	later   []flow.Event       // of another node, while it is asked for those before
	asking  bool               // it is
	content numbering.Contents // of the session of the coach here
}

// A pending event was published here, and is to be told.
type pending struct {
	flow.Event
	once bool // no other coach makes it
}

func newStation(n *Node, name string) *station {
	st := &station{node: n, name: name}
	st.lease.Station = name
	st.keeper = newKeeper(st)
	return st
}

// holds says what this node holds of the station; false when it coaches it not.
func (st *station) holds() (presence.Hold, bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if !st.coached && !st.leaving || st.own {
		return presence.Hold{}, false
	}
	h := presence.Hold{Station: st.name, Fence: st.lease.Fence, Session: st.session, Kept: st.kept}
	h.Over = st.lease.Node != st.node.opt.Name
	h.Doubt = st.doubt
	return h, true
}

// doubts notes that the node stood still.
func (st *station) doubts() {
	st.mu.Lock()
	defer st.mu.Unlock()
	st.doubt = st.coached
}

// last notes what another node holds.
func (st *station) last(node string, h presence.Hold) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.lastOf == "" || st.lastOf == node || h.Rank(node, st.lastly, st.lastOf) > 0 {
		st.lastOf, st.lastly = node, h
	}
}

// waitsFor reports whether a session waits here for its station, after a start: where another node has gone on with it,
// it is over here.
func (st *station) waitsFor(session string) bool {
	st.mu.Lock()
	defer st.mu.Unlock()
	if session == "" || st.coached || st.leaving {
		return false
	}
	return st.tenure != nil && st.tenure.session == session || st.flew == session
}

// finishes notes that a session is over. mu is held.
func (st *station) finishes(session string, fence uint64) {
	if i := st.finishedAt(session); session == "" || i >= 0 {
		if i >= 0 {
			st.finished[i].fence = max(st.finished[i].fence, fence)
		}
		return
	}
	if st.finished = append(st.finished, finished{session, fence}); len(st.finished) > mostFinished {
		st.finished = slices.Delete(st.finished, 0, 1)
	}
}

// finishedAt is where a finished session stands in the list; -1 where it does not. mu is held.
func (st *station) finishedAt(session string) int {
	return slices.IndexFunc(st.finished, func(f finished) bool { return f.session == session })
}

// keptBy is the last batch that a node has said to be kept of what it holds; nil where none is known.
func (st *station) keptBy(node string) *tenures.Point {
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.lastOf != node {
		return nil
	}
	return st.lastly.Kept
}

// noteKept notes that a batch is kept.
func (st *station) noteKept(s *step) {
	st.mu.Lock()
	defer st.mu.Unlock()
	s.of.kept = s.batch.Number
	if st.tenure == s.of {
		st.kept = &s.kept
	}
}

// deafen ends listening to the record of another node.
func (st *station) deafen() {
	st.mu.Lock()
	stop := st.deaf
	st.deaf, st.heard = nil, nil
	st.mu.Unlock()
	if stop != nil {
		stop()
	}
	st.unfollow()
}

// id is the id of an event that is published here. mu is held.
func (st *station) id(m message.Message) string {
	if id := st.content.ID(m); id != "" {
		return id
	}
	return ids.New(time.Now())
}
