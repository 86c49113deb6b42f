package hub

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	fastjson "github.com/segmentio/encoding/json"

	"halfturn/coach"
	"halfturn/coach/message"
)

// A board holds the latest of one station, and its viewers.
type board struct {
	name   string
	prefix []byte // how every frame message of the station begins
	wall   *wall

	sheetHead []byte // how the sheet of the station begins, without the brace at its end
	watchers  atomic.Int64
	info      atomic.Pointer[message.Station]
	leftAt    atomic.Int64 // when it went away, Unix nanoseconds

	mu      sync.Mutex
	run     string
	seq     uint64
	backlog backlog
	viewers map[*Viewer]struct{}

	watching *message.Watching // who else watches, as the viewers know it; nil is nobody
	mustered bool              // somebody else watched
	// elsewhere is who watches at another Halfturn; nil is nobody.
	elsewhere *message.Watching

	frame   []byte    // the latest frame, as a message
	encoded time.Time // when one was encoded, while viewers are sent fewer frames than usual
	sheet   sheet     // for the wall
	memory
}

func newBoard(name, run string, w *wall) *board {
	head, _ := message.Head(message.TypeFrame, name, 0) // two strings: cannot fail
	head[len(head)-1] = ','
	return &board{
		name:   name,
		prefix: head,
		wall:   w,

		sheetHead: appendString([]byte(`{"name":`), name),

		run:     run,
		backlog: backlog{first: 1},
		viewers: map[*Viewer]struct{}{},
	}
}

// live reports whether the station is there, streaming or not.
func (b *board) live() bool {
	info := b.info.Load()
	return info != nil && info.Link != message.LinkGone
}

// aside reports whether nobody sits at the station: it is a replay or a demonstration.
func (b *board) aside() bool {
	info := b.info.Load()
	return info != nil && (info.Replay != nil || info.Demonstration)
}

// overAgain reports whether it is a replay or a demonstration that has ended.
func (b *board) overAgain() bool { return b.aside() && !b.live() }

