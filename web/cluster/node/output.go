package node

import (
	"encoding/json"
	"slices"
	"time"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/web/cluster/flow"
)

// An output passes on what is coached here, and tells the other nodes.
type output struct {
	node *Node
	next session.Output // ends at the hub
}

// Output returns an output in front of another one, which ends at the hub. All that is coached on this node goes
// through one.
func (n *Node) Output(next session.Output) session.Output { return &output{n, next} }

// Event publishes a message, unless another node published it before.
func (o *output) Event(m message.Message) {
	if info, ok := m.Body.(*message.Station); ok && info.Link == message.LinkGone {
		// A station at home that has a link to another node now is not gone.
		if holder, _ := o.node.holder(m.Station); holder != "" && holder != o.node.opt.Name {
			return
		}
	}
	st := o.node.station(m.Station)
	id, publish := st.publishes(&m)
	if !publish {
		return
	}
	o.next.Event(m)
	run, seq, data := o.node.opt.Hub.Latest(m.Station)
	once := ofNode(m)
	st.published(&flow.Event{ID: id, Seq: seq, Run: run, Body: data}, once)
	if once || !st.recorded() { // no datagram makes the first kind
		st.flush(time.Now(), true)
	}
}

// ofNode reports whether a message is of the node, and not of the flight: no other coach makes it.
func ofNode(m message.Message) bool {
	return m.Type() == message.TypeStation || m.Type() == message.TypeSession
}

// publishes says whether a message is to be published, and by which id. One that goes on with the numbering of another
// node has no number yet.
func (st *station) publishes(m *message.Message) (id string, publish bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	if info, ok := m.Body.(*message.Station); ok && info.Demonstration {
		st.own = true
	}
	if m.Seq == 1 { // a coach begins
		st.content.Clear()
		if st.goesOn != nil && !st.goesOn.playing {
			st.goesOn = nil
		}
	}
	id = st.id(*m)
	on := st.goesOn
	if on == nil {
		return id, true
	}
	if _, ok := m.Body.(*message.Station); ok && on.playing {
		on.says = *m
		return id, false
	}
	m.Seq = 0
	if on.playing {
		if on.kept = append(on.kept, heldBack{id, *m}); len(on.kept) > 2*mostKept {
			on.kept = slices.Clone(on.kept[len(on.kept)-mostKept:])
		}
		return id, false
	}
	return id, !on.published[id]
}

// published notes an event that the hub has; once says that no other coach makes it.
func (st *station) published(e *flow.Event, once bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	st.numbers.Note(e, false)
	if st.own || st.past {
		return
	}
	st.pending = append(st.pending, pending{*e, once})
}

// recorded reports whether the datagram that made an event is still to be recorded: then both are told together.
func (st *station) recorded() bool {
	st.mu.Lock()
	defer st.mu.Unlock()
	return st.tenure != nil
}

// Frame shows the present state, here and where somebody looks.
func (o *output) Frame(name string, f *coach.Frame) {
	st := o.node.station(name)
	if on := st.adopted(); on != nil && on.playing {
		return
	}
	o.next.Frame(name, f)
	if !o.node.wanted(st) {
		return
	}
	data, err := json.Marshal(message.Message{Station: name, Body: message.Frame{Frame: f}})
	if err == nil { // else the hub has said so
		o.node.opt.Flow.Tell(flow.Frames, name, data)
	}
}

// Watched reports whether anybody needs frames of the station, on any node.
func (o *output) Watched(name string) bool {
	if on := o.node.station(name).adopted(); on != nil && on.playing {
		return false
	}
	return o.next.Watched(name) || o.node.wanted(o.node.station(name))
}

// wanted reports whether another node needs frames.
func (n *Node) wanted(st *station) bool {
	return time.Since(n.started) < time.Duration(st.wanted.Load())
}

func (st *station) adopted() *goingOn {
	st.mu.Lock()
	defer st.mu.Unlock()
	return st.goesOn
}
