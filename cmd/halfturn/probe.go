package main

import (
	"context"
	"errors"
	"net"
	"net/netip"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/live"
	"halfturn/cmd/halfturn/probe"
	"halfturn/configs/settings"
	"halfturn/stream/ingest"
	"halfturn/stream/ingest/socket"
	"halfturn/stream/phrase"
)

type probeCmd struct {
	base.Flags
	UDP       []string       `help:"Address to listen on: HOST:PORT; repeatable." placeholder:"ADDR" name:"udp"`
	Subscribe *string        `help:"${help_subscribe}" placeholder:"ADDR|auto"`
	For       *time.Duration `help:"${help_for}" placeholder:"TIME"`
	Format    string         `help:"How the result is printed." enum:"text,json" default:"text"`
}

// Help says what is seen.
func (probeCmd) Help() string {
	return "A table of every sender: format and how sure it is, rate and jitter, the last value of each channel and " +
		"its age, what the chosen maneuver card needs and lacks, and the setting to change in the simulator. On a " +
		"terminal it is redrawn twice a second; elsewhere a line is printed when something changes, and everything " +
		"at the end."
}

const plainProbe = 10 * time.Second // without a terminal

// Run listens for a while and says what it heard of each sender.
func (p *probeCmd) Run(ctx context.Context, io base.Streams) error {
	if p.For != nil && *p.For < 0 {
		return base.Usagef(io.Language, "%s is %v; must be 0 or more", "--for", *p.For)
	}
	cfg, err := base.Load(&p.Flags, io.Env, p.apply)
	if err != nil {
		return err
	}
	opt, err := cfg.Session()
	if err != nil {
		return err
	}
	names := live.Named(cfg, opt.Station)
	screen := probe.NewScreen(p.options(io, cfg))
	heard := &probe.Heard{}
	o := cfg.Ingest()
	o.Idle, o.Unproven = time.Hour, time.Hour
	o.Warn, o.Tell = func(err error) { screen.Note(err.Error()) }, screen.Note
	l, err := ingest.Listen(ctx, o, func(a netip.AddrPort) ingest.Handler {
		return heard.Sender(a, opt, names)
	})
	if err != nil {
		return busyUDP(cfg, io.Language, cfg.BlameListening(err))
	}
	end, cancel := p.until(ctx, screen.Live())
	defer cancel()
	screen.Begin(l.Addresses())
	screen.Follow(end, heard)
	if err := l.Close(); err != nil {
		return err
	}
	return screen.End(heard.All())
}

// options say how the result is shown.
func (p *probeCmd) options(io base.Streams, cfg *settings.Config) probe.Options {
	term, _ := io.Env("TERM")
	return probe.Options{
		Out:   io.Out,
		Err:   io.Err,
		JSON:  p.Format == "json",
		Plain: term == "dumb",
		Card:  cfg.Maneuver,
		Asked: cfg.Subscribe.Address != "" || cfg.Subscribe.Discover,

		Language: io.Language,
	}
}

// apply puts the flags over the rest of the configuration.
func (p *probeCmd) apply(c *settings.Config) {
	c.SubscribeTo(p.Subscribe)
	c.ListenOn(p.UDP)
}

// until ends when the command does.
func (p *probeCmd) until(ctx context.Context, live bool) (context.Context, context.CancelFunc) {
	length := time.Duration(0)
	if !live {
		length = plainProbe
	}
	if p.For != nil {
		length = *p.For
	}
	if length <= 0 {
		return context.WithCancel(ctx)
	}
	return context.WithTimeout(ctx, length)
}

// busyUDP adds what else can be done when the port belongs to a running Halfturn.
func busyUDP(c *settings.Config, in *phrase.Language, err error) error {
	var taken *socket.BusyError
	if !errors.As(err, &taken) {
		return err
	}
	host, port, splitErr := net.SplitHostPort(c.HTTP)
	if splitErr != nil {
		return err
	}
	if host == "" {
		host = "localhost"
	}
	page := "http://" + net.JoinHostPort(host, port) + "/setup"
	return base.Failf(in, "%w (a running halfturn serve shows the same at %s)", err, page)
}
