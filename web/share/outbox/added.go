package outbox

import (
	"encoding/json"
	"math"
	"path/filepath"
	"slices"

	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/web/share/link"
)

// mostActs is how many acts are sent at once: the longest remarks of as many are well below the longest message.
const mostActs = 50

// Acted notes that somebody added something to a session, and reports whether the school is to have it: nothing is said
// about a session that was not shared.
func (o *Outbox) Acted(id string) bool {
	if o.update(id, func(p *parcel) {
		p.changes++
		p.looked = false
	}) {
		return true
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	if !slices.Contains(o.list.Sent, id) {
		return false
	}
	o.sessions = append(o.sessions, &parcel{id: id, over: true, part: math.MaxInt32, received: true})
	return true
}

// added is the next message with what people added to a session; nil when all of it was sent.
func (o *Outbox) added(p *parcel, now parcel, dir string) (link.Message, error) {
	if now.looked {
		o.release(p)
		return nil, nil
	}
	notes, err := folder.ReadNotes(dir)
	if err != nil {
		return nil, err
	}
	all, err := folder.ReadActs(dir, notes)
	if err != nil {
		return nil, err
	}
	all = slices.DeleteFunc(all, notToSend)
	next := all[min(now.acts, len(all)):]
	next = next[:min(len(next), mostActs)]
	if len(next) == 0 {
		o.set(p, func() { p.looked = p.changes == now.changes })
		o.release(p)
		return nil, nil
	}
	text, err := json.Marshal(next)
	if err != nil {
		return nil, err
	}
	o.set(p, func() { p.acts = now.acts + len(next) })
	return &link.Acts{Session: filepath.Base(dir), From: now.acts, Acts: text}, nil
}

// notToSend are acts that say how the session is kept here.
func notToSend(a logbook.Act) bool { return a.Kind == logbook.ActKeep }

// Noted takes how many acts of a session the school has noted.
func (o *Outbox) Noted(n *link.Noted) {
	o.update(n.Session, func(p *parcel) { p.noted = n.Acts })
}

// release moves a session of which the school has everything to those that were sent.
func (o *Outbox) release(p *parcel) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if !p.done || !p.looked || p.noted < p.acts {
		return
	}
	p.reader.close()
	o.sessions = slices.DeleteFunc(o.sessions, func(other *parcel) bool { return other == p })
	o.list.Sent = slices.DeleteFunc(o.list.Sent, func(id string) bool { return id == p.id })
	o.list.Sent = append(o.list.Sent, p.id)
	if more := len(o.list.Sent) - mostSent; more > 0 {
		o.list.Sent = slices.Delete(o.list.Sent, 0, more)
	}
}
