package web

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

const (
	get      = "GET %s HTTP/1.1\r\nHost: localhost\r\n\r\n"
	post     = "POST %s HTTP/1.1\r\nHost: localhost\r\nContent-Type: %s\r\nContent-Length: %d\r\n\r\n%s"
	export   = "/api/sessions/x/export?format=csv"
	asJSON   = "application/json"
	asStream = "application/octet-stream"
)

// A tape is Captures of an export of that many bytes, and of imports that are counted.
type tape struct {
	bytes int
	ended chan ending // of each export
	took  int64       // by the last import
}

type ending struct {
	err error
	at  time.Time
}

func newTape(bytes int) *tape { return &tape{bytes: bytes, ended: make(chan ending, 1000)} }

func (p *tape) Export(_ context.Context, w io.Writer, _ string, _ Export) (err error) {
	defer func() { p.ended <- ending{err, time.Now()} }()
	row := []byte(strings.Repeat("x", 4<<10))
	for left := p.bytes; left > 0; left -= len(row) {
		if _, err := w.Write(row[:min(left, len(row))]); err != nil {
			return err
		}
	}
	return nil
}

func (p *tape) Import(_ context.Context, _ string, capture io.Reader) (_ any, err error) {
	p.took, err = io.Copy(io.Discard, capture)
	return p.took, err
}

// A client that reads nothing, or next to nothing, of an answer is let go, whatever it asked for. One that is only slow
// gets all of it.
func TestReaders(t *testing.T) {
	const size = 1 << 20
	tests := []struct {
		name  string
		piece int64         // bytes read at a time; 0 is nothing at all
		every time.Duration // between them
		ends  int           // s after which it is let go, 0 when it is served
	}{
		{"reads nothing", 0, 0, 30},
		{"reads a byte every second", 1, time.Second, 30},
		{"reads 2 kB a second", 16 << 10, 7 * time.Second, 0},
		{"reads at once", size, 0, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				cut := newTape(size)
				s := servePipes(t, Config{Captures: cut})
				defer s.end()
				c := s.ask(fmt.Sprintf(get, export))
				defer c.Close()
				began := time.Now()
				var got int64
				if tt.piece > 0 {
					answer, err := http.ReadResponse(bufio.NewReaderSize(c, 16), nil)
					if err != nil {
						t.Fatal(err)
					}
					for err = nil; err == nil; {
						<-time.After(tt.every)
						var n int64
						n, err = io.CopyN(io.Discard, answer.Body, tt.piece)
						got += n
					}
				}
				end := <-cut.ended
				if tt.ends == 0 {
					if end.err != nil || got != size {
						t.Errorf("got %d bytes in %d s, %v; want all", got, since(began), end.err)
					}
					return
				}
				if took := int(end.at.Sub(began).Round(time.Second).Seconds()); end.err == nil || took != tt.ends {
					t.Errorf("let go after %d s, want %d", took, tt.ends)
				}
				synctest.Wait()
				if said := s.said.String(); !strings.Contains(said, `"level":"debug"`) || strings.Contains(said, `"level":"error"`) {
					t.Errorf("the log says %q", said)
				}
			})
		})
	}
}

