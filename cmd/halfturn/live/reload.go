package live

import (
	"strings"

	"github.com/rs/zerolog"

	"halfturn/coach/maneuver"
	"halfturn/coach/session"
	"halfturn/configs/settings"
	"halfturn/web/desk"
)

// A configuration returns the configuration that holds now. It is what recordings are graded by.
type configuration func() *settings.Config

// config is the [configuration] of a server.
func (s *Server) config() *settings.Config { return s.current.Load() }

func (c configuration) setup() settings.Setup { return settings.Setup{Config: c()} }

// Choice implements stored.Setup.
func (c configuration) Choice() maneuver.Choice { return c.setup().Choice() }

// Options implements stored.Setup.
func (c configuration) Options(choice maneuver.Choice, besides string) (session.Options, error) {
	return c.setup().Options(choice, besides)
}

// Library implements stored.Setup.
func (c configuration) Library(choice maneuver.Choice, besides string) (*maneuver.Library, error) {
	return c.setup().Library(choice, besides)
}

// Reload takes over a configuration that was read again, as far as a running server can, and logs key by key what
// changed and what needs a restart. Cards and certificates are read again even where no key has changed. When anything
// cannot be used nothing changes, and the error says why. One goroutine at a time may call it.
func (s *Server) Reload(again *settings.Config) error {
	taken, restart := s.loaded.Changes(again)
	next := s.config().Updated(again)
	library, err := next.Library()
	if err != nil {
		return err
	}
	if err := next.CheckChosen(library); err != nil {
		return err
	}
	pair, err := certificate(next, s.options.Words)
	if err != nil {
		return err
	}
	change := desk.Reload{Library: library}
	if r := recording(&next.Recording); r != nil {
		change.Compress, change.Retention = r.Compress, r.Retention
	}
	apply, cards, err := s.desk.Prepare(change)
	if err != nil {
		return err
	}
	apply()
	s.current.Store(next)
	s.listener.Limit(next.MaxRate, mostStations(next, s.log))
	if pair != nil {
		s.certificate.Store(pair)
	}
	if s.options.Level != nil {
		s.options.Level(next.Log.Level)
	}
	loaded := *s.loaded.Updated(again) // what needs a restart is said again each time
	s.loaded = &loaded
	s.logReload(taken, restart, cards)
	return nil
}

// logReload says what a reload changed.
func (s *Server) logReload(taken, restart []string, cards bool) {
	log := s.log.Sample(nil) // an answer to whoever asked, shown whatever the log shows
	e := log.WithLevel(zerolog.WarnLevel).Strs("changed", taken).Bool("cards", cards)
	if len(restart) > 0 {
		e = e.Strs("needs-restart", restart)
	}
	words := "the configuration was read again; nothing in it has changed"
	switch {
	case cards:
		words = "the configuration was read again; sessions that begin from now on are flown by the new cards"
	case len(taken) > 0, len(restart) > 0:
		words = "the configuration was read again"
	}
	if len(restart) > 0 {
		words += "; not before a restart: " + strings.Join(restart, ", ")
	}
	e.Msg(words)
}
