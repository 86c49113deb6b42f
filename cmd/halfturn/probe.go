package main

import (
	"context"
	"net/netip"
	"sync"
	"time"

	"halfturn/coach/session"
	"halfturn/stream/ingest"
	"halfturn/web/desk"
)

type probeCmd struct {
	common
	UDP       []string       `help:"Where to listen: HOST:PORT; repeatable." placeholder:"ADDR" name:"udp"`
	Subscribe *string        `help:"Ask a simulator that can be asked (X-Plane): HOST, HOST:PORT, or auto." placeholder:"ADDR|auto"`
	For       *time.Duration `help:"How long to listen; 0 is until Ctrl-C, which is also what happens on a terminal, else 10s." placeholder:"TIME"`
	Format    string         `help:"How the result is printed." enum:"text,json" default:"text"`
}

// Help says what is seen.
func (probeCmd) Help() string {
	return "A table of every sender: format and how sure it is, rate and jitter, the last value of each channel and its age, what the chosen maneuver card needs and lacks, and the setting to change in the simulator. On a terminal it is redrawn twice a second; elsewhere a line is printed when something changes, and the whole at the end."
}

const (
	redraw     = 500 * time.Millisecond
	plainProbe = 10 * time.Second // without a terminal
)

// Run listens for a while and says what it heard of each sender.
func (p *probeCmd) Run(ctx context.Context, io streams) error {
	if p.For != nil && *p.For < 0 {
		return usagef("--for is %v; allowed: 0 and up", *p.For)
	}
	cfg, err := loadConfig(&p.common, io.env, p.apply)
	if err != nil {
		return err
	}
	opt, err := cfg.session()
	if err != nil {
		return err
	}
	names := cfg.named(opt.Station)
	screen := p.screen(io, cfg)
	heard := &heard{}
	o := cfg.ingest()
	o.Idle, o.Unproven = time.Hour, time.Hour
	o.Warn, o.Tell = func(err error) { screen.note(err.Error()) }, screen.note
	l, err := ingest.Listen(ctx, o, func(a netip.AddrPort) ingest.Handler {
		return heard.seat(a, opt, names)
	})
	if err != nil {
		return cfg.busyUDP(cfg.notListening(err))
	}
	end, cancel := p.until(ctx, screen.live)
	defer cancel()
	screen.begin(l.Addresses())
	screen.follow(end, heard)
	if err := l.Close(); err != nil {
		return err
	}
	return screen.end(heard.all())
}

// apply puts the flags over the rest of the configuration.
func (p *probeCmd) apply(c *config) {
	c.subscribeTo(p.Subscribe)
	c.listenOn(p.UDP)
}

// until ends when the command does.
func (p *probeCmd) until(ctx context.Context, live bool) (context.Context, context.CancelFunc) {
	length := time.Duration(0)
	if !live {
		length = plainProbe
	}
	set(&length, p.For)
	if length <= 0 {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, length)
}

// heard collects what the senders are, as each one's goroutine tells it.
type heard struct {
	mu   sync.Mutex
	list []*probeSeat
}

// all returns the latest of every sender, in the order of their coming.
func (h *heard) all() []session.Probe {
	h.mu.Lock()
	defer h.mu.Unlock()
	list := make([]session.Probe, 0, len(h.list))
	for _, s := range h.list {
		if s.last.Name != "" {
			list = append(list, s.last)
		}
	}
	return list
}

func (h *heard) seat(a netip.AddrPort, o session.Options, names []desk.Named) ingest.Handler {
	o.Name, o.Address = a.String(), a.String()
	for _, n := range names {
		if n.Address == a || n.Address.Port() == 0 && n.Address.Addr() == a.Addr() {
			o.Name, o.Station = n.Name, n.Station
		}
	}
	s := &probeSeat{heard: h, session: session.New(o)}
	h.mu.Lock()
	h.list = append(h.list, s)
	h.mu.Unlock()
	return s
}

// A probeSeat is the seat of one sender.
type probeSeat struct {
	heard   *heard
	session *session.Session
	now     time.Time
	last    session.Probe // under heard.mu
}

// Datagram takes one datagram.
func (s *probeSeat) Datagram(b []byte, received time.Time) {
	first := s.now.IsZero()
	s.session.Feed(b, desk.Seconds(received))
	s.now = received
	if first {
		s.look(received)
	}
}

// Tick keeps what is to be told, while it is fresh.
func (s *probeSeat) Tick(now time.Time) { s.look(now) }

// Take takes nothing: nobody sends requests here.
func (s *probeSeat) Take(ingest.Request) bool { return false }

// End keeps what was known when the last datagram came.
func (s *probeSeat) End() {
	if time.Since(s.now) < time.Second {
		s.look(s.now)
	}
}

func (s *probeSeat) look(now time.Time) {
	p := s.session.Probe(desk.Seconds(now))
	s.heard.mu.Lock()
	defer s.heard.mu.Unlock()
	s.last = p
}