// A body that does not come, or hardly, is given up, whether the handler reads it or refuses. One that is only slow is
// taken.
func TestSenders(t *testing.T) {
	const size = 1 << 20
	tests := []struct {
		name, path, kind string
		length, piece    int // bytes
		every            time.Duration
		status, most     int // s until the answer; status 0 is none
	}{
		{"half a body", "/api/stations/x/choose", asJSON, 400, 0, 0, 408, 30},
		{"half a body, a byte a second", "/api/stations/x/choose", asJSON, 400, 1, time.Second, 408, 30},
		{"half a body, refused", "/api/stations/x/choose", "text/plain", 400, 0, 0, 415, 5},
		{"half a body for nothing", "/api/nothing", asJSON, 400, 0, 0, 405, 5},
		{"half a body to a page", "/main.js", asJSON, 400, 0, 0, 405, 5},
		{"half an import", "/api/sessions/import", asStream, size, 0, 0, 408, 30},
		{"an import, a byte a second", "/api/sessions/import", asStream, size, 1, time.Second, 408, 30},
		{"an import at 2 kB a second", "/api/sessions/import", asStream, size, 16 << 10, 7 * time.Second, 200, 600},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				in := newTape(0)
				s := servePipes(t, Config{Captures: in})
				defer s.end()
				began := time.Now()
				c := s.ask(fmt.Sprintf(post, tt.path, tt.kind, tt.length, ""))
				var sending sync.WaitGroup
				defer func() {
					_ = c.Close()
					sending.Wait()
				}()
				sending.Go(func() {
					piece := make([]byte, tt.piece)
					for sent := 0; tt.piece > 0 && sent < tt.length; sent += len(piece) {
						<-time.After(tt.every)
						if _, err := c.Write(piece); err != nil {
							return
						}
					}
				})
				answer, err := http.ReadResponse(bufio.NewReader(c), nil)
				if err != nil {
					t.Fatal(err)
				}
				body, err := io.ReadAll(answer.Body)
				if took := since(began); answer.StatusCode != tt.status || err != nil || took > tt.most+1 {
					t.Errorf("status %d after %d s, %v: %s; want %d within %d s",
						answer.StatusCode, took, err, body, tt.status, tt.most)
				}
				if tt.status != 200 {
					if n, err := c.Read(make([]byte, 1)); n > 0 || err == nil {
						t.Error("the connection is still open")
					}
				} else if in.took != size {
					t.Errorf("took %d bytes in", in.took)
				}
			})
		})
	}
}

// A handler may take its time: the deadlines are the client's, not its own.
func TestSlowHandler(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		slow := slowBook{10 * time.Minute}
		s := servePipes(t, Config{Logbook: slow, Replays: slowReplays{slow}})
		defer s.end()
		for _, text := range []string{
			fmt.Sprintf(get, "/api/sessions"),
			fmt.Sprintf(post, "/api/sessions/x/replay", asJSON, 2, "{}"),
		} {
			c := s.ask(text)
			answer, err := http.ReadResponse(bufio.NewReader(c), nil)
			if err != nil || answer.StatusCode != 200 {
				t.Errorf("%.20s: %v, %v", text, answer, err)
			}
			_ = c.Close()
		}
	})
}

// A slowBook thinks for a while.
type slowBook struct{ takes time.Duration }

func (b slowBook) think(ctx context.Context) error {
	select {
	case <-time.After(b.takes):
		return nil
	case <-ctx.Done():
		return fmt.Errorf("the logbook: %w", ctx.Err())
	}
}

func (b slowBook) List(ctx context.Context, _ logbook.Filter) (*logbook.SessionList, error) {
	return &logbook.SessionList{}, b.think(ctx)
}
func (b slowBook) Trend(ctx context.Context, _ logbook.Filter) (*logbook.Trend, error) {
	return &logbook.Trend{}, b.think(ctx)
}
func (b slowBook) Session(ctx context.Context, _ string) (*logbook.SessionDetail, error) {
	return &logbook.SessionDetail{}, b.think(ctx)
}
func (b slowBook) Models(ctx context.Context, _ string, _ int) (*logbook.Models, error) {
	return &logbook.Models{}, b.think(ctx)
}
func (b slowBook) Students(ctx context.Context, _ int) ([]string, error) {
	return nil, b.think(ctx)
}
func (b slowBook) Remark(_ who.Who, _ string, r logbook.Remark) (logbook.Remark, error) {
	return r, b.think(context.Background())
}
func (b slowBook) SetKeep(who.Who, string, bool) error      { return b.think(context.Background()) }
func (b slowBook) SetStudent(who.Who, string, string) error { return b.think(context.Background()) }

