package main

import (
	"bytes"
	"context"
	"fmt"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/browser"
	"halfturn/cmd/halfturn/capacity"
	"halfturn/cmd/halfturn/cluster"
	"halfturn/cmd/halfturn/console"
	"halfturn/cmd/halfturn/demo"
	"halfturn/cmd/halfturn/live"
	"halfturn/cmd/halfturn/profiling"
	"halfturn/cmd/halfturn/signals"
	"halfturn/cmd/halfturn/welcome"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/configs/settings"
)

// listening are the flags of the commands that serve.
type listening struct {
	HTTP      *string  `help:"Address of the pages: HOST:PORT." placeholder:"ADDR" name:"http"`
	UDP       []string `help:"Address that simulators send to: HOST:PORT; repeatable." placeholder:"ADDR" name:"udp"`
	Data      *string  `help:"Where sessions are kept." placeholder:"DIR" type:"path"`
	Subscribe *string  `help:"${help_subscribe}" placeholder:"ADDR|auto"`
	LogLevel  *string  `help:"How much is logged: ${levels}." placeholder:"LEVEL"`
}

// apply puts the flags over the rest of the configuration.
func (l *listening) apply(c *settings.Config) {
	settings.Set(c, "http", &c.HTTP, l.HTTP)
	settings.Set(c, "data", &c.Data, l.Data)
	settings.SetFrom(c, "log.level", "--log-level", &c.Log.Level, l.LogLevel)
	c.SubscribeTo(l.Subscribe)
	c.ListenOn(l.UDP)
}

// sharing are the flags of sharing a station with a school.
type sharing struct {
	Share      *string `help:"Share the station with the Halfturn of a school: its address." placeholder:"URL"`
	StationKey *string `help:"File with the key of the station, from the school." placeholder:"FILE" type:"path"`
}

// apply puts the flags over the rest of the configuration.
func (s *sharing) apply(c *settings.Config) { c.ShareWith(s.Share, s.StationKey) }

type serveCmd struct {
	base.Flags
	listening
	sharing
	Cluster string `help:"Be a node of the cluster that this file describes." placeholder:"FILE" type:"path"`

	Open  bool   `help:"Open the page in a browser, and say what to do; a start without arguments does so."`
	Pprof string `help:"Serve profiles of the program at this loopback address." placeholder:"ADDR" name:"pprof"`
}

// Help says how it ends.
func (serveCmd) Help() string {
	return "Ctrl-C, or SIGTERM, ends it: it keeps what was flown, and prints it. A second one ends it at once, even " +
		"where a disk does not answer; the next start then repairs the recordings. SIGHUP ends it when a terminal " +
		"started it, for that has gone; without a terminal, as a service, it reads the configuration and the cards " +
		"again, and logs what changed and what needs a restart; when something is wrong it goes on as it was, and " +
		"logs why. Under nohup it goes on in any case. With a speech program, the Enter " +
		"key says what was said last once more."
}

// Run serves until it is interrupted, and prints what was flown.
func (s *serveCmd) Run(ctx context.Context, io base.Streams) error {
	load := func() (*settings.Config, error) {
		return base.Load(&s.Flags, io.Env, s.listening.apply, s.sharing.apply)
	}
	cfg, err := load()
	if err != nil {
		return err
	}
	capacity.Widen()
	capacity.Save()
	if s.Open && welcome.Running(ctx, cfg.HTTP, cfg.TLS.On()) {
		url := welcome.URL(cfg.HTTP, cfg.TLS.On())
		fmt.Fprintf(io.Err, "%s\n%s\n", io.Language.Word("Halfturn runs already; its page:"), url)
		browser.Open(ctx, url)
		return nil
	}
	if s.Pprof != "" {
		url, stop, err := profiling.Start(ctx, io.Language, s.Pprof)
		if err != nil {
			return err
		}
		defer stop()
		fmt.Fprintln(io.Err, io.Language.Wordf("Profiles of the program: %s", url))
	}
	l, end, err := start(ctx, starting{Config: cfg, again: load, cluster: s.Cluster}, io)
	if err != nil {
		return err
	}
	defer end()
	if s.Open || console.IsText(&cfg.Log, io.Err) {
		welcome.Say(io.Err, l.URL(), io.Language)
	}
	if s.Open {
		browser.Open(ctx, l.URL())
	}
	return l.Serve(ctx)
}

// starting is what a server begins with.
type starting struct {
	*settings.Config
	again func() (*settings.Config, error) // reads the configuration again
	show  *demo.Show                       // nil where no demonstration is flown

	cluster string // file of the cluster; "" is none
}

// start opens a server that prints each session when it is over. What it returns ends what belongs to the process, once
// the server has ended.
func start(ctx context.Context, s starting, io base.Streams) (*live.Server, func(), error) {
	cfg, show := s.Config, s.show
	log, level := console.NewLogger(&cfg.Log, io.Err)
	o := live.Options{
		Config:  cfg,
		Version: base.Version,
		Log:     log,
		Ended:   func(r *debrief.Report) { printEnded(io, r) },
		Enter:   io.Enter,
		Words:   io.Language,
		Level:   level.Set,
	}
	if o.Enter != nil {
		signals.ReadInBackground()
	}
	if show != nil {
		o.Before = show.Output
		show.Warn = func(err error) { log.Warn().Err(err).Msg("the demonstration goes on with the maneuver before") }
	}
	leave := func() {}
	if s.cluster != "" {
		var err error
		if o.Cluster, leave, err = cluster.Open(ctx, s.cluster, io.Env, io.Language, log); err != nil {
			return nil, nil, err
		}
	}
	begin, hung := signals.HangUps()
	end := func() {
		hung()
		leave()
	}
	l, err := live.Start(ctx, o)
	if err != nil {
		end()
		return nil, nil, err
	}
	begin(func() { reload(l, s.again, log) })
	return l, end, nil
}

// reload has a server read its configuration again. What is wrong with that is logged, and changes nothing.
func reload(l *live.Server, again func() (*settings.Config, error), log zerolog.Logger) {
	cfg, err := again()
	if err == nil {
		err = l.Reload(cfg)
	}
	if err != nil {
		log.Error().Err(err).
			Msg("SIGHUP: the configuration cannot be taken over; the server goes on with the one before")
	}
}

// printEnded prints a session in one piece, for several may end at once.
func printEnded(io base.Streams, r *debrief.Report) {
	var all bytes.Buffer
	err := text.Report(&all, r, io.Language)
	if err == nil {
		_, err = io.Out.Write(all.Bytes())
	}
	if err != nil {
		fmt.Fprintf(io.Err, "halfturn: %s\n", io.Language.Wordf("the summary cannot be printed: %v", err))
	}
}
