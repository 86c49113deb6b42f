package hub

import (
	"bytes"
	"encoding/json"

	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/stream/pack"
)

// A station that is coached on another machine is relayed: its events come numbered and encoded, so that a viewer can
// resume on any machine with the numbering and the number it has.

// Latest returns the numbering of a station, the number of its latest event, and that event as it is encoded; nobody
// changes it. The number is 0 where there is none.
func (h *Hub) Latest(station string) (run string, seq uint64, data []byte) {
	found, ok := h.boards.Load(station)
	if !ok {
		return "", 0, nil
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.run, b.seq, b.backlog.latest()
}

// Since returns the events of a station after one, as they are encoded; ok is false where they are not known any more,
// or were numbered otherwise.
func (h *Hub) Since(station, run string, seq uint64) (events [][]byte, ok bool) {
	found, is := h.boards.Load(station)
	if !is {
		return nil, false
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.since(run, seq)
}

// since lists the events after one. The board is locked.
func (b *board) since(run string, seq uint64) ([][]byte, bool) {
	if run != b.run {
		return nil, false
	}
	return b.backlog.since(seq)
}

// Relay takes an event that was numbered elsewhere, as it is encoded, and does not change that. One that does not
// follow the latest begins another numbering: every viewer is greeted again.
func (h *Hub) Relay(run string, m message.Message, data []byte) {
	b := h.board(m.Station)
	was := b.live()
	b.relay(h, run, m, data)
	h.counts.events.Inc()
	h.changed(b, was, m.Type() == message.TypeStation)
}

// relay keeps an event and passes it to all viewers.
func (b *board) relay(h *Hub, run string, m message.Message, data []byte) {
	b.mu.Lock()
	defer b.mu.Unlock()
	broken := run != b.run || m.Seq != b.seq+1
	if broken {
		b.restart(h, m.Seq)
		b.run = run
	}
	b.take(h, m, data, broken)
}

// Hello returns all there is of a station, as a viewer is greeted with it; nil where there is no such station.
func (h *Hub) Hello(station string) []byte {
	found, ok := h.boards.Load(station)
	if !ok {
		return nil
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.hello(h.version, nil, &Viewer{})
}

// Adopt puts what another machine greets with in the place of what is known of a station: every viewer is greeted
// again. The error says that it is no Hello, or that its frame cannot be read.
func (h *Hub) Adopt(hello []byte) error {
	m, err := message.Decode(hello)
	if err != nil {
		return err
	}
	g, ok := m.Body.(*message.Hello)
	if !ok {
		return &json.UnmarshalTypeError{Value: string(m.Type()), Field: "type"}
	}
	s, err := sceneOf(g)
	if err != nil {
		return err
	}
	b := h.board(m.Station)
	was := b.live()
	b.adopt(h, s, g.Run, m.Seq)
	h.changed(b, was, true)
	return nil
}

// adopt replaces the state of the station, and its numbering.
func (b *board) adopt(h *Hub, s *Scene, run string, seq uint64) {
	var data []byte
	if s.frame != nil {
		data, _ = b.frameMessage(s.frame) // without it a viewer waits for the next one
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	was := b.private()
	b.restart(h, seq+1)
	b.run, b.seq, b.frame, b.memory = run, seq, data, s.memory
	b.renew(&h.wall)
	if s.info != nil {
		b.station(s.info)
	}
	for v := range b.viewers {
		b.greet(h, v, nil)
	}
	b.opened(h, was)
}

// sceneOf is what a Hello tells.
func sceneOf(g *message.Hello) (*Scene, error) {
	s := &Scene{info: g.Info}
	s.memory = memory{
		plan:     g.Plan,
		lastPlan: g.LastPlan,
		callouts: g.Callouts,
		acted:    g.Acted,
	}
	if g.Last != nil {
		s.last, s.side = pack.Of(g.Last), g.Last.Direction
	}
	if g.Other != nil {
		s.other = pack.Of(g.Other)
	}
	for _, x := range g.Series {
		if x != nil {
			s.series = append(s.series, pack.Of(x))
		}
	}
	if s.lastPlan == nil {
		s.lastPlan = s.plan
	}
	if len(g.Frame) == 0 || bytes.Equal(g.Frame, []byte("null")) {
		return s, nil
	}
	f, err := g.Frame.Frame()
	if err != nil {
		return nil, err
	}
	s.frame, s.now = f, f.Time
	s.trace.points, s.trace.direction = g.Trace, f.Direction
	return s, nil
}

// Gone forgets that a station that is coached elsewhere is there: its machine was lost, and no other one has it.
func (h *Hub) Gone(station string) {
	found, ok := h.boards.Load(station)
	if !ok {
		return
	}
	b := found.(*board)
	info := b.info.Load()
	if info == nil || info.Link == message.LinkGone {
		return
	}
	gone := *info
	gone.Link = message.LinkGone
	h.Event(message.Message{Station: station, Body: &gone})
}

// changed follows that a station came or went with a message.
func (h *Hub) changed(b *board, was, tells bool) {
	is := b.live()
	if was != is {
		h.count()
	}
	switch {
	case was && !is && tells:
		h.left(b)
	case is:
		h.adopt(b)
	}
}

// Company lists who else watches a station here: the others, and not who watches elsewhere; nil is nobody.
func (h *Hub) Company(station string) *message.Watching {
	found, ok := h.boards.Load(station)
	if !ok {
		return nil
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	w := b.here()
	if len(w.Watchers) == 0 && w.Nameless == 0 {
		return nil
	}
	byName(w)
	return w
}

// here lists the others who watch here. The board is locked.
func (b *board) here() *message.Watching {
	w := &message.Watching{Watchers: []who.Who{}}
	add := func(v *Viewer) {
		if v.other && !b.shuts(v) {
			join(w, v.who)
		}
	}
	for v := range b.viewers {
		add(v)
	}
	for _, v := range b.wall.others() {
		if v.wall.watches(b) {
			add(v)
		}
	}
	return w
}
