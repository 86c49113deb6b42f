// Package live assembles the server: datagrams come in over UDP, the desk coaches and records, the pages go out. It
// joins the packages that do these things; it does none of them itself.
package live

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/lock"
	"halfturn/coach/archive/queue"
	"halfturn/coach/archive/take"
	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/people"
	"halfturn/coach/session"
	"halfturn/coach/stations"
	"halfturn/coach/storage"
	"halfturn/coach/who"
	"halfturn/configs/settings"
	"halfturn/stream/contain"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/access"
	"halfturn/web/cluster/node"
	"halfturn/web/cluster/spool"
	"halfturn/web/desk"
	"halfturn/web/hub"
	"halfturn/web/overload"
	"halfturn/web/replay"
	"halfturn/web/share/home"
	"halfturn/web/share/school"
	"halfturn/web/show"
	"halfturn/web/speech"
)

// Options say what is served, and what else takes part.
type Options struct {
	Config  *settings.Config
	Version string // of the program
	Log     zerolog.Logger
	Ended   func(*debrief.Report)                    // takes each session when it is over; nil when nobody asks
	Before  func(next session.Output) session.Output // puts an output in front of the pages; nil when there is none
	// Enter waits until the last words are asked for again at the terminal. It returns false when the context has
	// ended, or nobody types any more. It is nil when nobody does.
	Enter func(context.Context) bool
	Depot *Depot           // keeps the session folders of many servers; nil: the data directory alone does
	Words *phrase.Language // that the cautions are told in; nil is English, as the rest of the log is
	Level func(string)     // sets how much is logged, by a name of settings.Levels; nil where it cannot change

	Cluster *Cluster       // that this server is a node of; nil: it is a single one
	Storage *storage.Place // of the logbook and the list of people; nil: the data directory
}

// cautions are told at the start.
func (o *Options) cautions() string {
	all := make([]string, len(coach.Cautions))
	for i, c := range coach.Cautions {
		all[i] = o.Words.Text(c)
	}
	return strings.Join(all, " ")
}

// A Server is what runs: UDP in, pages out.
type Server struct {
	options  Options
	log      zerolog.Logger
	desk     *desk.Desk
	listener *ingest.Listener
	web      net.Listener
	pages    *web.Server
	book     *archive.Archive
	spool    *spool.Spool // stores recordings in the depot; nil without one
	writer   *queue.Writer
	replays  *replay.Manager
	show     *show.Show
	faults   *contain.Faults
	speaker  *speech.Speaker // nil when nothing is spoken here
	people   people.Store
	access   *access.Access
	home     *home.Sharer // nil when no station is shared
	school   *school.Server
	node     *node.Node // of a cluster; nil where there is none
	owned    *lock.Lock // on the data directory; nil while it is not held
	lines    lines      // of button boxes
	overload *overload.Watch
	most     int // stations

	stopDepot func() // ends what stores recordings; nil before it was started

	current     atomic.Pointer[settings.Config] // what holds now; replaced, never changed
	certificate atomic.Pointer[tls.Certificate] // nil without TLS
	loaded      *settings.Config                // as it was read last; of the goroutine that reloads
}

// Start opens everything that serves; nothing is left open when it fails. A setting that cannot be used is a
// [settings.Error]. It changes the configuration's data directory to the one that is used.
func Start(ctx context.Context, o Options) (*Server, error) {
	s := &Server{options: o, log: o.Log, lines: make(lines, mostLines)}
	s.faults = contain.New(func(err error) { s.log.Error().Err(err).Msg("the rest goes on") })
	cautions := o.Log.Sample(nil).Level(zerolog.WarnLevel) // shown whatever the log shows
	cautions.Warn().Msg(o.cautions())
	dir, err := o.Config.DataDir()
	if err != nil {
		return nil, err
	}
	loaded := *o.Config // as it was read: what follows puts names of cards in place of files
	s.loaded = &loaded
	o.Config.Data = dir
	s.current.Store(o.Config)
	s.log.Debug().Interface("config", o.Config).Msg("effective configuration")
	if err := s.openBook(ctx); err != nil {
		return nil, errors.Join(err, s.disown())
	}
	if err := s.open(ctx); err != nil {
		if s.node != nil {
			s.node.Close()
		}
		return nil, errors.Join(err, s.closeBook())
	}
	return s, nil
}

