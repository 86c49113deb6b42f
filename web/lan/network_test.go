package lan

import (
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"

	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach/who"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// inNetwork is an address of this machine that is not loopback. Without one the tests that need it are skipped.
func inNetwork(t *testing.T) netip.Addr {
	t.Helper()
	all, err := net.InterfaceAddrs()
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range all {
		if ip := a.(*net.IPNet).IP.To4(); ip != nil && !ip.IsLoopback() {
			at, _ := netip.AddrFromSlice(ip)
			return at
		}
	}
	t.Skip("this machine is in no network")
	return netip.Addr{}
}

// A house is a server of one page whose network can be opened.
type house struct {
	*Network
	own string
}

func newHouse(t *testing.T) *house {
	t.Helper()
	own, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ip := inNetwork(t)
	srv := &http.Server{}
	n := New(Options{
		Own:     own.Addr(),
		Machine: func() []netip.Addr { return []netip.Addr{ip} },
		Serve:   srv.Serve,
		Log:     zerolog.Nop(),
	})
	mux := http.NewServeMux()
	mux.HandleFunc("POST "+EnterCall, func(w http.ResponseWriter, r *http.Request) {
		code, _ := io.ReadAll(r.Body)
		if err := n.Enter(w, r, string(code)); err != nil {
			w.WriteHeader(http.StatusForbidden)
		}
	})
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) { io.WriteString(w, "page "+r.URL.Path) })
	srv.Handler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if _, ok := n.Pass(r); ok || !n.IsGuest(r) || r.URL.Path == EnterCall {
			mux.ServeHTTP(w, r)
			return
		}
		w.WriteHeader(http.StatusUnauthorized)
	})
	go srv.Serve(own)
	t.Cleanup(func() { n.Close(); srv.Close(); http.DefaultClient.CloseIdleConnections() })
	return &house{n, "http://" + own.Addr().String() + "/"}
}

// A browser keeps cookies and follows no redirect.
func newBrowser(t *testing.T) *http.Client {
	jar, _ := cookiejar.New(nil)
	own := &http.Transport{}
	t.Cleanup(own.CloseIdleConnections)
	return &http.Client{
		Jar:           jar,
		Transport:     own,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
}

// ask returns the status of an answer and its body.
func ask(t *testing.T, c *http.Client, method, url, body string) (status int, text string) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, url, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	answer, err := c.Do(r)
	if err != nil {
		return 0, err.Error()
	}
	defer answer.Body.Close()
	all, _ := io.ReadAll(answer.Body)
	return answer.StatusCode, string(all)
}

// Who comes over the network needs the code, once; this machine needs none; closing turns everybody else out.
func TestOpenAndClose(t *testing.T) {
	h := newHouse(t)
	if s := h.Status(); s.Open || s.Code != "" || len(s.Addresses) != 0 {
		t.Fatalf("before it is opened: %+v", s)
	}
	s, err := h.Open(t.Context(), who.RoleViewer)
	if err != nil {
		t.Fatal(err)
	}
	if again, err := h.Open(t.Context(), who.RoleViewer); err != nil || again.Code != s.Code {
		t.Errorf("opened twice: %+v, %v; must stay %+v", again, err, s)
	}
	at := s.Addresses[0]
	tablet := newBrowser(t)
	if status, _ := ask(t, tablet, "GET", at+"sessions", ""); status != http.StatusUnauthorized {
		t.Errorf("without a pass: %d", status)
	}
	if status, _ := ask(t, tablet, "POST", at+"api/enter", "000"); status != http.StatusForbidden {
		t.Errorf("a wrong code: %d", status)
	}
	if status, text := ask(t, tablet, "POST", at+"api/enter", s.Code[:3]+" "+s.Code[3:]); status != http.StatusOK {
		t.Fatalf("the code: %d, %s", status, text)
	}
	if _, text := ask(t, tablet, "GET", at+"sessions", ""); text != "page /sessions" {
		t.Errorf("with a pass: %q", text)
	}
	if _, text := ask(t, newBrowser(t), "GET", h.own+"sessions", ""); text != "page /sessions" {
		t.Errorf("on this machine: %q", text)
	}

	held, err := net.Dial("tcp", strings.TrimSuffix(strings.TrimPrefix(at, "http://"), "/"))
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	io.WriteString(held, "GET /enter HTTP/1.1\r\nHost: x\r\n\r\n")
	if _, err := held.Read(make([]byte, 1)); err != nil {
		t.Fatal(err)
	}
	if s := h.Close(); s.Open || s.Code != "" {
		t.Errorf("after it is closed: %+v", s)
	}
	if _, err := io.Copy(io.Discard, held); err != nil && !strings.Contains(err.Error(), "reset") {
		t.Error(err)
	}
	if status, _ := ask(t, tablet, "GET", at, ""); status != 0 {
		t.Errorf("a closed network answers %d", status)
	}
	next, err := h.Open(t.Context(), who.RoleViewer)
	if err != nil {
		t.Fatal(err)
	}
	if status, _ := ask(t, tablet, "GET", next.Addresses[0], ""); status != http.StatusUnauthorized {
		t.Error("a pass of before lets in after it was closed and opened")
	}
}

