package welcome

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
)

// The address is a line of its own, and there are three steps.
func TestSay(t *testing.T) {
	var b bytes.Buffer
	Say(&b, "http://127.0.0.1:7180/", nil)
	lines := strings.Split(b.String(), "\n")
	if !slices.Contains(lines, "http://127.0.0.1:7180/") {
		t.Errorf("the address is no line of its own:\n%s", &b)
	}
	for _, step := range []string{"1. ", "2. ", "3. "} {
		if !slices.ContainsFunc(lines, func(l string) bool { return strings.HasPrefix(l, step) }) {
			t.Errorf("no step %s:\n%s", step, &b)
		}
	}
}

// Only what answers as this server does is taken for it.
func TestRunning(t *testing.T) {
	for _, c := range []struct {
		status int
		body   string
		want   bool
	}{
		{200, `{"program":"halfturn","users":false,"code":false}`, true},
		{200, `{"program":"another"}`, false},
		{200, `{}`, false},
		{200, `hello`, false},
		{404, `{"program":"halfturn"}`, false},
	} {
		answer := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			w.WriteHeader(c.status)
			io.WriteString(w, c.body)
		})
		for encrypted, serve := range map[bool]func(http.Handler) *httptest.Server{
			false: httptest.NewServer, true: httptest.NewTLSServer,
		} {
			s := serve(answer)
			_, address, _ := strings.Cut(s.URL, "://")
			if got := Running(t.Context(), address, encrypted); got != c.want {
				t.Errorf("%d %s, encrypted %v: %v", c.status, c.body, encrypted, got)
			}
			s.Close()
			if Running(t.Context(), address, encrypted) {
				t.Error("nobody answers, and it is taken for a server")
			}
		}
	}
}

func TestURL(t *testing.T) {
	for address, want := range map[string]string{
		"127.0.0.1:7180": "http://127.0.0.1:7180/",
		":7180":          "http://localhost:7180/",
		"0.0.0.0:80":     "http://localhost:80/",
		"[::]:80":        "http://localhost:80/",
		"box:80":         "http://box:80/",
	} {
		if got := URL(address, false); got != want {
			t.Errorf("%s: %s; must be %s", address, got, want)
		}
	}
	if got := URL(":7180", true); got != "https://localhost:7180/" {
		t.Errorf("encrypted: %s", got)
	}
}
