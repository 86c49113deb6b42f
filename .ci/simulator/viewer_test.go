//go:build simulator

package simulator

import (
	"context"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach"
	"halfturn/coach/message"
)

// A viewer reads the live socket as a panel does, and keeps what it shows.
type viewer struct {
	legs chan coach.Leg
	mu   sync.Mutex
	name string // of the station
	seen []coach.Frame
	err  error
}

// watch opens the live socket; it is read until the test is over.
func watch(ctx context.Context, t *testing.T, pages string) *viewer {
	t.Helper()
	conn, resp, err := websocket.DefaultDialer.DialContext(ctx, "ws"+strings.TrimPrefix(pages, "http")+"live", nil)
	if err != nil {
		t.Fatal(err)
	}
	resp.Body.Close()
	v := &viewer{legs: make(chan coach.Leg, 100)}
	done := make(chan struct{})
	go func() {
		defer close(done)
		defer close(v.legs)
		for v.read(conn) {
		}
	}()
	t.Cleanup(func() { conn.Close(); <-done })
	return v
}

// read takes one message.
func (v *viewer) read(conn *websocket.Conn) bool {
	_, b, err := conn.ReadMessage()
	var m message.Message
	if err == nil {
		m, err = message.Decode(b)
	}
	if l, ok := m.Body.(message.Leg); ok {
		v.legs <- *l.Leg
	}
	v.mu.Lock()
	defer v.mu.Unlock()
	if err != nil {
		v.err = err
		return false
	}
	if f, ok := m.Body.(message.Frame); ok {
		v.name = m.Station
		v.seen = append(v.seen, *f.Frame)
	}
	return true
}

// await takes the next n legs, which have been flown.
func (v *viewer) await(t *testing.T, p *pilot, n int) []coach.Leg {
	t.Helper()
	var list []coach.Leg
	timer := time.NewTimer(20 * time.Second)
	defer timer.Stop()
	for len(list) < n && p.err == nil {
		select {
		case l, ok := <-v.legs:
			if !ok {
				t.Fatalf("the live socket closed: %v", v.err)
			}
			list = append(list, l)
		case <-timer.C:
			t.Fatalf("%d of %d legs were found by %.1f s", len(list), n, p.now.time)
		}
	}
	if p.err != nil {
		t.Fatalf("the pilot stopped: %v", p.err)
	}
	return list
}

func (v *viewer) station() string {
	v.mu.Lock()
	defer v.mu.Unlock()
	return v.name
}

func (v *viewer) frames() []coach.Frame {
	v.mu.Lock()
	defer v.mu.Unlock()
	return slices.Clone(v.seen)
}
