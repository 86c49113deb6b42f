package lan

import (
	"net"
	"net/http"
	"net/url"
	"strings"

	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// cookie holds a device's pass.
const cookie = "halfturn-pass"

// errNoNetwork is the answer where this machine is in no network.
var errNoNetwork = phrase.NoNetwork.Error()

// IsGuest reports whether a request came over the network that was opened, and not to an address of this machine alone.
func (n *Network) IsGuest(r *http.Request) bool {
	if n.always() {
		return false
	}
	local, ok := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr)
	return ok && !local.IP.IsLoopback()
}

// The paths that a device is answered at before it has a pass: the page that asks for the code, and where it is sent.
const (
	EnterPage = "/enter"
	EnterCall = "/api/enter"
)

// Guard answers devices of the network only when they have a pass. Public reports whether a path is a file that the
// page for the code needs.
func (n *Network) Guard(public func(path string) bool, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !n.IsGuest(r) || n.holds(r) || r.URL.Path == EnterPage || r.URL.Path == EnterCall || public(r.URL.Path) {
			next.ServeHTTP(w, r)
			return
		}
		if strings.Contains(r.Header.Get("Accept"), "text/html") {
			http.Redirect(w, r, EnterPage+"?to="+url.QueryEscape(r.URL.RequestURI()), http.StatusSeeOther)
			return
		}
		guard.WriteProblem(w, &guard.Problem{Status: http.StatusUnauthorized, Phrase: phrase.CodeMissing.Of()})
	})
}

// holds reports whether a request brings a good pass.
func (n *Network) holds(r *http.Request) bool {
	c, err := r.Cookie(cookie)
	return err == nil && n.passes.has(c.Value)
}

// Enter exchanges a code for a pass, as a cookie. The error is a [guard.Problem].
func (n *Network) Enter(w http.ResponseWriter, r *http.Request, code string) error {
	pass, a := n.passes.try(strings.ReplaceAll(code, " ", ""))
	switch a {
	case letIn:
		http.SetCookie(w, &http.Cookie{
			Name:     cookie,
			Value:    pass,
			Path:     "/",
			HttpOnly: true,
			SameSite: http.SameSiteStrictMode,
		})
		return nil
	case fullHouse:
		return &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.TooManyDevices.Of(
			phrase.Int("most", MostPasses))}
	case tooOften:
		n.giveUp(r)
		return &guard.Problem{Status: http.StatusTooManyRequests, Phrase: phrase.CodeTooOften.Of()}
	}
	return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.CodeWrong.Of()}
}

// giveUp closes the network after too many wrong codes; the request that brought the last one is still answered.
func (n *Network) giveUp(r *http.Request) {
	if n.shut(r.RemoteAddr) {
		n.o.Log.Warn().Msg("the code for the network was wrong too often; the pages are closed to the network again")
	}
}
