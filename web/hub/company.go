package hub

import (
	"encoding/json"
	"slices"
	"strings"

	"halfturn/coach/message"
	"halfturn/coach/who"
)

// Company is who else watches a station. Its pilot is told, and may shut them out: a private station shows others
// nothing but that it is private, until its pilot shares it again.

// Tell sends a message to the viewers of a station beside its events: it has no number, and who comes later does not
// get it.
func (h *Hub) Tell(m message.Message) {
	found, ok := h.boards.Load(m.Station)
	if !ok {
		return
	}
	m.Seq = 0
	data, err := json.Marshal(m)
	if err != nil {
		h.log.Error().Err(err).Str("station", m.Station).Str("type", string(m.Type())).Msg("it could not be written")
		return
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	for v := range b.viewers {
		if !b.shuts(v) && !v.put(data) {
			h.counts.overflows.Inc()
		}
	}
}

// Private reports whether the pilot of a station shares it with nobody.
func (h *Hub) Private(station string) bool {
	found, ok := h.boards.Load(station)
	return ok && found.(*board).private()
}

// private reports whether the station is shared with nobody. A recording of it is not.
func (b *board) private() bool {
	info := b.info.Load()
	return info != nil && info.Private && info.Replay == nil
}

// shuts reports whether a viewer is shut out.
func (b *board) shuts(v *Viewer) bool { return v.other && b.private() }

// greet sends a viewer all there is of the station, or that it is private. The board is locked.
func (b *board) greet(h *Hub, v *Viewer, names []string) {
	v.unframe()
	if b.shuts(v) {
		v.put(encodeHello(message.Message{Station: b.name, Body: &message.Hello{
			Version:  message.Version,
			Server:   h.version,
			Stations: []string{b.name},
			Run:      b.run,
			You:      v.you(),
			Private:  true,
		}}))
		return
	}
	v.put(b.hello(h.version, names, v))
}

// you is what a viewer is told of itself; the owner needs no name.
func (v *Viewer) you() who.Who {
	if v.who == who.Owner() {
		return who.Who{}
	}
	return v.who
}

// opened greets the others again when the station became private, or is shared again, and tells who watches now. The
// board is locked.
func (b *board) opened(h *Hub, was bool) {
	if b.private() == was {
		return
	}
	for v := range b.viewers {
		if v.other {
			b.greet(h, v, nil)
		}
	}
	b.muster()
}

// muster tells the viewers who else watches, where that changed. The board is locked.
func (b *board) muster() {
	now := b.company()
	if sameCompany(b.watching, now) {
		return
	}
	b.watching, b.mustered = now, true
	data := b.companyMessage()
	for v := range b.viewers {
		if !b.shuts(v) {
			v.tell(data)
		}
	}
}

// companyMessage tells who else watches. The board is locked.
func (b *board) companyMessage() []byte {
	body := b.watching
	if body == nil {
		body = &message.Watching{Watchers: []who.Who{}}
	}
	data, _ := json.Marshal(message.Message{Station: b.name, Body: body}) // names and a number: cannot fail
	return data
}

// company lists who else watches; nil is nobody. The board is locked.
func (b *board) company() *message.Watching {
	w := b.here()
	if e := b.elsewhere; e != nil && !b.private() {
		w.Nameless += e.Nameless
		for _, x := range e.Watchers {
			join(w, x)
		}
	}
	if len(w.Watchers) == 0 && w.Nameless == 0 {
		return nil
	}
	byName(w)
	return w
}

// join adds somebody; one person may have several pages open.
func join(w *message.Watching, x who.Who) {
	switch {
	case x.Name == "":
		w.Nameless++
	case !slices.Contains(w.Watchers, x):
		w.Watchers = append(w.Watchers, x)
	}
}

func byName(w *message.Watching) {
	slices.SortFunc(w.Watchers, func(x, y who.Who) int { return strings.Compare(x.Name, y.Name) })
}

// sameCompany reports whether two lists name the same; nil is nobody.
func sameCompany(x, y *message.Watching) bool {
	if x == nil || y == nil {
		return x == y
	}
	return x.Nameless == y.Nameless && slices.Equal(x.Watchers, y.Watchers)
}

// Audience lists all who watch a station here, for its pilot at another Halfturn.
func (h *Hub) Audience(station string) *message.Watching {
	w := &message.Watching{Watchers: []who.Who{}}
	found, ok := h.boards.Load(station)
	if !ok {
		return w
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	for v := range b.viewers {
		join(w, v.who)
	}
	for _, v := range b.wall.others() {
		if v.wall.watches(b) {
			join(w, v.who)
		}
	}
	byName(w)
	return w
}

// Elsewhere says who watches a station at another Halfturn. Its pilot is told of them too.
func (h *Hub) Elsewhere(station string, w *message.Watching) {
	found, ok := h.boards.Load(station)
	if !ok {
		return
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	b.elsewhere = w
	b.muster()
}