// show replaces the state of the station by a scene.
func (b *board) show(h *Hub, s *Scene) {
	var data []byte
	if s.frame != nil {
		data, _ = b.frameMessage(s.frame) // without it a viewer waits for the next one
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.restart(h, 1)
	b.seq, b.frame, b.memory = 0, data, s.memory
	b.series, b.callouts = slices.Clone(s.series), slices.Clone(s.callouts)
	b.trace.points = slices.Clone(s.trace.points)
	b.renew(&h.wall)
	if s.info != nil {
		b.station(s.info)
	}
	for v := range b.viewers {
		b.greet(h, v, nil)
	}
}

// event keeps a message and passes it to all viewers.
func (b *board) event(h *Hub, m message.Message) error {
	b.mu.Lock()
	defer b.mu.Unlock()
	if m.Seq == 0 {
		m.Seq = b.seq + 1
	}
	broken := m.Seq != b.seq+1
	data, err := json.Marshal(m)
	if err != nil {
		return err
	}
	if broken {
		b.restart(h, m.Seq)
	}
	b.take(h, m, data, broken)
	return nil
}

// take keeps an encoded message and passes it to all viewers; broken says that a numbering begins with it. The board
// is locked.
func (b *board) take(h *Hub, m message.Message, data []byte, broken bool) {
	was := b.private()
	b.keep(m.Body)
	b.note(&h.wall, m.Body)
	b.seq = m.Seq
	b.backlog.add(data)
	for v := range b.viewers {
		switch {
		case was && v.other: // if that ends now, all of it comes below
		case broken: // its numbers are meaningless from here on
			b.greet(h, v, nil)
		case !b.shuts(v) && !v.put(data):
			h.counts.overflows.Inc()
		}
	}
	b.opened(h, was)
}

// restart begins a new numbering. One that goes back is a new session of the same station.
func (b *board) restart(h *Hub, seq uint64) {
	if seq <= b.seq {
		b.frame, b.memory = nil, memory{plan: b.plan, acted: b.acted}
		b.renew(&h.wall)
	}
	b.run = h.nextRun()
	b.backlog.restart(seq)
}

// keep keeps what a State needs of a message.
func (b *board) keep(body message.Body) {
	if info, ok := body.(*message.Station); ok {
		b.station(info)
		return
	}
	b.memory.keep(body)
}

func (b *board) station(s *message.Station) {
	if s.Link == message.LinkGone && b.live() {
		b.leftAt.Store(time.Now().UnixNano())
	}
	b.info.Store(s)
}

// showFrame encodes the frame, keeps it, and offers it to all viewers.
func (b *board) showFrame(h *Hub, f *coach.Frame) error {
	if least := time.Duration(h.pace.least.Load()); least > 0 && b.hurries(h, f, least) {
		return nil
	}
	data, err := b.frameMessage(f)
	if err != nil {
		return err
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.frame = data
	b.moment(f)
	b.noteFrame(&h.wall, f)
	for v := range b.viewers {
		if !b.shuts(v) && v.offer(data) {
			h.counts.coalesced.Inc()
		}
	}
	return nil
}

// hurries reports whether a frame comes sooner after the last one that was encoded than viewers are sent any, while
// they are sent fewer than usual. Then it is only looked at for what is kept of the flight.
func (b *board) hurries(h *Hub, f *coach.Frame, least time.Duration) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	now := time.Now()
	if now.Sub(b.encoded) >= least {
		b.encoded = now
		return false
	}
	b.moment(f)
	b.noteFrame(&h.wall, f)
	h.counts.coalesced.Add(float64(len(b.viewers)))
	return true
}

// frameMessage encodes a frame as it goes out, as encoding/json would, in a third of the time: frames are encoded
// between datagram and page, thirty per second and station.
func (b *board) frameMessage(f *coach.Frame) ([]byte, error) {
	last := len(b.prefix) - 1 // a comma, which takes the place of the frame's brace
	data := append(make([]byte, 0, frameBytes), b.prefix[:last]...)
	data, err := fastjson.Append(data, f, fastjson.EscapeHTML|fastjson.SortMapKeys)
	if err != nil {
		return nil, fmt.Errorf("frame at %g s: %w", f.Time, err)
	}
	data[last] = ','
	return data, nil
}

// frameBytes is the size of most frames.
const frameBytes = 1024

// attach adds a viewer. One that comes back gets what it missed; where that is no longer
// known, and to a new viewer, it sends the whole state.
func (b *board) attach(h *Hub, v *Viewer, want Wish) {
	b.mu.Lock()
	defer b.mu.Unlock()
	v.board = b
	b.viewers[v] = struct{}{}
	b.watchers.Add(1)
	defer b.muster()
	run := want.Run
	if run == "" {
		run = b.run
	}
	if missed, ok := b.since(run, want.Since); ok && want.Resume && !b.shuts(v) {
		v.catchUp(missed)
		if b.frame != nil {
			v.offer(b.frame)
		}
		if b.mustered { // it may have changed meanwhile
			v.tell(b.companyMessage())
		}
		return
	}
	b.greet(h, v, h.names(v))
}

func (b *board) detach(v *Viewer) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if _, ok := b.viewers[v]; ok {
		delete(b.viewers, v)
		b.watchers.Add(-1)
		b.muster()
	}
	v.board = nil
}

// hello encodes all that a viewer needs. The board is locked; names may be nil when the viewer has them.
func (b *board) hello(version string, names []string, v *Viewer) []byte {
	if names == nil {
		names = []string{b.name}
	}
	g := &message.Hello{
		Version:  message.Version,
		Server:   version,
		Stations: names,
		Info:     b.info.Load(),
		Plan:     b.plan,
		Trace:    b.trace.points,
		Last:     b.last.Unpack(),
		LastPlan: b.before(),
		Other:    b.other.Unpack(),
		Series:   b.latestSeries(),
		Callouts: b.callouts,
		Run:      b.run,
		Acted:    b.acted,
		Watching: b.watching,
		You:      v.you(),
	}
	if b.frame != nil {
		g.Frame = bytes.Join([][]byte{[]byte("{"), b.frame[len(b.prefix):]}, nil)
	}
	return encodeHello(message.Message{Station: b.name, Seq: b.seq, Body: g})
}

// emptyHello is the Hello of a station that is not there. The hub is locked.
func (h *Hub) emptyHello(v *Viewer) []byte {
	g := &message.Hello{Version: message.Version, Server: h.version, Stations: h.names(v), Run: h.run}
	return encodeHello(message.Message{Station: v.want.Station, Body: g})
}

// encodeHello cannot fail: all that is in a Hello was encoded before, when it came.
func encodeHello(m message.Message) []byte {
	data, err := json.Marshal(m)
	if err != nil {
		panic(fmt.Sprintf("web: a state that was written before cannot be written again: %v", err))
	}
	return data
}
