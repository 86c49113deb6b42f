package nats

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	client "github.com/nats-io/nats.go"

	"halfturn/web/cluster/flow"
)

// How much waits to be told, and for a listener that is slow. What comes then is lost.
const (
	mostUnsent       = 8192
	mostUnsentBytes  = 16 << 20
	mostWaiting      = 4096
	mostWaitingBytes = 8 << 20
)

// A teller sends what is told from a goroutine of its own: to write to a server that is frozen takes up to a second.
type teller struct {
	queue chan told
	bytes atomic.Int64 // in the queue
}

type told struct {
	subject string
	text    []byte
}

// tellFormat is the first byte of what is told.
const tellFormat = 1

// Tell passes bytes to the nodes that listen to a topic.
func (e *Engine) Tell(topic flow.Topic, station string, b []byte) {
	if e.closed.Load() || len(b) > flow.MostBytes {
		return
	}
	to := make([]byte, 0, 1+8+2*binary.MaxVarintLen32+len(e.set.Node)+len(station)+len(b))
	to = append(to, tellFormat)
	to = binary.BigEndian.AppendUint64(to, uint64(e.set.Clock().UnixNano()))
	to = appendText(to, e.set.Node)
	to = appendText(to, station)
	to = append(to, b...)
	n := int64(len(to))
	if e.teller.bytes.Add(n) > mostUnsentBytes {
		e.teller.bytes.Add(-n)
		e.counts.unsent.Add(1)
		return
	}
	select {
	case e.teller.queue <- told{e.set.tell(string(topic), station), to}:
	default:
		e.teller.bytes.Add(-n)
		e.counts.unsent.Add(1)
	}
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

func (t *teller) run(e *Engine) func() {
	return func() {
		for {
			select {
			case <-e.ctx.Done():
				t.rest(e)
				return
			case m := <-t.queue:
				t.send(e, m)
			}
		}
	}
}

func (t *teller) send(e *Engine, m told) {
	t.bytes.Add(-int64(len(m.text)))
	if err := e.core.Publish(m.subject, m.text); err != nil {
		e.counts.unsent.Add(1)
	}
}

// rest sends what was told before the engine was closed, unless that takes long.
func (t *teller) rest(e *Engine) {
	for late := time.Now().Add(writeTimeout); time.Now().Before(late); {
		select {
		case m := <-t.queue:
			t.send(e, m)
		default:
			return
		}
	}
}

// heard takes apart what was told.
func heard(topic flow.Topic, text []byte) (t flow.Told, at time.Time, err error) {
	if len(text) < 9 || text[0] != tellFormat {
		return t, at, errors.New("it is not what a node tells, or one of another version")
	}
	at = time.Unix(0, int64(binary.BigEndian.Uint64(text[1:])))
	node, text, ok := cut(text[9:])
	station, text, too := cut(text)
	if !ok || !too {
		return t, at, errors.New("it ends too early")
	}
	return flow.Told{Topic: topic, Node: string(node), Station: string(station), Bytes: text}, at, nil
}

// cut returns bytes that follow their length, and the rest.
func cut(b []byte) (text, rest []byte, ok bool) {
	n, used := binary.Uvarint(b)
	if used <= 0 || n > uint64(len(b)-used) {
		return nil, nil, false
	}
	b = b[used:]
	return b[:n], b[n:], true
}

// ears are those who listen.
type ears struct {
	mu     sync.Mutex
	all    []*ear
	over   bool                                              // none is added any more
	answer func(ctx context.Context, question []byte) []byte // of this node; nil: it answers nothing
}

type ear struct {
	sub     *client.Subscription
	lost    int // as counted last
	mu      sync.Mutex
	stopped bool
}

// Listen calls take with what other nodes tell of a topic.
func (e *Engine) Listen(topic flow.Topic, station string, take func(flow.Told)) (stop func(), err error) {
	subject := e.set.tellAll(string(topic))
	if station != "" {
		subject = e.set.tell(string(topic), station)
	}
	return e.listen(topic, subject, func(t flow.Told, _ time.Time) {
		if station == "" || t.Station == station {
			take(t)
		}
	})
}

func (e *Engine) listen(topic flow.Topic, subject string, take func(flow.Told, time.Time)) (stop func(), err error) {
	if e.closed.Load() {
		return nil, flow.ErrClosed
	}
	r := &ear{}
	sub, err := e.core.Subscribe(subject, func(m *client.Msg) {
		t, at, err := heard(topic, m.Data)
		if err != nil {
			e.counts.poison.Add(1)
			e.warn(fmt.Errorf("what was told on %s is passed over: %w", m.Subject, err))
			return
		}
		r.mu.Lock()
		defer r.mu.Unlock()
		if !r.stopped {
			take(t, at)
		}
	})
	if err != nil {
		return nil, fmt.Errorf("cannot listen to %s at NATS (%s): %w", subject, e.at(), err)
	}
	r.sub = sub
	sub.SetPendingLimits(mostWaiting, mostWaitingBytes)
	if !e.ears.add(r) {
		return nil, flow.ErrClosed
	}
	if e.core.IsConnected() {
		e.core.FlushTimeout(attempt) // the server knows of it, or will when it is connected again
	}
	return func() { e.ears.remove(r) }, nil
}

// add adds an ear, unless the engine was closed meanwhile: then it hears nothing any more.
func (s *ears) add(r *ear) bool {
	s.mu.Lock()
	over := s.over
	if !over {
		s.all = append(s.all, r)
	}
	s.mu.Unlock()
	if over {
		r.sub.Unsubscribe()
		r.end()
	}
	return !over
}

// slow counts what an ear has lost.
func (s *ears) slow(e *Engine, sub *client.Subscription) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, r := range s.all {
		if r.sub == sub {
			e.count(r)
		}
	}
}

