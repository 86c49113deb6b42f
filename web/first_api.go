package web

import (
	"context"
	"net"
	"net/http"
	"net/netip"
	"path"
	"strconv"

	"halfturn/coach/maneuver"
	"halfturn/coach/measure"
	"halfturn/coach/permit"
	"halfturn/configs/guide"
	"halfturn/stream/phrase"
	"halfturn/web/finder"
	"halfturn/web/guard"
	"halfturn/web/measuring"
	"halfturn/web/show"
)

// A Finder knows of simulators around the server; see finder.Finder.
type Finder interface {
	Status() finder.Status
	Ask(ctx context.Context, address string) error
	StopAsking(ctx context.Context, address string) error
	Open(ctx context.Context, open bool) error
}

// A Show flies demonstrations; see show.Show.
type Show interface {
	Begin(c maneuver.Choice, pace float64) (show.Showing, error)
	End()
	Now() (now show.Showing, ok bool)
}

// A Measuring measures the aircraft at a station; see measuring.Measuring.
type Measuring interface {
	Progress(ctx context.Context, station string) (p measure.Progress, ok bool, err error)
	Step(ctx context.Context, station, step string) (p measure.Progress, ok bool, err error)
	Write(ctx context.Context, station, title string) (name, file string, err error)
}

// firstRoutes are what the first page and the set-up page ask for: simulators, aircraft, a demonstration.
func (s *Server) firstRoutes() []route {
	rows := []route{
		{"GET /api/guides/{name}/files/{file...}", permit.Enter, beside, s.guideFile},
		{"GET /api/find", permit.Fly, beside, s.found},
	}
	if s.cfg.Finder != nil {
		rows = append(rows, route{"POST /api/find", permit.Manage, beside, s.find})
	}
	if s.cfg.Show != nil {
		rows = append(rows,
			route{"GET /api/demonstration", permit.Enter, beside, s.showing},
			route{"POST /api/demonstration", permit.Fly, beside, s.gates.work.Few(s.show)},
			route{"DELETE /api/demonstration", permit.Fly, beside, s.endShow},
		)
	}
	if s.cfg.Measuring != nil {
		rows = append(rows,
			route{"GET /api/stations/{name}/measure", permit.Watch, atStation, s.measured},
			route{"POST /api/stations/{name}/measure", permit.Fly, atStation, s.measure},
			route{"POST /api/stations/{name}/card", permit.Instruct, atStation, s.writeCard},
		)
	}
	return rows
}

// guideFile is a file that a guide speaks of, to be kept on the reader's disk. A file that says where to send says the
// address in the query, ?host=ADDRESS&port=PORT, which is the one that the page shows.
func (s *Server) guideFile(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("file")
	data, ok, err := guide.File(r.PathValue("name"), name)
	if err != nil {
		return err
	}
	if !ok {
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoFile.Of(phrase.Name("file", name))}
	}
	if q := r.URL.Query(); q.Has("host") || q.Has("port") {
		host, wrongHost := netip.ParseAddr(q.Get("host"))
		port, wrongPort := strconv.ParseUint(q.Get("port"), 10, 16)
		if wrongHost != nil || wrongPort != nil || port == 0 {
			return guard.Misuse(http.StatusBadRequest, "the file is to send to "+
				strconv.Quote(q.Get("host")+" "+q.Get("port"))+": ask for ?host=ADDRESS&port=PORT")
		}
		data = guide.Addressed(data, host, uint16(port))
	}
	w.Header().Set("Content-Type", "application/octet-stream")
	w.Header().Set("Content-Disposition", `attachment; filename="`+path.Base(name)+`"`)
	_, err = w.Write(data)
	return err
}

// found tells what is known of simulators; nothing where none is looked for.
func (s *Server) found(w http.ResponseWriter, _ *http.Request) error {
	if s.cfg.Finder == nil {
		return guard.WriteJSON(w, finder.Nothing(s.cfg.Listen))
	}
	return guard.WriteJSON(w, s.cfg.Finder.Status())
}

// A findForm asks for one thing: to ask a simulator, to ask it no more, or to open the UDP port to the network.
type findForm struct {
	Ask  string `json:"ask"`
	Stop string `json:"stop"`
	Open *bool  `json:"open"`
}

const findSays = `{"ask": "HOST"}, {"stop": "HOST:PORT"} or {"open": true or false}`

