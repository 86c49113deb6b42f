package school

import (
	"context"
	"errors"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/guard"
	"halfturn/web/share/link"
)

// Times of a link.
const (
	helloWait  = 10 * time.Second // for the first message
	readWait   = 45 * time.Second // without a sign of life
	writeWait  = 10 * time.Second // for a message to be taken by the network
	closeWait  = time.Second      // for the close frame after that
	leaveWait  = 5 * time.Second  // for the link that another one replaces to end
	answerWait = 6 * time.Second  // for a home to answer a command
	tickEvery  = 250 * time.Millisecond
	keyEvery   = 2 * time.Second // a revoked key ends its link within this; another process may revoke it
)

// ErrNoKey says that a key is not known, or was revoked.
var ErrNoKey = errors.New("the key is not known")

// Keys find the station of a key.
type Keys interface {
	// StationOf returns the name of the station of a key. The error is ErrNoKey for one that is not known or was
	// revoked.
	StationOf(ctx context.Context, key string, now time.Time) (name string, err error)
	// HasKey reports whether a station has a key, so that its home can come.
	HasKey(ctx context.Context, station string) (bool, error)
}

// Options say what a Server works with.
type Options struct {
	Keys Keys
	Book *archive.Archive
	// Grade grades a recording by the cards with it.
	Grade    func(ctx context.Context, dir string) (*debrief.Report, error)
	Complete func(file string)      // takes each file of a session that is complete
	Session  func() session.Options // but for what an opening says
	Plans    playback.Plans
	Output   session.Output
	Has      func(station string) bool              // a simulator here has the name
	Watching func(station string) *message.Watching // who watches; nil where nobody asks
	Idle     time.Duration                          // a station without a link leaves after this
	Wait     time.Duration                          // a session without a link is ended after this
	Log      zerolog.Logger
	Faults   *contain.Faults // contains those of links and of grading; nil: they end the program
}

// A Server takes the links of homes.
type Server struct {
	opt      Options
	inbox    *inbox
	counts   counts
	upgrader websocket.Upgrader

	mu       sync.Mutex
	stations map[string]*station
	closed   bool
	links    sync.WaitGroup
}

// New makes a Server. Run must run for it to do anything.
func New(o Options) *Server {
	s := &Server{
		opt: o,
		inbox: &inbox{
			faults:   o.Faults,
			book:     o.Book,
			grade:    o.Grade,
			complete: o.Complete,
			log:      o.Log,
			jobs:     make(chan job, mostJobs),
		},
		counts: newCounts(),
		upgrader: websocket.Upgrader{
			HandshakeTimeout:  helloWait,
			EnableCompression: true,
			CheckOrigin:       func(*http.Request) bool { return true }, // Serve lets no page in
		},
		stations: map[string]*station{},
	}
	s.inbox.linked, s.inbox.ended = s.linked, s.endedAlone
	return s
}

// Collectors returns the metrics.
func (s *Server) Collectors() []prometheus.Collector { return s.counts.collectors() }

// Run shows the stations and grades what was received, until the context ends; then it ends all links and waits for
// them.
func (s *Server) Run(ctx context.Context) {
	var wait sync.WaitGroup
	wait.Go(func() { s.inbox.run(ctx) })
	ticker, awaiting := time.NewTicker(tickEvery), time.NewTicker(awaitEvery)
	defer ticker.Stop()
	defer awaiting.Stop()
	wait.Go(func() {
		s.await(time.Now())
		for {
			select {
			case <-ctx.Done():
				return
			case now := <-awaiting.C:
				s.await(now)
			}
		}
	})
	for ctx.Err() == nil {
		select {
		case <-ctx.Done():
		case now := <-ticker.C:
			s.opt.Faults.Run("school", "each second", func() { s.tick(now) })
		}
	}
	s.close()
	wait.Wait()
}

// tick lets every station notice the time.
func (s *Server) tick(now time.Time) {
	for _, st := range s.all() {
		if st.tick(now) {
			s.drop(st)
			continue
		}
		st.mu.Lock()
		l := st.served
		st.mu.Unlock()
		if l != nil && s.opt.Watching != nil {
			l.watched(s.opt.Watching(st.name))
		}
	}
}

// drop forgets a station that left, unless its home is back.
func (s *Server) drop(st *station) {
	s.mu.Lock()
	defer s.mu.Unlock()
	st.mu.Lock()
	defer st.mu.Unlock()
	if st.served == nil {
		delete(s.stations, st.name)
	}
}

func (s *Server) all() []*station {
	s.mu.Lock()
	defer s.mu.Unlock()
	list := make([]*station, 0, len(s.stations))
	for _, st := range s.stations {
		list = append(list, st)
	}
	return list
}

