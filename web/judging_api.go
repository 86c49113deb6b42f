package web

import (
	"context"
	"encoding/csv"
	"io"
	"mime"
	"net/http"
	"slices"
	"strconv"

	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// Judging is what instructors and students make of grades. It is safe for concurrent use. A *logbook.NotFound or
// *logbook.Refused is sent to the client.
type Judging interface {
	Overrule(by who.Who, id string, o logbook.Overrule) error
	Rate(by who.Who, id string, r logbook.Rating) error
	Sign(by who.Who, id, name string) error
	Observe(ctx context.Context, by who.Who, id string, o logbook.Observation) error
	// Forms returns the form of a published test for each series of a session.
	Forms(ctx context.Context, id string) ([]assess.Form, error)
	// Sheet returns the grade sheet of a student, of the sessions at some stations; nil is all.
	Sheet(ctx context.Context, student string, stations []string) (*assess.Sheet, error)
	PrintForm(ctx context.Context, w io.Writer, id string, series int, o Paper) error
	PrintSheet(ctx context.Context, w io.Writer, student string, stations []string, o Paper) error
	// First reports whether a student rates a leg before its grade is shown.
	First() bool
}

// A Paper says how a PDF is written.
type Paper struct {
	Size     string           // a4 or letter; "" is a4
	Language *phrase.Language // nil is English
}

// Forms is the answer to GET /api/sessions/{id}/forms: one form for each series.
type Forms struct {
	Version int           `json:"version"`
	Forms   []assess.Form `json:"forms"`
	// First says that the student rates a leg before its grade is shown; Aspects are what can be named as the one
	// thing.
	First   bool     `json:"first"`
	Aspects []string `json:"aspects"`
}

func (s *Server) judgingRoutes() []route {
	few, exports := s.gates.work.Few, s.gates.exports.Few
	return []route{
		{"POST /api/sessions/{id}/overrule", permit.Instruct, atSession, s.judge(s.overrule)},
		{"POST /api/sessions/{id}/observe", permit.Instruct, atSession, few(s.judge(s.observe))},
		{"POST /api/sessions/{id}/sign", permit.Instruct, atSession, s.judge(s.sign)},
		{"POST /api/sessions/{id}/rate", permit.Fly, atSession, s.judge(s.rate)},
		{"GET /api/sessions/{id}/forms", permit.Read, atSession, few(s.ask(s.forms))},
		{"GET /api/sessions/{id}/form.pdf", permit.Read, atSession, exports(s.printForm)},
		{"GET /students/{name}", permit.Enter, beside, s.studentPage},
		{"GET /api/students/{name}/sheet", permit.Read, ofStudent, few(s.ask(s.sheet))},
		{"GET /api/students/{name}/sheet.csv", permit.Read, ofStudent, exports(s.sheetCSV)},
		{"GET /api/students/{name}/sheet.pdf", permit.Read, ofStudent, exports(s.printSheet)},
	}
}

// noJudging is what a server answers that keeps no logbook.
func noJudging() error {
	return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoLogbook.Of()}
}

// judge answers a request that adds something to a session with all there is about the session then.
func (s *Server) judge(add func(j Judging, w http.ResponseWriter, r *http.Request) error) guard.Handler {
	return s.ask(func(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
		if s.cfg.Judging == nil {
			return nil, noJudging()
		}
		if err := add(s.cfg.Judging, w, r); err != nil {
			return nil, err
		}
		return b.Session(r.Context(), r.PathValue("id"))
	})
}

// author is the name that somebody gives who has none here; whoever has one goes by that.
func author(by who.Who, said string) string {
	if by == who.Owner() {
		return said
	}
	return ""
}

func (s *Server) overrule(j Judging, w http.ResponseWriter, r *http.Request) error {
	var n struct {
		Leg     int    `json:"leg"`
		Series  int    `json:"series"`
		Check   string `json:"check"`
		Verdict string `json:"verdict"`
		Reason  string `json:"reason"`
		By      string `json:"by"`
	}
	if err := guard.Body(maxRemark, w, r, &n, `{"leg": NUMBER or 0, "series": NUMBER or 0, "check": ID or empty, `+
		`"verdict": VERDICT or empty, "reason": TEXT, "by": NAME}`); err != nil {
		return err
	}
	by := asks(r)
	return j.Overrule(by, r.PathValue("id"), logbook.Overrule{Leg: n.Leg, Series: n.Series, Check: n.Check,
		Verdict: n.Verdict, Reason: n.Reason, By: author(by, n.By)})
}

func (s *Server) observe(j Judging, w http.ResponseWriter, r *http.Request) error {
	var n struct {
		Series  int    `json:"series"`
		Element string `json:"element"`
		Mark    string `json:"mark"`
		By      string `json:"by"`
	}
	if err := guard.Body(guard.MaxBody, w, r, &n,
		`{"series": NUMBER, "element": ID, "mark": MARK or empty, "by": NAME}`); err != nil {
		return err
	}
	by := asks(r)
	return j.Observe(r.Context(), by, r.PathValue("id"), logbook.Observation{Series: n.Series, Element: n.Element,
		Mark: n.Mark, By: author(by, n.By)})
}

