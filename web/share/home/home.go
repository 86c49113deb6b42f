package home

import (
	"context"
	"crypto/tls"
	"net"
	"net/url"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
	"halfturn/web/desk/practice"
	"halfturn/web/share/outbox"
)

// Options say what is shared with whom.
type Options struct {
	URL     *url.URL // of the school: https, or http to this machine
	Key     string   // of the station, from the school
	Data    string   // the data directory
	Station string   // the station that is shared; "" is the first that flies
	Version string   // of the program
	TLS     *tls.Config
	Dial    func(ctx context.Context, network, address string) (net.Conn, error) // nil: over the network
	Do      func(ctx context.Context, c command.Command) error                   // does a command of the school
	// Watched takes who watches at the school; it may be nil.
	Watched func(station string, w *message.Watching)
	Log     zerolog.Logger
	Faults  *contain.Faults // contains those of a link; nil: they end the program
}

// A Sharer shares one station with a school. It implements practice.Tap.
type Sharer struct {
	opt    Options
	outbox *outbox.Outbox
	counts counts
	wake   chan struct{} // something is to be sent

	mu      sync.Mutex
	lane    lane
	private bool
	up      bool
	refused phrase.Phrase // why the school does not let this home in; nothing while it does, or is not reached
	as      string        // what the school calls the station
	clock   time.Duration // by how much the clock of the school is ahead
	behind  float64
	passed  string // a station that was not shared, said once
}

// New makes a Sharer. It fails for a list of what is still to be sent that cannot be read, but goes on without it: the
// error is to be logged.
func New(o Options, now time.Time) (*Sharer, error) {
	box, err := outbox.Open(o.Data, o.URL.String(), now)
	s := &Sharer{opt: o, outbox: box, wake: make(chan struct{}, 1)}
	s.counts = newCounts(func() float64 {
		s.mu.Lock()
		defer s.mu.Unlock()
		return float64(s.lane.dropped)
	})
	return s, err
}

// Collectors returns the metrics.
func (s *Sharer) Collectors() []prometheus.Collector { return s.counts.collectors() }

// Settle looks at the sessions that an earlier run left. It is called when they were repaired, before another datagram
// comes.
func (s *Sharer) Settle() { s.outbox.Settle() }

// stir has the link look for what is to be sent.
func (s *Sharer) stir() {
	select {
	case s.wake <- struct{}{}:
	default: // it looks anyway
	}
}

// Begin takes the beginning of a session, or that it goes on.
func (s *Sharer) Begin(b practice.Beginning) {
	station, o := b.Station, &b.Opening
	s.mu.Lock()
	defer s.mu.Unlock()
	switch other := s.lane.station; {
	case s.opt.Station != "" && station != s.opt.Station:
		return
	case other != "" && other != station && s.lane.session != "":
		if s.passed != station {
			s.passed = station
			s.opt.Log.Warn().Str("station", station).Str("shared", other).
				Msg("this station is not shared: a key is for one; name the one to share (share.station)")
		}
		return
	}
	if s.private = o.Private; o.Private {
		s.lane.station = station
		return
	}
	s.outbox.Add(o.Session)
	s.lane.begin(&b)
	s.stir()
}

// Datagram takes a datagram of a session, with the commands before it.
func (s *Sharer) Datagram(session string, d practice.Datagram) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if session != s.lane.session || session == "" {
		return
	}
	s.lane.datagram(&d) // sent within liveWait
}

// End takes that a session is not flown any more.
func (s *Sharer) End(session string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if session == s.lane.session && session != "" {
		s.lane.end()
		s.stir()
	}
}

// Stored takes how much of a file of a recording is on the disk to stay.
func (s *Sharer) Stored(session, file string, size int64) {
	s.outbox.Stored(session, record.PartNumber(file), size)
	s.stir()
}

// Complete takes that a file of a recording is complete.
func (s *Sharer) Complete(session, file string) {
	s.outbox.Stored(session, record.PartNumber(file)+1, 0)
	s.stir()
}

// Over takes that a session is complete on the disk.
func (s *Sharer) Over(session string) {
	s.outbox.Over(session)
	s.stir()
}

// Acted takes that somebody added something to a session.
func (s *Sharer) Acted(session string) {
	if s.outbox.Acted(session) {
		s.stir()
	}
}

// Private stops sharing a station, or shares again what begins from then on.
func (s *Sharer) Private(station string, on bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.opt.Station != "" && station != s.opt.Station || s.lane.station != "" && s.lane.station != station {
		return
	}
	if s.private = on; on && s.lane.session != "" {
		s.lane.end()
	}
	s.stir()
}

// Shared says for the pages of a station how it is shared; nil when it is not.
func (s *Sharer) Shared(station string) *message.Share {
	s.mu.Lock()
	defer s.mu.Unlock()
	another := s.lane.station != "" && s.lane.station != station
	if s.private || s.opt.Station != "" && station != s.opt.Station || another {
		return nil
	}
	return &message.Share{
		With:   s.opt.URL.Host,
		As:     s.as,
		Up:     s.up,
		Behind: s.behind,
		Clock:  s.clock.Round(time.Second).Seconds(),
		Why:    s.refused,
	}
}
