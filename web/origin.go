package web

import (
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"strconv"
	"strings"
	"sync"
)

// A doorkeeper decides which Host a request may name. Any page of the web can make a
// browser ask 127.0.0.1, and can make a name of its own point there; only the names the
// server is known by are answered.
type doorkeeper struct {
	mu     sync.RWMutex
	names  map[string]bool
	anyIP  bool // bound to all addresses; an address, unlike a name, cannot be made to point here
	listen map[netip.Addr]bool
}

func newDoorkeeper(names []string) *doorkeeper {
	d := &doorkeeper{names: map[string]bool{"localhost": true}, listen: map[netip.Addr]bool{}}
	for _, n := range names {
		d.names[strings.ToLower(strings.TrimSuffix(n, "."))] = true
	}
	return d
}

// bound adds the address the server listens on.
func (d *doorkeeper) bound(a net.Addr) {
	tcp, ok := a.(*net.TCPAddr)
	if !ok {
		return
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	ip := tcp.AddrPort().Addr().Unmap().WithZone("")
	if ip.IsUnspecified() {
		d.anyIP = true
		return
	}
	d.listen[ip] = true
}

// knows tells whether a Host header, with or without a port, names this server.
func (d *doorkeeper) knows(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.TrimSuffix(strings.TrimPrefix(name, "["), "]")
	d.mu.RLock()
	defer d.mu.RUnlock()
	ip, err := netip.ParseAddr(name)
	if err != nil {
		return d.names[strings.ToLower(strings.TrimSuffix(name, "."))]
	}
	ip = ip.Unmap().WithZone("")
	return ip.IsLoopback() || d.anyIP || d.listen[ip]
}

// guard refuses requests for hosts that are not this one.
func (d *doorkeeper) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !d.knows(r.Host) {
			writeProblem(w, &Problem{http.StatusMisdirectedRequest,
				"this server is not known by the name " + strconv.Quote(r.Host) + ": open it by its address, or add the name to its hosts"})
			return
		}
		next.ServeHTTP(w, r)
	})
}

// sameOrigin lets in programs, which send no Origin, and pages of this very server.
func sameOrigin(r *http.Request) bool {
	origin := r.Header.Get("Origin")
	if origin == "" {
		return true
	}
	u, err := url.Parse(origin)
	return err == nil && u.Host != "" && strings.EqualFold(u.Host, r.Host)
}