// slowReplays think as long.
type slowReplays struct{ slowBook }

func (r slowReplays) Start(ctx context.Context, _ string, _, _ float64) (ReplayState, error) {
	return ReplayState{}, r.think(ctx)
}

func (r slowReplays) Control(ctx context.Context, _ string, _ ReplayControl) (ReplayState, error) {
	return ReplayState{}, r.think(ctx)
}

func (slowReplays) List(context.Context) []ReplayState { return nil }

// Answers without a body are not kept either for a client that asks again and again and reads nothing.
func TestHeadersNotRead(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := servePipes(t, Config{})
		defer s.end()
		began := time.Now()
		ask := "GET /main.js HTTP/1.1\r\nHost: localhost\r\nIf-None-Match: " + s.pages["/main.js"].etag + "\r\n\r\n"
		c := s.ask(ask)
		defer c.Close()
		if _, err := c.Write([]byte(ask)); err == nil || since(began) != 30 {
			t.Errorf("asked again after %d s, %v; want to be let go after 30", since(began), err)
		}
	})
}

// A connection that is kept for the next request has new deadlines then, those of the last being over.
func TestKeptConnection(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := servePipes(t, Config{Captures: newTape(0)})
		defer s.end()
		c := s.dial("127.0.0.1")
		defer c.Close()
		back := bufio.NewReader(c)
		tag := s.pages["/main.js"].etag
		head := strings.Replace(fmt.Sprintf(post, "/api/sessions/import", asStream, 1, ""), "\r\n\r\n", "\r\nExpect: 100-continue\r\n\r\n", 1)
		for i, r := range []struct {
			sends string
			want  int
		}{
			{fmt.Sprintf(get, "/healthz"), 200},
			{"GET /main.js HTTP/1.1\r\nHost: localhost\r\nIf-None-Match: " + tag + "\r\n\r\n", 304},
			{head, 100},
			{"x", 200},
			{fmt.Sprintf(get, "/api/cards"), 200},
		} {
			if i > 0 && r.sends != "x" { // that belongs to the one before
				<-time.After(pieceWait + 10*time.Second)
			}
			if _, err := c.Write([]byte(r.sends)); err != nil {
				t.Fatalf("%.20q: %v", r.sends, err)
			}
			answer, err := http.ReadResponse(back, nil)
			if err != nil {
				t.Fatalf("%.20q: %v", r.sends, err)
			}
			if _, err := io.Copy(io.Discard, answer.Body); err != nil || answer.StatusCode != r.want {
				t.Errorf("%.20q: %d, %v; want %d", r.sends, answer.StatusCode, err, r.want)
			}
		}
	})
}

// What comes before and between requests is timed too.
func TestConnections(t *testing.T) {
	for name, tt := range map[string]struct {
		sends string
		ends  int // s
	}{
		"nothing":       {"", 5},
		"half a header": {"GET / HTTP/1.1\r\nHost: loc", 5},
		"idle":          {fmt.Sprintf(get, "/healthz"), 60},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				s := servePipes(t, Config{})
				defer s.end()
				began := time.Now()
				c := s.dial("127.0.0.1")
				defer c.Close()
				if _, err := c.Write([]byte(tt.sends)); err != nil {
					t.Fatal(err)
				}
				if _, err := io.Copy(io.Discard, c); err != nil || since(began) != tt.ends {
					t.Errorf("closed after %d s, %v; want %d", since(began), err, tt.ends)
				}
			})
		})
	}
}

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
				if quiet := name == "in a small answer" || name == "in a page"; !quiet && !strings.Contains(said, `"client left"`) {
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
	if text := said.String(); w.Code != 500 || !strings.Contains(text, `"level":"error"`) || !strings.Contains(text, "the disk is gone") {
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
		if said := s.said.String(); strings.Contains(said, `"level":"error"`) || strings.Contains(said, `"level":"warn"`) {
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
