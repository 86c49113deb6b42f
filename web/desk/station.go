package desk

import (
	"net/netip"
	"sync"
	"sync/atomic"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/stream/ingest"
	"halfturn/stream/pipeline"
	"halfturn/web/desk/practice"
)

// A station is the handler of one sender, whose datagrams it brings to the practice there. All calls come from one
// goroutine.
type station struct {
	desk     *Desk
	practice *practice.Practice
	address  netip.AddrPort
	name     string
	given    bool // another sender has taken the practice over

	format  string
	counter prometheus.Counter
	drops   map[string]prometheus.Counter // by reason; there are few

	// What other goroutines may use.
	heard  atomic.Int64  // when the last datagram came, ns since the desk was made
	proven atomic.Bool   // a sample was decoded
	ready  chan struct{} // closed once requests reach the station
	once   sync.Once     // for ready
}

// hear notes when a datagram came.
func (s *station) hear(received time.Time) { s.heard.Store(int64(received.Sub(s.desk.opened))) }

// Datagram takes one datagram.
func (s *station) Datagram(b []byte, received time.Time) {
	s.called()
	if s.given {
		return
	}
	s.hear(received)
	r := s.practice.Datagram(b, received)
	if !s.proven.Load() && s.practice.Proven() {
		s.proven.Store(true)
	}
	s.count(r)
	if r.Outcome == pipeline.Jumped {
		reason := r.Reason
		s.say("jump", zerolog.DebugLevel, func(e *zerolog.Event) {
			e.Stringer("reason", reason).Msg("the stream jumped")
		})
	}
}

// Lost takes that datagrams were lost before the next one.
func (s *station) Lost(l ingest.Loss) {
	if !s.given {
		s.practice.Lost(practice.Loss(l))
	}
}

// count counts a datagram by format, and if it gave no sample also by reason.
func (s *station) count(r pipeline.Result) {
	if format := s.practice.Stream().Format(); s.counter == nil || format != s.format {
		s.format = format
		s.counter = s.desk.cfg.Metrics.Datagrams(format)
		if format != "" {
			s.say("format", zerolog.InfoLevel, func(e *zerolog.Event) {
				e.Str("format", format).Msg("stream recognized")
			})
		}
	}
	s.counter.Inc()
	if r.Drop == "" {
		return
	}
	c := s.drops[r.Drop]
	if c == nil {
		if s.drops == nil {
			s.drops = map[string]prometheus.Counter{}
		}
		c = s.desk.cfg.Metrics.Dropped(r.Drop)
		s.drops[r.Drop] = c
	}
	c.Inc()
	if advice := s.practice.Stream().Advice(); !advice.IsZero() {
		s.say("advice", zerolog.WarnLevel, func(e *zerolog.Event) { e.Msg(advice.String()) })
	}
}

// say logs a message that any datagram may cause: once, then now and then with how often it was suppressed.
func (s *station) say(what string, level zerolog.Level, message func(*zerolog.Event)) {
	log, name := s.desk.cfg.Log, s.name
	s.desk.quiet.Say(what, name, func(more int) {
		e := log.WithLevel(level).Str("station", name)
		if more > 0 {
			e.Int("repeated", more)
		}
		message(e)
	})
}

// Take carries out a request.
func (s *station) Take(r ingest.Request) bool {
	s.called()
	return r.(request).of(s) // only the desk sends requests
}

// called notes that requests reach the station.
func (s *station) called() { s.once.Do(func() { close(s.ready) }) }

// Tick lets the session notice silence.
func (s *station) Tick(now time.Time) {
	s.called()
	if !s.given {
		s.practice.Tick(now)
	}
}

// Proven tells whether a sample was ever decoded.
func (s *station) Proven() bool { return !s.given && s.proven.Load() }

// Fail notes that a fault in the program ended the session.
func (s *station) Fail() {
	if !s.given {
		s.practice.Fail()
	}
}

// End ends the session and keeps it. If the server is stopping, the session is resumed when it starts again soon.
func (s *station) End() {
	if s.given { // and the name
		return
	}
	defer s.desk.left(s)
	s.practice.End(!s.desk.stopping.Load())
	if s.practice.Failed() {
		s.desk.fails(s)
	}
}

// give hands the practice over to another station.
func (s *station) give() *practice.Practice {
	s.given = true
	return s.practice
}