// close ends all links.
func (s *Server) close() {
	s.mu.Lock()
	s.closed = true
	s.mu.Unlock()
	for _, st := range s.all() {
		st.mu.Lock()
		if st.served != nil {
			st.served.end(&link.Bye{Why: phrase.Stopping.Of()})
		}
		st.mu.Unlock()
	}
	s.links.Wait()
	for _, st := range s.all() {
		st.mu.Lock()
		st.close()
		st.mu.Unlock()
	}
}

// Has reports whether a name is that of a station at home, which no simulator here can take.
func (s *Server) Has(name string) bool { return s.station(name) != nil }

// Linked lists the stations that have a link here.
func (s *Server) Linked() []string {
	var list []string
	for _, st := range s.all() {
		st.mu.Lock()
		if st.served != nil {
			list = append(list, st.name)
		}
		st.mu.Unlock()
	}
	return list
}

func (s *Server) station(name string) *station {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.stations[name]
}

// Serve takes a link. It is a guard.Handler.
func (s *Server) Serve(w http.ResponseWriter, r *http.Request) error {
	if r.Header.Get("Origin") != "" { // only browsers send it
		return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.ForeignPage.Of()}
	}
	key, ok := strings.CutPrefix(r.Header.Get("Authorization"), "Bearer ")
	if key = strings.TrimSpace(key); !ok || key == "" {
		return &guard.Problem{Status: http.StatusUnauthorized, Phrase: phrase.ShareKeyMissing.Of()}
	}
	name, err := s.opt.Keys.StationOf(r.Context(), key, time.Now())
	if errors.Is(err, ErrNoKey) {
		s.counts.refused.Inc()
		s.opt.Log.Warn().Str("remote", hostOf(r.RemoteAddr)).Msg("a key was brought that is not known or was revoked")
		return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.ShareKeyRefused.Of()}
	}
	if err != nil {
		return err
	}
	if s.opt.Has != nil && s.opt.Has(name) {
		taken := phrase.ShareNameTaken.Of(phrase.Name("station", name))
		return &guard.Problem{Status: http.StatusConflict, Phrase: taken}
	}
	conn, err := s.upgrader.Upgrade(w, r, nil)
	if err != nil {
		return nil // the upgrader has answered
	}
	defer conn.Close()
	s.mu.Lock()
	if s.closed {
		s.mu.Unlock()
		return nil
	}
	s.links.Add(1)
	s.mu.Unlock()
	defer s.links.Done()
	s.serve(conn, name, key, hostOf(r.RemoteAddr))
	return nil
}

// watch ends a link whose key is revoked, or belongs to another station now.
func (s *Server) watch(l *served, name, key string) {
	ticker := time.NewTicker(keyEvery)
	defer ticker.Stop()
	for {
		select {
		case <-l.stop:
			return
		case now := <-ticker.C:
			// A list of keys that cannot be read just now is no reason to stop.
			is, err := s.opt.Keys.StationOf(context.Background(), key, now)
			if errors.Is(err, ErrNoKey) || err == nil && is != name {
				s.counts.refused.Inc()
				l.end(&link.Bye{Why: phrase.ShareKeyRefused.Of(), Slow: true})
				return
			}
		}
	}
}

// hostOf is an address without its port.
func hostOf(address string) string {
	if host, _, err := net.SplitHostPort(address); err == nil {
		return host
	}
	return address
}

// refused is what a home says of a command that it did not do.
type refused struct{ why phrase.Phrase }

// Error is the English; phrase.OfError reads it again.
func (r *refused) Error() string { return r.why.String() }

// A Desk brings what is asked of stations at home to them, and the rest to the desk of this machine.
type Desk struct {
	web.Desk
	Server *Server
}

// Do carries out a command at its station.
func (d Desk) Do(ctx context.Context, c command.Command) error {
	if s := d.Server.station(c.Station); s != nil {
		err := s.do(ctx, c)
		d.Server.opt.Log.Info().Err(err).Str("station", c.Station).Str("command", string(c.Kind())).Str("id", c.ID).
			Str("by", c.By.Name).Msg("sent home")
		return err
	}
	return d.Desk.Do(ctx, c)
}

// Legs returns what was flown in the session so far.
func (d Desk) Legs(ctx context.Context, name string) (any, bool) {
	s := d.Server.station(name)
	if s == nil {
		return d.Desk.Legs(ctx, name)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.play == nil {
		return nil, false
	}
	return s.play.Session.Report(), true
}

// Probe returns everything known of the stream.
func (d Desk) Probe(ctx context.Context, name string) (any, bool) {
	s := d.Server.station(name)
	if s == nil {
		return d.Desk.Probe(ctx, name)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.play == nil {
		return nil, false
	}
	return s.play.Session.Probe(s.home(time.Now())), true
}
