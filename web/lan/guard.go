package lan

import (
	"net"
	"net/http"
	"strings"

	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

const cookieName = "halfturn-pass"

// errNoNetwork is the answer where this machine is in no network.
var errNoNetwork = phrase.NoNetwork.Error()

// IsGuest reports whether a request came over the network, and not over the loopback of this machine.
func (n *Network) IsGuest(r *http.Request) bool {
	if n.always() {
		host, _, err := net.SplitHostPort(r.RemoteAddr)
		ip := net.ParseIP(host)
		return err != nil || ip == nil || !ip.IsLoopback()
	}
	local, ok := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr)
	return ok && !local.IP.IsLoopback()
}

// The paths that a device is answered at before it has a pass: the page that asks for the code, and where it is sent.
const (
	EnterPage = "/enter"
	EnterCall = "/api/enter"
)

// Pass returns the role of the device that makes a request, by the pass that it got for the code; false without one.
func (n *Network) Pass(r *http.Request) (role who.Role, ok bool) {
	c, err := r.Cookie(n.cookie())
	if err != nil {
		return "", false
	}
	return n.passes.role(c.Value)
}

// cookie is the name of the cookie that holds a device's pass. Over TLS a browser takes it only from this very host
// (RFC 6265bis, 4.1.3.2).
func (n *Network) cookie() string {
	if n.o.Secure {
		return "__Host-" + cookieName
	}
	return cookieName
}

// Enter exchanges a code for a pass, as a cookie. The error is a [guard.Problem].
func (n *Network) Enter(w http.ResponseWriter, r *http.Request, code string) error {
	pass, a := n.passes.try(strings.ReplaceAll(code, " ", ""))
	switch a {
	case letIn:
		http.SetCookie(w, &http.Cookie{
			Name:     n.cookie(),
			Value:    pass,
			Path:     "/",
			HttpOnly: true,
			Secure:   n.o.Secure,
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

// giveUp closes the network after too many wrong codes; the request that brought the last one is still answered. One
// that the configuration opens stays open, and lets no further device in until the server starts again.
func (n *Network) giveUp(r *http.Request) {
	if n.always() {
		n.closed.Do(func() {
			n.o.Log.Warn().Msg("the code was wrong too often; no further device is let in until Halfturn starts again")
		})
		return
	}
	if n.shut(r.RemoteAddr) {
		n.o.Log.Warn().Msg("the code for the network was wrong too often; the pages are closed to the network again")
	}
}
