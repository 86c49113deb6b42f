package guard

import (
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"strings"
	"sync"

	"halfturn/stream/phrase"
)

// A Door decides which Host a request may name. Any page on the web can make a browser send requests to 127.0.0.1, and
// can make a name of its own resolve to it (DNS rebinding). So only the names and addresses of this server are
// answered.
type Door struct {
	mu     sync.RWMutex
	names  map[string]bool // host names, lower case, and addresses as netip writes them
	listen map[netip.Addr]bool
	all    bool // bound to all addresses: then the local address of the connection is known
}

// NewDoor makes a Door that knows localhost and these names; some may be addresses.
func NewDoor(names []string) *Door {
	d := &Door{names: map[string]bool{"localhost": true}, listen: map[netip.Addr]bool{}}
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

// Bound adds the address that the server listens on, and the host name if other machines can reach that address.
func (d *Door) Bound(a net.Addr, hostname string) {
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

// addressOf is the IP address of a TCP address, and invalid for any other.
func addressOf(a net.Addr) netip.Addr {
	if tcp, ok := a.(*net.TCPAddr); ok {
		return tcp.AddrPort().Addr().Unmap().WithZone("")
	}
	return netip.Addr{}
}

// knows tells whether a Host header, with or without a port, names this server. Local is the address at which the
// connection was accepted.
func (d *Door) knows(host string, local netip.Addr) bool {
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

// Guard refuses requests for other hosts.
func (d *Door) Guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		local, _ := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
		if !d.knows(r.Host, addressOf(local)) {
			WriteProblem(w, &Problem{http.StatusMisdirectedRequest, phrase.UnknownHost.Of(phrase.Name("host", r.Host))})
			return
		}
		next.ServeHTTP(w, r)
	})
}

// SameOrigin tells whether a request comes from a program, which sends no Origin, or from a page of this server.
func SameOrigin(r *http.Request) bool {
	origin := r.Header.Get("Origin")
	if origin == "" {
		return true
	}
	u, err := url.Parse(origin)
	return err == nil && u.Host != "" && strings.EqualFold(u.Host, r.Host)
}
