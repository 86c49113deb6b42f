package story

import (
	"context"
	"encoding/json"
	"fmt"
	"net/url"
	"strconv"
	"sync"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach"
	"halfturn/coach/message"
)

// How soon a viewer misses its node.
const (
	pingEvery = time.Second
	missed    = 3 * time.Second // without an answer
	again     = 200 * time.Millisecond
)

// A viewer is a page that shows a station. When its node does not answer it goes to another one, and says what it has.
type viewer struct {
	number  int
	station string
	nodes   []*node
	home    int  // the node that it begins at, of nodes
	at      int  // the node that it is at
	patient bool // it stays at a node that does not answer while the connection is open
	ledger  *ledger

	run   string          // of the numbering
	seq   uint64          // of the last event
	legs  map[string]int  // that are on the page: how often each was shown since it was greeted last
	seen  map[string]bool // all that came by themselves
	shown map[string]bool // all that a greeting showed

	mu   sync.Mutex
	conn *websocket.Conn // nil: none
	back bool            // to the node where it began
}

// goHome has a viewer go back to the node where it began.
func (v *viewer) goHome() {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.conn != nil && v.at != v.home {
		v.back = true
		v.conn.Close()
	}
}

// joined notes the connection of the viewer, and where it goes when there is none any more.
func (v *viewer) joined(conn *websocket.Conn) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.conn = conn; conn != nil {
		return
	}
	if v.at = (v.at + 1) % len(v.nodes); v.back {
		v.at, v.back = v.home, false
	}
}

func (v *viewer) String() string {
	return fmt.Sprintf("viewer %d of %s at %s", v.number, v.station, v.nodes[v.at].name)
}

// watch watches until the context ends.
func (v *viewer) watch(ctx context.Context) {
	v.legs, v.seen, v.shown = map[string]int{}, map[string]bool{}, map[string]bool{}
	for ctx.Err() == nil {
		conn, err := v.connect(ctx)
		if err == nil {
			v.joined(conn)
			v.follow(ctx, conn)
			conn.Close()
		}
		if ctx.Err() != nil {
			return
		}
		v.joined(nil)
		select {
		case <-ctx.Done():
		case <-time.After(again):
		}
	}
}

func (v *viewer) connect(ctx context.Context) (*websocket.Conn, error) {
	q := url.Values{"station": {v.station}}
	if v.run != "" {
		q.Set("run", v.run)
		q.Set("since", strconv.FormatUint(v.seq, 10))
	}
	ctx, cancel := context.WithTimeout(ctx, missed)
	defer cancel()
	conn, _, err := websocket.DefaultDialer.DialContext(ctx, "ws://"+v.nodes[v.at].pages+"/live?"+q.Encode(), nil)
	if err == nil && v.run != "" {
		v.ledger.mu.Lock()
		v.ledger.counts.resumed++
		v.ledger.mu.Unlock()
	}
	return conn, err
}

// follow reads until the connection breaks.
func (v *viewer) follow(ctx context.Context, conn *websocket.Conn) {
	defer context.AfterFunc(ctx, func() { conn.Close() })()
	if !v.patient {
		ending, stop := context.WithCancel(ctx)
		defer stop()
		_ = conn.SetReadDeadline(time.Now().Add(missed)) // a connection that is closed is noticed by reading
		conn.SetPongHandler(func(string) error { return conn.SetReadDeadline(time.Now().Add(missed)) })
		go func() {
			for tick := time.NewTicker(pingEvery); ; {
				select {
				case <-ending.Done():
					tick.Stop()
					return
				case <-tick.C:
					_ = conn.WriteControl(websocket.PingMessage, nil, time.Now().Add(pingEvery))
				}
			}
		}()
	}
	for {
		_, data, err := conn.ReadMessage()
		if err != nil {
			return
		}
		v.take(data)
	}
}

// take takes a message.
func (v *viewer) take(data []byte) {
	var head struct {
		Type message.Type
		Time float64 // of a frame
	}
	if err := json.Unmarshal(data, &head); err != nil {
		v.wrong("a message that cannot be read: %v", err)
		return
	}
	if head.Type == message.TypeFrame { // most are, and need no more
		v.ledger.frame(v.station, head.Time)
		return
	}
	m, err := message.Decode(data)
	if err != nil {
		v.wrong("%v", err)
		return
	}
	if hello, ok := m.Body.(*message.Hello); ok {
		v.greeted(m.Seq, hello)
		return
	}
	if m.Seq == 0 || m.Station != v.station {
		return
	}
	v.ledger.event(v, m)
	v.seq = m.Seq
}

// greeted takes that everything is shown again. That is right at first, and when the station had left: its numbering is
// another one then.
func (v *viewer) greeted(seq uint64, h *message.Hello) {
	l := v.ledger
	l.mu.Lock()
	defer l.mu.Unlock()
	if v.run != "" && v.run == h.Run {
		l.counts.greeted++
		l.note("%v is greeted again: it has event %d, and is shown %d", v, v.seq, seq)
	}
	v.run, v.seq = h.Run, seq
	clear(v.legs) // the page shows what the greeting has, and nothing else
	if h.Last != nil {
		v.shows(h.Last)
	}
	for _, s := range h.Series {
		for i := range s.Legs {
			v.shows(&s.Legs[i])
		}
	}
}

// shows notes a leg of a greeting.
func (v *viewer) shows(leg *coach.Leg) {
	key := keyOf(leg)
	v.legs[key], v.shown[key] = 1, true
}

func (v *viewer) wrong(format string, args ...any) {
	v.ledger.mu.Lock()
	defer v.ledger.mu.Unlock()
	v.ledger.counts.lost++
	v.ledger.note("%v gets "+format, append([]any{v}, args...)...)
}
