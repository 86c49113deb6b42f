package web

import (
	"context"
	"errors"
	"io"
	"mime"
	"net/http"
	"path"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// A Logbook is what was flown, as the pages ask for it: *archive.Archive is one. It is safe for
// concurrent use. A *logbook.NotFound or *logbook.Refused is sent to the client.
type Logbook interface {
	List(ctx context.Context, f logbook.Filter) (*logbook.SessionList, error)
	Trend(ctx context.Context, f logbook.Filter) (*logbook.Trend, error)
	Session(ctx context.Context, id string) (*logbook.SessionDetail, error)
	Models(ctx context.Context, id string, leg int) (*logbook.Models, error)
	Students(ctx context.Context, limit int) ([]string, error)
	Remark(by who.Who, id string, r logbook.Remark) (logbook.Remark, error)
	SetKeep(by who.Who, id string, keep bool) error
	SetStudent(by who.Who, id, student string) error
}

// Captures take recordings in and give sessions out, as files. They are safe for concurrent use.
type Captures interface {
	// Export writes a session, or one leg of it, in a format of ExportFormats or as "pdf".
	Export(ctx context.Context, w io.Writer, id string, e Export) error
	// Regrade grades the recording of a session again by other cards, and keeps the new grades beside the first.
	Regrade(ctx context.Context, id string, by OtherCards) error
	// Import takes a capture in as sessions and tells what came of it; the value is written as JSON.
	Import(ctx context.Context, name string, capture io.Reader) (any, error)
}

// OtherCards are the cards to grade a session by instead of those it was flown by; nil leaves that one.
type OtherCards struct {
	Maneuver *string `json:"maneuver"`
	Standard *string `json:"standard"`
	Aircraft *string `json:"aircraft"`
}

// An Export selects what is written of a session.
type Export struct {
	Format string
	Leg    int    // its number in the session, 0 is all
	Paper  string // of a PDF: a4 or letter
	All    bool   // of a PDF: every leg on pages of its own, with causes and callouts; else one page
	// Language is that of a PDF; nil is English.
	Language *phrase.Language
}

// ExportFormats are the formats of GET /api/sessions/{id}/export, and their media types.
var ExportFormats = map[string]string{
	"csv":     "text/csv; charset=utf-8",
	"parquet": "application/vnd.apache.parquet",
	"gpx":     "application/gpx+xml",
	"kml":     "application/vnd.google-earth.kml+xml",
	"json":    "application/json",
}

// MaxImport is the largest capture that is taken in by a page, in bytes.
const MaxImport = 512 << 20

// Students is the answer to GET /api/students.
type Students struct {
	Version  int      `json:"version"`
	Students []string `json:"students"`
}

// mostStudents is how many are offered on the panel.
const mostStudents = 24

func (s *Server) logbookRoutes() []route {
	return []route{
		{"GET /api/sessions", permit.Read, beside, s.ask(s.listSessions)},
		{"GET /api/sessions/trend", permit.Read, beside, s.gates.work.Few(s.ask(s.trend))},
		{"GET /api/sessions/{id}", permit.Read, atSession, s.ask(s.showSession)},
		{"GET /api/sessions/{id}/legs/{n}/models", permit.Read, atSession, s.gates.work.Few(s.ask(s.models))},
		{"GET /api/students", permit.Fly, beside, s.ask(s.students)},
		{"POST /api/sessions/{id}/remarks", permit.Fly, atSession, s.ask(s.remark)},
		{"POST /api/sessions/{id}/keep", permit.Instruct, atSession, s.ask(s.keepSession)},
		{"POST /api/sessions/{id}/student", permit.Fly, atSession, s.ask(s.nameStudent)},
		{"POST /api/sessions/{id}/regrade", permit.Instruct, atSession, s.gates.work.Few(s.ask(s.regradeSession))},
		{"GET /api/sessions/{id}/export", permit.Read, atSession, s.gates.exports.Few(s.export)},
		{"GET /api/sessions/{id}/print.pdf", permit.Read, atSession, s.gates.exports.Few(s.printed)},
		{"POST /api/sessions/import", permit.Instruct, beside, s.gates.imports.Few(s.importCapture)},
	}
}

// ask answers a request with an answer of the logbook, as JSON.
func (s *Server) ask(answer func(b Logbook, w http.ResponseWriter, r *http.Request) (any, error)) guard.Handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		if s.cfg.Logbook == nil {
			return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoLogbook.Of()}
		}
		v, err := answer(s.cfg.Logbook, w, r)
		if err != nil {
			return told(err)
		}
		return guard.WriteJSON(w, v)
	}
}

