package desk

import (
	"net/netip"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/stream/station"
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
	advised string
}

// Datagram takes one datagram.
func (s *seat) Datagram(b []byte, received time.Time) {
	if s.given {
		return
	}
	r := s.session.Feed(b, Seconds(received))
	s.count(r)
	s.took(b, s.address, received, r.Outcome == station.Accepted || r.Outcome == station.Jumped)
	if s.rest != nil && s.stirs(r, received) {
		s.wake(s.before)
	}
	if r.Outcome == station.Jumped {
		s.log.Debug().Str("reason", r.Reason).Msg("the stream jumped")
	}
}

// count counts a datagram by format, and by reason when it gave no sample.
func (s *seat) count(r station.Result) {
	if format := s.session.Station().Format(); s.counter == nil || format != s.format {
		s.format = format
		s.counter = s.desk.cfg.Metrics.Datagrams(format)
		if format != "" {
			s.log.Info().Str("format", format).Msg("stream recognized")
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
	if advice := s.session.Station().Advice(); advice != s.advised {
		s.advised = advice
		if advice != "" {
			s.log.Warn().Msg(advice)
		}
	}
}

// Tick lets the session notice that nothing comes.
func (s *seat) Tick(now time.Time) {
	if !s.given {
		s.tellRecording()
		s.session.Tick(Seconds(now))
	}
}

// Proven tells whether anything useful ever came.
func (s *seat) Proven() bool { return !s.given && s.session.Proven() }

// End closes the session and keeps it. When the server stops it is gone on with, should it start
// again soon.
func (s *seat) End() {
	if s.given {
		s.desk.left(s, nil)
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