func (s *Server) rate(j Judging, w http.ResponseWriter, r *http.Request) error {
	var n struct {
		Leg   int    `json:"leg"`
		Grade string `json:"grade"`
		Thing string `json:"thing"`
	}
	if err := guard.Body(guard.MaxBody, w, r, &n,
		`{"leg": NUMBER, "grade": GRADE or empty, "thing": ASPECT or empty}`); err != nil {
		return err
	}
	return j.Rate(asks(r), r.PathValue("id"), logbook.Rating{Leg: n.Leg, Grade: n.Grade, Thing: n.Thing})
}

func (s *Server) sign(j Judging, w http.ResponseWriter, r *http.Request) error {
	var n struct {
		Name string `json:"name"`
	}
	if err := guard.Body(guard.MaxBody, w, r, &n, `{"name": NAME}`); err != nil {
		return err
	}
	by := asks(r)
	if by != who.Owner() {
		n.Name = by.Name // nobody signs for another
	}
	return j.Sign(by, r.PathValue("id"), n.Name)
}

func (s *Server) forms(_ Logbook, _ http.ResponseWriter, r *http.Request) (any, error) {
	if s.cfg.Judging == nil {
		return nil, noJudging()
	}
	forms, err := s.cfg.Judging.Forms(r.Context(), r.PathValue("id"))
	return Forms{apiVersion, forms, s.cfg.Judging.First(), assess.Aspects()}, err
}

func (s *Server) sheet(_ Logbook, _ http.ResponseWriter, r *http.Request) (any, error) {
	if s.cfg.Judging == nil {
		return nil, noJudging()
	}
	name := r.PathValue("name")
	return s.cfg.Judging.Sheet(r.Context(), name, gradesAt(r, name))
}

// studentPage serves the grade sheet of any student; the page asks for it and says when there is none.
func (s *Server) studentPage(w http.ResponseWriter, r *http.Request) error {
	return s.serve(w, r, s.pages["/student.html"])
}

// paper reads how a PDF is written.
func paper(r *http.Request) (p Paper, err error) {
	q := r.URL.Query()
	if p.Size = q.Get("paper"); !slices.Contains([]string{"", "a4", "letter"}, p.Size) {
		return p, guard.Misuse(http.StatusBadRequest, "paper is "+strconv.Quote(p.Size)+"; must be a4 or letter")
	}
	if code := q.Get("language"); code != "" {
		if p.Language, err = Language(code); err != nil {
			return p, guard.Misuse(http.StatusBadRequest, err.Error())
		}
	}
	return p, nil
}

func (s *Server) printForm(w http.ResponseWriter, r *http.Request) error {
	o, err := paper(r)
	if err != nil || s.cfg.Judging == nil {
		return orNoJudging(err)
	}
	n, err := legNumber(r.URL.Query().Get("series"))
	if err != nil {
		return err
	}
	id := r.PathValue("id")
	return s.attach(w, r, id+"_form-"+strconv.Itoa(n)+".pdf", "application/pdf", func(w io.Writer) error {
		return s.cfg.Judging.PrintForm(r.Context(), w, id, n, o)
	})
}

func (s *Server) printSheet(w http.ResponseWriter, r *http.Request) error {
	o, err := paper(r)
	if err != nil || s.cfg.Judging == nil {
		return orNoJudging(err)
	}
	name := r.PathValue("name")
	return s.attach(w, r, "grade-sheet.pdf", "application/pdf", func(w io.Writer) error {
		return s.cfg.Judging.PrintSheet(r.Context(), w, name, gradesAt(r, name), o)
	})
}

func (s *Server) sheetCSV(w http.ResponseWriter, r *http.Request) error {
	if s.cfg.Judging == nil {
		return noJudging()
	}
	name := r.PathValue("name")
	sheet, err := s.cfg.Judging.Sheet(r.Context(), name, gradesAt(r, name))
	if err != nil {
		return told(err)
	}
	return s.attach(w, r, "grade-sheet.csv", "text/csv; charset=utf-8", func(w io.Writer) error {
		out := csv.NewWriter(w)
		return out.WriteAll(sheet.Table())
	})
}

func orNoJudging(err error) error {
	if err != nil {
		return err
	}
	return noJudging()
}

// attach sends a file. An error before its first byte is reported.
func (s *Server) attach(
	w http.ResponseWriter, r *http.Request, name, kind string, write func(io.Writer) error,
) error {
	out := &lateHeader{w: w, none: r.Method == http.MethodHead, header: func(h http.Header) {
		h.Set("Content-Type", kind)
		h.Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
		h.Set("Cache-Control", "no-store")
	}}
	if err := write(out); err != nil && (!out.none || !out.begun) {
		return told(err)
	}
	return nil
}
