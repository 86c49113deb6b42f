package guard

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/stream/phrase"
)

// A Gate admits a limited number of requests; a request that is done makes room for one that waits,
// and the others are told after the wait.
func TestGate(t *testing.T) {
	const most, asks, wait = 3, 20, 7 * time.Second
	synctest.Test(t, func(t *testing.T) {
		full := &Problem{http.StatusServiceUnavailable, phrase.Busy.Of()}
		g := NewGate(most, wait, full)
		done := make(chan struct{})
		inside := make(chan struct{}, asks)
		fn := g.Few(func(http.ResponseWriter, *http.Request) error {
			inside <- struct{}{}
			<-done
			return nil
		})
		began := time.Now()
		results := make(chan error, asks)
		for range asks {
			go func() { results <- fn(httptest.NewRecorder(), httptest.NewRequest("GET", "/", nil)) }()
		}
		synctest.Wait()
		if len(inside) != most {
			t.Errorf("%d are inside; must be %d", len(inside), most)
		}
		done <- struct{}{}
		if err := <-results; err != nil {
			t.Errorf("the first is told %v", err)
		}
		synctest.Wait()
		if len(inside) != most+1 {
			t.Errorf("%d were inside after one was done; must be %d", len(inside), most+1)
		}
		for range asks - most - 1 {
			if err := <-results; !errors.Is(err, full) || time.Since(began) != wait {
				t.Errorf("told %v after %v; must be %v after %v", err, time.Since(began), full, wait)
			}
		}
		close(done)
		for range most {
			if err := <-results; err != nil {
				t.Errorf("one that was let in is told %v", err)
			}
		}
	})
}

// A client that leaves while it waits is not answered, and takes no place.
func TestGateLeft(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		g := NewGate(1, time.Minute, &Problem{http.StatusServiceUnavailable, phrase.Busy.Of()})
		if err := g.enter(t.Context()); err != nil {
			t.Fatal(err)
		}
		ctx, leave := context.WithCancel(t.Context())
		told := make(chan error)
		go func() { told <- g.enter(ctx) }()
		synctest.Wait()
		leave()
		if err := <-told; !errors.Is(err, context.Canceled) {
			t.Errorf("told %v", err)
		}
		<-g.places
		if err := g.enter(t.Context()); err != nil {
			t.Errorf("the place is not free: %v", err)
		}
	})
}
