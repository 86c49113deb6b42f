package home

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"sync"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
	"halfturn/web/share/link"
)

// Times of a link.
const (
	firstWait = time.Second      // before the second attempt; each further one waits twice as long,
	longWait  = 15 * time.Second // up to this; a link that lasted longer has the waits begin again
	slowWait  = 5 * time.Minute  // after the school has said that it is useless
	handshake = 15 * time.Second // for the link to be made, and the welcome to come
	writeWait = 10 * time.Second // for a message to be taken by the network
	pingEvery = 15 * time.Second
	readWait  = 45 * time.Second // without a sign of life
	stateWait = 2 * time.Second  // between two State messages
	// Between two Live messages: the eye sees 20 a second as motion, and some datagrams together compress to a third.
	liveWait = 50 * time.Millisecond
	doWait   = 5 * time.Second // for a command to be done
)

// path is where the school takes links.
const path = "/api/link"

// A byeError is why the school ended a link.
type byeError struct {
	why  phrase.Phrase
	slow bool
}

// Error says why.
func (e *byeError) Error() string { return e.why.String() }

// Run keeps a link to the school until the context ends.
func (s *Sharer) Run(ctx context.Context) {
	log := s.opt.Log.With().Str("school", s.opt.URL.Host).Logger()
	wait, said := firstWait, ""
	for ctx.Err() == nil {
		lasted, err := s.once(ctx)
		s.save()
		if ctx.Err() != nil {
			return
		}
		if lasted > longWait {
			wait, said = firstWait, ""
		}
		var bye *byeError
		slow := errors.As(err, &bye) && bye.slow
		if words := err.Error(); words != said { // once, not with each attempt
			said = words
			log.Warn().Err(err).
				Msg("there is no link to the school; coaching and recording go on, and it is tried again")
			if cause := errors.Unwrap(err); cause != nil {
				log.Debug().AnErr("cause", cause).Msg("the same as the network says it")
			}
		}
		pause := wait/2 + rand.N(wait)
		if wait = min(2*wait, longWait); slow {
			pause = slowWait/2 + rand.N(slowWait)
		}
		s.rest(ctx, pause)
	}
}

// rest waits before the next attempt; what is to be sent meanwhile is kept in the list.
func (s *Sharer) rest(ctx context.Context, pause time.Duration) {
	over := time.After(pause)
	for {
		select {
		case <-ctx.Done():
			s.save()
			return
		case <-s.wake:
			s.save()
		case <-over:
			return
		}
	}
}

// save writes the list of what is still to be sent.
func (s *Sharer) save() {
	if err := s.outbox.Save(); err != nil {
		s.opt.Log.Warn().Err(err).Msg("it is tried again")
	}
}

// once makes a link and serves it until it ends; the error says why. lasted is how long there was one: 0 for a school
// that did not welcome this home.
func (s *Sharer) once(ctx context.Context) (lasted time.Duration, err error) {
	conn, err := s.dial(ctx)
	if err != nil {
		var bye *byeError
		if errors.As(err, &bye) {
			s.refuse(bye.why)
		}
		return 0, err
	}
	defer conn.Close()
	if err := s.greet(conn); err != nil {
		return 0, s.explain(err, handshake)
	}
	began := time.Now()
	s.counts.links.Inc()
	s.opt.Log.Info().Str("school", s.opt.URL.Host).Msg("there is a link to the school")
	s.connect(true)
	defer s.connect(false)
	err = s.serve(ctx, conn)
	return time.Since(began), s.explain(err, readWait)
}

// connect begins a link, or ends one.
func (s *Sharer) connect(up bool) {
	if up {
		s.outbox.Connect()
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.up = up
	s.lane.connect(up)
	if s.counts.up.Set(0); up {
		s.refused = phrase.Phrase{}
		s.counts.up.Set(1)
	}
	if s.opt.Watched != nil && !up && s.lane.station != "" {
		s.opt.Watched(s.lane.station, &message.Watching{})
	}
}

// refuse notes why the school does not let this home in.
func (s *Sharer) refuse(why phrase.Phrase) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.refused = why
}

// mostCommands is how many commands of the school wait to be done.
const mostCommands = 16

// A served link.
type served struct {
	*Sharer
	conn     *websocket.Conn
	commands chan *link.Command
	results  chan *link.Result
	live     time.Time // when the last Live was sent
}

// errFault ends a link; the next one begins after a pause.
var errFault = errors.New("a fault in the program ended the link")

// serve serves a link until it ends.
func (s *Sharer) serve(ctx context.Context, conn *websocket.Conn) error {
	l := &served{
		Sharer:   s,
		conn:     conn,
		commands: make(chan *link.Command, mostCommands),
		results:  make(chan *link.Result, mostCommands),
	}
	ctx, cancel := context.WithCancelCause(ctx)
	part := func(work func() error) {
		err := errFault
		s.opt.Faults.Run("share", s.opt.URL.Host, func() { err = work() })
		cancel(err)
	}
	var wait sync.WaitGroup
	wait.Go(func() { part(func() error { return l.receive(ctx) }) })
	wait.Go(func() { part(func() error { l.do(ctx); return ctx.Err() }) })
	part(func() error { return l.send(ctx) })
	conn.Close() // ends receive
	wait.Wait()
	return context.Cause(ctx)
}

