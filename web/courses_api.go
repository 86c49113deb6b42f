package web

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"io"
	"net/http"
	"strconv"

	"halfturn/coach/assess"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
	"halfturn/coach/permit"
	"halfturn/coach/who"
	"halfturn/web/guard"
)

// Courses are what students fly one after the other. They are safe for concurrent use. A *logbook.NotFound or
// *logbook.Refused is sent to the client.
type Courses interface {
	// List returns those that can be chosen.
	List() ([]*course.Course, error)
	// Record is how a student stands.
	Record(ctx context.Context, o CourseQuestion) (*assess.Record, error)
	// Choose keeps the course that a student flies, and returns it.
	Choose(ctx context.Context, by who.Who, o CourseQuestion) (logbook.CourseChoice, error)
	// Rule keeps what a person says of a step.
	Rule(ctx context.Context, by who.Who, o CourseQuestion, r logbook.Ruling) error
}

// A CourseQuestion is what is asked of a student in a course; the zero value of a choice is the one that is kept.
type CourseQuestion struct {
	logbook.CourseChoice
	Student  string
	Stations []string // where the sessions that count were flown; nil is all
	Step     string   // to work on instead of the one that the rules give
	Minutes  float64  // of the plan; 0 is ten
}

// CourseList is the answer to GET /api/courses.
type CourseList struct {
	Version int              `json:"version"`
	Courses []*course.Course `json:"courses"`
}

// NextThing is the answer to GET /api/stations/{name}/next: what whoever sits there flies next.
type NextThing struct {
	Version int          `json:"version"`
	Student string       `json:"student"` // "" is nobody named, for whom there is no plan
	Course  string       `json:"course"`  // its title
	Passed  int          `json:"passed"`  // steps
	Of      int          `json:"of"`
	Plan    *course.Plan `json:"plan"`
}

func (s *Server) courseRoutes() []route {
	few, exports := s.gates.work.Few, s.gates.exports.Few
	return []route{
		{"GET /api/courses", permit.Enter, beside, s.courses},
		{"GET /api/stations/{name}/next", permit.Fly, atStation, few(s.ask(s.next))},
		{"GET /api/students/{name}/course", permit.Read, ofStudent, few(s.ask(s.courseOf))},
		{"POST /api/students/{name}/course", permit.Fly, ofStudent, few(s.ask(s.chooseCourse))},
		{"POST /api/students/{name}/steps/{step}", permit.Instruct, ofStudent, few(s.ask(s.ruleOn))},
		{"GET /api/students/{name}/course.csv", permit.Read, ofStudent, exports(s.courseFile("csv"))},
		{"GET /api/students/{name}/course.json", permit.Read, ofStudent, exports(s.courseFile("json"))},
		{"GET /api/students/{name}/course.html", permit.Read, ofStudent, exports(s.courseFile("html"))},
	}
}

func (s *Server) courses(w http.ResponseWriter, _ *http.Request) error {
	if s.cfg.Courses == nil {
		return noJudging()
	}
	list, err := s.cfg.Courses.List()
	if err != nil {
		return err
	}
	return guard.WriteJSON(w, CourseList{apiVersion, list})
}

// mostMinutes is how long a plan can be.
const mostMinutes = 480

// courseAsked reads what is asked of a student in a course.
func courseAsked(r *http.Request, student string, stations []string) (o CourseQuestion, err error) {
	q := r.URL.Query()
	o = CourseQuestion{Student: student, Stations: stations, Step: q.Get("step")}
	o.Course, o.Cause, o.Maneuver = q.Get("course"), q.Get("cause"), q.Get("maneuver")
	for _, words := range []string{o.Course, o.Cause, o.Maneuver, o.Step} {
		if len(words) > longestFilter {
			return o, guard.Misuse(http.StatusBadRequest, "a name in the query is too long")
		}
	}
	if m := q.Get("minutes"); m != "" {
		if o.Minutes, err = strconv.ParseFloat(m, 64); err != nil || !(o.Minutes >= 1 && o.Minutes <= mostMinutes) {
			return o, guard.Misuse(http.StatusBadRequest, "minutes is "+strconv.Quote(m)+"; must be between 1 and "+
				strconv.Itoa(mostMinutes))
		}
	}
	return o, nil
}

func (s *Server) courseOf(_ Logbook, _ http.ResponseWriter, r *http.Request) (any, error) {
	if s.cfg.Courses == nil {
		return nil, noJudging()
	}
	name := r.PathValue("name")
	o, err := courseAsked(r, name, gradesAt(r, name))
	if err != nil {
		return nil, err
	}
	return s.cfg.Courses.Record(r.Context(), o)
}