// After too many wrong codes the network is closed, and the one who tried is told so.
func TestClosesItself(t *testing.T) {
	h := newHouse(t)
	s, err := h.Open(t.Context(), who.RoleViewer)
	if err != nil {
		t.Fatal(err)
	}
	thief := newBrowser(t)
	for range MostWrong + 1 {
		if status, text := ask(t, thief, "POST", s.Addresses[0]+"api/enter", "x"); status != http.StatusForbidden {
			t.Fatalf("%d %s", status, text)
		}
	}
	if s := h.Status(); s.Open {
		t.Errorf("after %d wrong codes: %+v", MostWrong+1, s)
	}
}

// Where the configuration has opened the pages there is nothing to open; whoever comes from elsewhere needs the code.
func TestAlwaysOpen(t *testing.T) {
	n := New(Options{
		Own:     &net.TCPAddr{IP: net.IPv4zero, Port: 7180},
		Machine: func() []netip.Addr { return []netip.Addr{netip.MustParseAddr("192.168.1.20")} },
		Secure:  true,
	})
	s, err := n.Open(t.Context(), who.RoleStudent)
	if err != nil || !s.Open || !s.Always || s.Code == "" || s.Role != who.RoleStudent ||
		s.Addresses[0] != "https://192.168.1.20:7180/" {
		t.Errorf("%+v, %v", s, err)
	}
	r := httptest.NewRequestWithContext(t.Context(), "GET", "/", nil)
	for from, guest := range map[string]bool{
		"192.168.1.30:9": true, "[fe80::1%eth0]:9": true, "": true, "127.0.0.1:9": false, "[::1]:9": false,
	} {
		if r.RemoteAddr = from; n.IsGuest(r) != guest {
			t.Errorf("from %s it is a guest: %v", from, !guest)
		}
	}
	w := httptest.NewRecorder()
	if err := n.Enter(w, r, s.Code); err != nil {
		t.Fatal(err)
	}
	c := w.Result().Cookies()[0]
	if c.Name != "__Host-halfturn-pass" || !c.Secure || !c.HttpOnly || c.SameSite != http.SameSiteStrictMode {
		t.Errorf("the pass is %v", c)
	}
	if n.Close(); n.Status().Code != s.Code {
		t.Error("what the configuration opens is closed")
	}
	for range MostWrong + 1 {
		if err := n.Enter(httptest.NewRecorder(), r, "x"); err == nil {
			t.Fatal("a wrong code lets in")
		}
	}
	r.AddCookie(c)
	if _, ok := n.Pass(r); !ok || n.Enter(httptest.NewRecorder(), r, s.Code) == nil {
		t.Error("after too many wrong codes another device comes in, or one that is there is turned out")
	}
}

// Without an address in a network there is nothing to open, and it says so.
func TestNoNetwork(t *testing.T) {
	own := &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 1}
	n := New(Options{Own: own, Machine: func() []netip.Addr { return nil }})
	if s, err := n.Open(t.Context(), who.RoleStudent); err == nil || s.Open {
		t.Errorf("%+v, %v", s, err)
	}
}
