package school

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"sync"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach/message"
	"halfturn/stream/phrase"
	"halfturn/web/share/link"
)

// mostOut is how many messages wait for a home. One that does not read is left.
const mostOut = 64

// mostAsked is how many commands a home may have to answer at once.
const mostAsked = 32

// A served link. Its goroutines are the reader, which is that of the request, and a writer.
type served struct {
	conn   *websocket.Conn
	remote string // the address of the home
	out    chan link.Message
	stop   chan struct{} // closed when the link is to end
	ended  chan struct{} // closed when it has
	once   sync.Once
	bye    *link.Bye // why it ends; set before stop is closed; nil is nothing to say

	mu    sync.Mutex
	asked map[string]*question
	told  *message.Watching
}

// serve serves a link until it ends.
func (s *Server) serve(conn *websocket.Conn, name, key, remote string) {
	log := s.opt.Log.With().Str("station", name).Str("remote", remote).Logger()
	l := &served{
		conn:   conn,
		remote: remote,
		out:    make(chan link.Message, mostOut),
		stop:   make(chan struct{}),
		ended:  make(chan struct{}),
		asked:  map[string]*question{},
	}
	defer close(l.ended)
	st, err := s.attach(name, l)
	var wait sync.WaitGroup
	part := func(work func()) { // the link ends where a part of it does
		s.opt.Faults.Run("share", name, work)
		l.end(nil)
	}
	wait.Go(func() { part(l.write) })
	wait.Go(func() { part(func() { s.watch(l, name, key) }) })
	if err == nil {
		log.Info().Msg("the station at home is here")
		s.counts.links.Inc()
		s.counts.up.Inc()
		if !s.opt.Faults.Run("share", name, func() { err = s.receive(st, l) }) {
			err = phrase.InternalError.Error()
		}
		s.counts.up.Dec()
		st.detach(l, time.Now())
		s.lose(st, time.Now())
	}
	l.end(byeOf(err))
	wait.Wait()
	log.Info().Err(err).Msg("the link to the station at home has ended")
}

// byeOf is what a home is told of why its link ends; nil when the link is lost.
func byeOf(err error) *link.Bye {
	var wrong *wrongError
	var told *phrase.Error
	switch {
	case errors.As(err, &told):
		return &link.Bye{Why: phrase.OfError(told), Slow: true}
	case errors.As(err, &wrong):
		return &link.Bye{Why: phrase.ShareMalformed.Of(phrase.Name("why", wrong.Error())), Slow: true}
	}
	return nil
}

// A wrongError is something that no home of this version sends.
type wrongError struct{ words string }

// Error says what.
func (e *wrongError) Error() string { return e.words }

// attach gives a link its station. A link that the station has is replaced: the newer one is right, as the older one
// may be dead and not know it.
func (s *Server) attach(name string, l *served) (*station, error) {
	s.mu.Lock()
	st := s.stations[name]
	if st == nil {
		st = &station{server: s, name: name}
		s.stations[name] = st
	}
	st.mu.Lock()
	s.mu.Unlock()
	old := st.served
	st.served, st.left = l, phrase.Phrase{}
	st.mu.Unlock()
	if old == nil {
		return st, nil
	}
	old.end(&link.Bye{Why: phrase.ShareKeyElsewhere.Of(phrase.Name("station", name)), Slow: true})
	select {
	case <-old.ended:
		return st, nil
	case <-time.After(leaveWait):
		st.detach(l, time.Now())
		return nil, phrase.StationMute.Error(phrase.Name("station", name))
	}
}

// detach takes a link from its station.
func (s *station) detach(l *served, now time.Time) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.served == l {
		s.served, s.lost = nil, now
	}
}

// receive takes what a home sends until the link ends.
func (s *Server) receive(st *station, l *served) error {
	l.conn.SetReadLimit(link.MostBytes)
	if err := s.welcome(st, l); err != nil {
		return err
	}
	box := &mailbox{inbox: s.inbox, station: st.name}
	defer box.close()
	ping := l.conn.PingHandler()
	l.conn.SetPingHandler(func(text string) error {
		return errors.Join(l.conn.SetReadDeadline(time.Now().Add(readWait)), ping(text))
	})
	for {
		if err := l.conn.SetReadDeadline(time.Now().Add(readWait)); err != nil {
			return err
		}
		m, err := l.read()
		if err != nil {
			return err
		}
		if err := s.take(st, l, box, m); err != nil {
			return err
		}
	}
}

