package web

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strings"

	"halfturn/coach/logbook"
	"halfturn/coach/message"
	"halfturn/coach/names"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/access"
	"halfturn/web/guard"
	"halfturn/web/lan"
)

// knownKey is the key, in the context of a request, of who makes it.
type knownKey struct{}

// identify finds out who makes each request.
func (s *Server) identify(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if _, ok := r.Context().Value(knownKey{}).(access.Known); !ok {
			r = r.WithContext(context.WithValue(r.Context(), knownKey{}, s.known(r)))
		}
		next.ServeHTTP(w, r)
	})
}

// known finds out who makes a request: somebody who is logged in, the owner of the machine, or a device that typed the
// code of the network. Without an Access, whoever reaches this machine's own address is its owner.
func (s *Server) known(r *http.Request) access.Known {
	n := s.network.Load()
	guest := n != nil && n.IsGuest(r)
	away := false
	if s.cfg.Access != nil {
		k, err := s.cfg.Access.Who(r)
		if k.Known() {
			return k
		}
		away = err != nil // what everybody may see is shown also then
	} else if !guest {
		return access.Known{Caller: permit.Owner()}
	}
	if guest {
		if role, ok := n.Pass(r); ok {
			device := who.Who{Name: "device", Role: role}
			return access.Known{Caller: permit.Caller{Who: device, Stations: permit.AllStations()}}
		}
	}
	return access.Known{Away: away}
}

// knownOf tells who makes a request, and by which login. Where nobody looked, it is the owner: as in tests.
func knownOf(r *http.Request) access.Known {
	if k, ok := r.Context().Value(knownKey{}).(access.Known); ok {
		return k
	}
	return access.Known{Caller: permit.Owner()}
}

// callerOf tells who makes a request, and where they may do something.
func callerOf(r *http.Request) permit.Caller { return knownOf(r).Caller }

// asks tells who makes a request.
func asks(r *http.Request) who.Who { return callerOf(r).Who }

// permitted answers those who have the right that a row takes, and notes what was to be changed.
func (s *Server) permitted(row route) guard.Handler {
	answer := func(w http.ResponseWriter, r *http.Request) error {
		right := row.right
		if r.URL.Path == "/" { // the panel; whatever else this row answers is a part of pages, or not there
			right = permit.Enter
		}
		c := callerOf(r)
		if !c.May(right) {
			page := r.Method == http.MethodGet && strings.Contains(r.Header.Get("Accept"), "text/html")
			if page && !c.Known() && !knownOf(r).Away {
				http.Redirect(w, r, s.door(r)+"?to="+url.QueryEscape(r.URL.RequestURI()), http.StatusSeeOther)
				return nil
			}
			return s.refusal(r)
		}
		var err error
		switch row.at {
		case beside, atAsked:
		case ofStudent:
			err = s.mayGrade(r, r.PathValue("name"))
		case atStation:
			err = s.may(r, right, r.PathValue("name"))
		case atSession:
			err = s.mayRead(r, right, r.PathValue("id"))
		}
		if err != nil {
			return err
		}
		return row.answer(w, r)
	}
	return func(w http.ResponseWriter, r *http.Request) error {
		if r.Method == http.MethodGet || r.Method == http.MethodHead {
			return answer(w, r)
		}
		if err := guard.Sent(r); err != nil {
			return err
		}
		err := answer(w, r)
		if s.cfg.Access != nil && row.right != permit.Anyone {
			s.cfg.Access.Note(r, asks(r), row.pattern, subject(r), statusOf(err))
		}
		return err
	}
}

// mayGrade refuses the grades of a student to whoever is not that student and instructs at none of the stations where
// the student flew.
func (s *Server) mayGrade(r *http.Request, student string) error {
	stations := gradesAt(r, student)
	switch c := callerOf(r); {
	case stations == nil:
		return nil
	case !c.May(permit.Instruct):
		return s.refusal(r)
	case s.cfg.Logbook == nil:
		return nil // there are no grades
	}
	flown, err := s.cfg.Logbook.List(r.Context(), logbook.Filter{Student: student, Stations: stations, Limit: 1})
	if err == nil && flown.Total == 0 {
		return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.StudentElsewhere.Of()}
	}
	return err
}

