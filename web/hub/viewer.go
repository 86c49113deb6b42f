package hub

import (
	"sync"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach/who"
)

// Bounds of one viewer.
const (
	queueSize = 256 // events a viewer may be behind
	// the least between two frames: thirty a second may be 13 ms uneven before one waits
	frameGap  = 20 * time.Millisecond
	writeWait = 5 * time.Second // for one message to leave
	pingEvery = 20 * time.Second
	pongWait  = 45 * time.Second // longer than two pings
	readLimit = 4 << 10          // bytes; viewers send nothing
)

// Close codes of RFC 6455, section 7.4.1, and of its registry (1013: try again later).
const (
	closeGoingAway = websocket.CloseGoingAway
	closeTryAgain  = websocket.CloseTryAgainLater
	closePolicy    = websocket.ClosePolicyViolation
)

// A Viewer is one socket's two lanes of encoded messages, which all viewers share: nobody changes them.
// Putting something in a lane never blocks. The hub alone touches board, named, anyStation and want, under its lock.
type Viewer struct {
	board      *board
	named      string // waits for this station only
	anyStation bool
	want       Wish
	wall       *wallView // of a viewer of all stations, which is on no board; nil else

	who   who.Who // who looks
	other bool    // neither the pilot nor the owner of the machine

	pace *pace
	wake chan struct{}

	mu      sync.Mutex
	backlog [][]byte  // what it missed before it came back
	queue   [][]byte  // the event lane, in order, with the frames that an event overtook
	passed  int       // frames in the queue
	company []byte    // who else watches, where that changed
	frame   []byte    // the snapshot lane
	shown   time.Time // when the last frame went
	ended   bool
	code    int
	reason  string
}

func newViewer(p *pace) *Viewer { return &Viewer{pace: p, wake: make(chan struct{}, 1)} }

// put adds an event. A frame that waits is older than the event and goes before it: shown after the end of a leg, it
// would begin that leg again on the page. A viewer too far behind is ended and told to come back for what it missed;
// put then returns false, once.
func (v *Viewer) put(m []byte) bool {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.ended {
		return true
	}
	if len(v.queue)-v.passed >= queueSize {
		v.stop(closeTryAgain, "too slow: come back for what you missed")
		return false
	}
	if v.frame != nil {
		v.queue = append(v.queue, v.frame)
		v.frame = nil
		v.passed++
	}
	v.queue = append(v.queue, m)
	v.rouse()
	return true
}

// catchUp adds what a viewer missed, however much: it is bounded by the ring.
func (v *Viewer) catchUp(missed [][]byte) {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.backlog = append(v.backlog, missed...)
	v.rouse()
}

// offer replaces the frame to be shown, and returns true when the one before it was never shown. The latest
// frame goes at once, or one gap after the last one that went; so none waits for longer than a gap.
func (v *Viewer) offer(m []byte) bool {
	v.mu.Lock()
	defer v.mu.Unlock()
	if v.ended {
		return false
	}
	waited := v.frame != nil
	v.frame = m
	if !waited { // else the writer knows already when it goes
		v.rouse()
	}
	return waited
}

// tell replaces what is to be told of who else watches.
func (v *Viewer) tell(m []byte) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if !v.ended {
		v.company = m
		v.rouse()
	}
}

// unframe takes back a frame that is not shown yet.
func (v *Viewer) unframe() {
	v.mu.Lock()
	defer v.mu.Unlock()
	v.frame = nil
}

// End asks for the socket to be closed because whoever watches may not any more.
func (v *Viewer) End(reason string) { v.end(closePolicy, reason) }

// end asks for the socket to be closed, after what is being written.
func (v *Viewer) end(code int, reason string) {
	v.mu.Lock()
	defer v.mu.Unlock()
	if !v.ended {
		v.stop(code, reason)
	}
}

func (v *Viewer) stop(code int, reason string) {
	v.ended, v.code, v.reason = true, code, reason
	v.backlog, v.queue, v.passed, v.frame, v.company = nil, nil, 0, nil, nil
	v.rouse()
}

func (v *Viewer) rouse() {
	select {
	case v.wake <- struct{}{}:
	default:
	}
}

// A load is what the viewer's writer has to do next.
type load struct {
	events [3][][]byte // the backlog, the queue, then who else watches
	frame  []byte
	wait   time.Duration // until the frame that waits is due; 0 when none does
	ended  bool
	code   int
	reason string
}

// take empties the lanes of what is due now.
func (v *Viewer) take(now time.Time) load {
	v.mu.Lock()
	defer v.mu.Unlock()
	l := load{ended: v.ended, code: v.code, reason: v.reason}
	l.events[0], l.events[1] = v.backlog, v.queue
	v.backlog, v.queue, v.passed = nil, nil, 0
	if v.company != nil {
		l.events[2], v.company = [][]byte{v.company}, nil
	}
	if v.frame == nil {
		return l
	}
	if l.wait = v.shown.Add(v.pace.gap(frameGap)).Sub(now); l.wait <= 0 {
		l.wait, l.frame, v.frame, v.shown = 0, v.frame, nil, now
	}
	return l
}

// load takes what is due now from the lanes, or at the wall.
func (v *Viewer) load(now time.Time) load {
	l := v.take(now)
	if v.wall != nil && !l.ended {
		l.frame, l.wait = v.wall.next(now)
	}
	return l
}

// A sink is the part of a WebSocket a viewer's writer needs.
type sink interface {
	SetWriteDeadline(t time.Time) error
	WriteMessage(messageType int, data []byte) error
	WriteControl(messageType int, data []byte, deadline time.Time) error
}

// pump writes the lanes to the socket until the viewer is ended, the socket fails, or done
// is closed because its reader stopped.
func (v *Viewer) pump(s sink, done <-chan struct{}) error {
	ping := time.NewTicker(pingEvery)
	defer ping.Stop()
	frame := time.NewTimer(time.Hour)
	defer frame.Stop()
	for {
		l := v.load(time.Now())
		if err := l.write(s); err != nil {
			return err
		}
		if l.ended {
			text := websocket.FormatCloseMessage(l.code, l.reason)
			return s.WriteControl(websocket.CloseMessage, text, time.Now().Add(writeWait))
		}
		frame.Stop()
		if l.wait > 0 {
			frame.Reset(l.wait)
		}
		select {
		case <-v.wake:
		case <-frame.C:
		case <-done:
			return nil
		case <-ping.C:
			if err := s.WriteControl(websocket.PingMessage, nil, time.Now().Add(writeWait)); err != nil {
				return err
			}
		}
	}
}

// write sends the events, then the frame, each with a deadline of its own.
func (l load) write(s sink) error {
	for _, lane := range l.events {
		for _, m := range lane {
			if err := writeOne(s, m); err != nil {
				return err
			}
		}
	}
	if l.frame == nil {
		return nil
	}
	return writeOne(s, l.frame)
}

func writeOne(s sink, m []byte) error {
	if err := s.SetWriteDeadline(time.Now().Add(writeWait)); err != nil {
		return err
	}
	return s.WriteMessage(websocket.TextMessage, m)
}