// openBook opens the archive and clears up what an interrupted program left in it.
func (s *Server) openBook(ctx context.Context) (err error) {
	dir := s.options.Config.Data
	again := judge(s.config)
	s.book, err = archive.Open(dir, archive.Options{
		Engine:  s.storage(dir).Engine(),
		Depot:   s.openDepot(),
		Version: s.options.Version,
		Repair:  true,
		Await:   true,
		Acted: func(id string) {
			if s.home != nil {
				s.home.Acted(id)
			}
		},
		Lock:    func() error { return s.own(dir) },
		Regrade: func(dir string) (*debrief.Report, error) { return again.Again(ctx, dir) },
		Context: ctx,
		Tell:    func(words string) { s.log.Warn().Msg(words) },
		Log: func(done string, by who.Who, id string) {
			s.log.Info().Str("by", by.Name).Str("session", id).Msg(done)
		},
	})
	if err != nil {
		return err
	}
	if err := take.Sweep(ctx, s.book.Dir()); err != nil {
		s.log.Warn().Err(err).Msg("what an interrupted import left cannot be removed")
	}
	if err := s.openPeople(dir); err != nil {
		return errors.Join(err, s.book.Close())
	}
	s.writer = queue.New(s.book, func(err error) {
		if taken := (*queue.Taken)(nil); errors.As(err, &taken) {
			s.log.Warn().Err(taken.Why).Str("session", taken.ID).
				Msg("another node has taken the session over and enters it; what this one has of it since is dropped")
			if s.node != nil {
				s.node.Refused(taken.ID)
			}
			return
		}
		s.log.Error().Err(err).Msg("the logbook cannot be written; coaching goes on, and it is tried again")
	})
	s.reportLeftOut(ctx)
	return nil
}

// own takes the data directory for this process, unless it has it already.
func (s *Server) own(dir string) (err error) {
	if s.owned == nil {
		s.owned, err = lock.Own(dir)
	}
	return err
}

// disown lets go of the data directory.
func (s *Server) disown() error {
	if s.owned == nil {
		return nil
	}
	return s.owned.Close()
}

// reportLeftOut warns of session folders that are not in the logbook, at each start until they are mended.
func (s *Server) reportLeftOut(ctx context.Context) {
	out, err := s.book.LeftOut(ctx)
	if err != nil || out.Total == 0 { // a logbook that cannot be read says so itself
		return
	}
	why := []string{}
	for _, session := range out.Sessions {
		why = append(why, session.ID+": "+session.Why.String())
	}
	number := "1 session is"
	if out.Total > 1 {
		number = fmt.Sprintf("%d sessions are", out.Total)
	}
	s.log.Warn().Strs("sessions", why).Msg(number +
		" left out of the logbook; mend what is said of each, then stop the server and run halfturn sessions rebuild")
}

// closeBook writes what is left for the logbook, closes it, and lets go of the data directory.
func (s *Server) closeBook() error {
	if s.desk != nil {
		s.desk.Close()
	}
	s.writer.Close()
	if s.stopDepot != nil {
		s.stopDepot()
	}
	return errors.Join(s.book.Close(), s.people.Close(), s.disown())
}

