package desk

import (
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/session"
	"halfturn/stream/station"
)

// A seat is one station's place: its session, and the record of it. All calls come from the
// station's goroutine.
type seat struct {
	desk    *Desk
	name    string
	session *session.Session
	log     zerolog.Logger

	id      string // of the sitting, "" before anything was flown
	began   time.Time
	last    time.Time
	kept    int // legs, in the logbook
	format  string
	counter prometheus.Counter
	drops   map[string]prometheus.Counter // by reason, of which there are few
	advised string
}

// Datagram takes one datagram.
func (s *seat) Datagram(b []byte, received time.Time) {
	r := s.session.Feed(b, Seconds(received))
	s.count(r)
	if (r.Outcome == station.Accepted || r.Outcome == station.Jumped) && s.began.IsZero() {
		s.sit(received)
	}
	s.last = received
	if n := s.session.Legs(); n != s.kept {
		s.kept = n
		s.keep(s.session.SoFar())
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

// sit opens the record of the sitting.
func (s *seat) sit(now time.Time) {
	s.began = now
	id, err := s.desk.cfg.Book.NewID(now, s.name)
	if err != nil {
		s.log.Error().Err(err).Msg("coaching goes on, but this session is not kept")
	}
	s.id = id
	if w := s.desk.cfg.Writer; w != nil && id != "" {
		w.Begin(s.entry())
	}
	s.session.Publish(session.TypeSession, &session.Sitting{ID: id, State: "began"})
}

// Tick lets the session notice that nothing comes.
func (s *seat) Tick(now time.Time) { s.session.Tick(Seconds(now)) }

// Proven tells whether anything useful ever came.
func (s *seat) Proven() bool { return s.session.Proven() }

// End closes the session and keeps it.
func (s *seat) End() {
	s.session.End("the session ended")
	if s.began.IsZero() {
		s.desk.left(s, nil)
		return
	}
	r := s.session.Report()
	s.desk.left(s, &r)
	s.session.Publish(session.TypeSession, &session.Sitting{ID: s.id, State: "ended", Legs: s.session.Legs()})
	report := s.keep(r)
	if w := s.desk.cfg.Writer; w != nil && s.id != "" {
		w.End(s.id, s.last)
	}
	if s.id != "" {
		path, err := s.desk.cfg.Book.Save(s.id, report)
		if err != nil {
			s.log.Error().Err(err).Msg("the session is lost")
		} else {
			s.log.Info().Str("summary", path).Int("legs", s.session.Legs()).Msg("session kept")
		}
	}
	if s.desk.cfg.Ended != nil {
		s.desk.cfg.Ended(report)
	}
}

// keep hands what was flown so far to the logbook, and returns it.
func (s *seat) keep(r debrief.Station) *debrief.Report {
	report := debrief.New()
	report.Session = &debrief.Session{ID: s.id, Began: s.began.UTC().Format(time.RFC3339), Ended: s.last.UTC().Format(time.RFC3339)}
	report.Files = append(report.Files, debrief.File{File: "live", Stations: []debrief.Station{r}})
	if w := s.desk.cfg.Writer; w != nil && s.id != "" {
		w.Keep(s.id, report)
	}
	return report
}

// entry is the sitting as the logbook enters it.
func (s *seat) entry() logbook.Entry {
	p := s.session.Coaching()
	e := logbook.Entry{ID: s.id, Station: s.name, Began: s.began, Maneuver: p.Card.Name, Standard: p.Card.Standard, Aircraft: p.Aircraft.Name}
	e.Cards = logbook.CardsOf(s.desk.cfg.Library)
	return e
}