// find changes who is asked and heard.
func (s *Server) find(w http.ResponseWriter, r *http.Request) error {
	var f findForm
	if err := guard.Body(guard.MaxBody, w, r, &f, findSays); err != nil {
		return err
	}
	if !s.isOwnMachine(r) {
		return &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.OwnMachineOnly.Of()}
	}
	var err error
	switch {
	case f.Ask != "":
		err = s.cfg.Finder.Ask(r.Context(), f.Ask)
	case f.Stop != "":
		err = s.cfg.Finder.StopAsking(r.Context(), f.Stop)
	case f.Open != nil:
		err = s.cfg.Finder.Open(context.WithoutCancel(r.Context()), *f.Open)
	default:
		return guard.Misuse(http.StatusBadRequest, "the body asks for nothing: send "+findSays)
	}
	if err != nil {
		return &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.OfError(err)}
	}
	return s.found(w, r)
}

// isOwnMachine reports whether a request comes from a browser on this machine, also where the pages are open to others.
func (s *Server) isOwnMachine(r *http.Request) bool {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	ip := net.ParseIP(host)
	if err != nil || ip == nil {
		return false
	}
	local, ok := r.Context().Value(http.LocalAddrContextKey).(*net.TCPAddr)
	return ip.IsLoopback() || ok && local.IP.Equal(ip)
}

// showing tells which demonstration is flown; the station is "" when none is.
func (s *Server) showing(w http.ResponseWriter, _ *http.Request) error {
	now, _ := s.cfg.Show.Now()
	return guard.WriteJSON(w, now)
}

// A showForm says what is demonstrated, and how fast.
type showForm struct {
	maneuver.Choice
	Pace float64 `json:"pace"` // of show.Paces; left out it is 1
}

const showSays = `{"maneuver": "NAME", "standard": "NAME or empty", "aircraft": "NAME or empty", "pace": 0.25 to 8}`

// show flies a demonstration.
func (s *Server) show(w http.ResponseWriter, r *http.Request) error {
	f := showForm{Pace: 1}
	if err := guard.Body(guard.MaxBody, w, r, &f, showSays); err != nil {
		return err
	}
	if err := show.Paces.Check("pace", f.Pace); err != nil {
		return guard.Misuse(http.StatusBadRequest, err.Error())
	}
	now, err := s.cfg.Show.Begin(f.Choice, f.Pace)
	if err != nil {
		return &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.OfError(err)}
	}
	return guard.WriteJSON(w, now)
}

func (s *Server) endShow(w http.ResponseWriter, r *http.Request) error {
	s.cfg.Show.End()
	return s.showing(w, r)
}

// A measureForm says what is done with the measurement at a station.
type measureForm struct {
	Step string `json:"step"`
}

// A measureAnswer is where it stands; null when nothing is measured.
type measureAnswer struct {
	Progress *measure.Progress `json:"progress"`
}

func (s *Server) measured(w http.ResponseWriter, r *http.Request) error {
	p, ok, err := s.cfg.Measuring.Progress(r.Context(), r.PathValue("name"))
	return answerMeasured(w, &p, ok, err)
}

func (s *Server) measure(w http.ResponseWriter, r *http.Request) error {
	var f measureForm
	form := `{"step": "begin", "next", "again" or "stop"}`
	if err := guard.Body(guard.MaxBody, w, r, &f, form); err != nil {
		return err
	}
	if !measuring.IsStep(f.Step) {
		return guard.Misuse(http.StatusBadRequest, "the body names no step: send "+form)
	}
	p, ok, err := s.cfg.Measuring.Step(r.Context(), r.PathValue("name"), f.Step)
	return answerMeasured(w, &p, ok, err)
}

func answerMeasured(w http.ResponseWriter, p *measure.Progress, ok bool, err error) error {
	if err != nil {
		return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.OfError(err)}
	}
	if !ok {
		p = nil
	}
	return guard.WriteJSON(w, measureAnswer{p})
}

// A cardForm names the aircraft that was measured, as people call it.
type cardForm struct {
	Title string `json:"title"`
}

// A cardAnswer is the card that was written.
type cardAnswer struct {
	Name string `json:"name"`
	File string `json:"file"`
}

// writeCard keeps what was measured as a card.
func (s *Server) writeCard(w http.ResponseWriter, r *http.Request) error {
	var f cardForm
	if err := guard.Body(guard.MaxBody, w, r, &f, `{"title": "NAME"}`); err != nil {
		return err
	}
	name, file, err := s.cfg.Measuring.Write(r.Context(), r.PathValue("name"), f.Title)
	if err != nil {
		return &guard.Problem{Status: http.StatusUnprocessableEntity, Phrase: phrase.OfError(err)}
	}
	return guard.WriteJSON(w, cardAnswer{name, file})
}
