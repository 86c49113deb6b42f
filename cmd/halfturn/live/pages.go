package live

import (
	"net/netip"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/archive"
	"halfturn/coach/archive/take"
	"halfturn/coach/course"
	"halfturn/coach/stored"
	"halfturn/coach/who"
	"halfturn/configs/settings"
	"halfturn/web"
	"halfturn/web/exchange"
	"halfturn/web/finder"
	"halfturn/web/hub"
	"halfturn/web/lan"
	"halfturn/web/measuring"
	"halfturn/web/replay"
	"halfturn/web/show"
)

// openPages makes what answers on the pages' address.
func (s *Server) openPages(hub *hub.Hub, reg *prometheus.Registry) error {
	cfg := s.options.Config
	secure, err := s.secure()
	if err != nil {
		return err
	}
	udp := []string{}
	for _, a := range s.listener.Addresses() {
		udp = append(udp, a.String())
	}
	by := judge(s.config)
	recorded := replay.Sessions{Book: s.book, Follow: by.Follow}
	files := replay.Files{Find: recorded.Find}
	s.replays = replay.NewManager(files, hub, s.faults, s.log)
	s.show = show.New(show.Options{Host: s.desk, To: loopback(s.listener.Addresses()[0]), Log: s.log, Faults: s.faults})
	s.desk.Demonstrates(s.show)
	s.pages = web.New(web.Config{
		Listen:   udp,
		Refused:  s.refused,
		Lost:     s.lost,
		Lacking:  s.lacking,
		Hosts:    cfg.Hosts,
		MaxOpen:  connections(s.most, s.log),
		Logbook:  s.book,
		Captures: newCaptures(s.config, s.book, s.options.Version),
		Judging: &exchange.Judging{
			Archive:      s.book,
			Judge:        by,
			Required:     func(maneuver string) string { return s.config().Judging.RequiredOf(maneuver) },
			StudentFirst: func() bool { return s.config().Judging.StudentFirst },
		},
		Courses: &exchange.Courses{
			Archive:  s.book,
			Library:  courses(s.config),
			Required: func(maneuver string) string { return s.config().Judging.RequiredOf(maneuver) },
		},
		Replays: s.replays,
		Flights: replay.Judged{
			Flights: replay.NewFlights(files, recorded.Grown, recorded.Graded),
			Of:      s.book.Judging,
		},
		Finder: &finder.Finder{
			Listener: s.listener,
			Machine:  lan.Addresses,
			Fixed:    s.listener.IsReachable(),
		},
		Show:      s.show,
		Measuring: &measuring.Measuring{Desk: s.desk, Folder: cfg.OwnCards()},
		Access:    s.access,
		TLS:       secure,
		Link:      s.school.Serve,
		Faults:    s.faults,
	}, hub, s.shown(), reg, s.log)
	warnOpen(s.log, s.web.Addr(), secure != nil)
	s.log.Info().Str("pages", s.URL()).Strs("udp", udp).Str("sessions", s.book.Dir()).Msg("listening; Ctrl-C stops")
	return nil
}

// loopback is where this program sends to a socket that listens at an address.
func loopback(a netip.AddrPort) netip.AddrPort {
	switch ip := a.Addr().Unmap(); {
	case !ip.IsUnspecified() && !ip.IsMulticast():
		return a
	case ip.Is4() || ip.IsMulticast():
		return netip.AddrPortFrom(netip.AddrFrom4([4]byte{127, 0, 0, 1}), a.Port())
	}
	return netip.AddrPortFrom(netip.IPv6Loopback(), a.Port())
}

// judge grades recordings by the cards of the configuration as it is then.
func judge(now configuration) *stored.Judge { return &stored.Judge{Setup: now} }

// newCaptures gives the pages what export and import do.
func newCaptures(now configuration, book *archive.Archive, version string) *exchange.Captures {
	by := judge(now)
	importer := func() *take.Importer {
		in := by.Importer(who.Owner(), book, "halfturn "+version)
		in.Silence = now().Idle.Duration
		return in
	}
	return &exchange.Captures{
		Book:     book,
		Judge:    by,
		Again:    func(o stored.Override) *stored.Regrade { return again(now, book, o) },
		Importer: importer,
		Taken:    func(t *take.Taken) any { return take.NewList(t) },
	}
}

// courses reads the courses of the configuration, and reads them again once there is another.
func courses(now configuration) func() (*course.Library, error) {
	var mu sync.Mutex
	var of *settings.Config
	var lib *course.Library
	return func() (*course.Library, error) {
		mu.Lock()
		defer mu.Unlock()
		if cfg := now(); cfg != of {
			fresh, err := cfg.Courses()
			if err != nil {
				return nil, err
			}
			of, lib = cfg, fresh
		}
		return lib, nil
	}
}

// again grades a session again by other cards, those of today, and keeps that in a book that stays open.
func again(now configuration, book *archive.Archive, o stored.Override) *stored.Regrade {
	by := judge(now)
	by.Asked, by.Today = o, true
	keeper := func() (stored.Keeper, error) { return openBook{book}, nil }
	return &stored.Regrade{Judge: by, By: who.Owner(), Archive: keeper}
}

// openBook is a book that others use too.
type openBook struct{ *archive.Archive }

// Close leaves it open.
func (openBook) Close() error { return nil }

// refusedFor is how long the pages report a sender that was refused and sends no more.
const refusedFor = time.Minute

// refused says for the pages which sender has no station; nil when all have one.
func (s *Server) refused() *web.Refused {
	last := s.listener.Refused()
	if last.At.IsZero() || time.Since(last.At) > refusedFor {
		return nil
	}
	return &web.Refused{Address: last.Sender.String(), Senders: last.Most}
}

// lost says for the pages what the system dropped before it could be read; nil when that was nothing.
func (s *Server) lost() *web.Lost {
	d := s.listener.Dropped()
	if d.Datagrams == 0 {
		return nil
	}
	return &web.Lost{Datagrams: d.Datagrams, Last: d.Last.UTC().Format(time.RFC3339)}
}
