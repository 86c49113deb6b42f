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
)

// A station is the handler of one sender. All calls come from one goroutine.
type station struct {
	*practice
	address netip.AddrPort
	known   Named
	given   bool // another sender has taken the session over

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
func (s *station) hear(d *Desk, received time.Time) { s.heard.Store(int64(received.Sub(d.opened))) }

// Datagram takes one datagram.
func (s *station) Datagram(b []byte, received time.Time) {
	s.called()
	if s.given {
		return
	}
	s.hear(s.desk, received)
	r := s.session.Feed(b, Seconds(received))
	if !s.proven.Load() && s.session.Proven() {
		s.proven.Store(true)
	}
	s.count(r)
	s.took(b, s.address, received, r.Outcome == pipeline.Accepted || r.Outcome == pipeline.Jumped)
	if s.rest != nil && s.stirs(r, received) {
		s.wake(s.before)
	}
	if r.Outcome == pipeline.Jumped {
		log, reason := s.log, r.Reason
		s.desk.quiet.Say("jump", s.name, func(more int) {
			repeated(log.Debug(), more).Stringer("reason", reason).Msg("the stream jumped")
		})
	}
}

// count counts a datagram by format, and if it gave no sample also by reason.
func (s *station) count(r pipeline.Result) {
	if format := s.session.Station().Format(); s.counter == nil || format != s.format {
		s.format = format
		s.counter = s.desk.cfg.Metrics.Datagrams(format)
		if format != "" {
			log := s.log
			s.desk.quiet.Say("format", s.name, func(more int) {
				repeated(log.Info(), more).Str("format", format).Msg("stream recognized")
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
	if advice := s.session.Station().Advice(); !advice.IsZero() {
		log := s.log
		s.desk.quiet.Say("advice", s.name, func(more int) { repeated(log.Warn(), more).Msg(advice.String()) })
	}
}

// repeated adds to a log message how often it was suppressed.
func repeated(e *zerolog.Event, more int) *zerolog.Event {
	if more > 0 {
		e.Int("repeated", more)
	}
	return e
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
		s.tellRecording()
		s.session.Tick(Seconds(now))
	}
}

// Proven tells whether a sample was ever decoded.
func (s *station) Proven() bool { return !s.given && s.proven.Load() }

// End ends the session and keeps it. If the server is stopping, the session is resumed when it starts again soon.
func (s *station) End() {
	if s.given { // and the name
		return
	}
	report := s.end(!s.desk.stopping.Load())
	if report == nil {
		s.desk.left(s, nil)
		return
	}
	s.desk.left(s, &report.Files[0].Stations[0])
	if s.desk.cfg.Ended != nil {
		s.desk.cfg.Ended(report)
	}
}

// give hands the session over to another station.
func (s *station) give() *practice {
	s.given = true
	return s.practice
}
