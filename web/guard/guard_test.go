package guard

import (
	"errors"
	"net/http"
	"testing"

	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/web/internal/pipes"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// get is a request as it is sent.
const get = "GET / HTTP/1.1\r\nHost: localhost\r\n\r\n"

// A served handler is answered behind a Crowd, inside Visits.
type served struct {
	t      *testing.T
	pipes  *pipes.Listener
	said   *pipes.Log
	visits Visits
	server *http.Server
	crowd  *Crowd
	failed chan error
	full   int // connections refused; of one goroutine
}

// serve serves one handler to a limited number of connections until end is called.
func serve(t *testing.T, most int, fn Handler) *served {
	t.Helper()
	s := &served{t: t, pipes: pipes.Listen(), said: &pipes.Log{}, failed: make(chan error, 1)}
	log := zerolog.New(s.said)
	s.crowd = NewCrowd(s.pipes, most, log, func() { s.full++ })
	s.server = &http.Server{Handler: s.visits.Wrap(Handle(log, fn))}
	go func() { s.failed <- s.server.Serve(s.crowd) }()
	return s
}

func (s *served) end() {
	s.t.Helper()
	_ = s.server.Close() // connections that the test has closed already may fail to close
	if err := <-s.failed; !errors.Is(err, http.ErrServerClosed) {
		s.t.Error(err)
	}
	s.crowd.Wait()
}

// healthy answers at once.
func healthy(w http.ResponseWriter, _ *http.Request) error {
	_, err := w.Write([]byte("ok\n"))
	return err
}
