package web

import (
	"net/http"
	"strings"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"halfturn/coach/permit"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// A route is one thing that the server answers: what is asked for, the right that it takes, where that right is needed,
// and the handler. There is a row for everything.
type route struct {
	pattern string // of http.ServeMux
	right   permit.Right
	at      place
	answer  guard.Handler
}

// A place says at which station a right is needed.
type place int

const (
	beside    place = iota // at none: the right somewhere is enough, and lists hold only what the caller may see
	atStation              // the station {name} of the path
	atSession              // the station where the session {id} of the path was flown
	ofStudent              // where the student {name} of the path flew, for who instructs there; and for the student
	atAsked                // the station that the handler finds out, and asks about with [Server.may]
)

// table lists every route.
func (s *Server) table(gatherer prometheus.Gatherer) []route {
	metrics := promhttp.HandlerFor(gatherer, promhttp.HandlerOpts{})
	rows := []route{
		{"GET /", permit.Anyone, beside, s.static},
		{"GET /healthz", permit.Anyone, beside, s.healthz},
		{"GET /metrics", permit.Manage, beside, wrapped(metrics)},
		{"GET /live", permit.Watch, atAsked, s.live},
		{"GET /api/stations", permit.Watch, beside, s.stations},
		{"GET /api/cards", permit.Enter, beside, s.cards},
		{"GET /api/parts", permit.Enter, beside, s.parts},
		{"GET /api/guides", permit.Enter, beside, s.guides},
		{"GET /api/brief", permit.Enter, beside, s.gates.work.Few(s.brief)},
		{"GET /api/stations/{name}/legs", permit.Watch, atStation, s.gates.work.Few(s.legs)},
		{"GET /api/stations/{name}/probe", permit.Fly, atStation, s.probe},
		{"POST /api/stations/{name}/{command}", permit.Fly, atStation, s.command},
		{"POST /do/{act}", permit.Fly, atAsked, s.act},
		{"GET /api/link", permit.Anyone, beside, s.link}, // who brings the key of a station
	}
	for _, more := range [][]route{
		s.pageRoutes(), s.replayRoutes(), s.debriefRoutes(), s.logbookRoutes(), s.judgingRoutes(), s.networkRoutes(),
		s.firstRoutes(), s.accessRoutes(), s.courseRoutes(),
	} {
		rows = append(rows, more...)
	}
	return rows
}

// link takes the link of a station at home.
func (s *Server) link(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Link == nil {
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoPage.Of(phrase.Name("path", r.URL.Path))}
	}
	return s.cfg.Link(w, r)
}

// pageRoutes are the pages themselves: whoever is let in may open each; those that let somebody in are open to anyone.
func (s *Server) pageRoutes() []route {
	var rows []route
	for path, p := range s.pages {
		if path == "/" || !isPage(p) {
			continue // "/" has the row of everything else
		}
		right := permit.Enter
		if letsIn[strings.TrimSuffix(path, ".html")] {
			right = permit.Anyone
		}
		rows = append(rows, route{"GET " + path, right, beside, s.static})
	}
	return rows
}

// letsIn are the pages for people who are not known yet.
var letsIn = map[string]bool{"/enter": true, "/invited": true, "/login": true}

// isPage reports whether a file is a page, and not a part that pages are made of, which holds nothing of anybody's.
func isPage(p page) bool { return strings.HasPrefix(p.kind, "text/html") }

// routes makes the handler of the table.
func (s *Server) routes(gatherer prometheus.Gatherer) http.Handler {
	mux := http.NewServeMux()
	for _, row := range s.table(gatherer) {
		mux.Handle(row.pattern, guard.Handle(s.log, s.permitted(row)))
	}
	return mux
}

// wrapped makes a guard.Handler of a handler that reports its errors itself.
func wrapped(h http.Handler) guard.Handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		h.ServeHTTP(w, r)
		return nil
	}
}