// told makes a Problem of an error of the logbook.
func told(err error) error {
	var none *logbook.NotFound
	var refused *logbook.Refused
	var failure *logbook.Failure
	switch {
	case errors.As(err, &none):
		return &guard.Problem{
			Status: http.StatusNotFound,
			Phrase: phrase.NotInLogbook.Of(phrase.Part("what", phrase.OfError(none))),
		}
	case errors.As(err, &refused):
		return &guard.Problem{Status: http.StatusBadRequest, Phrase: phrase.OfError(refused)}
	case errors.As(err, &failure):
		return &guard.Problem{Status: http.StatusServiceUnavailable, Phrase: phrase.OfError(failure)}
	}
	return err
}

func (s *Server) listSessions(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	f, err := filterOf(r)
	if err != nil {
		return nil, err
	}
	return b.List(r.Context(), f)
}

func (s *Server) trend(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	f, err := filterOf(r)
	if err != nil {
		return nil, err
	}
	return b.Trend(r.Context(), f)
}

// longestFilter is how many letters one may have.
const longestFilter = 200

// filterOf reads the query of a list or a trend.
func filterOf(r *http.Request) (f logbook.Filter, err error) {
	q := r.URL.Query()
	for key, to := range map[string]*string{"student": &f.Student, "maneuver": &f.Maneuver, "aircraft": &f.Aircraft,
		"grade": &f.Grade, "text": &f.Text, "after": &f.After} {
		if *to = q.Get(key); utf8.RuneCountInString(*to) > longestFilter {
			return f, &guard.Problem{Status: http.StatusBadRequest, Phrase: phrase.FilterTooLong.Of(
				phrase.Name("key", key), phrase.Int("most", longestFilter))}
		}
	}
	if grades := []string{"", coach.Unable, coach.Fair, coach.Good, coach.Excellent}; !slices.Contains(
		grades,
		f.Grade,
	) {
		return f, &guard.Problem{
			Status: http.StatusBadRequest,
			Phrase: phrase.BadGrade.Of(phrase.Name("grade", f.Grade)),
		}
	}
	if s := q.Get("from"); s != "" {
		if f.From, err = logbook.DayStart(s); err != nil {
			return f, told(err)
		}
	}
	if s := q.Get("to"); s != "" {
		if f.To, err = logbook.DayStart(s); err != nil {
			return f, told(err)
		}
		f.To = f.To.AddDate(0, 0, 1) // that day too
	}
	switch s := q.Get("flown"); s {
	case "", "0":
	case "1":
		f.Flown = true
	default:
		return f, &guard.Problem{Status: http.StatusBadRequest, Phrase: phrase.BadFlown.Of(phrase.Name("flown", s))}
	}
	if s := q.Get("limit"); s != "" {
		if f.Limit, err = strconv.Atoi(s); err != nil || f.Limit < 1 || f.Limit > 200 {
			return f, guard.Misuse(http.StatusBadRequest, "limit is "+strconv.Quote(s)+"; must be between 1 and 200")
		}
	}
	return f, nil
}

func (s *Server) showSession(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	return b.Session(r.Context(), r.PathValue("id"))
}

// models lists legs to compare a leg with.
func (s *Server) models(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	n, err := legNumber(r.PathValue("n"))
	if err != nil {
		return nil, err
	}
	return b.Models(r.Context(), r.PathValue("id"), n)
}

func (s *Server) students(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	list, err := b.Students(r.Context(), mostStudents)
	if err != nil {
		return nil, err
	}
	return Students{apiVersion, list}, nil
}

func (s *Server) keepSession(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	var c struct {
		Keep *bool `json:"keep"`
	}
	const want = `{"keep": true} or {"keep": false}`
	if err := guard.Body(guard.MaxBody, w, r, &c, want); err != nil {
		return nil, err
	}
	if c.Keep == nil {
		return nil, guard.Misuse(http.StatusBadRequest, "the body says nothing: send "+want)
	}
	return struct{}{}, b.SetKeep(asks(r), r.PathValue("id"), *c.Keep)
}

func (s *Server) nameStudent(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	var c struct {
		Student *string `json:"student"`
	}
	const want = `{"student": NAME}, "" for nobody`
	if err := guard.Body(guard.MaxBody, w, r, &c, want); err != nil {
		return nil, err
	}
	if c.Student == nil {
		return nil, guard.Misuse(http.StatusBadRequest, "the body says nothing: send "+want)
	}
	id := r.PathValue("id")
	if err := b.SetStudent(asks(r), id, *c.Student); err != nil {
		return nil, err
	}
	d, err := b.Session(r.Context(), id)
	if err != nil {
		return nil, err
	}
	return map[string]string{"student": d.Student}, nil // as it was first written
}

