// Package hub passes what the sessions produce to the viewers of the live socket. It keeps the latest of each
// station on a board, so that a viewer that joins midway sees what earlier viewers see, and encodes each message once.
// It never waits for a viewer: one that falls too far behind is closed, and may come back for what it missed.
package hub

import (
	"cmp"
	"context"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
)

// Bounds of what the hub keeps, whatever the number of stations and viewers.
const (
	eventsKept    = 512       // events kept per station, for viewers that come back
	bytesKept     = 128 << 10 // and how long they may be together: a few legs
	callouts      = 24        // callouts in a State: those of a leg in which much is said
	seriesKept    = 6         // series in a State
	goneKept      = 64        // stations that left and are still shown
	alwaysWatched = 8         // up to this number of live stations are followed without viewers
)

// A Hub takes what the sessions produce, keeps the latest of each station, and passes it
// to the viewers. Events reach every viewer in order; frames only as fast as a viewer
// takes them, the latest first. Each message is encoded once.
//
// A Hub is a session.Output and a prometheus.Collector. It is safe for use by many
// stations at once.
type Hub struct {
	version string
	log     zerolog.Logger
	run     string // differs at every start, so that old sequence numbers mean nothing
	runs    atomic.Uint64
	counts  counts
	pace    pace

	boards  sync.Map     // station name → *board
	live    atomic.Int64 // stations that are there, replays not among them
	waiting atomic.Int64 // viewers that would take any live station
	wall    wall

	mu      sync.Mutex // taken before a board's
	order   []*board   // as they came
	lobby   map[*Viewer]struct{}
	viewers map[*Viewer]struct{}
	closed  bool
	empty   chan struct{} // closed when the hub is and the last viewer left
}

var _ session.Output = (*Hub)(nil)

// New returns a hub without stations. The version is that of Halfturn.
func New(version string, log zerolog.Logger) *Hub {
	return &Hub{
		version: version,
		log:     log,
		run:     strconv.FormatInt(time.Now().UnixNano(), 36),
		counts:  newCounts(),
		lobby:   map[*Viewer]struct{}{},
		viewers: map[*Viewer]struct{}{},
		empty:   make(chan struct{}),
	}
}

// Event takes a message that no viewer may miss, and numbers it.
func (h *Hub) Event(m message.Message) {
	b := h.board(m.Station)
	was := b.live()
	if err := b.event(h, m); err != nil {
		h.log.Error().
			Err(err).
			Str("station", m.Station).
			Str("type", string(m.Type())).
			Msg("an event could not be written")
		return
	}
	h.counts.events.Inc()
	h.changed(b, was, m.Type() == message.TypeStation)
}

// Frame takes the state of now. The frame is encoded here and not kept.
func (h *Hub) Frame(station string, f *coach.Frame) {
	b := h.board(station)
	if err := b.showFrame(h, f); err != nil {
		h.log.Error().Err(err).Str("station", station).Msg("a frame could not be written")
	}
	if b.watchers.Load() > 0 || h.wall.viewers.Load() > 0 {
		runtime.Gosched() // lets the writers go first
	}
}

// Show puts a scene in the place of what is known of a station: every viewer of it is greeted
// again, and its events are numbered from the beginning.
func (h *Hub) Show(station string, scene *Scene) {
	b := h.board(station)
	was := b.live()
	b.show(h, scene)
	is := b.live()
	if was != is {
		h.count()
	}
	if is {
		h.adopt(b)
	}
}

// Version is the version of Halfturn.
func (h *Hub) Version() string { return h.version }

// Refused counts a connection that was turned away because too many were open.
func (h *Hub) Refused() { h.counts.refused.Inc() }

// Viewers returns the number of viewers of a station.
func (h *Hub) Viewers(station string) int {
	if b, ok := h.boards.Load(station); ok {
		return int(b.(*board).watchers.Load())
	}
	return 0
}

// Watched reports whether frames of a station are needed. Where few stations are live each is
// watched, so that a page opened in the middle of a leg has its trace; where there are many,
// only those with viewers are, and all while somebody looks at the wall.
func (h *Hub) Watched(station string) bool {
	if h.live.Load() <= alwaysWatched || h.wall.viewers.Load() > 0 {
		return true
	}
	b, ok := h.boards.Load(station)
	return ok && b.(*board).watchers.Load() > 0
}

// Stations returns the stations in the order in which they came.
func (h *Hub) Stations() []message.Station {
	h.mu.Lock()
	order := slices.Clone(h.order)
	h.mu.Unlock()
	all := make([]message.Station, 0, len(order))
	for _, b := range order {
		if info := b.info.Load(); info != nil && !b.overAgain() {
			all = append(all, *info)
		}
	}
	return all
}

// Has reports whether the hub knows the station.
func (h *Hub) Has(station string) bool {
	_, ok := h.boards.Load(station)
	return ok
}

// Plan returns what is flown at a station; nil when it is not known.
func (h *Hub) Plan(station string) *message.Chart {
	found, ok := h.boards.Load(station)
	if !ok {
		return nil
	}
	b := found.(*board)
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.plan
}

// Close ends all viewers with the code for a server that goes away, and takes no new ones.
func (h *Hub) Close(reason string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed {
		return
	}
	h.closed = true
	for v := range h.viewers {
		v.end(closeGoingAway, reason)
	}
	if len(h.viewers) == 0 {
		close(h.empty)
	}
}

