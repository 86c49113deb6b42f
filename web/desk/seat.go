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

// A seat is one sender's place at a station. All calls come from the station's goroutine.
type seat struct {
	*sitting
	address netip.AddrPort
	known   Named
	given   bool // the sitting goes on in another seat

	format  string
	counter prometheus.Counter
	drops   map[string]prometheus.Counter // by reason, of which there are few

	// What others may look at.
	heard  atomic.Int64  // when the last datagram came: nanoseconds since the desk was made
	proven atomic.Bool   // something useful came
	ready  chan struct{} // closed once the seat can be called
	once   sync.Once     // for ready
}

// hear notes when something came.
func (s *seat) hear(d *Desk, received time.Time) { s.heard.Store(int64(received.Sub(d.opened))) }

// Datagram takes one datagram.
func (s *seat) Datagram(b []byte, received time.Time) {
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

// count counts a datagram by format, and by reason when it gave no sample.
func (s *seat) count(r pipeline.Result) {
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

// repeated adds to a message how often it was not logged since it was last.
func repeated(e *zerolog.Event, more int) *zerolog.Event {
	if more > 0 {
		e.Int("repeated", more)
	}
	return e
}

// Take takes a request.
func (s *seat) Take(r ingest.Request) bool {
	s.called()
	return r.(request).of(s) // nobody else sends requests to a seat
}

// called notes that the seat can be called, as it was.
func (s *seat) called() { s.once.Do(func() { close(s.ready) }) }

// Tick lets the session notice that nothing comes.
func (s *seat) Tick(now time.Time) {
	s.called()
	if !s.given {
		s.tellRecording()
		s.session.Tick(Seconds(now))
	}
}

// Proven tells whether anything useful ever came.
func (s *seat) Proven() bool { return !s.given && s.proven.Load() }

// End closes the session and keeps it. When the server stops it is gone on with, should it start
// again soon.
func (s *seat) End() {
	if s.given { // and its name too
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

// give hands the sitting to another seat.
func (s *seat) give() *sitting {
	s.given = true
	return s.sitting
}
