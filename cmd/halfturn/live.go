package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"strings"
	"sync"
	"syscall"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/take"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/session"
	"halfturn/coach/stations"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
	"halfturn/stream/ingest"
	"halfturn/web"
	"halfturn/web/desk"
	"halfturn/web/exchange"
	"halfturn/web/hub"
	"halfturn/web/replay"
	"halfturn/web/speech"
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

// live is a running server: UDP in, pages out.
type live struct {
	desk     *desk.Desk
	listener *ingest.Listener
	web      net.Listener
	server   *web.Server
	book     *archive.Archive
	writer   *archive.Writer
	replays  *replay.Manager
	speaker  *speech.Speaker // nil when nothing is spoken here
	unlock   func() error    // lets go of the data directory
	hangUps  func()          // has SIGHUP end the process again
	log      zerolog.Logger
}

// A listener takes what the stations' sessions produce, and passes it on to the next output.
type listener func(next session.Output) session.Output

// start opens everything that serves; nothing is left open when it fails. ended takes each
// session when it is over, before puts an output in front of the pages; both may be nil.
func start(
	ctx context.Context, cfg *settings.Config, io streams, ended func(*debrief.Report), before listener,
) (*live, error) {
	log := newLogger(&cfg.Log, io.err)
	cautions := log.Level(zerolog.WarnLevel) // shown whatever the log shows
	cautions.Warn().Msg(strings.Join(coach.Cautions[:], " "))
	dir, err := cfg.DataDir()
	if err != nil {
		return nil, err
	}
	cfg.Data = dir
	log.Info().Interface("config", cfg).Msg("effective configuration")
	hangUps := outliveHangUps(log)
	lock := &dataLock{dir: dir}
	book, err := archive.Open(dir, archive.Options{
		Engine:  sqlite.Engine{},
		Version: version,
		Repair:  true,
		Await:   true,
		Lock:    lock.take,
		Regrade: regrader(ctx, cfg),
		Context: ctx,
		Tell:    func(words string) { log.Warn().Msg(words) },
	})
	if err != nil {
		hangUps()
		return nil, errors.Join(err, lock.release())
	}
	if err := take.Sweep(ctx, book.Dir()); err != nil {
		log.Warn().Err(err).Msg("what an interrupted import left cannot be removed")
	}
	l := &live{log: log, book: book, unlock: lock.release, hangUps: hangUps}
	l.writer = archive.NewWriter(book, func(err error) {
		log.Error().Err(err).Msg("the logbook cannot be written; coaching goes on, and it is tried again")
	})
	l.tellLeftOut(ctx)
	if err := l.open(ctx, cfg, ended, before); err != nil {
		return nil, errors.Join(err, l.closeBook())
	}
	return l, nil
}

// tellLeftOut warns of session folders that are not in the logbook, at each start until they are mended.
func (l *live) tellLeftOut(ctx context.Context) {
	out, err := l.book.LeftOut(ctx)
	if err != nil || out.Total == 0 { // a logbook that cannot be read says so itself
		return
	}
	why := []string{}
	for _, s := range out.Sessions {
		why = append(why, s.ID+": "+s.Why)
	}
	l.log.Warn().Strs("sessions", why).Msg(areOf(out.Total, "session") +
		" left out of the logbook; mend what is said of each, then stop the server and run halfturn sessions rebuild")
}

// closeBook writes what is left for the logbook, closes it, and lets go of the data directory.
func (l *live) closeBook() error {
	if l.desk != nil {
		l.desk.Close()
	}
	l.writer.Close()
	l.hangUps()
	return errors.Join(l.book.Close(), l.unlock())
}

// deskOf is what the configuration says to the desk.
func deskOf(cfg *settings.Config) (desk.Config, error) {
	lib, err := cfg.Library()
	if err != nil {
		return desk.Config{}, err
	}
	if err := cfg.CheckChosen(lib); err != nil {
		return desk.Config{}, err
	}
	reading, err := cfg.Stream()
	if err != nil {
		return desk.Config{}, err
	}
	maps, err := cfg.MapsHash()
	if err != nil {
		return desk.Config{}, err
	}
	return desk.Config{
		Library:   lib,
		Maneuver:  cfg.Maneuver,
		Aircraft:  cfg.Aircraft,
		Deck:      cfg.Deck,
		Voice:     cfg.Voice(),
		Station:   reading,
		Named:     named(cfg, reading),
		Forget:    cfg.Chosen(),
		Recording: recordingOf(cfg),
		Idle:      cfg.Idle.Duration,
		Maps:      maps,
		Version:   version,
	}, nil
}