// gradesAt are the stations whose sessions count on the grade sheet of a student that somebody asks for: nil, which is
// all, for the student and for who instructs everywhere; for others their own. To name somebody as the student of one's
// own station thus shows nothing that was flown elsewhere.
func gradesAt(r *http.Request, student string) []string {
	c := callerOf(r)
	if c.Everywhere(permit.Instruct) || isStudent(c, student) {
		return nil
	}
	return append([]string{}, c.Stations.Names...)
}

// isStudent reports whether somebody is the user who flies under a name.
func isStudent(c permit.Caller, name string) bool {
	return c.ID != "" && names.Key(c.Name) == names.Key(name)
}

// subject is what a request is about, by its path and query alone.
func subject(r *http.Request) string {
	var words []string
	for _, key := range []string{"name", "command", "id", "act", "user", "link", "step"} {
		if v := r.PathValue(key); v != "" {
			words = append(words, v)
		}
	}
	if at := r.URL.Query().Get("station"); at != "" {
		words = append(words, at)
	}
	const longest = 200
	text := strings.Join(words, " ")
	return strings.ToValidUTF8(text[:min(len(text), longest)], "")
}

// statusOf is the status of the answer to a request.
func statusOf(err error) int {
	var p *guard.Problem
	switch {
	case err == nil:
		return http.StatusOK
	case errors.As(err, &p):
		return p.Status
	}
	return http.StatusInternalServerError
}

// door is the page that lets whoever makes a request in: by the code of the network, where it is open and this is a
// device of it, else by name and password.
func (s *Server) door(r *http.Request) string {
	if n := s.network.Load(); n != nil && n.IsGuest(r) && n.Status().Code != "" {
		return lan.EnterPage
	}
	return loginPage
}

// may refuses who has no right at a station.
func (s *Server) may(r *http.Request, right permit.Right, station string) error {
	if c := callerOf(r); !c.MayAt(right, station) {
		return s.refusal(r)
	}
	return nil
}

// mayRead refuses who has no right at the station of a session; a session that is not there is nobody's.
func (s *Server) mayRead(r *http.Request, right permit.Right, id string) error {
	c := callerOf(r)
	if c.Everywhere(right) {
		return nil
	}
	station, err := s.stationOf(r.Context(), id)
	switch {
	case err != nil:
		return err
	case station == "" || !c.MayAt(right, station):
		return s.refusal(r)
	}
	return nil
}

// stationOf is where a session was flown; "" for one that is not there.
func (s *Server) stationOf(ctx context.Context, id string) (string, error) {
	if s.cfg.Logbook == nil {
		return "", nil
	}
	session, err := s.cfg.Logbook.Session(ctx, id)
	var none *logbook.NotFound
	switch {
	case errors.As(err, &none):
		return "", nil
	case err != nil:
		return "", told(err)
	}
	return session.Station, nil
}

// mayWatch refuses who may not watch a station that they name. A session that is played again belongs to where it was
// flown, and a demonstration to everybody.
func (s *Server) mayWatch(r *http.Request, name string) error {
	c := callerOf(r)
	if c.MayAt(permit.Watch, name) {
		return nil
	}
	for _, at := range s.hub.Stations() {
		switch {
		case at.Name != name:
		case at.Replay != nil:
			return s.mayRead(r, permit.Read, at.Replay.Session)
		case at.Demonstration && c.May(permit.Watch):
			return nil
		}
	}
	return s.refusal(r)
}

// sees tells which stations whoever asks may see; nil is all of them.
func sees(c permit.Caller) func(*message.Station) bool {
	if c.Everywhere(permit.Watch) {
		return nil
	}
	return func(at *message.Station) bool { return c.MayAt(permit.Watch, at.Name) }
}

// refusal is the answer to a request without the right.
func (s *Server) refusal(r *http.Request) error {
	k := knownOf(r)
	switch {
	case k.Known():
		return forbidden()
	case k.Away:
		return access.Unasked()
	case s.door(r) == lan.EnterPage:
		return &guard.Problem{Status: http.StatusUnauthorized, Phrase: phrase.CodeMissing.Of()}
	}
	return &guard.Problem{Status: http.StatusUnauthorized, Phrase: phrase.LoginMissing.Of()}
}

// forbidden is the answer to somebody known without a right.
func forbidden() error {
	return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.NotAllowed.Of()}
}
