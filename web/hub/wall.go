package hub

import (
	"encoding/json"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"
	"time"

	"halfturn/coach/message"
)

// A wall shows all stations at once, each as a small sheet. Its viewers get no events: a message says what has changed
// since the one before, by the parts of the sheets, at most every wallGap. So nothing is queued, a viewer that is slow
// or was away misses no state, and costs the others nothing. Each part is encoded once for all viewers.
type wall struct {
	clock   atomic.Uint64 // counts the changes of all sheets
	viewers atomic.Int64
	looked  atomic.Int64 // the first half second of which the viewers there now have seen all

	mu      sync.Mutex // taken after a board's
	strange []*Viewer  // those that the pilots are told of
}

const (
	wallGap = 50 * time.Millisecond
	// A viewer that has missed as much of a turn gets its trace again.
	missedTurn = time.Second
)

// A wallView is one viewer's place at the wall. Only the viewer's writer uses it.
type wallView struct {
	hub   *Hub
	sees  func(*message.Station) bool // nil: all
	other bool                        // neither the pilot nor the owner of the machine
	mark  uint64                      // by the wall's clock, what the viewer has
	names []string                    // the stations it has; nil before its first message
	shown time.Time                   // when its last message went
	tick  int64                       // the half second before which it has the ticks
	buf   []byte
}

// joinWall adds a viewer of the wall. The hub is locked.
func (h *Hub) joinWall(v *Viewer, want Wish) {
	v.who, v.other = want.Who, want.Other
	v.wall = &wallView{hub: h, sees: want.Sees, other: want.Other}
	if want.Resume && want.Run == h.run && want.Since <= h.wall.clock.Load() {
		v.wall.mark = want.Since
	}
	if h.wall.viewers.Add(1) == 1 {
		h.wall.looked.Store(tickOf(time.Now()) + 1)
	}
	if v.other {
		h.wall.change(func(all []*Viewer) []*Viewer { return append(all, v) })
		h.musterAll()
	}
}

// leaveWall takes a viewer of the wall out. The hub is locked.
func (h *Hub) leaveWall(v *Viewer) {
	h.wall.viewers.Add(-1)
	if v.other {
		h.wall.change(func(all []*Viewer) []*Viewer {
			return slices.DeleteFunc(all, func(o *Viewer) bool { return o == v })
		})
		h.musterAll()
	}
}

// musterAll tells the pilots who watches now. The hub is locked.
func (h *Hub) musterAll() {
	for _, b := range h.order {
		b.mu.Lock()
		b.muster()
		b.mu.Unlock()
	}
}

func (w *wall) change(to func([]*Viewer) []*Viewer) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.strange = to(w.strange)
}

// others returns the viewers of the wall that the pilots are told of.
func (w *wall) others() []*Viewer {
	w.mu.Lock()
	defer w.mu.Unlock()
	return slices.Clone(w.strange)
}

// shows reports whether a station is on the viewer's wall, if only by its name.
func (w *wallView) shows(b *board) bool {
	return b.live() && !b.aside() && (w.sees == nil || w.sees(b.info.Load()))
}

// shut reports whether the viewer sees no more of a station than that it is private.
func (w *wallView) shut(b *board) bool { return w.other && b.private() }

// watches reports whether the viewer sees what is done at a station.
func (w *wallView) watches(b *board) bool { return w.shows(b) && !w.shut(b) }

// stations returns the boards on the viewer's wall, in the order they came, and their names: those that are there,
// without replays and demonstrations.
func (w *wallView) stations() ([]*board, []string) {
	w.hub.mu.Lock()
	defer w.hub.mu.Unlock()
	boards, names := []*board{}, []string{}
	for _, b := range w.hub.order {
		if w.shows(b) {
			boards, names = append(boards, b), append(names, b.name)
		}
	}
	return boards, names
}

