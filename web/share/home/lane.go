package home

import (
	"bytes"
	"time"

	"halfturn/web/desk/practice"
	"halfturn/web/share/link"
)

// Limits of what waits to be sent live.
const (
	mostWaiting = 1 << 20 // bytes
	mostHistory = 512     // commands of a session, for a link that comes later
)

// A lane is the live lane. The caller guards it.
type lane struct {
	open    bool   // there is a link
	session string // that is being flown; "" is none
	station string // where it is, or the last one was
	opening []byte
	head    [][]byte // before the first sample, which may describe the format
	history [][]byte // comments since the opening
	last    time.Time
	queue   []link.Record
	size    int
	dropped uint64 // datagrams
}

// begin shows a session from now on.
func (l *lane) begin(b *practice.Beginning) {
	l.session, l.station, l.opening = b.Opening.Session, b.Station, []byte(b.Opening.Comment())
	l.history, l.head = nil, nil
	for i := range b.Head {
		l.head = append(l.head, bytes.Clone(b.Head[i].Bytes))
	}
	l.snapshot()
}

// snapshot queues what a viewer needs who was not there before, in the place of nothing.
func (l *lane) snapshot() {
	if !l.open || l.session == "" {
		return
	}
	l.put(link.Record{Type: link.RecordOpening, Bytes: l.opening})
	for _, b := range l.head {
		l.put(link.Record{Type: link.RecordHead, Received: l.last.UnixNano(), Bytes: b})
	}
	for _, b := range l.history {
		l.put(link.Record{Type: link.RecordComment, Bytes: b})
	}
}

// datagram queues a datagram with its comments.
func (l *lane) datagram(d *practice.Datagram) {
	b, received, comments := d.Bytes, d.Received, d.Comments
	first := l.last.IsZero()
	l.last = received
	if first && len(l.queue) > 0 { // the head has no times yet
		for i := range l.queue {
			l.queue[i].Received = received.UnixNano()
		}
	}
	for _, c := range comments {
		if len(l.history) == mostHistory {
			l.history = l.history[1:]
		}
		l.history = append(l.history, []byte(c))
	}
	if !l.open {
		return
	}
	if l.size+len(b) > mostWaiting {
		l.overflow()
		return // its comments are in the history
	}
	for _, c := range comments {
		l.put(link.Record{Type: link.RecordComment, Bytes: []byte(c)})
	}
	l.put(link.Record{Type: link.RecordDatagram, Received: received.UnixNano(), Bytes: bytes.Clone(b)})
}

// overflow leaves out what waits: the school shows the session again from here. Its recording has all of it.
func (l *lane) overflow() {
	l.dropped++
	for i := range l.queue {
		if l.queue[i].Type == link.RecordDatagram {
			l.dropped++
		}
	}
	l.clear()
	l.snapshot()
}

func (l *lane) clear() { l.queue, l.size = nil, 0 }

// end ends the session.
func (l *lane) end() {
	if l.open {
		l.put(link.Record{Type: link.RecordEnd, Bytes: []byte(l.session)})
	}
	l.session, l.opening, l.head, l.history, l.last = "", nil, nil, nil, time.Time{}
}

func (l *lane) put(r link.Record) {
	l.queue = append(l.queue, r)
	l.size += r.Size()
}

// connect begins a link, or ends one.
func (l *lane) connect(open bool) {
	l.clear()
	l.open = open
	l.snapshot()
}

// take removes the next batch; nil when nothing waits.
func (l *lane) take() *link.Live {
	if len(l.queue) == 0 {
		return nil
	}
	n, size := 1, l.queue[0].Size()
	for n < len(l.queue) && size+l.queue[n].Size() <= link.MostLive {
		size += l.queue[n].Size()
		n++
	}
	batch := &link.Live{Records: l.queue[:n:n]}
	l.queue = l.queue[n:]
	if len(l.queue) == 0 {
		l.queue = nil
	}
	for i := range batch.Records {
		l.size -= batch.Records[i].Size()
	}
	return batch
}
