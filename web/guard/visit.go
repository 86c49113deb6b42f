package guard

import (
	"bufio"
	"errors"
	"io"
	"math"
	"net"
	"net/http"
	"os"
	"sync"
	"time"

	"halfturn/stream/phrase"
)

// Bounds of one request. A client must send or take each piece within a time, or it is disconnected: a slow client
// (2 kB/s) is served, and one that does nothing holds neither memory nor a connection.
const (
	pieceSize = 64 << 10         // bytes
	PieceWait = 30 * time.Second // for a piece of a body or an answer
	restWait  = 5 * time.Second  // for the unread rest of a body, which net/http reads before it answers
)

// A pace measures how long a client takes for the current piece. Only the time spent waiting for the client counts, not
// that of the handler.
type pace struct {
	bytes int
	spent time.Duration
}

func (p *pace) deadline(now time.Time) time.Time { return now.Add(PieceWait - p.spent) }

func (p *pace) passed(bytes int, took time.Duration) {
	p.bytes += bytes
	p.spent += took
	if p.bytes >= pieceSize {
		*p = pace{}
	}
}

// A visit is the ResponseWriter of every request. It writes under deadlines and notes whether the client has left.
type visit struct {
	http.ResponseWriter
	conn  *http.ResponseController
	pace  pace
	body  bool  // part of the request body is still to come
	begun bool  // part of the answer was written
	left  error // why the client can be told nothing any more
	late  bool  // the client is there, but sends nothing
}

// Visits gives requests their deadlines, and can wait for those that are being answered. The zero value is ready.
type Visits struct {
	inside sync.RWMutex // held for reading by each request being answered
}

// Wrap makes every request of a handler a visit.
func (s *Visits) Wrap(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.inside.RLock()
		defer s.inside.RUnlock()
		v := &visit{ResponseWriter: w, conn: http.NewResponseController(w)}
		// These calls fail only where there is no connection, as in tests.
		_ = v.conn.SetWriteDeadline(time.Now().Add(PieceWait)) // for answers that are a header alone
		if r.Body != nil && r.Body != http.NoBody {
			v.body = true
			_ = v.conn.SetReadDeadline(time.Now().Add(PieceWait))
			r = r.WithContext(r.Context()) // a copy: net/http uses its own body again
			r.Body = &arriving{ReadCloser: r.Body, visit: v}
		}
		next.ServeHTTP(v, r)
	})
}

// Await waits for the requests that are still being answered, but no longer than the given time. It returns false when
// some are left.
func (s *Visits) Await(most time.Duration) bool {
	done := make(chan struct{})
	go func() {
		s.inside.Lock()
		defer s.inside.Unlock()
		close(done)
	}()
	select {
	case <-done:
		return true
	case <-time.After(most):
		return false
	}
}

// visitOf returns the visit of a request.
func visitOf(w http.ResponseWriter) *visit { return w.(*visit) }

// Unwrap is for http.ResponseController.
func (v *visit) Unwrap() http.ResponseWriter { return v.ResponseWriter }

// Hijack hands the connection over, for the live socket.
func (v *visit) Hijack() (net.Conn, *bufio.ReadWriter, error) { return v.conn.Hijack() }

// WriteHeader begins the answer.
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

// Write writes in pieces, each under a deadline.
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

// Read reads under a deadline, and tells a client that stopped sending that it did.
func (a *arriving) Read(p []byte) (int, error) {
	start := time.Now()
	_ = a.visit.conn.SetReadDeadline(a.pace.deadline(start))
	n, err := a.ReadCloser.Read(p)
	a.pace.passed(n, time.Since(start))
	a.visit.body = a.visit.body && err == nil
	switch {
	case err == nil:
	case errors.Is(err, io.EOF): // net/http removes the deadline and waits for the client to leave
	case errors.Is(err, os.ErrDeadlineExceeded):
		a.visit.late = true
		err = &Problem{http.StatusRequestTimeout, phrase.BodyStopped.Of(
			phrase.Number("wait", math.Floor(PieceWait.Seconds()), 0, "s"))}
	default:
		a.visit.left = err
	}
	return n, err
}
