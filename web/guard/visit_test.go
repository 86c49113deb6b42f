package guard

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/stream/phrase"
	"halfturn/web/internal/pipes"
)

// A handler that takes its time is not cut off: the deadlines are the client's. One that writes much to a client that
// does not read is.
func TestVisitWrites(t *testing.T) {
	const size = 1 << 20
	for name, tt := range map[string]struct {
		works time.Duration // before each of four pieces
		reads bool
		fails bool
	}{
		"at once":          {0, true, false},
		"slow handler":     {10 * time.Minute, true, false},
		"client is silent": {0, false, true},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				ended := make(chan error, 1)
				s := serve(t, 8, func(w http.ResponseWriter, _ *http.Request) (err error) {
					defer func() { ended <- err }()
					for range 4 {
						<-time.After(tt.works)
						if _, err = w.Write(make([]byte, size/4)); err != nil {
							return err
						}
					}
					return nil
				})
				defer s.end()
				c := s.pipes.Dial("192.0.2.1")
				defer c.Close()
				if _, err := io.WriteString(c, get); err != nil {
					t.Fatal(err)
				}
				began := time.Now()
				if tt.reads {
					answer, err := http.ReadResponse(bufio.NewReader(c), nil)
					if err != nil {
						t.Fatal(err)
					}
					if n, err := io.Copy(io.Discard, answer.Body); n != size || err != nil {
						t.Errorf("read %d of %d bytes, %v", n, size, err)
					}
				}
				if err := <-ended; (err != nil) != tt.fails {
					t.Errorf("the handler is told %v", err)
				}
				if took := time.Since(began); tt.fails && took != PieceWait {
					t.Errorf("given up after %v; must be %v", took, PieceWait)
				}
			})
		})
	}
}

// A body that stops coming is a Problem, and is told while the connection lasts.
func TestVisitReads(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := serve(t, 8, func(_ http.ResponseWriter, r *http.Request) error {
			_, err := io.ReadAll(r.Body)
			return err
		})
		defer s.end()
		c := s.pipes.Dial("192.0.2.1")
		defer c.Close()
		began := time.Now()
		if _, err := fmt.Fprint(c, "POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 9\r\n\r\nhalf"); err != nil {
			t.Fatal(err)
		}
		answer, err := http.ReadResponse(bufio.NewReader(c), nil)
		if err != nil {
			t.Fatal(err)
		}
		text, _ := io.ReadAll(answer.Body)
		if answer.StatusCode != http.StatusRequestTimeout || pipes.Since(began) != 30 ||
			!strings.Contains(string(text), "30 s") {
			t.Errorf("%d after %d s: %s", answer.StatusCode, pipes.Since(began), text)
		}
	})
}

// A pace restarts with each piece, and counts only the time spent waiting.
func TestPace(t *testing.T) {
	var p pace
	now := time.Unix(1000, 0)
	left := func() time.Duration { return p.deadline(now).Sub(now) }
	for i, step := range []struct {
		bytes int
		took  time.Duration
		left  time.Duration
	}{
		{0, 0, PieceWait},
		{pieceSize - 1, 10 * time.Second, PieceWait - 10*time.Second},
		{0, 5 * time.Second, PieceWait - 15*time.Second},
		{1, 5 * time.Second, PieceWait}, // the piece is complete
		{pieceSize, 20 * time.Second, PieceWait},
	} {
		p.passed(step.bytes, step.took)
		if got := left(); got != step.left {
			t.Errorf("step %d: %v are left; must be %v", i, got, step.left)
		}
	}
}

// Await waits for requests, and no longer than it may.
func TestAwait(t *testing.T) {
	var v Visits
	begun, done, over := make(chan struct{}), make(chan struct{}), make(chan struct{})
	h := v.Wrap(http.HandlerFunc(func(http.ResponseWriter, *http.Request) {
		close(begun)
		<-done
	}))
	go func() {
		h.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest("GET", "/", nil))
		close(over)
	}()
	<-begun
	if v.Await(time.Millisecond) {
		t.Error("a request that goes on was not waited for")
	}
	close(done)
	if !v.Await(time.Minute) {
		t.Error("a request that ended was waited for in vain")
	}
	<-over
}

// Errors are told to the client or logged; an answer that has begun is cut off.
func TestHandle(t *testing.T) {
	for name, tt := range map[string]struct {
		fn     Handler
		status int // 0 when the answer is cut off
		says   string
		logged string
	}{
		"a problem": {func(http.ResponseWriter, *http.Request) error {
			return fmt.Errorf("in the handler: %w", Misuse(http.StatusTeapot, "ask for tea"))
		}, http.StatusTeapot, `{"error":"ask for tea"}`, ""},
		"another error": {func(http.ResponseWriter, *http.Request) error {
			return errors.New("the disk is gone")
		}, http.StatusInternalServerError, phrase.InternalError.Of().String(), "the disk is gone"},
		"a problem after the beginning": {func(w http.ResponseWriter, _ *http.Request) error {
			_, _ = w.Write([]byte("half")) // a recorder
			return Misuse(http.StatusTeapot, "ask for tea")
		}, 0, "half", "ask for tea"},
		"a value that cannot be encoded": {func(w http.ResponseWriter, _ *http.Request) error {
			return WriteJSON(w, make(chan int))
		}, http.StatusInternalServerError, phrase.InternalError.Of().String(), "unsupported type"},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				s := serve(t, 8, tt.fn)
				defer s.end()
				c := s.pipes.Dial("192.0.2.1")
				defer c.Close()
				if _, err := io.WriteString(c, get); err != nil {
					t.Fatal(err)
				}
				answer, err := http.ReadResponse(bufio.NewReader(c), nil)
				if tt.status == 0 {
					if err == nil {
						_, err = io.ReadAll(answer.Body)
					}
					if err == nil {
						t.Error("half an answer was taken for a whole one")
					}
				} else if err != nil || answer.StatusCode != tt.status {
					t.Fatalf("%v, %v", answer, err)
				} else if text, _ := io.ReadAll(answer.Body); !strings.Contains(string(text), tt.says) {
					t.Errorf("the client is told %s", text)
				}
				synctest.Wait()
				if said := s.said.String(); (said == "") != (tt.logged == "") || !strings.Contains(said, tt.logged) {
					t.Errorf("the log says %q", said)
				}
			})
		})
	}
}
