package web

import (
	"net/http"

	"halfturn/coach/permit"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
	"halfturn/web/hub"
)

// live serves GET /live[?station=NAME][&since=SEQ[&run=RUN]]: the messages of one station.
// With since, a viewer that has the events up to that number gets those it missed and no
// hello, where they are still known and run, the one its hello told, is still the same.
func (s *Server) live(w http.ResponseWriter, r *http.Request) error {
	want, err := hub.WishOf(r.URL.Query())
	if err != nil {
		return guard.Misuse(http.StatusBadRequest, err.Error())
	}
	if err := s.may(r, permit.Watch, want.Station); err != nil {
		return err
	}
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
	conn, err := s.upgrader.Upgrade(w, r, nil)
	if err != nil {
		return nil // the upgrader has answered
	}
	s.log.Debug().Str("remote", r.RemoteAddr).Str("station", want.Station).Msg("viewer came")
	v.Serve(conn)
	s.log.Debug().Str("remote", r.RemoteAddr).Msg("viewer left")
	return nil
}