// next is what the student at a station flies next, of what whoever asks may read.
func (s *Server) next(_ Logbook, _ http.ResponseWriter, r *http.Request) (any, error) {
	if s.cfg.Courses == nil {
		return nil, noJudging()
	}
	name := r.PathValue("name")
	if err := s.mayReach(asks(r), name); err != nil {
		return nil, err
	}
	student, there := "", false
	for _, at := range s.hub.Stations() {
		if at.Name == name {
			student, there = at.Student, true
		}
	}
	switch {
	case !there:
		return nil, noStation(name)
	case student == "":
		return NextThing{Version: apiVersion}, nil
	}
	var stations []string
	if c := callerOf(r); !c.Everywhere(permit.Read) && !isStudent(c, student) {
		stations = append([]string{}, c.Stations.Names...)
	}
	o, err := courseAsked(r, student, stations)
	if err != nil {
		return nil, err
	}
	rec, err := s.cfg.Courses.Record(r.Context(), o)
	if err != nil {
		return nil, err
	}
	return nextOf(rec), nil
}

// nextOf is what is flown next by a record.
func nextOf(r *assess.Record) NextThing {
	return NextThing{
		Version: apiVersion,
		Student: r.Student,
		Course:  r.Course.Title,
		Passed:  r.Progress.Passed,
		Of:      len(r.Course.Steps),
		Plan:    r.Plan,
	}
}

func (s *Server) chooseCourse(_ Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	if s.cfg.Courses == nil {
		return nil, noJudging()
	}
	var c logbook.CourseChoice
	const want = `{"course": NAME}, and where it is built from a weakness "cause": NAME, "maneuver": NAME`
	if err := guard.Body(guard.MaxBody, w, r, &c, want); err != nil {
		return nil, err
	}
	if c.Course == "" {
		return nil, guard.Misuse(http.StatusBadRequest, "the body names no course: send "+want)
	}
	name := r.PathValue("name")
	o := CourseQuestion{CourseChoice: c, Student: name, Stations: gradesAt(r, name)}
	if _, err := s.cfg.Courses.Choose(r.Context(), asks(r), o); err != nil {
		return nil, err
	}
	o.CourseChoice = logbook.CourseChoice{}
	return s.cfg.Courses.Record(r.Context(), o)
}

func (s *Server) ruleOn(_ Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	if s.cfg.Courses == nil {
		return nil, noJudging()
	}
	var n struct {
		logbook.CourseChoice
		Verdict string `json:"verdict"`
		Reason  string `json:"reason"`
		By      string `json:"by"`
	}
	if err := guard.Body(maxRemark, w, r, &n, `{"course": NAME, "verdict": "passed", "not-yet" or empty, `+
		`"reason": TEXT, "by": NAME}`); err != nil {
		return nil, err
	}
	by := asks(r)
	o := CourseQuestion{CourseChoice: n.CourseChoice, Student: r.PathValue("name"), Step: r.PathValue("step")}
	if c := callerOf(r); !c.Everywhere(permit.Instruct) { // it is kept with a session at a station of theirs
		o.Stations = append([]string{}, c.Stations.Names...)
	}
	err := s.cfg.Courses.Rule(r.Context(), by, o, logbook.Ruling{Verdict: n.Verdict, Reason: n.Reason,
		By: author(by, n.By)})
	if err != nil {
		return nil, err
	}
	o.Step, o.Stations = "", gradesAt(r, o.Student)
	return s.cfg.Courses.Record(r.Context(), o)
}

// courseFile sends the record as a file: a table, JSON, or a page that needs no server; ?names=1 with names.
func (s *Server) courseFile(kind string) guard.Handler {
	return func(w http.ResponseWriter, r *http.Request) error {
		if s.cfg.Courses == nil {
			return noJudging()
		}
		name := r.PathValue("name")
		o, err := courseAsked(r, name, gradesAt(r, name))
		if err != nil {
			return err
		}
		rec, err := s.cfg.Courses.Record(r.Context(), o)
		if err != nil {
			return told(err)
		}
		media := map[string]string{"csv": "text/csv; charset=utf-8", "json": "application/json",
			"html": "text/html; charset=utf-8"}[kind]
		return s.attach(w, r, "course."+kind, media, func(w io.Writer) error {
			switch kind {
			case "csv":
				return csv.NewWriter(w).WriteAll(rec.Table())
			case "json":
				out := json.NewEncoder(w)
				out.SetIndent("", "  ")
				return out.Encode(rec)
			}
			return WriteCourse(w, rec, r.URL.Query().Get("names") == "1")
		})
	}
}

// WriteCourse writes a record as one HTML file that needs neither a server nor a network.
func WriteCourse(w io.Writer, rec *assess.Record, named bool) error {
	if !named {
		rec = rec.WithoutNames()
	}
	files, err := embeddedPages()
	if err != nil {
		return err
	}
	out, err := sharedPage(files, "/course", map[string]any{"api/" + shared + "/course": rec})
	if err != nil {
		return err
	}
	_, err = w.Write(out)
	return err
}
