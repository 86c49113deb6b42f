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
		{200, `{"version":1,"server":"0.1.0","listen":[],"stations":[]}`, true},
		{200, `{"version":1}`, false},
		{200, `{"version":1,"listen":[]}`, false},
		{200, `hello`, false},
		{404, `{"server":"x","listen":[]}`, false},
	} {
		s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			w.WriteHeader(c.status)
			io.WriteString(w, c.body)
		}))
		address := strings.TrimPrefix(s.URL, "http://")
		if got := Running(t.Context(), address); got != c.want {
			t.Errorf("%d %s: %v", c.status, c.body, got)
		}
		s.Close()
		if Running(t.Context(), address) {
			t.Error("nobody answers, and it is taken for a server")
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
		if got := URL(address); got != want {
			t.Errorf("%s: %s; must be %s", address, got, want)
		}
	}
}