// next returns the message that is due, nil when nothing has changed, and how long to wait for the one after. It is
// valid until the next call.
func (w *wallView) next(now time.Time) ([]byte, time.Duration) {
	gap := w.hub.pace.gap(wallGap)
	if wait := w.shown.Add(gap).Sub(now); wait > 0 {
		return nil, wait
	}
	mark := w.hub.wall.clock.Load()
	tick := tickOf(now)
	boards, names := w.stations()
	first := w.names == nil
	if !first && mark == w.mark && tick == w.tick && slices.Equal(names, w.names) {
		return nil, gap
	}
	w.begin(mark, now, names)
	count := 0
	for _, b := range boards {
		from := w.mark
		if !first && !slices.Contains(w.names, b.name) {
			from = 0 // it is new to this viewer
		}
		traced := first || from == 0 || now.Sub(w.shown) > missedTurn
		if w.append(b, from, mark, traced, tick) {
			count++
		}
	}
	w.buf = append(w.buf, "]}"...)
	unchanged := !first && count == 0 && slices.Equal(names, w.names)
	w.mark, w.names, w.shown, w.tick = mark, names, now, tick
	if unchanged {
		return nil, gap
	}
	return w.buf, gap
}

// begin writes what a message begins with.
func (w *wallView) begin(mark uint64, now time.Time, names []string) {
	head, _ := message.Head(message.TypeWall, "", 0) // two strings: cannot fail
	w.buf = append(w.buf[:0], head[:len(head)-1]...)
	w.buf = append(w.buf, `,"run":`...)
	w.buf = appendString(w.buf, w.hub.run)
	w.buf = append(w.buf, `,"mark":`...)
	w.buf = strconv.AppendUint(w.buf, mark, 10)
	w.buf = append(w.buf, `,"time":`...)
	w.buf = strconv.AppendInt(w.buf, now.UnixMilli(), 10)
	w.buf = append(w.buf, `,"names":`...)
	if w.names != nil && slices.Equal(names, w.names) {
		w.buf = append(w.buf, "null"...)
	} else {
		list, _ := json.Marshal(names) // strings: cannot fail
		w.buf = append(w.buf, list...)
	}
	w.buf = append(w.buf, `,"sheets":[`...)
}

// append writes what changed at a station after from and up to mark, and reports whether there was anything. What
// comes later waits for the next message.
func (w *wallView) append(b *board, from, mark uint64, traced bool, tick int64) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	s := &b.sheet
	start := len(w.buf)
	if w.buf[start-1] == '}' {
		w.buf = append(w.buf, ',')
	}
	w.buf = append(w.buf, b.sheetHead...)
	empty := len(w.buf)
	if w.shut(b) {
		if at := s.at[partInfo]; at <= from || at > mark {
			w.buf = w.buf[:start]
			return false
		}
		w.buf = append(w.buf, `,"private":true}`...)
		return true
	}
	for p := range partCount {
		if p == partNow {
			w.appendSaid(s.said, from, mark)
		}
		due := s.at[p] > from && s.at[p] <= mark || p == partTrace && traced
		if !due {
			continue
		}
		if data := b.part(p); data != nil {
			w.member(partNames[p], data)
		}
	}
	if tick != w.tick || from == 0 {
		row := s.ticks.written(tick, w.hub.wall.looked.Load(), s.link == "paused")
		w.buf = append(append(append(w.buf, `,"ticks":"`...), row...), '"')
	}
	if len(w.buf) == empty {
		w.buf = w.buf[:start]
		return false
	}
	w.buf = append(w.buf, '}')
	return true
}

func (w *wallView) member(name string, data []byte) {
	w.buf = append(append(append(w.buf, `,"`...), name...), `":`...)
	w.buf = append(w.buf, data...)
}

func (w *wallView) appendSaid(said []saidAt, from, mark uint64) {
	n := 0
	for i := range said {
		if c := &said[i]; c.at > from && c.at <= mark {
			if n++; n == 1 {
				w.buf = append(w.buf, `,"said":[`...)
			} else {
				w.buf = append(w.buf, ',')
			}
			w.buf = append(w.buf, c.data...)
		}
	}
	if n > 0 {
		w.buf = append(w.buf, ']')
	}
}

// appendString writes a string as JSON.
func appendString(data []byte, s string) []byte {
	text, _ := json.Marshal(s) // cannot fail
	return append(data, text...)
}
