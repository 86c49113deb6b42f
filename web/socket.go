package web

import (
	"fmt"
	"io"
	"net/http"
	"strconv"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/stream/phrase"
)

// live serves GET /live[?station=NAME][&since=SEQ[&run=RUN]]: the messages of one station.
// With since, a viewer that has the events up to that number gets those it missed and no
// hello, where they are still known and run, the one its hello told, is still the same.
func (s *Server) live(w http.ResponseWriter, r *http.Request) error {
	want, err := wishOf(r)
	if err != nil {
		return err
	}
	v := newViewer()
	if !s.hub.join(v, want, s.cfg.MaxViewers) {
		return &Problem{http.StatusServiceUnavailable, phrase.TooManyViewers.Of(phrase.Int("most", s.cfg.MaxViewers))}
	}
	defer s.hub.leave(v)
	conn, err := s.upgrader.Upgrade(w, r, nil)
	if err != nil {
		return nil // the upgrader has answered
	}
	s.log.Debug().Str("remote", r.RemoteAddr).Str("station", want.station).Msg("viewer came")
	serveSocket(conn, v)
	s.log.Debug().Str("remote", r.RemoteAddr).Msg("viewer left")
	return nil
}

// serveSocket runs a viewer's writer beside its reader and returns when both have ended.
func serveSocket(conn *websocket.Conn, v *viewer) {
	done, wrote := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(wrote)
		if v.pump(conn, done) == nil {
			awaitClose(conn, done)
		}
		_ = conn.Close() // ends the reader, if it still waits
	}()
	listen(conn)
	close(done)
	<-wrote
}

// awaitClose gives the other side a moment to answer a close, so that it sees the code and
// not a reset.
func awaitClose(conn *websocket.Conn, done <-chan struct{}) {
	_ = conn.SetReadDeadline(time.Now().Add(time.Second))
	select {
	case <-done:
	case <-time.After(time.Second):
	}
}

// listen reads until the socket ends: without a reader neither pongs nor a close would be
// seen. What a viewer says is dropped.
func listen(conn *websocket.Conn) {
	conn.SetReadLimit(readLimit)
	alive := func(string) error { return conn.SetReadDeadline(time.Now().Add(pongWait)) }
	conn.SetPongHandler(alive)
	_ = alive("")
	for {
		_, body, err := conn.NextReader()
		if err != nil {
			return
		}
		if _, err := io.Copy(io.Discard, body); err != nil {
			return
		}
	}
}

// wishOf reads the query of a viewer.
func wishOf(r *http.Request) (wish, error) {
	q := r.URL.Query()
	want := wish{station: q.Get("station"), run: q.Get("run")}
	since := q.Get("since")
	if since == "" {
		return want, nil
	}
	n, err := strconv.ParseUint(since, 10, 64)
	if err != nil {
		return want, misuse(http.StatusBadRequest, fmt.Sprintf("since=%q is not the number of an event: give the seq of the last message you have", since))
	}
	want.resume, want.since = true, n
	return want, nil
}