// open opens the desk and the sockets.
func (s *Server) open(ctx context.Context) error {
	cfg := s.options.Config
	o, err := deskConfig(cfg, s.options.Version)
	if err != nil {
		return err
	}
	reg := prometheus.NewRegistry()
	reg.MustRegister(buildInfo(s.options.Version))
	reg.MustRegister(collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	metrics, err := ingest.NewMetrics(reg)
	if err != nil {
		return err
	}
	hub := hub.New(s.options.Version, s.log)
	s.overload = overload.New(overload.Config{Read: s.strain(), SetGap: hub.SetFrameGap, Log: s.log})
	reg.MustRegister(hub, s.overload, s.faults.Collector())
	reg.MustRegister(s.writer.Collectors()...)
	if o.Output, err = s.output(hub, reg); err != nil {
		return err
	}
	if o.Stations, err = stations.Open(cfg.Data); err != nil {
		s.log.Warn().Err(err).Msg("the ids of stations")
	}
	o.Book, o.Writer, o.Metrics, o.Log, o.Ended = s.book, s.writer, metrics, s.log, s.options.Ended
	o.Faults = s.faults
	if err := s.joinCluster(hub, &o, reg); err != nil {
		return err
	}
	if err := s.share(hub, &o, reg); err != nil {
		return err
	}
	if err := s.tapDepot(&o, reg); err != nil {
		return err
	}
	if s.desk, err = desk.New(o, reg); err != nil {
		return settings.NewError(err)
	}
	if s.web, err = listenPages(ctx, cfg, s.options.Words); err != nil {
		return err
	}
	s.startDesk(ctx)
	s.writer.GoOn()
	s.startDepot()
	if s.home != nil {
		s.home.Settle()
	}
	// Closed by Serve alone: the desk must know first that the server stops.
	s.most = mostStations(cfg, s.log)
	s.listener, err = s.listenUDP(context.WithoutCancel(ctx), metrics)
	if err != nil {
		return errors.Join(cfg.BlameListening(err), s.web.Close())
	}
	s.desk.Attach(s.listener)
	if err := s.openPages(hub, reg); err != nil {
		return errors.Join(err, s.web.Close(), s.listener.Close())
	}
	return nil
}

// output is where the sessions' messages go: the hub, a speaker in front of it when callouts are to be spoken here, and
// what the caller puts in front of both.
func (s *Server) output(hub *hub.Hub, reg prometheus.Registerer) (out session.Output, err error) {
	out = hub
	if c := &s.options.Config.Speech; len(c.Command) > 0 {
		s.speaker, err = speech.New(speech.Config{
			Command: c.Command,
			Rate:    c.Rate,
			Level:   speech.Level(c.Words),
			Station: c.Station,
			Log:     s.log,
		}, hub, reg)
		if err != nil {
			return nil, settings.NewError(err)
		}
		out = s.speaker
	}
	if s.options.Before != nil {
		out = s.options.Before(out)
	}
	return out, nil
}

// Addresses are those that simulators send to.
func (s *Server) Addresses() []netip.AddrPort { return s.listener.Addresses() }

// Do does a command to a station.
func (s *Server) Do(ctx context.Context, c command.Command) error { return s.desk.Do(ctx, c) }

// URL is where a browser on this machine finds the pages.
func (s *Server) URL() string {
	a := s.web.Addr().(*net.TCPAddr)
	host := a.IP.String()
	if a.IP.IsUnspecified() {
		host = "localhost"
	}
	scheme := "http://"
	if s.options.Config.TLS.On() {
		scheme = "https://"
	}
	return scheme + net.JoinHostPort(host, fmt.Sprint(a.Port)) + "/"
}

// Serve answers until the context ends. Then it closes the stations first, so that their last words still reach the
// pages, and the pages after them.
func (s *Server) Serve(ctx context.Context) error {
	pages, stopPages := context.WithCancel(context.WithoutCancel(ctx))
	defer stopPages()
	var wait sync.WaitGroup
	failed := make(chan error, 1)
	wait.Go(func() { failed <- s.pages.Serve(pages, s.web) })
	wait.Go(func() { s.access.Run(pages) })
	wait.Go(func() { s.overload.Run(pages) })
	wait.Go(func() { s.lines.run(pages, s.pages.Line, s.log) })
	school, leave := context.WithCancel(pages)
	defer leave()
	wait.Go(func() { s.school.Run(school) })
	if s.home != nil {
		wait.Go(func() { s.home.Run(pages) })
	}
	if s.node != nil {
		wait.Go(func() { s.node.Run(pages) })
	}
	if s.speaker != nil {
		wait.Go(func() { s.faults.Run("speech", "here", func() { s.speaker.Run(pages) }) })
		if s.options.Enter != nil {
			wait.Go(func() { s.sayAgain(pages) })
		}
	}
	var err error
	select {
	case <-ctx.Done():
	case err = <-failed:
	}
	leave()
	s.show.Close()
	s.desk.Stopping()
	err = errors.Join(err, s.listener.Close())
	s.leaveCluster()
	s.replays.Close()
	stopPages()
	wait.Wait()
	if s.node != nil {
		s.node.Close()
	}
	return errors.Join(err, s.closeBook())
}