// Drain waits for the viewers of a closed hub to be gone.
func (h *Hub) Drain(ctx context.Context) {
	select {
	case <-h.empty:
	case <-ctx.Done():
	}
}

// board finds or makes the station's board.
func (h *Hub) board(name string) *board {
	if b, ok := h.boards.Load(name); ok {
		return b.(*board)
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	if b, ok := h.boards.Load(name); ok {
		return b.(*board)
	}
	b := newBoard(name, h.nextRun(), &h.wall)
	h.order = append(h.order, b)
	h.boards.Store(name, b)
	return b
}

// count counts the live stations: one has come or gone.
func (h *Hub) count() {
	h.mu.Lock()
	defer h.mu.Unlock()
	n := 0
	for _, b := range h.order {
		if b.live() && !b.aside() {
			n++
		}
	}
	h.live.Store(int64(n))
}

func (h *Hub) nextRun() string {
	return h.run + "." + strconv.FormatUint(h.runs.Add(1), 36)
}

// Join lets a viewer in. With no station named it gets the first live one, or waits for it. It is false when the hub is
// closed or has as many viewers as the limit allows. Leave takes the viewer out again.
func (h *Hub) Join(want Wish, limit int) (*Viewer, bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.closed || len(h.viewers) >= limit {
		return nil, false
	}
	v := newViewer(&h.pace)
	h.viewers[v] = struct{}{}
	if want.Wall {
		h.joinWall(v, want)
		return v, true
	}
	v.anyStation, v.want = want.Station == "", want
	v.who, v.other = want.Who, want.Other
	b := h.pick(want)
	if b == nil {
		v.put(h.emptyHello(v))
		h.wait(v)
		v.named = want.Station
		return v, true
	}
	if v.anyStation && !b.live() {
		h.wait(v)
	}
	b.attach(h, v, want)
	return v, true
}

// Leave takes a viewer out.
func (h *Hub) Leave(v *Viewer) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.viewers, v)
	if v.wall != nil {
		h.leaveWall(v)
	}
	h.unwait(v)
	if v.board != nil {
		v.board.detach(v)
	}
	if h.closed && len(h.viewers) == 0 {
		close(h.empty)
	}
}

// pick returns the board asked for, else the first that is live, else the one that came last.
func (h *Hub) pick(want Wish) *board {
	if want.Station != "" {
		b, _ := h.boards.Load(want.Station)
		found, _ := b.(*board)
		return found
	}
	var last *board
	for _, b := range h.order {
		if b.aside() || !want.sees(b) {
			continue // only shown to viewers that ask for it
		}
		if b.live() {
			return b
		}
		last = b
	}
	return last
}

func (h *Hub) wait(v *Viewer) {
	if _, ok := h.lobby[v]; !ok {
		h.lobby[v] = struct{}{}
		h.waiting.Add(1)
	}
}

func (h *Hub) unwait(v *Viewer) {
	if _, ok := h.lobby[v]; ok {
		delete(h.lobby, v)
		h.waiting.Add(-1)
	}
}

// adopt gives a live station to the viewers that wait for it or for any.
func (h *Hub) adopt(b *board) {
	if h.waiting.Load() == 0 {
		return
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	for v := range h.lobby {
		if v.named != "" && v.named != b.name || v.named == "" && (b.aside() || !v.want.sees(b)) {
			continue
		}
		h.unwait(v)
		if v.board == b {
			continue
		}
		if v.board != nil {
			v.board.detach(v)
		}
		b.attach(h, v, Wish{})
	}
}

// left is called when a station went away: viewers that named none go to another one, and
// the stations that went longest ago are forgotten.
func (h *Hub) left(b *board) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for v := range h.viewers {
		if v.board != b || !v.anyStation {
			continue
		}
		if other := h.pick(Wish{Sees: v.want.Sees}); other != nil && other.live() {
			b.detach(v)
			other.attach(h, v, Wish{})
			continue
		}
		h.wait(v)
	}
	h.forget()
}

// forget drops the stations that went away longest ago and that nobody looks at, and of the
// replays all that are over.
func (h *Hub) forget() {
	gone, drop := []*board{}, []*board{}
	for _, b := range h.order {
		switch {
		case b.live() || b.watchers.Load() > 0:
		case b.overAgain():
			drop = append(drop, b)
		default:
			gone = append(gone, b)
		}
	}
	slices.SortFunc(gone, func(x, y *board) int { return cmp.Compare(x.leftAt.Load(), y.leftAt.Load()) })
	drop = append(drop, gone[:max(0, len(gone)-goneKept)]...)
	for _, b := range drop {
		h.boards.Delete(b.name)
	}
	h.order = slices.DeleteFunc(h.order, func(b *board) bool { return slices.Contains(drop, b) })
}

// names lists the stations that a viewer may know of, for its hello. The hub is locked.
func (h *Hub) names(v *Viewer) []string {
	all := make([]string, 0, len(h.order))
	for _, b := range h.order {
		if !b.overAgain() && (v.want.sees(b) || b.name == v.want.Station) {
			all = append(all, b.name)
		}
	}
	return all
}
