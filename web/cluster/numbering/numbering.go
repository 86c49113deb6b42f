// Package numbering tells the events of a station apart: by what they say, the same on each node, and by their numbers.
package numbering

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strconv"

	"halfturn/coach/message"
	"halfturn/web/cluster/flow"
)

// most bounds the contents that are counted, and the events of a run that are known by their ids.
const most = 1 << 17

// A digest is of the content of an event.
type digest [8]byte

// Contents are how often each content was published in the session of a coach. The zero value is ready.
type Contents struct{ count map[digest]int }

// ID is the id of an event that is published now: of its content, and the how many-th of that content in the session it
// is, so that the same coach makes the same ids on another node. It is "" for what a station says of itself, which
// depends on when it was looked at, and for what cannot be written.
func (c *Contents) ID(m message.Message) string {
	if m.Type() == message.TypeStation {
		return ""
	}
	body, err := json.Marshal(m.Body)
	if err != nil { // the hub says so
		return ""
	}
	h := sha256.New()
	h.Write([]byte(m.Type()))
	h.Write(body)
	var d digest
	copy(d[:], h.Sum(nil))
	if c.count == nil || len(c.count) >= most {
		c.count = map[digest]int{}
	}
	c.count[d]++
	return hex.EncodeToString(d[:]) + "." + strconv.Itoa(c.count[d])
}

// Clear forgets what was published: a session begins.
func (c *Contents) Clear() { clear(c.count) }

// Numbers are the events of a station as they were numbered: the latest by their numbers, and all of the run that
// another node published, which a successor holds back. The zero value is ready.
type Numbers struct {
	run    string
	latest [latest]struct {
		seq uint64
		id  string
	}
	published map[string]bool
}

// latest is how many events are known by their number: as many as a hub keeps.
const latest = 512

// Note notes an event; elsewhere says that another node published it.
func (x *Numbers) Note(e *flow.Event, elsewhere bool) {
	if e.Run != x.run {
		x.run = e.Run
		clear(x.latest[:])
		x.published = nil
	}
	at := &x.latest[e.Seq%latest]
	at.seq, at.id = e.Seq, e.ID
	if !elsewhere {
		return
	}
	if x.published == nil || len(x.published) >= most {
		x.published = map[string]bool{}
	}
	x.published[e.ID] = true
}

// Has reports whether an event with its number is known.
func (x *Numbers) Has(e *flow.Event) bool {
	at := &x.latest[e.Seq%latest]
	return x.run == e.Run && at.seq == e.Seq && at.id == e.ID
}

// Of returns the id of an event; "" when it is not known.
func (x *Numbers) Of(run string, seq uint64) string {
	if at := &x.latest[seq%latest]; x.run == run && at.seq == seq {
		return at.id
	}
	return ""
}

// Latest are the latest events by their numbers, without what they say.
func (x *Numbers) Latest() (list []flow.Event) {
	for _, at := range x.latest {
		if at.seq > 0 {
			list = append(list, flow.Event{ID: at.id, Seq: at.seq, Run: x.run})
		}
	}
	return list
}

// Published are the ids of the events of the run that other nodes published, valid until the next call of Note.
func (x *Numbers) Published() map[string]bool { return x.published }
