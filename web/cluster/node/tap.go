package node

import (
	"bytes"
	"time"

	"halfturn/coach/ids"
	"halfturn/coach/message"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
	"halfturn/web/desk/practice"
	"halfturn/web/share/link"
)

// A tenure is what one node records of one session, from when it begins or goes on with it.
type tenure struct {
	id      string
	session string
	number  uint64 // of the last batch
	count   int    // of datagrams that were recorded
	batch   flow.Batch
	size    int
	since   time.Time // when the batch began
	from    string
	to      string
	progress
}

// mostBody bounds what is told of an event with a batch.
const mostBody = 8 << 10

// batchBytes is how long a batch may grow before it is told.
const batchBytes = 32 << 10

// tap makes the record of what is flown here. It implements practice.Tap.
type tap struct{ *Node }

// Tap returns what hears the recordings of this node.
func (n *Node) Tap() practice.Tap { return tap{n} }

// Begin begins a tenure.
func (t tap) Begin(b practice.Beginning) {
	st := t.station(b.Station)
	t.mu.Lock()
	t.flies(st, b.Opening.Session)
	t.mu.Unlock()
	st.begin(&b)
	t.stir()
}

// flies notes which session of a station is flown here. Of those before, it is known as long as they may wait to be
// entered. The node's lock is held.
func (n *Node) flies(st *station, session string) {
	st.mu.Lock()
	defer st.mu.Unlock()
	for id, of := range n.sessions {
		if of == st && id != st.before && id != session && st.finishedAt(id) < 0 {
			delete(n.sessions, id)
			delete(n.fences, id)
		}
	}
	st.before = session
	n.sessions[session] = st
}

func (st *station) begin(b *practice.Beginning) {
	st.mu.Lock()
	defer st.mu.Unlock()
	st.flew = ""
	if before := st.tenure; before != nil {
		before.ended = true
	}
	x := &tenure{id: ids.New(time.Now()), session: b.Opening.Session}
	st.session, st.tenure = x.session, x
	st.keeper.put(&step{claim: x})
	o := tenures.Opening{Comment: b.Recorded.Comment(), Tenure: x.id, Node: st.node.opt.Name}
	on := st.goesOn
	if on != nil && on.playing {
		o.After = on.after
		st.carry(x, on)
	} else {
		st.kept = nil
	}
	if len(b.Head) > 0 {
		x.from, x.to = b.Head[0].From.String(), b.Head[0].To.String()
	}
	o.From, o.To = x.from, x.to
	st.record(link.RecordOpening, time.Time{}, o.Encode())
	if on != nil && on.playing { // the tenure before has the head
		return
	}
	for i := range b.Head {
		st.datagram(link.RecordHead, &b.Head[i])
	}
}

// carry has batches kept that the node before told last, before those of a tenure that goes on from there. mu is held.
func (st *station) carry(x *tenure, on *goingOn) {
	for i := range on.carry {
		x.number++
		b := on.carry[i].Carry(x.number)
		st.keeper.put(&step{batch: b, of: x, kept: on.carry[i].At, size: b.Size()})
	}
	on.carry = nil
}

// Datagram records a datagram.
func (t tap) Datagram(session string, d practice.Datagram) {
	if st := t.flown(session); st != nil {
		st.add(&d)
	}
}

// flown is the station of a session that is flown here.
func (n *Node) flown(session string) *station {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.sessions[session]
}

func (st *station) add(d *practice.Datagram) {
	st.mu.Lock()
	if st.tenure == nil {
		st.mu.Unlock()
		return
	}
	st.datagram(link.RecordDatagram, d)
	due := len(st.pending) > 0 || st.tenure.size >= batchBytes || time.Since(st.tenure.since) >= st.node.opt.Times.Batch
	st.mu.Unlock()
	if due {
		st.flush(time.Now(), true)
	}
}

// datagram records a datagram with its comments. mu is held.
func (st *station) datagram(kind link.RecordType, d *practice.Datagram) {
	x := st.tenure
	if from, to := d.From.String(), d.To.String(); from != x.from || to != x.to {
		x.from, x.to = from, to
		st.record(link.RecordOpening, time.Time{}, tenures.Opening{From: from, To: to}.Encode())
	}
	for _, c := range d.Comments {
		st.record(link.RecordComment, time.Time{}, []byte(c))
	}
	st.record(kind, d.Received, bytes.Clone(d.Bytes))
	x.count++
	if x.size >= batchBytes && kind == link.RecordHead {
		st.cut()
	}
}

