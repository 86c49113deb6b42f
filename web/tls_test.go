package web

import (
	"bufio"
	"context"
	"crypto/tls"
	"crypto/x509"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/who"
	"halfturn/web/access"
)

// With TLS on there is nothing without it: pages, login and live socket go over TLS, the cookie is never sent without
// it, and a browser is told to come back over TLS alone.
func TestTLS(t *testing.T) {
	lent := httptest.NewTLSServer(nil) // for its certificate
	defer lent.Close()
	trusted := x509.NewCertPool()
	trusted.AddCert(lent.Certificate())
	store := newPeople(t)
	hash, err := secret.Password(password)
	if err != nil {
		t.Fatal(err)
	}
	if err := store.AddUser(people.User{ID: "2", Name: "Bo", Role: who.RoleOwner, Made: flewAt}, hash); err != nil {
		t.Fatal(err)
	}
	s, h, _ := newServer(t, Config{
		Access: access.New(access.Config{Store: store, TLS: true, Log: zerolog.Nop()}),
		TLS:    &tls.Config{Certificates: lent.TLS.Certificates, NextProtos: []string{"http/1.1"}},
	})
	h.Event(station("Seat 3", "live"))
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, l) }()
	own := &http.Transport{TLSClientConfig: &tls.Config{RootCAs: trusted}}
	t.Cleanup(func() {
		own.CloseIdleConnections()
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	body := strings.NewReader(`{"name": "Bo", "password": "` + password + `"}`)
	r, err := http.NewRequestWithContext(ctx, "POST", "https://"+l.Addr().String()+"/api/login", body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", "https://"+l.Addr().String())
	answer, err := own.RoundTrip(r)
	if err != nil {
		t.Fatal(err)
	}
	answer.Body.Close()
	cookie := answer.Header.Get("Set-Cookie")
	if answer.StatusCode != http.StatusOK || !strings.HasPrefix(cookie, "__Host-halfturn-login=") ||
		!strings.Contains(cookie, "; Secure") || answer.Header.Get("Strict-Transport-Security") == "" {
		t.Errorf("%d, %v", answer.StatusCode, answer.Header)
	}
	cookie, _, _ = strings.Cut(cookie, ";")
	dialer := &websocket.Dialer{TLSClientConfig: &tls.Config{RootCAs: trusted}}
	c, _, err := dialer.Dial("wss://"+l.Addr().String()+"/live", http.Header{"Cookie": {cookie}})
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if m := next(t, c); m.Station != "Seat 3" {
		t.Errorf("the socket begins with %+v", m)
	}
	plain, err := net.Dial("tcp", l.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer plain.Close()
	_ = plain.SetDeadline(time.Now().Add(5 * time.Second))
	io.WriteString(plain, "GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n")
	if refused, err := http.ReadResponse(bufio.NewReader(plain), nil); err == nil && refused.StatusCode == 200 {
		t.Error("it answers without TLS")
	}
}
