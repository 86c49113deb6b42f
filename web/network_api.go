package web

import (
	"net"
	"net/http"
	"slices"

	"halfturn/coach/permit"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
	"halfturn/web/lan"
)

// networkRoutes open the pages to the local network, and let a device in.
func (s *Server) networkRoutes() []route {
	return []route{
		{"GET /api/network", permit.Enter, beside, s.networkStatus},
		{"POST /api/network", permit.Manage, beside, s.setNetwork},
		{"GET /api/network/qr.svg", permit.Enter, beside, s.networkCode},
		{"POST " + lan.EnterCall, permit.Anyone, beside, s.enter},
	}
}

// openable makes the network that serves through srv, too, when somebody opens it. It is closed when srv ends.
func (s *Server) openable(own net.Addr, srv *http.Server) *lan.Network {
	machine := s.cfg.Machine
	if machine == nil {
		machine = lan.Addresses
	}
	n := lan.New(lan.Options{
		Own:     own,
		Machine: machine,
		Serve: func(l net.Listener) error {
			s.door.Bound(l.Addr(), "")
			crowd := guard.NewCrowd(l, s.cfg.MaxOpen/4, s.log, s.hub.Refused)
			defer crowd.Wait()
			return srv.Serve(crowd)
		},
		Log: s.log,
	})
	s.network.Store(n)
	return n
}

// admit asks devices of the network for their pass.
func (s *Server) admit(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if n := s.network.Load(); n != nil {
			n.Guard(s.isPart, next).ServeHTTP(w, r)
			return
		}
		next.ServeHTTP(w, r)
	})
}

// isPart reports whether a path is a file that pages are made of, which holds nothing of anybody's.
func (s *Server) isPart(path string) bool {
	p, ok := s.pages[path]
	return ok && !isPage(p)
}

// networkStatus tells how it is; the code is told to this machine alone.
func (s *Server) networkStatus(w http.ResponseWriter, r *http.Request) error {
	n := s.network.Load()
	if n == nil {
		return &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.Stopping.Of()}
	}
	status := n.Status()
	if n.IsGuest(r) {
		status.Code = ""
	}
	return guard.WriteJSON(w, status)
}

// A networkForm says whether the pages are to be open to the network.
type networkForm struct {
	Open *bool `json:"open"`
}

// setNetwork opens or closes the network.
func (s *Server) setNetwork(w http.ResponseWriter, r *http.Request) error {
	const form = `{"open": true or false}`
	var f networkForm
	if err := guard.Body(guard.MaxBody, w, r, &f, form); err != nil {
		return err
	}
	n := s.network.Load()
	switch {
	case f.Open == nil:
		return guard.Misuse(http.StatusBadRequest, "the body does not say \"open\": send "+form)
	case n == nil:
		return &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.Stopping.Of()}
	case n.IsGuest(r):
		return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.OwnMachineOnly.Of()}
	case n.Status().Always:
		return &guard.Problem{Status: http.StatusConflict, Phrase: phrase.NetworkFixed.Of()}
	case !*f.Open:
		return guard.WriteJSON(w, n.Close())
	}
	status, err := n.Open(r.Context())
	if err != nil {
		return &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.OfError(err)}
	}
	return guard.WriteJSON(w, status)
}

// networkCode is the QR code of one of the pages' addresses in the network.
func (s *Server) networkCode(w http.ResponseWriter, r *http.Request) error {
	at := r.URL.Query().Get("address")
	n := s.network.Load()
	if n == nil || !slices.Contains(n.Status().Addresses, at) {
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoSuchAddress.Of(phrase.Name("address", at))}
	}
	code, err := lan.QR(at)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "no-store")
	_, err = w.Write(code)
	return err
}

// enter gives a device a pass for the code.
func (s *Server) enter(w http.ResponseWriter, r *http.Request) error {
	var f struct {
		Code string `json:"code"`
	}
	if err := guard.Body(guard.MaxBody, w, r, &f, `{"code": "DIGITS"}`); err != nil {
		return err
	}
	if n := s.network.Load(); n != nil && n.IsGuest(r) {
		if err := n.Enter(w, r, f.Code); err != nil {
			return err
		}
	}
	return guard.WriteJSON(w, struct{}{})
}
