package guard

import (
	"net"
	"net/http"
	"net/netip"
	"strings"
)

// policy allows this server's own files and sockets and nothing else: no inline scripts or styles, and no frames.
// Pictures may also be what a page has made itself (blob:): a drawing that is saved as PNG is painted from one.
const policy = "default-src 'self'; img-src 'self' blob:; base-uri 'none'; form-action 'none'; " +
	"frame-ancestors 'none'; object-src 'none'"

// onlyTLS has a browser that was here over TLS come back over TLS alone, for 30 days (RFC 6797). It is not longer, so
// that a server whose certificate was taken away can be reached again.
const onlyTLS = "max-age=2592000"

// Secure sets the headers that keep other pages, and text written by others, from running inside the pages of this
// server; tls is whether it is reached over TLS alone.
func Secure(tls bool, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		if tls {
			h.Set("Strict-Transport-Security", onlyTLS)
		}
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()")
		if tls || onThisMachine(r.Host) {
			h.Set("Cross-Origin-Opener-Policy", "same-origin")
		}
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		next.ServeHTTP(w, r)
	})
}

// onThisMachine reports whether a browser trusts what it gets from this host without TLS: a loopback address, localhost
// and the names under it (Secure Contexts, 3.1). To any other page without TLS the browser does not apply a
// Cross-Origin-Opener-Policy, and warns about it on its console.
func onThisMachine(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	if ip, err := netip.ParseAddr(strings.Trim(name, "[]")); err == nil {
		return ip.Unmap().IsLoopback()
	}
	name = plainName(name)
	return name == "localhost" || strings.HasSuffix(name, ".localhost")
}
