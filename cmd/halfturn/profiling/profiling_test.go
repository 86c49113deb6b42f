package profiling

import (
	"io"
	"net/http"
	"strings"
	"testing"

	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// Addresses that others can reach are refused, and so is what is no address.
func TestLoopbackOnly(t *testing.T) {
	for _, address := range []string{
		":6060", "0.0.0.0:6060", "[::]:6060", "192.168.1.20:6060", "desk.example:6060", "6060",
	} {
		if _, _, err := Start(t.Context(), nil, address); err == nil || !strings.Contains(err.Error(), "must be ") {
			t.Errorf("%s: %v", address, err)
		}
	}
}

// Profiles are served to this machine, under its own names alone, until the end.
func TestProfiles(t *testing.T) {
	url, stop, err := Start(t.Context(), nil, "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	get := func(host, path string) (int, string) {
		t.Helper()
		r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, url+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.Host = host
		answer, err := (&http.Client{Transport: &http.Transport{DisableKeepAlives: true}}).Do(r)
		if err != nil {
			t.Fatal(err)
		}
		defer answer.Body.Close()
		b, err := io.ReadAll(answer.Body)
		if err != nil {
			t.Fatal(err)
		}
		return answer.StatusCode, string(b)
	}
	if status, text := get("", "goroutine?debug=1"); status != 200 || !strings.Contains(text, "goroutine profile:") {
		t.Errorf("%d: %s", status, text)
	}
	if status, _ := get("localhost:1", ""); status != 200 {
		t.Errorf("as localhost: %d", status)
	}
	if status, _ := get("evil.example:6060", "heap"); status != http.StatusForbidden {
		t.Errorf("under a foreign name: %d", status)
	}
	stop()
	if _, err := http.Get(url); err == nil {
		t.Error("it is still served")
	}
}
