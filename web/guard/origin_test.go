package guard

import (
	"context"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// By names and addresses, at a server that listens at one address and at one that listens at all.
func TestHosts(t *testing.T) {
	tests := []struct {
		host        string
		alone, open bool // answered when it listens at 192.0.2.7 alone, and at all addresses
	}{
		{"127.0.0.1:7180", true, true},
		{"127.0.0.1", true, true},
		{"127.8.8.8:1", true, true},
		{"[::1]:7180", true, true},
		{"localhost:7180", true, true},
		{"LOCALHOST", true, true},
		{"localhost.:7180", true, true},
		{"tower.example:7180", true, true},
		{"198.51.100.9", true, true}, // named in the configuration
		{"[2001:db8::9]:7180", true, true},
		{"192.0.2.7:7180", true, true}, // where the request came in
		{"[::ffff:192.0.2.7]:7180", true, true},
		{"simpc:7180", true, true}, // the machine's own name
		{"SimPC.local", true, true},
		{"simpc.example", false, false},
		{"192.0.2.8:7180", false, false},
		{"[2001:db8::8]:7180", false, false},
		{"8.8.8.8", false, false},
		{"evil.example:7180", false, false}, // a name made to point at 127.0.0.1
		{"localhost.evil.example", false, false},
		{"127.0.0.1.evil.example", false, false},
		{"0.0.0.0:7180", false, false},
		{"[::]:7180", false, false},
		{"", false, false},
	}
	at := &net.TCPAddr{IP: net.IPv4(192, 0, 2, 7), Port: 7180}
	for _, tt := range tests {
		for bound, want := range map[string]bool{"192.0.2.7": tt.alone, "0.0.0.0": tt.open, "::": tt.open} {
			t.Run(tt.host+" at "+bound, func(t *testing.T) {
				door := NewDoor([]string{"Tower.example", "198.51.100.9", "2001:db8::9"})
				door.Bound(&net.TCPAddr{IP: net.ParseIP(bound), Port: 7180}, "SimPC")
				w := knock(door, tt.host, at)
				if got := w.Code == http.StatusOK; got != want || !got && w.Code != http.StatusMisdirectedRequest {
					t.Errorf("status %d, let in %v, want %v", w.Code, got, want)
				}
			})
		}
	}
	door := NewDoor(nil)
	door.Bound(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 7180}, "SimPC")
	if w := knock(door, "simpc", at); w.Code != http.StatusMisdirectedRequest {
		t.Errorf("at loopback alone the machine's name is answered with %d", w.Code)
	}
}

// knock asks a door for a host, at an address of the server.
func knock(door *Door, host string, at net.Addr) *httptest.ResponseRecorder {
	next := http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusOK) })
	r := httptest.NewRequest("GET", "/", nil)
	r = r.WithContext(context.WithValue(r.Context(), http.LocalAddrContextKey, at))
	r.Host = host
	w := httptest.NewRecorder()
	door.Guard(next).ServeHTTP(w, r)
	return w
}

func TestSecure(t *testing.T) {
	w := httptest.NewRecorder()
	r := httptest.NewRequest("GET", "/", nil)
	r.Host = "localhost:7180"
	Secure(false, http.NotFoundHandler()).ServeHTTP(w, r)
	for name, value := range map[string]string{
		"Content-Security-Policy":      policy,
		"X-Content-Type-Options":       "nosniff",
		"Referrer-Policy":              "no-referrer",
		"Cross-Origin-Opener-Policy":   "same-origin",
		"Cross-Origin-Resource-Policy": "same-origin",
	} {
		if got := w.Header().Get(name); got != value {
			t.Errorf("%s is %q; must be %q", name, got, value)
		}
	}
	for _, part := range []string{"default-src 'self'", "frame-ancestors 'none'"} {
		if !strings.Contains(policy, part) {
			t.Errorf("the policy lacks %s", part)
		}
	}
	if strings.Contains(policy, "unsafe") {
		t.Error("the policy allows what is unsafe")
	}
}

// TestOpenerPolicy: the policy is sent only where a browser heeds it, to origins that are potentially trustworthy by
// Secure Contexts, 3.1; to others Chromium answers with a warning.
func TestOpenerPolicy(t *testing.T) {
	for _, c := range []struct {
		host string
		tls  bool
		sent bool
	}{
		{"localhost:7180", false, true},
		{"LOCALHOST.", false, true},
		{"panel.localhost:7180", false, true},
		{"127.0.0.1:7180", false, true},
		{"127.8.9.1", false, true},
		{"[::1]:7180", false, true},
		{"[::1]", false, true},
		{"[::ffff:127.0.0.1]:7180", false, true},
		{"192.0.2.7:7180", false, false},
		{"[2001:db8::7]:7180", false, false},
		{"desk.example", false, false},
		{"localhost.example:7180", false, false},
		{"notlocalhost", false, false},
		{"", false, false},
		{"192.0.2.7:7180", true, true},
		{"desk.example", true, true},
	} {
		r, w := httptest.NewRequest("GET", "/", nil), httptest.NewRecorder()
		r.Host = c.host
		Secure(c.tls, http.NotFoundHandler()).ServeHTTP(w, r)
		if sent := w.Header().Get("Cross-Origin-Opener-Policy") == "same-origin"; sent != c.sent {
			t.Errorf("%q, TLS %v: sent %v; must be %v", c.host, c.tls, sent, c.sent)
		}
	}
}