// welcome lets a home in that speaks this version.
func (s *Server) welcome(st *station, l *served) error {
	if err := l.conn.SetReadDeadline(time.Now().Add(helloWait)); err != nil {
		return err
	}
	m, err := l.read()
	if err != nil {
		return err
	}
	hello, ok := m.(*link.Hello)
	if !ok {
		return &wrongError{fmt.Sprintf("the first message is of kind %d; must be %d", link.KindOf(m), link.KindHello)}
	}
	if hello.Version != link.Version {
		return phrase.ShareVersion.Error(phrase.Int("version", hello.Version), phrase.Int("needed", link.Version))
	}
	s.returned(st.name)
	l.put(&link.Welcome{Version: link.Version, Station: st.name, At: time.Now()})
	return nil
}

// take takes one message.
func (s *Server) take(st *station, l *served, box *mailbox, m link.Message) error {
	now := time.Now()
	switch m := m.(type) {
	case *link.Live:
		s.counts.records.Add(float64(len(m.Records)))
		st.live(m.Records, now)
	case *link.State:
		st.tell(m, now)
		if again := box.retry(now); again != nil {
			l.put(again)
		}
		st.recording(box.fails.err)
	case *link.Result:
		l.answer(m)
	case *link.Offer, *link.Begin, *link.Piece, *link.Whole, *link.Finish, *link.Acts:
		if p, ok := m.(*link.Piece); ok {
			s.counts.bytes.Add(float64(len(p.Bytes)))
		}
		answer, err := box.try(m, now, func(m link.Message) { l.put(m) })
		if answer != nil {
			l.put(answer)
		}
		return err
	default:
		return &wrongError{fmt.Sprintf("a message of kind %d is for homes", link.KindOf(m))}
	}
	return nil
}

// read takes the next message. What is compressed cannot be longer than the longest message either.
func (l *served) read() (link.Message, error) {
	kind, r, err := l.conn.NextReader()
	if err != nil {
		return nil, err
	}
	if kind != websocket.BinaryMessage {
		return nil, &wrongError{"it is text; must be binary messages"}
	}
	b, err := io.ReadAll(io.LimitReader(r, link.MostBytes+1))
	switch {
	case err != nil:
		return nil, err
	case len(b) > link.MostBytes:
		return nil, &wrongError{fmt.Sprintf("a message is longer than %d bytes", link.MostBytes)}
	}
	m, err := link.Decode(b)
	if err != nil {
		return nil, &wrongError{err.Error()}
	}
	return m, nil
}

// put has a message sent. A home that does not read loses its link.
func (l *served) put(m link.Message) {
	select {
	case l.out <- m:
	case <-l.stop:
	default:
		l.end(nil)
	}
}

// end ends the link, and tells the home why.
func (l *served) end(bye *link.Bye) {
	l.once.Do(func() {
		l.bye = bye
		close(l.stop)
	})
}

// write sends what is put until the link ends, and then the Bye.
func (l *served) write() {
	defer l.conn.Close() // ends the reader
	for {
		select {
		case m := <-l.out:
			if l.send(m) != nil {
				return
			}
		case <-l.stop:
			l.leave()
			return
		}
	}
}

// leave says why the link ends, and closes it. What cannot be written does not matter: it is over in any case.
func (l *served) leave() {
	if l.bye == nil {
		return
	}
	_ = l.send(l.bye)
	code := websocket.CloseGoingAway
	if l.bye.Slow {
		code = websocket.ClosePolicyViolation
	}
	_ = l.conn.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, ""), time.Now().Add(closeWait))
}

// send writes one message.
func (l *served) send(m link.Message) error {
	b, err := link.Encode(m)
	if err == nil {
		err = l.conn.SetWriteDeadline(time.Now().Add(writeWait))
	}
	if err == nil {
		l.conn.EnableWriteCompression(false)
		err = l.conn.WriteMessage(websocket.BinaryMessage, b)
	}
	return err
}

// ask notes a question that the home will answer; false when too many wait.
func (l *served) ask(id string, q *question) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if len(l.asked) >= mostAsked {
		return false
	}
	l.asked[id] = q
	return true
}

// forget notes that an answer is not waited for any more.
func (l *served) forget(id string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	delete(l.asked, id)
}

// answer takes the answer to a question; one that nobody asked is passed over.
func (l *served) answer(r *link.Result) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if q := l.asked[r.ID]; q != nil {
		delete(l.asked, r.ID)
		q.answer <- r
	}
}

// watched tells the home who watches, where that changed.
func (l *served) watched(w *message.Watching) {
	l.mu.Lock()
	same := l.told != nil && l.told.Nameless == w.Nameless && slices.Equal(l.told.Watchers, w.Watchers)
	l.told = w
	l.mu.Unlock()
	if !same {
		l.put(&link.Watching{Watchers: w.Watchers, Nameless: w.Nameless})
	}
}
