package web

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/web/guard"
)

// A crush is Captures whose work lasts until it is let go, and that counts how many are at it.
type crush struct {
	now, most atomic.Int32
	let       chan struct{}
}

func (c *crush) work(ctx context.Context) error {
	n := c.now.Add(1)
	defer c.now.Add(-1)
	for m := c.most.Load(); n > m && !c.most.CompareAndSwap(m, n); m = c.most.Load() {
	}
	select {
	case <-c.let:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (c *crush) Export(ctx context.Context, w io.Writer, _ string, _ Export) error {
	if err := c.work(ctx); err != nil {
		return err
	}
	_, err := w.Write([]byte("done"))
	return err
}

func (c *crush) Regrade(ctx context.Context, _ string, _ OtherCards) error { return c.work(ctx) }

func (c *crush) Import(ctx context.Context, _ string, _ io.Reader) (any, error) {
	return "done", c.work(ctx)
}

func (c *crush) Legs(ctx context.Context, _ string) (FlownLegs, error) {
	return FlownLegs{}, c.work(ctx)
}

func (c *crush) Leg(ctx context.Context, _ string, _ int) ([]byte, error) {
	return nil, c.work(ctx)
}

// However many ask, few are worked for at once. One that is done makes room for one that waits; those who wait in vain
// are told to come back.
func TestFewAtOnce(t *testing.T) {
	const asks = 200
	for _, tt := range []struct {
		name, method, target, kind string
		most                       int32
		wait                       time.Duration
	}{
		{"exports", "GET", export, "", mostExports, gateWait},
		{"prints", "GET", "/api/sessions/x/print.pdf", "", mostExports, gateWait},
		{"imports", "POST", "/api/sessions/import", asStream, mostImports, importWait},
		{"pictures", "GET", "/api/sessions/x/legs", "", mostWork, gateWait},
	} {
		t.Run(tt.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				c := &crush{let: make(chan struct{})}
				s, _, _ := newServer(t, Config{Captures: c, Flights: c})
				began := time.Now()
				answers := make(chan *httptest.ResponseRecorder, asks)
				for range asks {
					go func() {
						answers <- request(s, tt.method, tt.target, "", map[string]string{"Content-Type": tt.kind})
					}()
				}
				synctest.Wait()
				c.let <- struct{}{}
				if w := <-answers; w.Code != http.StatusOK {
					t.Errorf("let go: %d, %s", w.Code, w.Body)
				}
				synctest.Wait()
				if n := c.now.Load(); n != tt.most {
					t.Errorf("%d at once when one is done, want %d", n, tt.most)
				}
				for i := range asks - 1 - int(tt.most) {
					w := <-answers
					if w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" {
						t.Fatalf("told %d: %d, %v, %s", i, w.Code, w.Header(), w.Body)
					}
				}
				if took := time.Since(began); took != tt.wait {
					t.Errorf("told after %v, want %v", took, tt.wait)
				}
				close(c.let)
				for range tt.most {
					if w := <-answers; w.Code != http.StatusOK {
						t.Errorf("one that was let in: %d, %s", w.Code, w.Body)
					}
				}
				if n := c.most.Load(); n != tt.most {
					t.Errorf("%d at once, want %d", n, tt.most)
				}
			})
		})
	}
}

// A client that does not read keeps its place no longer than it is waited for.
func TestNonReadersMakeRoom(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := servePipes(t, Config{Captures: newTape(1 << 20)})
		defer s.end()
		for range mostExports {
			defer s.ask(fmt.Sprintf(get, export)).Close()
		}
		<-time.After(guard.PieceWait - time.Second)
		if w := request(s.Server, "GET", export, "", nil); w.Code != http.StatusOK || w.Body.Len() != 1<<20 {
			t.Errorf("after them: %d, %d bytes", w.Code, w.Body.Len())
		}
	})
}
