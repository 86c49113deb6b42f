// Package profiling serves profiles of the running program to whoever is at this machine, for go tool pprof. It has a
// server of its own: the pages, which others may reach, do not show them.
package profiling

import (
	"context"
	"errors"
	"net"
	"net/http"
	"net/http/pprof"
	"net/netip"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/stream/phrase"
)

// patience is how long a request may take to be sent.
const patience = 10 * time.Second

// Start serves profiles at a loopback address, HOST:PORT, until stop is called, which waits for the server. It returns
// where they are. Any other address is refused, in a language.
func Start(ctx context.Context, in *phrase.Language, address string) (url string, stop func(), err error) {
	host, _, err := net.SplitHostPort(address)
	if err != nil {
		return "", nil, base.Usagef(in, "--pprof is %q; must be HOST:PORT such as 127.0.0.1:6060", address)
	}
	if !isLoopback(host) {
		return "", nil, base.Usagef(in, "--pprof is %q; must be a loopback address such as 127.0.0.1:6060, "+
			"because profiles show what the program does", address)
	}
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", address)
	if err != nil {
		return "", nil, base.Failf(in, "profiles cannot be served: %w; choose another address", err)
	}
	server := &http.Server{Handler: own(handler()), ReadHeaderTimeout: patience}
	done := make(chan struct{})
	go func() {
		defer close(done)
		if err := server.Serve(l); !errors.Is(err, http.ErrServerClosed) {
			l.Close()
		}
	}()
	return "http://" + l.Addr().String() + "/debug/pprof/", func() {
		server.Close()
		<-done
	}, nil
}

// isLoopback reports whether a host is this machine alone. Names besides localhost are not looked up.
func isLoopback(host string) bool {
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && ip.IsLoopback()
}

// handler are the profiles.
func handler() http.Handler {
	m := http.NewServeMux()
	m.HandleFunc("GET /debug/pprof/", pprof.Index)
	m.HandleFunc("GET /debug/pprof/cmdline", pprof.Cmdline)
	m.HandleFunc("GET /debug/pprof/profile", pprof.Profile)
	m.HandleFunc("GET /debug/pprof/symbol", pprof.Symbol)
	m.HandleFunc("GET /debug/pprof/trace", pprof.Trace)
	return m
}

// own refuses requests under a foreign name, by which a page of others could read profiles.
func own(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		host, _, err := net.SplitHostPort(r.Host)
		if err != nil {
			host = r.Host
		}
		if !isLoopback(host) {
			http.Error(w, "profiles are for this machine alone", http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}