// regradeSession grades a session again by other cards, and answers with what is known of it then.
func (s *Server) regradeSession(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	var by OtherCards
	const want = `{"maneuver": NAME, "standard": NAME, "aircraft": NAME}, or some of them`
	if err := guard.Body(guard.MaxBody, w, r, &by, want); err != nil {
		return nil, err
	}
	switch {
	case by == OtherCards{}:
		return nil, guard.Misuse(http.StatusBadRequest, "the body says nothing: send "+want)
	case s.cfg.Captures == nil:
		return nil, noRecordings()
	}
	id := r.PathValue("id")
	if err := s.cfg.Captures.Regrade(r.Context(), id, by); err != nil {
		return nil, err
	}
	return b.Session(r.Context(), id)
}

func (s *Server) export(w http.ResponseWriter, r *http.Request) error {
	e := Export{Format: r.URL.Query().Get("format")}
	kind, ok := ExportFormats[e.Format]
	if !ok {
		return guard.Misuse(http.StatusBadRequest,
			"format is "+strconv.Quote(e.Format)+"; must be csv, gpx, json, kml or parquet")
	}
	return s.send(w, r, e, kind, "."+e.Format)
}

func (s *Server) printed(w http.ResponseWriter, r *http.Request) error {
	e := Export{Format: "pdf", Paper: r.URL.Query().Get("paper"), All: r.URL.Query().Get("all") == "1"}
	if !slices.Contains([]string{"", "a4", "letter"}, e.Paper) {
		return guard.Misuse(http.StatusBadRequest, "paper is "+strconv.Quote(e.Paper)+"; must be a4 or letter")
	}
	if code := r.URL.Query().Get("language"); code != "" {
		var err error
		if e.Language, err = Language(code); err != nil {
			return guard.Misuse(http.StatusBadRequest, err.Error())
		}
	}
	return s.send(w, r, e, "application/pdf", ".pdf")
}

// send streams an export. An error before the first byte is reported.
func (s *Server) send(w http.ResponseWriter, r *http.Request, e Export, kind, tail string) error {
	if s.cfg.Captures == nil {
		return noRecordings()
	}
	id := r.PathValue("id")
	if q := r.URL.Query().Get("leg"); q != "" {
		n, err := strconv.Atoi(q)
		if err != nil || n < 0 {
			return &guard.Problem{Status: http.StatusBadRequest, Phrase: phrase.NotALeg.Of(phrase.Name("number", q))}
		}
		e.Leg = n
	}
	name := id
	if e.Leg > 0 {
		name += "_leg-" + strconv.Itoa(e.Leg)
	}
	out := &lateHeader{w: w, none: r.Method == http.MethodHead, header: func(h http.Header) {
		h.Set("Content-Type", kind)
		h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name + tail}))
		h.Set("Cache-Control", "no-store")
	}}
	err := s.cfg.Captures.Export(r.Context(), out, id, e)
	if errors.Is(err, errNoBody) {
		return nil
	}
	return told(err)
}

// lateHeader sets the header with the first byte, so that an earlier error can be reported instead.
type lateHeader struct {
	w      http.ResponseWriter
	header func(http.Header)
	none   bool // a HEAD request: nothing of the body is needed
	begun  bool
}

// errNoBody ends an export when only the header was requested.
var errNoBody = errors.New("only the header was asked for")

func (l *lateHeader) Write(p []byte) (int, error) {
	if !l.begun {
		l.begun = true
		l.header(l.w.Header())
	}
	if l.none {
		return 0, errNoBody
	}
	return l.w.Write(p)
}

// importCapture imports a capture: the body is the file; the query gives its name.
func (s *Server) importCapture(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Captures == nil {
		return noRecordings()
	}
	if err := guard.Own(r, "application/octet-stream"); err != nil {
		return err
	}
	if r.ContentLength > MaxImport {
		return tooLarge()
	}
	// Only its last part is used, and only to be shown.
	name := path.Base(strings.ReplaceAll(r.URL.Query().Get("name"), `\`, "/"))
	if name == "." || name == "/" || utf8.RuneCountInString(name) > longestFilter {
		name = "capture"
	}
	v, err := s.cfg.Captures.Import(r.Context(), name, http.MaxBytesReader(w, r.Body, MaxImport))
	var big *http.MaxBytesError
	switch {
	case errors.As(err, &big):
		return tooLarge()
	case err != nil:
		return told(err)
	}
	return guard.WriteJSON(w, v)
}

func tooLarge() error {
	return &guard.Problem{Status: http.StatusRequestEntityTooLarge, Phrase: phrase.CaptureTooLarge.Of(
		phrase.Number("most", MaxImport>>20, 0, "MB"))}
}