// open opens the desk and the sockets.
func (l *live) open(
	ctx context.Context, cfg *settings.Config, ended func(*debrief.Report), before listener,
) error {
	o, err := deskOf(cfg)
	if err != nil {
		return err
	}
	reg := prometheus.NewRegistry()
	reg.MustRegister(collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	metrics, err := ingest.NewMetrics(reg)
	if err != nil {
		return err
	}
	hub := hub.New(version, l.log)
	reg.MustRegister(hub)
	if o.Output, err = l.speak(cfg, hub, reg); err != nil {
		return err
	}
	if before != nil {
		o.Output = before(o.Output)
	}
	if o.Stations, err = stations.Open(cfg.Data); err != nil {
		l.log.Warn().Err(err).Msg("the ids of stations")
	}
	o.Book, o.Writer, o.Metrics, o.Log, o.Ended = l.book, l.writer, metrics, l.log, ended
	if l.desk, err = desk.New(o, reg); err != nil {
		return usageError{err}
	}
	if l.web, err = (&net.ListenConfig{}).Listen(ctx, "tcp", cfg.HTTP); err != nil {
		return cfg.BlameOr("http", "--http", pagesError(cfg.HTTP, err))
	}
	l.desk.Start(ctx, time.Now())
	// Closed by serve alone: the desk must know first that the server stops.
	l.listener, err = listen(context.WithoutCancel(ctx), cfg, l.log, metrics, l.desk.Seat)
	if err != nil {
		return errors.Join(notListening(cfg, err), l.web.Close())
	}
	l.desk.Attach(l.listener)
	l.openPages(cfg, hub, reg)
	return nil
}

// openPages makes what answers on the pages' address.
func (l *live) openPages(cfg *settings.Config, hub *hub.Hub, reg *prometheus.Registry) {
	udp := []string{}
	for _, a := range l.listener.Addresses() {
		udp = append(udp, a.String())
	}
	by := judging(cfg, nil)
	recorded := replay.Sessions{Book: l.book, Follow: by.Follow}
	files := replay.Files{Find: recorded.Find}
	l.replays = replay.NewManager(files, hub, l.log)
	l.server = web.New(web.Config{
		Listen:   udp,
		Refused:  l.refused,
		Hosts:    cfg.Hosts,
		MaxOpen:  pageConnections(cfg, l.log),
		Logbook:  l.book,
		Captures: newCaptures(cfg, l.book, by),
		Replays:  l.replays,
		Flights:  replay.NewFlights(files, recorded.Grown),
	}, hub, l.desk, reg, l.log)
	warnOpen(l.log, l.web.Addr())
	l.log.Info().Str("pages", l.url()).Strs("udp", udp).Str("sessions", l.book.Dir()).Msg("listening; Ctrl-C stops")
}

// newCaptures gives the pages what export and import do.
func newCaptures(cfg *settings.Config, book *archive.Archive, by *stored.Judge) *exchange.Captures {
	importer := func() *take.Importer {
		in := by.Importer(book, "halfturn "+version)
		in.Silence = cfg.Idle.Duration
		return in
	}
	return &exchange.Captures{
		Book:     book,
		Judge:    by,
		Importer: importer,
		Taken:    func(t *take.Taken) any { return newImportList([]*take.Taken{t}) },
	}
}

// refusedFor is how long the pages report a sender that was refused and sends no more.
const refusedFor = time.Minute

// refused says for the pages who is refused a seat; nil when nobody is.
func (l *live) refused() *web.Refused {
	last := l.listener.Refused()
	if last.At.IsZero() || time.Since(last.At) > refusedFor {
		return nil
	}
	return &web.Refused{Address: last.Sender.String(), Seats: last.Most}
}

// speak puts a speaker in front of the hub when callouts are to be spoken here.
func (l *live) speak(cfg *settings.Config, hub *hub.Hub, reg prometheus.Registerer) (session.Output, error) {
	if len(cfg.Speech.Command) == 0 {
		return hub, nil
	}
	var err error
	l.speaker, err = speech.New(speech.Config{
		Command: cfg.Speech.Command,
		Rate:    cfg.Speech.Rate,
		Full:    cfg.Speech.Words == "full",
		Station: cfg.Speech.Station,
		Log:     l.log,
	}, hub, reg)
	if err != nil {
		return nil, usageError{err}
	}
	return l.speaker, nil
}

// pagesError says what to do about an address that the pages cannot be served on.
func pagesError(address string, err error) error {
	if errors.Is(err, syscall.EADDRINUSE) {
		return fmt.Errorf("the pages' address %s is taken by another program; stop it, or choose another", address)
	}
	return fmt.Errorf("the pages' address %s cannot be listened on: %w; choose another", address, err)
}

// url is where a browser on this machine finds the pages.
func (l *live) url() string {
	a := l.web.Addr().(*net.TCPAddr)
	host := a.IP.String()
	if a.IP.IsUnspecified() {
		host = "localhost"
	}
	return "http://" + net.JoinHostPort(host, fmt.Sprint(a.Port)) + "/"
}

// serve answers until the context ends, then closes the stations first, so that their last
// words still reach the pages, and the pages after them.
func (l *live) serve(ctx context.Context) error {
	pages, stopPages := context.WithCancel(context.WithoutCancel(ctx))
	defer stopPages()
	var wait sync.WaitGroup
	failed := make(chan error, 1)
	wait.Go(func() { failed <- l.server.Serve(pages, l.web) })
	if l.speaker != nil {
		wait.Go(func() { l.speaker.Run(pages) })
	}
	var err error
	select {
	case <-ctx.Done():
	case err = <-failed:
	}
	l.desk.Stopping()
	err = errors.Join(err, l.listener.Close())
	l.replays.Close()
	stopPages()
	wait.Wait()
	return errors.Join(err, l.closeBook())
}
