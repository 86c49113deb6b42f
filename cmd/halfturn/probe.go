package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/netip"
	"strings"
	"sync"
	"time"

	"halfturn/coach/session"
	"halfturn/stream/ingest"
	"halfturn/web/desk"
)

type probeCmd struct {
	common
	UDP    []string      `help:"Where to listen: HOST:PORT; repeatable." placeholder:"ADDR" name:"udp"`
	For    time.Duration `help:"How long to listen; until Ctrl-C when 0." default:"10s"`
	Format string        `help:"How it is printed." enum:"text,json" default:"text"`
}

// Run listens for a while and says what it heard of each sender.
func (p *probeCmd) Run(ctx context.Context, io streams) error {
	cfg, err := loadConfig(&p.common, io.env)
	if err != nil {
		return err
	}
	if len(p.UDP) > 0 {
		cfg.UDP = p.UDP
	}
	opt, err := cfg.session()
	if err != nil {
		return err
	}
	heard := &heard{}
	l, err := ingest.Listen(ctx, ingest.Config{Addresses: cfg.UDP, MaxStations: 64, Idle: 10 * time.Minute, Unproven: 10 * time.Minute,
		Warn: func(err error) { fmt.Fprintf(io.err, "halfturn: %v\n", err) }},
		func(a netip.AddrPort) ingest.Seat {
			o := opt
			o.Name, o.Address = a.String(), a.String()
			return &listener{heard: heard, session: session.New(o)}
		})
	if err != nil {
		return err
	}
	for _, a := range l.Addresses() {
		fmt.Fprintf(io.err, "listening on %v, for %v; Ctrl-C ends it\n", a, p.For)
	}
	end := ctx
	if p.For > 0 {
		var cancel context.CancelFunc
		end, cancel = context.WithTimeout(ctx, p.For)
		defer cancel()
	}
	<-end.Done()
	if err := l.Close(); err != nil {
		return err
	}
	return heard.print(io.out, p.Format)
}

// heard collects what the senders were.
type heard struct {
	mu   sync.Mutex
	list []probed
}

// probed is what is known of one sender.
type probed struct {
	session.Station
	Datagrams uint64            `json:"datagrams"`
	Samples   uint64            `json:"samples"`
	Drops     map[string]uint64 `json:"drops"`
	BadValues map[string]uint64 `json:"bad_values"`
}

// A listener is the seat of one sender.
type listener struct {
	heard   *heard
	session *session.Session
	last    session.Station
	now     time.Time
}

// Datagram takes one datagram.
func (l *listener) Datagram(b []byte, received time.Time) {
	l.session.Feed(b, desk.Seconds(received))
	l.now = received
}

// Tick keeps what is to be told, while it is fresh.
func (l *listener) Tick(now time.Time) { l.last = l.session.Info(desk.Seconds(now)) }

// End tells what was heard.
func (l *listener) End() {
	if l.last.Name == "" {
		l.last = l.session.Info(desk.Seconds(l.now))
	}
	counts := l.session.Station().Stats()
	p := probed{Station: l.last, Datagrams: counts.Datagrams, Samples: counts.Samples, Drops: map[string]uint64{}, BadValues: map[string]uint64{}}
	for _, d := range counts.Drops {
		p.Drops[d.Reason] = d.Count
	}
	for _, b := range counts.Bad {
		p.BadValues[b.Channel.String()] = b.Count
	}
	l.heard.mu.Lock()
	defer l.heard.mu.Unlock()
	l.heard.list = append(l.heard.list, p)
}

func (h *heard) print(w io.Writer, format string) error {
	h.mu.Lock()
	defer h.mu.Unlock()
	if format == "json" {
		e := json.NewEncoder(w)
		e.SetIndent("", "  ")
		return e.Encode(map[string]any{"version": 1, "senders": append([]probed{}, h.list...)})
	}
	if len(h.list) == 0 {
		fmt.Fprintln(w, "Nothing came. Is the simulator sending to this address and port? A firewall may be in between.")
	}
	for i := range h.list {
		h.list[i].print(w)
	}
	return nil
}

func (p *probed) print(w io.Writer) {
	fmt.Fprintf(w, "%s\n  format    %s\n  datagrams %d, samples %d, %.0f a second\n", p.Address, or(p.Station.Format, "not recognized"), p.Datagrams, p.Samples, p.Rate)
	for _, row := range []struct {
		title string
		list  []string
	}{{"channels ", p.Channels}, {"derived  ", p.Derived}, {"missing  ", p.Missing}} {
		if len(row.list) > 0 {
			fmt.Fprintf(w, "  %s %s\n", row.title, strings.Join(row.list, ", "))
		}
	}
	for reason, n := range p.Drops {
		fmt.Fprintf(w, "  dropped   %d: %s\n", n, reason)
	}
	for channel, n := range p.BadValues {
		fmt.Fprintf(w, "  not believed %d values of %s\n", n, channel)
	}
	if p.Advice != "" {
		fmt.Fprintf(w, "  to do     %s\n", p.Advice)
	}
	if len(p.Missing) > 0 {
		fmt.Fprintf(w, "  The card %s wants what is missing; its checks read not measured until the simulator sends it.\n", p.Maneuver)
	}
}
