package web

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"net/http"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/web/guard"
	"halfturn/web/internal/pipes"
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

func (*tape) Regrade(context.Context, string, OtherCards) error { return nil }

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
						t.Errorf("got %d bytes in %d s, %v; want all", got, pipes.Since(began), end.err)
					}
					return
				}
				if took := int(end.at.Sub(began).Round(time.Second).Seconds()); end.err == nil || took != tt.ends {
					t.Errorf("let go after %d s, want %d", took, tt.ends)
				}
				synctest.Wait()
				if said := s.said.String(); !strings.Contains(said, `"level":"debug"`) ||
					strings.Contains(said, `"level":"error"`) {
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
		{"half a body, one byte per second", "/api/stations/x/choose", asJSON, 400, 1, time.Second, 408, 30},
		{"half a body, refused", "/api/stations/x/choose", "text/plain", 400, 0, 0, 415, 5},
		{"half a body for nothing", "/api/nothing", asJSON, 400, 0, 0, 405, 5},
		{"half a body to a page", "/main.js", asJSON, 400, 0, 0, 405, 5},
		{"half an import", "/api/sessions/import", asStream, size, 0, 0, 408, 30},
		{"an import, one byte per second", "/api/sessions/import", asStream, size, 1, time.Second, 408, 30},
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
				if took := pipes.Since(began); answer.StatusCode != tt.status || err != nil || took > tt.most+1 {
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
		if _, err := c.Write([]byte(ask)); err == nil || pipes.Since(began) != 30 {
			t.Errorf("asked again after %d s, %v; want to be let go after 30", pipes.Since(began), err)
		}
	})
}

// A connection that is kept for the next request has new deadlines then, those of the last being over.
func TestKeptConnection(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := servePipes(t, Config{Captures: newTape(0)})
		defer s.end()
		c := s.pipes.Dial("127.0.0.1")
		defer c.Close()
		back := bufio.NewReader(c)
		tag := s.pages["/main.js"].etag
		head := strings.Replace(
			fmt.Sprintf(post, "/api/sessions/import", asStream, 1, ""),
			"\r\n\r\n",
			"\r\nExpect: 100-continue\r\n\r\n",
			1,
		)
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
				<-time.After(guard.PieceWait + 10*time.Second)
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
				c := s.pipes.Dial("127.0.0.1")
				defer c.Close()
				if _, err := c.Write([]byte(tt.sends)); err != nil {
					t.Fatal(err)
				}
				if _, err := io.Copy(io.Discard, c); err != nil || pipes.Since(began) != tt.ends {
					t.Errorf("closed after %d s, %v; want %d", pipes.Since(began), err, tt.ends)
				}
			})
		})
	}
}
