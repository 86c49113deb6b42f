package web

import (
	"errors"
	"net/http"

	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/web/access"
	"halfturn/web/guard"
)

// loginPage asks for name and password.
const loginPage = "/login"

// accessRoutes let people in, and manage them.
func (s *Server) accessRoutes() []route {
	rows := []route{
		{"GET /api/door", permit.Anyone, beside, s.doors},
		{"GET /api/me", permit.Enter, beside, s.me},
	}
	a := s.cfg.Access
	if a == nil {
		return rows
	}
	return append(rows,
		route{"POST /api/login", permit.Anyone, beside, a.Login},
		route{"POST /api/logout", permit.Anyone, beside, a.Logout},
		route{"POST /api/invited", permit.Anyone, beside, a.Accept},
		route{"POST /api/password", permit.Enter, beside, a.Password},
		route{"GET /api/people", permit.Manage, beside, a.People},
		route{"POST /api/people", permit.Manage, beside, a.AddUser},
		route{"POST /api/people/{user}/password", permit.Manage, beside, a.ResetUser},
		route{"DELETE /api/people/{user}", permit.Manage, beside, a.RemoveUser},
		route{"GET /api/invitations", permit.Invite, beside, by(a.Invitations)},
		route{"POST /api/stations/{name}/invite", permit.Invite, atStation, by(a.Invite)},
		route{"DELETE /api/invitations/{link}", permit.Invite, beside, by(a.Revoke)},
	)
}

// by hands a handler whoever asks.
func by(answer func(permit.Caller, http.ResponseWriter, *http.Request) error) guard.Handler {
	return func(w http.ResponseWriter, r *http.Request) error { return answer(callerOf(r), w, r) }
}

// Doors is the answer to GET /api/door: how somebody can be let in here.
type Doors struct {
	Program string `json:"program"` // tells that this is Halfturn
	Users   bool   `json:"users"`   // by name and password
	Code    bool   `json:"code"`    // by the code of the network
}

func (s *Server) doors(w http.ResponseWriter, r *http.Request) error {
	d := Doors{Program: "halfturn", Users: s.cfg.Access != nil && s.cfg.Access.AnyUsers(r.Context())}
	if n := s.network.Load(); n != nil {
		d.Code = n.IsGuest(r) && n.Status().Code != ""
	}
	return guard.WriteJSON(w, d)
}

// me tells whoever asks who they are, and what they may do.
func (s *Server) me(w http.ResponseWriter, r *http.Request) error {
	users := s.cfg.Access != nil && s.cfg.Access.AnyUsers(r.Context())
	self := access.SelfOf(knownOf(r), users)
	stations, err := s.stationsFor(r)
	if err != nil {
		return err
	}
	flown := 0
	for i := range stations {
		if at := &stations[i]; at.Replay == nil && !at.Demonstration {
			flown++
		}
	}
	self.Many = flown > 1
	return guard.WriteJSON(w, self)
}

// stationsFor lists the stations that whoever asks may see.
func (s *Server) stationsFor(r *http.Request) ([]message.Station, error) {
	all := s.hub.Stations()
	if callerOf(r).Everywhere(permit.Watch) {
		return all, nil
	}
	mine := []message.Station{}
	for _, at := range all {
		err := s.mayWatch(r, at.Name)
		var p *guard.Problem
		switch {
		case err == nil:
			mine = append(mine, at)
		case !errors.As(err, &p):
			return nil, err
		}
	}
	return mine, nil
}