// record adds a record to the batch. mu is held.
func (st *station) record(kind link.RecordType, received time.Time, b []byte) {
	x := st.tenure
	if len(x.batch.Records) == 0 {
		x.since = time.Now()
	}
	r := link.Record{Type: kind, Bytes: b}
	if !received.IsZero() {
		r.Received = received.UnixNano()
	}
	x.batch.Records = append(x.batch.Records, r)
	x.size += r.Size()
}

// cut ends the batch, unless there is nothing in it: it is told, and waits to be kept. mu is held.
func (st *station) cut() {
	x := st.tenure
	if x == nil || len(x.batch.Records) == 0 && len(st.pending) == 0 {
		return
	}
	x.number++
	b := x.batch
	b.Station, b.Session, b.Number, b.Fence = st.name, x.session, x.number, st.fence(x)
	told := b
	for _, e := range st.pending { // who reads the record needs the ids alone, and who goes on what it cannot make
		is := flow.Event{ID: e.ID, Seq: e.Seq, Run: e.Run}
		b.Events = append(b.Events, is)
		if e.once && len(e.Body) < mostBody {
			is.Body = e.Body
		}
		told.Events = append(told.Events, is)
	}
	x.batch, x.size = flow.Batch{}, 0
	data, err := flow.EncodeBatch(&told)
	if err != nil {
		st.node.opt.Log.Error().Err(err).Str("station", st.name).Msg("a batch cannot be told, and is not kept")
		x.dropped = true
		return
	}
	st.node.opt.Flow.Tell(flow.Live, st.name, data)
	st.keeper.put(&step{batch: &b, of: x, kept: tenures.Point{Tenure: x.id, Number: b.Number}, size: b.Size()})
}

// fence is that of the lease of a tenure; 0 while there is none. mu is held.
func (st *station) fence(x *tenure) uint64 {
	if st.lease.Node == st.node.opt.Name && st.lease.Session == x.session {
		return st.lease.Fence
	}
	return 0
}

// flush tells what waits to be told: the batch before its events. Unless it is now, a batch waits to grow.
func (st *station) flush(now time.Time, at bool) {
	st.mu.Lock()
	defer st.mu.Unlock()
	x := st.tenure
	due := x != nil && len(x.batch.Records) > 0 && now.Sub(x.since) >= st.node.opt.Times.Batch
	if !at && !due && len(st.pending) == 0 {
		return
	}
	st.cut()
	for i := range st.pending {
		if data, err := flow.EncodeEvent(&st.pending[i].Event); err == nil {
			st.node.opt.Flow.Tell(flow.Events, st.name, data)
		} // else it is too long, and is asked for as part of the whole
	}
	clear(st.pending)
	st.pending = st.pending[:0]
}

// End ends a tenure.
func (t tap) End(session string) {
	st := t.flown(session)
	if st == nil {
		return
	}
	st.mu.Lock()
	if st.tenure != nil && st.tenure.session == session {
		st.record(link.RecordEnd, time.Time{}, []byte(session))
	}
	st.mu.Unlock()
	st.flush(time.Now(), true)
	heard := t.hearsNow(st.name)
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.tenure != nil && st.tenure.session == session {
		st.tenure.ended = true
		st.tenure, st.session = nil, ""
	}
	if st.flew == session { // it did not go on
		st.flew = ""
	}
	if !heard { // it waited for its station, which did not come
		st.coached = false
	}
}

// hearsNow reports whether a sender here has the name of a station.
func (n *Node) hearsNow(station string) bool {
	for _, h := range n.hearings() {
		if name, _ := h.heardAt(); name == station {
			return true
		}
	}
	return false
}

// Over notes that a session is entered: nothing of it is needed any more.
func (t tap) Over(session string) {
	st := t.flown(session)
	if st == nil {
		return
	}
	st.keeper.put(&step{over: session})
}

// Stored does nothing: the record does not come from the disk.
func (tap) Stored(string, string, int64) {}

// Complete does nothing.
func (tap) Complete(string, string) {}

// Private does nothing: every node keeps a private station from others.
func (tap) Private(string, bool) {}

// Shared is how the station is shared with another Halfturn: a cluster is one.
func (tap) Shared(string) *message.Share { return nil }
