package web

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/synctest"
	"time"
)

// goneFlights are those whose client leaves while they are made.
type goneFlights struct{}

func (goneFlights) Legs(ctx context.Context, _ string) (FlownLegs, error) {
	<-ctx.Done()
	return FlownLegs{}, ctx.Err()
}

func (goneFlights) Leg(ctx context.Context, _ string, _ int) ([]byte, error) {
	<-ctx.Done()
	return nil, fmt.Errorf("the pictures: %w", ctx.Err())
}

// goneReplays likewise.
type goneReplays struct{}

func (goneReplays) Start(ctx context.Context, _ string, _, _ float64) (ReplayState, error) {
	<-ctx.Done()
	return ReplayState{}, ctx.Err()
}

func (goneReplays) Control(ctx context.Context, _ string, _ ReplayControl) (ReplayState, error) {
	<-ctx.Done()
	return ReplayState{}, ctx.Err()
}

func (goneReplays) List(context.Context) []ReplayState { return nil }

// A client that leaves is no failure of the server, whatever it asked for and whenever it leaves.
func TestClientLeaves(t *testing.T) {
	requests := map[string]string{
		"in an export":      fmt.Sprintf(get, export),
		"in the pictures":   fmt.Sprintf(get, "/api/sessions/x/legs"),
		"in a leg":          fmt.Sprintf(get, "/api/sessions/x/legs/1"),
		"in a list":         fmt.Sprintf(get, "/api/sessions"),
		"in a trend":        fmt.Sprintf(get, "/api/sessions/trend"),
		"in a session":      fmt.Sprintf(get, "/api/sessions/x"),
		"in the models":     fmt.Sprintf(get, "/api/sessions/x/legs/1/models"),
		"in the students":   fmt.Sprintf(get, "/api/students"),
		"in a replay":       fmt.Sprintf(post, "/api/sessions/x/replay", asJSON, 2, "{}"),
		"in its control":    fmt.Sprintf(post, "/api/replays/x", asJSON, 2, "{}"),
		"in an import":      fmt.Sprintf(post, "/api/sessions/import", asStream, 400, "half"),
		"in a remark":       fmt.Sprintf(post, "/api/sessions/x/remarks", asJSON, 400, `{"wor`),
		"in a choice":       fmt.Sprintf(post, "/api/stations/x/choose", asJSON, 400, `{"man`),
		"in a small answer": fmt.Sprintf(get, "/api/cards"),
		"in a page":         fmt.Sprintf(get, "/main.js"),
	}
	for name, text := range requests {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				s := servePipes(t, Config{Captures: newTape(1 << 20), Flights: goneFlights{}, Replays: goneReplays{},
					Logbook: slowBook{time.Minute}})
				defer s.end()
				c := s.ask(text)
				synctest.Wait()
				_ = c.Close()
				synctest.Wait()
				said := s.said.String()
				if strings.Contains(said, `"level":"error"`) || strings.Contains(said, `"level":"warn"`) {
					t.Errorf("the log says %s", said)
				}
				if quiet := name == "in a small answer" || name == "in a page"; !quiet &&
					!strings.Contains(said, `"client left"`) {
					t.Errorf("the log says %q, want that the client left", said)
				}
			})
		})
	}
}

// What fails by itself is still an error in the log, with the client there.
func TestFailureIsLogged(t *testing.T) {
	s, said := logged(Config{Captures: failing{}})
	w := request(s, "GET", export, "", nil)
	if text := said.String(); w.Code != 500 || !strings.Contains(text, `"level":"error"`) ||
		!strings.Contains(text, "the disk is gone") {
		t.Errorf("status %d, the log says %q", w.Code, said)
	}
	ctx, leave := context.WithCancel(t.Context())
	leave()
	s, said = logged(Config{Captures: failing{}})
	func() {
		defer func() {
			if recover() != http.ErrAbortHandler {
				t.Error("a client that left was answered")
			}
		}()
		r := httptest.NewRequestWithContext(ctx, "GET", "http://localhost"+export, nil)
		s.Handler().ServeHTTP(httptest.NewRecorder(), r)
	}()
	if strings.Contains(said.String(), `"level":"error"`) {
		t.Errorf("the log says %q", said)
	}
}

type failing struct{}

func (failing) Export(context.Context, io.Writer, string, Export) error {
	return errors.New("the disk is gone")
}

func (failing) Regrade(context.Context, string, OtherCards) error { return nil }

func (failing) Import(context.Context, string, io.Reader) (any, error) {
	return nil, errors.New("the disk is gone")
}

// Stopping does not wait for those who do not read, nor fail by them.
func TestStoppingCutsOff(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		cut := newTape(1 << 20)
		s := servePipes(t, Config{Captures: cut, Flights: goneFlights{}})
		var conns []net.Conn
		for _, path := range []string{export, export, "/api/sessions/x/legs"} {
			conns = append(conns, s.ask(fmt.Sprintf(get, path)))
		}
		synctest.Wait()
		began := time.Now()
		s.end()
		if took := time.Since(began); took > 2*time.Second {
			t.Errorf("stopped after %v", took)
		}
		if len(cut.ended) != 2 {
			t.Errorf("%d exports have ended, want both", len(cut.ended))
		}
		for _, c := range conns {
			_ = c.Close()
		}
		if said := s.said.String(); strings.Contains(said, `"level":"error"`) ||
			strings.Contains(said, `"level":"warn"`) {
			t.Errorf("the log says %s", said)
		}
	})
}

// Of an export only the header is made when no more is asked for.
func TestExportHead(t *testing.T) {
	cut := newTape(1 << 30)
	s, _ := logged(Config{Captures: cut})
	w := request(s, "HEAD", export, "", nil)
	name := w.Header().Get("Content-Disposition")
	if end := <-cut.ended; w.Code != 200 || name != "attachment; filename=x.csv" || w.Body.Len() > 0 || end.err == nil {
		t.Errorf("status %d, %v, %d bytes, %v", w.Code, w.Header(), w.Body.Len(), end.err)
	}
}