// count adds what was lost since the last time; the ears are locked.
func (e *Engine) count(r *ear) {
	if n, err := r.sub.Dropped(); err == nil && n > r.lost {
		e.counts.lost.Add(uint64(n - r.lost))
		r.lost = n
	}
}

func (s *ears) remove(r *ear) {
	s.mu.Lock()
	if i := slices.Index(s.all, r); i >= 0 {
		s.all = slices.Delete(s.all, i, i+1)
		r.sub.Unsubscribe()
	}
	s.mu.Unlock()
	r.end()
}

// end waits until take has returned; it is not called any more.
func (r *ear) end() {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.stopped = true
}

func (s *ears) stop() {
	s.mu.Lock()
	all := s.all
	s.all, s.over = nil, true
	s.mu.Unlock()
	for _, r := range all {
		r.sub.Unsubscribe()
		r.end()
	}
}

// clocks are by how much those of other nodes are ahead. What is told takes its time, so that a clock seems to be
// behind by that: the greatest of some time is nearest.
type clocks struct {
	mu  sync.Mutex
	of  map[string]*clock
	now time.Time // when the time began in which the greatest counts
}

type clock struct {
	known         bool
	ahead, before time.Duration // in this time, and in that before
	was           bool          // there is one before
}

const (
	clockTime  = 30 * time.Second
	mostClocks = 1000
)

func (e *Engine) listenToClocks() error {
	e.clocks.of = map[string]*clock{}
	_, err := e.listen(flow.Nodes, e.set.tellAll(string(flow.Nodes)), func(t flow.Told, at time.Time) {
		if t.Node == e.set.Node { // the connection does not return what this node tells
			e.twin(time.Now())
			return
		}
		now := e.set.Clock()
		e.clocks.add(t.Node, at.Sub(now), time.Now())
	})
	return err
}

func (c *clocks) add(node string, ahead time.Duration, now time.Time) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if now.Sub(c.now) > clockTime {
		c.now = now
		for name, is := range c.of {
			if !is.known {
				delete(c.of, name)
				continue
			}
			*is = clock{before: is.ahead, was: true}
		}
	}
	is := c.of[node]
	if is == nil {
		if len(c.of) >= mostClocks {
			return
		}
		is = &clock{}
		c.of[node] = is
	}
	if !is.known || ahead > is.ahead {
		is.known, is.ahead = true, ahead
	}
}

// Apart returns the node whose clock differs most from this one's.
func (e *Engine) Apart() (node string, ahead time.Duration) {
	e.clocks.mu.Lock()
	defer e.clocks.mu.Unlock()
	for name, is := range e.clocks.of {
		d := is.ahead
		if !is.known || is.was && is.before > d {
			d = is.before
		}
		if d.Abs() > ahead.Abs() || d.Abs() == ahead.Abs() && name < node {
			node, ahead = name, d
		}
	}
	return node, ahead
}
