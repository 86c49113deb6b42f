package web

import (
	"net/http"

	"halfturn/stream/phrase"
	"halfturn/web/guard"
	"halfturn/web/hub"
)

// live serves GET /live[?station=NAME][&since=SEQ[&run=RUN]]: the messages of one station. With since, a viewer that
// has the events up to that number gets those it missed and no hello, where they are still known and run, the one its
// hello told, is still the same. With wall=1 in place of a station it is told what changes at all stations that it may
// see; since is then the mark of the last wall.
func (s *Server) live(w http.ResponseWriter, r *http.Request) error {
	want, err := hub.WishOf(r.URL.Query())
	if err != nil {
		return guard.Misuse(http.StatusBadRequest, err.Error())
	}
	if want.Station != "" {
		if err := s.mayWatch(r, want.Station); err != nil {
			return err
		}
	}
	want.Sees = sees(callerOf(r))
	want.Who = asks(r)
	want.Other = isOther(want.Who)
	v, ok := s.hub.Join(want, s.cfg.MaxViewers)
	if !ok {
		return &guard.Problem{
			Status: http.StatusServiceUnavailable,
			Phrase: phrase.TooManyViewers.Of(phrase.Int("most", s.cfg.MaxViewers)),
		}
	}
	defer s.hub.Leave(v)
	if s.cfg.Access != nil {
		defer s.cfg.Access.Watches(knownOf(r), func() { v.End("the login has ended") })()
	}
	conn, err := s.upgrader.Upgrade(w, r, nil)
	if err != nil {
		return nil // the upgrader has answered
	}
	s.log.Debug().Str("remote", r.RemoteAddr).Str("station", want.Station).Msg("viewer came")
	v.Serve(conn, s.cfg.Faults)
	s.log.Debug().Str("remote", r.RemoteAddr).Msg("viewer left")
	return nil
}
