package node

import (
	"slices"

	"halfturn/coach/message"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
)

// A goingOn is a session of another node that this one goes on with.
type goingOn struct {
	session   string
	after     *tenures.Point    // the last batch of the other node that was read
	carry     []tenures.Carried // batches of other nodes that may not be kept
	playing   bool              // what was flown is played
	published map[string]bool   // the ids of events of the other node
	told      []flow.Event      // the latest that were told with the record
	kept      []heldBack        // events that this coach made: the latest
	says      message.Message   // what the station says of itself after that
}

// A heldBack is an event that is published once this node goes on, unless the other one has published it.
type heldBack struct {
	id      string
	message message.Message
}

// mostKept bounds the events that are held back.
const mostKept = 64

// goOn publishes from now on what a coach says that has followed another node, and what it held back.
func (n *Node) goOn(st *station, on *goingOn, over bool) {
	st.mu.Lock()
	on.playing = false
	if over {
		st.goesOn = nil
	}
	publish := on.kept
	on.kept = nil
	st.mu.Unlock()
	n.complete(st, on, publish)
	for _, h := range publish {
		if !on.published[h.id] {
			n.publish(st, h)
		}
	}
	if on.says.Body != nil && !over {
		st.mu.Lock()
		h := heldBack{st.id(on.says), on.says}
		st.mu.Unlock()
		n.publish(st, h)
	}
}

// publish publishes an event that was held back.
func (n *Node) publish(st *station, h heldBack) {
	h.message.Seq = 0
	n.opt.Hub.Event(h.message)
	run, seq, data := n.opt.Hub.Latest(st.name)
	st.published(&flow.Event{ID: h.id, Seq: seq, Run: run, Body: data}, ofNode(h.message))
}

// complete shows the events that the other node has published and told with the record, and which did not come by
// themselves before it was lost: under their numbers, as its viewers have them.
func (n *Node) complete(st *station, on *goingOn, made []heldBack) {
	run, seq, _ := n.opt.Hub.Latest(st.name)
	st.mu.Lock()
	var missing []flow.Event
	for _, e := range on.told {
		if e.Run == run && e.Seq > seq {
			missing = append(missing, e)
			delete(on.published, e.ID)
		}
	}
	st.mu.Unlock()
	for _, e := range missing {
		if seq++; e.Seq != seq {
			return
		}
		i := slices.IndexFunc(made, func(h heldBack) bool { return h.id == e.ID })
		switch {
		case len(e.Body) > 0:
			st.mu.Lock()
			st.relay(&e)
			st.mu.Unlock()
			st.published(&e, true)
		case i >= 0:
			n.publish(st, made[i])
		default:
			return
		}
		on.published[e.ID] = true
	}
}

// tells notes events that were told with the record.
func (on *goingOn) tells(list []flow.Event) {
	if on.told = append(on.told, list...); len(on.told) > 2*mostTold {
		on.told = slices.Clone(on.told[len(on.told)-mostTold:])
	}
}

// mostTold is how many events of the other node are known by their numbers.
const mostTold = 64
