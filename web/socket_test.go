package web

import (
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/web/hub"
	"halfturn/web/internal/feed"
)

// running is a server on a port of its own.
type running struct {
	url  string
	hub  *hub.Hub
	stop func() error
}

func run(t testing.TB, cfg Config) running {
	t.Helper()
	s, h, _ := newServer(t, cfg)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	served := make(chan error, 1)
	go func() { served <- s.Serve(ctx, l) }()
	stopped := false
	stop := func() error {
		if stopped {
			return nil
		}
		stopped = true
		cancel()
		return <-served
	}
	t.Cleanup(func() {
		if err := stop(); err != nil {
			t.Error(err)
		}
	})
	return running{url: "ws://" + l.Addr().String() + "/live", hub: h, stop: stop}
}

func dial(t testing.TB, url string, header http.Header) (*websocket.Conn, *http.Response, error) {
	t.Helper()
	c, resp, err := websocket.DefaultDialer.Dial(url, header)
	if err == nil {
		_ = c.SetReadDeadline(time.Now().Add(10 * time.Second))
		t.Cleanup(func() { _ = c.Close() })
	}
	return c, resp, err
}

func next(t testing.TB, c *websocket.Conn) message.Message {
	t.Helper()
	_, data, err := c.ReadMessage()
	if err != nil {
		t.Fatal(err)
	}
	m, err := message.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// station is a message of a station.
func station(name, link string) message.Message {
	return message.Message{Station: name, Body: feed.Station(name, link)}
}

// callout is a message of something said.
func callout(name string, at float64) message.Message {
	c := &coach.Callout{Time: at, Kind: coach.Cue, Words: "now"}
	return message.Message{Station: name, Body: message.Callout{Callout: c}}
}

func TestLiveSocket(t *testing.T) {
	r := run(t, Config{})
	r.hub.Event(station("Seat 3", "live"))
	c, _, err := dial(t, r.url, nil)
	if err != nil {
		t.Fatal(err)
	}
	hello := next(t, c)
	if hello.Type() != "hello" || hello.Station != "Seat 3" || hello.Seq != 1 {
		t.Fatalf("first came %+v, want a hello", hello)
	}
	r.hub.Frame("Seat 3", feed.At(1, 20, 0))
	if got := next(t, c); got.Type() != "frame" || got.Seq != 0 {
		t.Errorf("got %+v, want a frame without a number", got)
	}
	if err := c.WriteMessage(websocket.TextMessage, []byte("chatter")); err != nil {
		t.Fatal(err)
	}
	r.hub.Event(callout("Seat 3", 1))
	if got := next(t, c); got.Type() != "callout" || got.Seq != 2 {
		t.Errorf("got %+v, want the callout, whatever the viewer said", got)
	}
}

func TestLiveSocketResumes(t *testing.T) {
	r := run(t, Config{})
	r.hub.Event(station("Seat 3", "live"))
	c, _, err := dial(t, r.url, nil)
	if err != nil {
		t.Fatal(err)
	}
	hello := next(t, c)
	_ = c.Close()
	for i := range 3 {
		r.hub.Event(callout("Seat 3", float64(i)))
	}
	c, _, err = dial(t, r.url+"?since=1&run="+hello.Body.(*message.Hello).Run, nil)
	if err != nil {
		t.Fatal(err)
	}
	for want := uint64(2); want <= 4; want++ {
		if got := next(t, c); got.Seq != want {
			t.Errorf("event %d, want %d", got.Seq, want)
		}
	}
}

func TestOrigins(t *testing.T) {
	r := run(t, Config{})
	host := strings.TrimSuffix(strings.TrimPrefix(r.url, "ws://"), "/live")
	tests := []struct {
		origin string
		ok     bool
	}{
		{"", true},
		{"http://" + host, true},
		{"http://evil.example", false},
		{"http://localhost:1", false},
		{"null", false},
		{"http://" + host + ".evil.example", false},
	}
	for _, tt := range tests {
		t.Run(tt.origin, func(t *testing.T) {
			header := http.Header{}
			if tt.origin != "" {
				header.Set("Origin", tt.origin)
			}
			_, resp, err := dial(t, r.url, header)
			if (err == nil) != tt.ok {
				t.Errorf("let in %v, want %v", err == nil, tt.ok)
			}
			if !tt.ok && resp.StatusCode != http.StatusForbidden {
				t.Errorf("status %d, want 403", resp.StatusCode)
			}
		})
	}
	header := http.Header{}
	header.Set("Host", "evil.example")
	if _, resp, err := dial(t, r.url, header); err == nil || resp.StatusCode != http.StatusMisdirectedRequest {
		t.Error("a socket for a strange host was let in")
	}
}

func TestStoppingClosesTheSockets(t *testing.T) {
	r := run(t, Config{})
	r.hub.Event(station("Seat 3", "live"))
	sockets := []*websocket.Conn{}
	for range 5 {
		c, _, err := dial(t, r.url, nil)
		if err != nil {
			t.Fatal(err)
		}
		next(t, c)
		sockets = append(sockets, c)
	}
	codes := make(chan error, len(sockets))
	for _, c := range sockets {
		go func() {
			_, _, err := c.ReadMessage()
			codes <- err
		}()
	}
	begin := time.Now()
	if err := r.stop(); err != nil {
		t.Errorf("stopping: %v", err)
	}
	if took := time.Since(begin); took > 2*time.Second {
		t.Errorf("stopping took %v", took)
	}
	for range sockets {
		var closed *websocket.CloseError
		if err := <-codes; !errors.As(err, &closed) || closed.Code != websocket.CloseGoingAway ||
			closed.Text != "the server is stopping" {
			t.Errorf("a socket ended with %v, want going away (1001)", err)
		}
	}
	if n := r.hub.Viewers("Seat 3"); n != 0 {
		t.Errorf("%d viewers left", n)
	}
	if _, ok := r.hub.Join(hub.Wish{}, 10); ok {
		t.Error("a stopped hub lets viewers in")
	}
}

func TestViewersAreBounded(t *testing.T) {
	r := run(t, Config{MaxViewers: 2})
	for range 2 {
		c, _, err := dial(t, r.url, nil)
		if err != nil {
			t.Fatal(err)
		}
		next(t, c)
	}
	_, resp, err := dial(t, r.url, nil)
	if err == nil || resp.StatusCode != http.StatusServiceUnavailable {
		t.Fatalf("the third of two viewers: %v", err)
	}
	if body, _ := io.ReadAll(resp.Body); !strings.Contains(string(body), "no more viewers") {
		t.Errorf("it hears %q", body)
	}
}

func TestLongMessagesEndASocket(t *testing.T) {
	r := run(t, Config{})
	c, _, err := dial(t, r.url, nil)
	if err != nil {
		t.Fatal(err)
	}
	next(t, c)
	_ = c.WriteMessage(websocket.TextMessage, make([]byte, 40<<10)) // may be cut short
	if _, _, err := c.ReadMessage(); err == nil {
		t.Error("the socket lives on")
	}
}

// A live socket is a connection: it counts until it is closed, and gets its messages as ever.
func TestCrowdCountsSockets(t *testing.T) {
	r := run(t, Config{MaxOpen: 12})
	r.hub.Event(station("Seat 3", "live"))
	var sockets []*websocket.Conn
	for range 9 { // three quarters
		c, _, err := dial(t, r.url, nil)
		if err != nil {
			t.Fatal(err)
		}
		next(t, c)
		sockets = append(sockets, c)
	}
	if _, answer, err := dial(t, r.url, nil); err == nil || answer.StatusCode != http.StatusServiceUnavailable {
		t.Error("a tenth of 12 was let in from one address")
	}
	r.hub.Event(callout("Seat 3", 1))
	for _, c := range sockets {
		if got := next(t, c); got.Type() != "callout" {
			t.Errorf("got %+v, want the callout", got)
		}
	}
}
