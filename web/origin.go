package web

import (
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"strings"
	"sync"

	"halfturn/stream/phrase"
)

// A doorkeeper decides which Host a request may name. Any page of the web can make a
// browser ask 127.0.0.1, and can make a name of its own point there; only the names and addresses the
// server is known by are answered.
type doorkeeper struct {
	mu     sync.RWMutex
	names  map[string]bool // host names, lower case, and addresses as netip writes them
	listen map[netip.Addr]bool
	all    bool // bound to all addresses: then that by which a connection came in counts
}

func newDoorkeeper(names []string) *doorkeeper {
	d := &doorkeeper{names: map[string]bool{"localhost": true}, listen: map[netip.Addr]bool{}}
	for _, n := range names {
		if ip, err := addressIn(n); err == nil {
			n = ip.String()
		}
		d.names[plainName(n)] = true
	}
	return d
}

func plainName(s string) string { return strings.ToLower(strings.TrimSuffix(s, ".")) }

// addressIn reads an address, an IPv6 one in brackets too.
func addressIn(s string) (netip.Addr, error) {
	ip, err := netip.ParseAddr(strings.TrimSuffix(strings.TrimPrefix(s, "["), "]"))
	return ip.Unmap().WithZone(""), err
}

// bound adds the address the server listens on, and the machine's own name when others reach it.
func (d *doorkeeper) bound(a net.Addr, hostname string) {
	ip := addressOf(a)
	d.mu.Lock()
	defer d.mu.Unlock()
	if !ip.IsValid() || ip.IsLoopback() {
		return
	}
	if ip.IsUnspecified() {
		d.all = true
	} else {
		d.listen[ip] = true
	}
	if name := plainName(hostname); name != "" {
		d.names[name] = true
		if !strings.Contains(name, ".") {
			d.names[name+".local"] = true // multicast DNS, RFC 6762
		}
	}
}

// addressOf is the IP address of a TCP address, invalid when it is no such.
func addressOf(a net.Addr) netip.Addr {
	if tcp, ok := a.(*net.TCPAddr); ok {
		return tcp.AddrPort().Addr().Unmap().WithZone("")
	}
	return netip.Addr{}
}

// knows tells whether a Host header, with or without a port, names this server. Local is the address at which the
// request came in.
func (d *doorkeeper) knows(host string, local netip.Addr) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	d.mu.RLock()
	defer d.mu.RUnlock()
	ip, err := addressIn(name)
	if err != nil {
		return d.names[plainName(name)]
	}
	return ip.IsLoopback() || d.listen[ip] || d.all && ip == local || d.names[ip.String()]
}

// guard refuses requests for hosts that are not this one.
func (d *doorkeeper) guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		local, _ := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
		if !d.knows(r.Host, addressOf(local)) {
			writeProblem(w, &Problem{http.StatusMisdirectedRequest, phrase.UnknownHost.Of(phrase.Name("host", r.Host))})
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
