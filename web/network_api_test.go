package web

import (
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/netip"
	"slices"
	"strings"
	"testing"

	"halfturn/web/lan"
)

// machine is this machine's addresses but loopback ones.
func machine() (list []netip.Addr) {
	all, _ := net.InterfaceAddrs()
	for _, a := range all {
		if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil && !n.IP.IsLoopback() {
			ip, _ := netip.AddrFromSlice(n.IP.To4())
			list = append(list, ip)
		}
	}
	return list
}

// TestNetworkAPI opens the network, sees what is told to whom, and closes it.
func TestNetworkAPI(t *testing.T) {
	s, _, _ := newServer(t, Config{Machine: machine})
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, l) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
		http.DefaultClient.CloseIdleConnections()
	})
	own := "http://" + l.Addr().String()
	if code, text := call(t, "GET", own+"/api/network", ""); code != 200 || !strings.Contains(text, `"open":false`) {
		t.Errorf("closed: %d %s", code, text)
	}
	for body, want := range map[string]int{`{}`: 400, `{"open":1}`: 400, `{"open":false}`: 200} {
		if code, text := call(t, "POST", own+"/api/network", body); code != want {
			t.Errorf("%s: %d %s; must be %d", body, code, text, want)
		}
	}
	if len(machine()) == 0 {
		if code, text := call(t, "POST", own+"/api/network", `{"open":true}`); code != 503 {
			t.Errorf("without a network: %d %s", code, text)
		}
		t.Skip("this machine is in no network")
	}
	code, text := call(t, "POST", own+"/api/network", `{"open":true}`)
	if code != 200 || !strings.Contains(text, `"code":"`) {
		t.Fatalf("%d %s", code, text)
	}
	at := s.network.Load().Status().Addresses[0]
	for _, c := range []struct {
		method, url, body string
		status            int
	}{
		{"GET", at + "api/network", "", 401},
		{"GET", at + "live", "", 401},
		{"GET", at + "metrics", "", 401},
		{"GET", at + "api/parts", "", 401},
		{"GET", at + "main.js", "", 200},
		{"POST", at + "api/enter", `{"code":"x"}`, 403},
		{"POST", at + "api/network", `{"open":false}`, 401},
		{"GET", own + "/api/network/qr.svg?address=http://evil.example/", "", 404},
		{"GET", own + "/api/network/qr.svg?address=" + at, "", 200},
		{"POST", own + "/api/network", `{"open":false}`, 200},
	} {
		if code, text := call(t, c.method, c.url, c.body); code != c.status {
			t.Errorf("%s %s: %d %.200s; must be %d", c.method, c.url, code, text, c.status)
		}
	}
}

// call asks as a program does.
func call(t *testing.T, method, url, body string) (int, string) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, url, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(text)
}

// TestParts: what the service worker keeps is all that pages are made of, each as it is asked for.
func TestParts(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	w := request(s, http.MethodGet, "/api/parts", "", nil)
	for _, path := range []string{
		"/", "/setup", "/brief", "/sessions", lan.EnterPage, "/main.js", "/css/tokens.css", "/sw.js",
	} {
		if !strings.Contains(w.Body.String(), `"`+path+`"`) {
			t.Errorf("%s is not kept", path)
		}
	}
	for path, p := range s.pages {
		if slices.Contains([]string{".js", ".css"}, path[max(0, strings.LastIndex(path, ".")):]) &&
			!strings.Contains(w.Body.String(), `"`+path+`"`) {
			t.Errorf("%s (%s) is not kept", path, p.kind)
		}
	}
}

// Where the configuration opens the pages, whoever comes from elsewhere types the code that this machine is told, and
// may then do what a student does; nobody from elsewhere is ever the owner.
func TestOpenByConfiguration(t *testing.T) {
	if len(machine()) == 0 {
		t.Skip("this machine is in no network")
	}
	s, _, _ := newServer(t, Config{Machine: machine, Access: newAccess(t)})
	l, err := net.Listen("tcp", "0.0.0.0:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, l) }()
	t.Cleanup(func() {
		stop()
		if err := <-done; err != nil {
			t.Error(err)
		}
		http.DefaultClient.CloseIdleConnections()
	})
	_, port, _ := net.SplitHostPort(l.Addr().String())
	home := "http://127.0.0.1:" + port
	code, text := call(t, "GET", home+"/api/network", "")
	var status lan.Status
	err = json.Unmarshal([]byte(text), &status)
	if err != nil || code != 200 || len(status.Code) != 6 || !status.Always {
		t.Fatalf("%d %s", code, text)
	}
	away := status.Addresses[0]
	for path, want := range map[string]int{
		"api/me": 401, "live": 401, "api/network": 401, "enter": 200, "api/door": 200,
	} {
		if code, text := call(t, "GET", away+path, ""); code != want {
			t.Errorf("%s without the code: %d %s", path, code, text)
		}
	}
	typed := strings.NewReader(`{"code": "` + status.Code + `"}`)
	r, err := http.NewRequestWithContext(ctx, "POST", away+"api/enter", typed)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	answer, err := http.DefaultClient.Do(r)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatalf("the code: %v, %v", answer, err)
	}
	answer.Body.Close()
	for path, want := range map[string]int{"api/me": 200, "api/stations": 200, "api/people": 403, "metrics": 403} {
		r, err := http.NewRequestWithContext(ctx, "GET", away+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		r.AddCookie(answer.Cookies()[0])
		got, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		got.Body.Close()
		if got.StatusCode != want {
			t.Errorf("%s with the code: %d; must be %d", path, got.StatusCode, want)
		}
	}
	if code, text := call(t, "GET", home+"/api/me", ""); code != 200 || !strings.Contains(text, `"role":"owner"`) {
		t.Errorf("at home: %d %s", code, text)
	}
}