// receive takes what the school sends.
func (l *served) receive(ctx context.Context) error {
	alive := func(string) error { return l.conn.SetReadDeadline(time.Now().Add(readWait)) }
	l.conn.SetPongHandler(alive)
	for ctx.Err() == nil {
		if err := alive(""); err != nil {
			return err
		}
		m, err := read(l.conn)
		if err != nil {
			return err
		}
		if err := l.take(m); err != nil {
			return err
		}
	}
	return ctx.Err()
}

// take takes one message of the school.
func (l *served) take(m link.Message) error {
	switch m := m.(type) {
	case *link.Have:
		l.outbox.Have(m)
		l.outbox.Note(time.Now())
		l.stir()
	case *link.Noted:
		l.outbox.Noted(m)
		l.stir()
	case *link.Command:
		l.counts.commands.Inc()
		select {
		case l.commands <- m:
		default:
			return nonsenseError("commands faster than they can be done")
		}
	case *link.Watching:
		l.mu.Lock()
		station := l.lane.station
		l.mu.Unlock()
		if l.opt.Watched != nil && station != "" {
			l.opt.Watched(station, &message.Watching{Watchers: m.Watchers, Nameless: m.Nameless})
		}
	case *link.Bye:
		l.refuse(m.Why)
		return &byeError{m.Why, m.Slow}
	default:
		return nonsenseError(fmt.Sprintf("a message of kind %d, which is for schools", link.KindOf(m)))
	}
	return nil
}

// do does the commands of the school, one after another.
func (l *served) do(ctx context.Context) {
	for {
		select {
		case <-ctx.Done():
			return
		case c := <-l.commands:
			r := &link.Result{ID: c.ID}
			if err := l.doOne(ctx, c); err != nil {
				said := phrase.OfError(err)
				r.Refused = &said
			}
			select {
			case l.results <- r:
			case <-ctx.Done():
				return
			}
			l.stir()
		}
	}
}

// doOne does a command at the station that is shared, as whoever asks for it at the school.
func (l *served) doOne(ctx context.Context, m *link.Command) error {
	c, err := command.Decode(m.Command)
	if err != nil {
		return err
	}
	l.mu.Lock()
	c.Station = l.lane.station
	l.mu.Unlock()
	if c.Station == "" {
		return phrase.ShareNothingFlown.Error()
	}
	if c.Kind() == command.KindPrivate { // for whoever sits at the station
		return phrase.NotAllowed.Error()
	}
	ctx, cancel := context.WithTimeout(ctx, doWait)
	defer cancel()
	return l.opt.Do(ctx, c)
}

// send sends what there is until the link ends: results and what is live before the recordings.
func (l *served) send(ctx context.Context) error {
	state, ping := time.NewTicker(stateWait), time.NewTicker(pingEvery)
	live := time.NewTicker(liveWait)
	defer live.Stop()
	defer state.Stop()
	defer ping.Stop()
	if err := l.state(); err != nil {
		return err
	}
	for {
		for more := true; more; {
			var err error
			if more, err = l.sendNext(); err != nil {
				return err
			}
			more = more && ctx.Err() == nil
		}
		if err := l.await(ctx, live, state, ping); err != nil {
			return err
		}
	}
}

// await returns when there may be something of a recording to be sent. What is live is sent meanwhile.
func (l *served) await(ctx context.Context, live, state, ping *time.Ticker) (err error) {
	for err == nil {
		select {
		case <-ctx.Done():
			return context.Cause(ctx)
		case <-l.wake:
			return nil
		case <-state.C:
			return l.state()
		case <-live.C:
			_, err = l.sendLive()
		case <-ping.C:
			err = l.conn.WriteControl(websocket.PingMessage, nil, time.Now().Add(writeWait))
		}
	}
	return err
}

// sendNext sends one message; false when there is none.
func (l *served) sendNext() (bool, error) {
	select {
	case r := <-l.results:
		return true, write(l.conn, r)
	default:
	}
	if sent, err := l.sendLive(); sent || err != nil {
		return sent, err
	}
	m, err := l.outbox.Next()
	if err != nil {
		l.opt.Log.Error().Err(err).Msg("a recording cannot be read, so that the school does not get it")
		return false, nil
	}
	if m == nil {
		return false, nil
	}
	if p, ok := m.(*link.Piece); ok {
		l.counts.sent.WithLabelValues(recordingLane).Add(float64(len(p.Bytes)))
	}
	return true, write(l.conn, m)
}

// sendLive sends what is live; false when there is nothing, or it can wait for more.
func (l *served) sendLive() (bool, error) {
	batch := l.batch()
	if batch == nil {
		return false, nil
	}
	for i := range batch.Records {
		l.counts.sent.WithLabelValues(liveLane).Add(float64(batch.Records[i].Size()))
	}
	return true, write(l.conn, batch)
}

// batch is what is to be sent live now; nil when it can wait for more, or there is none.
func (l *served) batch() *link.Live {
	l.mu.Lock()
	defer l.mu.Unlock()
	if time.Since(l.live) < liveWait && l.lane.size < link.MostLive {
		return nil
	}
	batch := l.lane.take()
	if batch != nil {
		l.live = time.Now()
	}
	return batch
}

// state tells the school how far behind it is, and keeps the list of what is still to be sent.
func (l *served) state() error {
	l.save()
	now := time.Now()
	behind, waiting := l.outbox.Behind(now)
	l.counts.behind.Set(behind)
	l.counts.waiting.Set(float64(waiting))
	l.mu.Lock()
	l.behind = behind
	m := &link.State{At: now, Behind: behind, Bytes: waiting, Dropped: l.lane.dropped, Private: l.private}
	l.mu.Unlock()
	return write(l.conn, m)
}
