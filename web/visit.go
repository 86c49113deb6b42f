package web

import (
	"bufio"
	"errors"
	"io"
	"math"
	"net"
	"net/http"
	"os"
	"time"

	"halfturn/stream/phrase"
)

// Bounds of one request. Both ways a client must take or give a piece within a time, else it is let go: a slow
// one (2 kB/s) is served, one that does nothing holds neither memory nor a connection.
const (
	pieceSize = 64 << 10 // bytes
	pieceWait = 30 * time.Second
	restWait  = 5 * time.Second // for what a handler leaves of a body, which net/http reads before it answers
)

// A pace measures how long a client takes over the piece under way. Only the time in which it is waited for
// counts, not that of the handler.
type pace struct {
	bytes int
	spent time.Duration
}

func (p *pace) deadline(now time.Time) time.Time { return now.Add(pieceWait - p.spent) }

func (p *pace) passed(bytes int, took time.Duration) {
	p.bytes += bytes
	p.spent += took
	if p.bytes >= pieceSize {
		*p = pace{}
	}
}

// A visit is the ResponseWriter of every request: it writes under deadlines, and knows what became of the client.
type visit struct {
	http.ResponseWriter
	conn  *http.ResponseController
	pace  pace
	body  bool  // something of it is still to come
	begun bool  // something of the answer was written
	left  error // why the client can be told nothing any more
	late  bool  // it is there, but sends nothing
}

// visits gives each request its deadlines, and knows that it is being answered.
func (s *Server) visits(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.inside.RLock()
		defer s.inside.RUnlock()
		v := &visit{ResponseWriter: w, conn: http.NewResponseController(w)}
		// An error of these calls only says that what is answered has no deadlines, as in tests.
		_ = v.conn.SetWriteDeadline(time.Now().Add(pieceWait)) // for answers that are a header alone
		if r.Body != nil && r.Body != http.NoBody {
			v.body = true
			_ = v.conn.SetReadDeadline(time.Now().Add(pieceWait))
			r = r.WithContext(r.Context()) // a copy: net/http looks at its own body again
			r.Body = &arriving{ReadCloser: r.Body, visit: v}
		}
		next.ServeHTTP(v, r)
	})
}

// visitOf returns the visit that a handler of this package answers.
func visitOf(w http.ResponseWriter) *visit { return w.(*visit) }

// Unwrap is for http.ResponseController.
func (v *visit) Unwrap() http.ResponseWriter { return v.ResponseWriter }

// Hijack gives the connection to the live socket.
func (v *visit) Hijack() (net.Conn, *bufio.ReadWriter, error) { return v.conn.Hijack() }

func (v *visit) WriteHeader(status int) {
	v.begin()
	v.ResponseWriter.WriteHeader(status)
}

func (v *visit) begin() {
	if v.body && !v.begun {
		_ = v.conn.SetReadDeadline(time.Now().Add(restWait))
	}
	v.begun = true
}

func (v *visit) Write(p []byte) (n int, err error) {
	v.begin()
	for {
		start := time.Now()
		_ = v.conn.SetWriteDeadline(v.pace.deadline(start))
		k, err := v.ResponseWriter.Write(p[n:min(n+pieceSize, len(p))])
		v.pace.passed(k, time.Since(start))
		n += k
		if err != nil && !errors.Is(err, http.ErrBodyNotAllowed) {
			v.left = err
		}
		if err != nil || n == len(p) {
			return n, err
		}
	}
}

// An arriving body is read under deadlines.
type arriving struct {
	io.ReadCloser
	visit *visit
	pace  pace
}

func (a *arriving) Read(p []byte) (int, error) {
	start := time.Now()
	_ = a.visit.conn.SetReadDeadline(a.pace.deadline(start))
	n, err := a.ReadCloser.Read(p)
	a.pace.passed(n, time.Since(start))
	a.visit.body = a.visit.body && err == nil
	switch {
	case err == nil:
	case errors.Is(err, io.EOF): // net/http lifts the deadline: from now on it waits for the client to leave
	case errors.Is(err, os.ErrDeadlineExceeded):
		a.visit.late = true
		err = &Problem{http.StatusRequestTimeout, phrase.BodyStopped.Of(
			phrase.Number("wait", math.Floor(pieceWait.Seconds()), 0, "s"))}
	default:
		a.visit.left = err
	}
	return n, err
}
