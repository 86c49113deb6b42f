package web

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	stdlog "log"
	"net"
	"net/http"
	"net/netip"
	"os"
	"strings"
	"sync/atomic"
	"time"

	"github.com/gorilla/websocket"
	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/web/access"
	"halfturn/web/guard"
	"halfturn/web/hub"
	"halfturn/web/lan"
)

// Config is what a Server needs to know.
type Config struct {
	Listen     []string     // addresses simulators send to, told to users who have none there yet
	Hosts      []string     // names the server is known by, beside its addresses and localhost
	MaxViewers int          // live sockets at once; 0 is 1,000
	MaxOpen    int          // connections at once, live sockets among them; 0 is guard.MostOpen
	Replays    Replays      // recorded sessions played again; nil when there are none
	Flights    Flights      // recorded sessions as pictures; nil when there are none
	Logbook    Logbook      // what was flown; nil when none is kept
	Captures   Captures     // sessions as files; nil when there are none
	Judging    Judging      // what people make of grades; nil when no logbook is kept
	Courses    Courses      // what students fly one after the other; nil when no logbook is kept
	Lost       func() *Lost // what the system dropped unread; may be nil, and return nil
	// Lacking says what the server gives up now because more arrives than it can work on; may be nil.
	Lacking   func() []phrase.Phrase
	Refused   func() *Refused     // the sender that is refused a station now; may be nil, and return nil
	Machine   func() []netip.Addr // this machine's addresses in private networks; nil asks the system
	Finder    Finder              // simulators around the server; nil when it looks for none
	Show      Show                // demonstrations; nil when none can be flown
	Link      guard.Handler       // takes the links of stations at home; nil when none are taken
	Measuring Measuring           // of aircraft; nil when none can be measured
	Access    *access.Access      // lets people in; nil: whoever reaches this machine's own address is its owner
	TLS       *tls.Config         // nil: without TLS
	Faults    *contain.Faults     // contains those of viewers; nil: they end the program
}

// A Server answers HTTP requests.
type Server struct {
	cfg      Config
	hub      *hub.Hub
	desk     Desk
	log      zerolog.Logger
	hosts    *guard.Door
	gates    gates
	pages    map[string]page
	upgrader websocket.Upgrader
	handler  http.Handler
	visits   guard.Visits
	network  atomic.Pointer[lan.Network] // nil until it serves
}

// shakeWait is how long a live socket may take to be opened.
const shakeWait = 5 * time.Second

// When the server stops, requests may go on for stopWait; then they are cut off, and have cutWait to end.
const (
	stopWait = time.Second
	cutWait  = time.Second / 2
)

// New returns a server of the hub's stations. The gatherer's metrics are served at /metrics.
func New(cfg Config, stations *hub.Hub, desk Desk, gatherer prometheus.Gatherer, log zerolog.Logger) *Server {
	if cfg.MaxViewers == 0 {
		cfg.MaxViewers = 1000
	}
	if cfg.MaxOpen == 0 {
		cfg.MaxOpen = guard.MostOpen
	}
	if cfg.Listen == nil {
		cfg.Listen = []string{}
	}
	all, err := embeddedPages()
	if err != nil {
		panic(fmt.Sprintf("web: the embedded pages cannot be read: %v", err))
	}
	s := &Server{
		cfg: cfg, hub: stations, desk: desk, log: log,
		hosts:    guard.NewDoor(cfg.Hosts),
		gates:    newGates(),
		pages:    all,
		upgrader: websocket.Upgrader{HandshakeTimeout: shakeWait, CheckOrigin: guard.SameOrigin},
	}
	secure := guard.Secure(cfg.TLS != nil, s.identify(s.routes(gatherer)))
	s.handler = s.visits.Wrap(s.hosts.Guard(secure))
	return s
}

// encrypted is a listener whose connections speak TLS, where it is on.
func (s *Server) encrypted(l net.Listener) net.Listener {
	if s.cfg.TLS == nil {
		return l
	}
	return tls.NewListener(l, s.cfg.TLS)
}

// healthz says that the server serves, and what it lacks. It is alive in either case, so that the status is 200: a
// server that is started again because it is overloaded loses more.
func (s *Server) healthz(w http.ResponseWriter, _ *http.Request) error {
	words := "ok\n"
	if s.cfg.Lacking != nil {
		if list := s.cfg.Lacking(); len(list) > 0 {
			words = "degraded\n"
			for _, p := range list {
				words += p.String() + "\n"
			}
		}
	}
	w.Header().Set("Content-Type", "text/plain; charset=utf-8")
	_, err := io.WriteString(w, words)
	return err
}

// Handler returns all that is served, for tests and for servers of one's own. Hosts other
// than loopback ones and those of the Config are refused.
func (s *Server) Handler() http.Handler { return s.handler }

// Serve answers on the listener until the context ends, then closes the live sockets and
// waits for what is being answered, which is cut off when it takes long. It returns nil when it was stopped by the
// context.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	hostname, _ := os.Hostname() // without one the machine is asked for by its addresses
	s.hosts.Bound(l.Addr(), hostname)
	guests := guard.NewCrowd(l, s.cfg.MaxOpen, s.log, s.hub.Refused)
	srv := &http.Server{
		Handler:           s.handler,
		ReadHeaderTimeout: 5 * time.Second,
		IdleTimeout:       time.Minute,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          stdlog.New(warnings{s.log}, "", 0),
	}
	network := s.openable(l.Addr(), srv)
	defer network.Close()
	failed := make(chan error, 1)
	go func() { failed <- srv.Serve(s.encrypted(guests)) }()
	defer guests.Wait()
	select {
	case err := <-failed:
		s.hub.Close("the server failed")
		return fmt.Errorf("serve %s: %w", l.Addr(), err)
	case <-ctx.Done():
	}
	// The sockets first: Shutdown knows nothing of them.
	s.hub.Close("the server is stopping")
	stop, cancel := context.WithTimeout(context.WithoutCancel(ctx), stopWait)
	defer cancel()
	s.hub.Drain(stop)
	err := srv.Shutdown(stop)
	if errors.Is(err, context.DeadlineExceeded) {
		err = srv.Close() // which ends what is read and written, and so the contexts
		if !s.visits.Await(cutWait) {
			s.log.Warn().Msg("a request is still being worked on; the server stops without it")
		}
	}
	<-failed
	return err
}

// warnings are what net/http says, each a line.
type warnings struct{ log zerolog.Logger }

func (w warnings) Write(p []byte) (int, error) {
	w.log.Warn().Msg(strings.TrimSpace(string(p)))
	return len(p), nil
}
