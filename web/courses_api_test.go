package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach/assess"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/coach/stored"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/web/access"
	"halfturn/web/internal/feed"
)

// lessons are the shipped courses over a logbook, as the program has them, that keep what was asked of them.
type lessons struct {
	stored.Courses
	asked []CourseQuestion
}

func newLessons(t testing.TB, c stored.Courses) *lessons {
	t.Helper()
	cards, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	if c.Library, err = course.LoadLibrary(cards, configs.FS); err != nil {
		t.Fatal(err)
	}
	c.Required = func(string) string { return "good" }
	return &lessons{Courses: c}
}

func (l *lessons) at(o CourseQuestion) stored.Asked {
	l.asked = append(l.asked, o)
	return stored.Asked{CourseChoice: o.CourseChoice, Student: o.Student, Stations: o.Stations, Step: o.Step,
		Minutes: o.Minutes, Now: flewAt.Add(24 * time.Hour)}
}

func (l *lessons) List() ([]*course.Course, error) { return l.Library.Courses(), nil }

func (l *lessons) Record(ctx context.Context, o CourseQuestion) (*assess.Record, error) {
	return l.Courses.Record(ctx, l.at(o))
}

func (l *lessons) Choose(ctx context.Context, by who.Who, o CourseQuestion) (logbook.CourseChoice, error) {
	return l.Courses.Choose(ctx, by, l.at(o))
}

func (l *lessons) Rule(ctx context.Context, by who.Who, o CourseQuestion, r logbook.Ruling) error {
	return l.Courses.Rule(ctx, by, l.at(o), r)
}

// courseAnswers are those about courses for the contract, shortened where they repeat.
func courseAnswers(t *testing.T) string {
	t.Helper()
	b, _ := filled(t)
	l := newLessons(t, stored.Courses{Archive: b})
	o := CourseQuestion{Student: "Ada Example", Step: "level-roll"}
	r := logbook.Ruling{Verdict: logbook.StepPassed, By: "Bo Example", Reason: "seen at another simulator"}
	if err := l.Rule(t.Context(), who.Owner(), o, r); err != nil {
		t.Fatal(err)
	}
	rec, err := l.Record(t.Context(), CourseQuestion{CourseChoice: logbook.CourseChoice{Course: "first"},
		Student: "Ada Example"})
	if err != nil {
		t.Fatal(err)
	}
	rec.Progress.Steps[0].Ruled.At = "2031-05-05T09:00:07Z" // when it is run
	next := nextOf(rec)
	short := *rec.Course
	short.Steps, rec.Course, rec.Progress.Steps, rec.Steps = short.Steps[:2], &short, rec.Progress.Steps[:2],
		rec.Steps[:2]
	try := course.Try{Session: "2031", Number: 1, Began: "2031-05-05T09:00:07Z", Direction: "left", Verdict: "met",
		Score: 97.5, Grade: "excellent", Good: true, Overruled: true, Signed: true}
	rec.Progress.Steps[1].PassedBy = []course.Try{try}
	moved := course.Moved{Maneuver: "wing-over", Standard: "course", Check: "bank-at-90", Label: "Bank at 90°", Met: 5,
		Of: 6, MetThen: 2, OfThen: 7, Z: 2.5}
	rec.Week.Steadier = []course.Moved{moved}
	rec.Blocks = []assess.Block{{Aspect: assess.Bank, Weak: true, Marks: []string{"missed", ""}}}
	return "export const courses: CourseList = " + indent(t, CourseList{apiVersion, []*course.Course{rec.Course}}) +
		";\n\n" +
		"export const record: CourseRecord = " + indent(t, rec) + ";\n\n" +
		"export const nobodysNext: NextThing = " + indent(t, NextThing{Version: apiVersion}) + ";\n\n" +
		"export const next: NextThing = " + indent(t, next) + ";\n"
}

// as makes a request as somebody to whom the station Seat 3 belongs; "" is the owner.
func as(s *Server, role who.Role, method, path, body string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, path, strings.NewReader(body))
	r.Host, r.RemoteAddr = "localhost", "127.0.0.1:1"
	r.Header.Set("Content-Type", "application/json")
	if role != "" {
		c := permit.Caller{Who: who.Who{ID: "u", Name: "Cy Example", Role: role}}
		c.Stations.Names = []string{"Seat 3"}
		r = r.WithContext(context.WithValue(r.Context(), knownKey{}, access.Known{Caller: c}))
	}
	w := httptest.NewRecorder()
	s.Handler().ServeHTTP(w, r)
	return w
}

// A course is read, chosen and ruled on; whoever teaches at some stations is answered by what was flown there alone.
func TestCourses(t *testing.T) {
	b, id := filled(t)
	l := newLessons(t, stored.Courses{Archive: b})
	s, h, _ := newServer(t, Config{Logbook: b, Courses: l, Access: newAccess(t)})
	h.Event(message.Message{Station: "Seat 3", Body: &message.Station{Name: "Seat 3", Link: "live",
		Student: "Ada Example"}})
	const ada = "/api/students/ada%20example"
	for _, x := range []struct {
		role               who.Role
		method, path, body string
		status             int
		want               string
	}{
		{"", "GET", "/api/courses", "", 200, `"name":"weakness"`},
		{"", "GET", ada + "/course", "", 200, `"student":"Ada Example"`},
		{"", "GET", ada + "/course?course=performance&minutes=30", "", 200, `"minutes":30`},
		{"", "GET", ada + "/course?step=chandelle", "", 200, `"course.why-locked"`},
		{"", "GET", ada + "/course?course=none", "", 400, "course.name"},
		{"", "GET", ada + "/course?step=none", "", 400, "course.step"},
		{"", "GET", ada + "/course?minutes=0", "", 400, "between 1 and 480"},
		{"", "GET", ada + "/course?minutes=NaN", "", 400, "between 1 and 480"},
		{"", "GET", ada + "/course?step=" + strings.Repeat("x", 300), "", 400, "too long"},
		{"", "GET", "/api/students/Nobody/course", "", 200, `"known":false`},
		{who.RoleInstructor, "GET", ada + "/course", "", 200, `"known":true`},
		{"", "GET", "/api/stations/Seat%203/next", "", 200, `"course":"First course"`},
		{who.RoleStudent, "GET", "/api/stations/Seat%203/next", "", 200, `"student":"Ada Example"`},
		{"", "GET", "/api/stations/Seat%209/next", "", 404, "Seat 9"},
		{"", "POST", ada + "/course", `{}`, 400, "names no course"},
		{"", "POST", ada + "/course", `{"course": "none"}`, 400, "course.name"},
		{"", "POST", ada + "/course", `{"course": "performance"}`, 200, `"chosen":{"course":"performance"}`},
		{"", "GET", ada + "/course", "", 200, `"flown":{"course":"performance"}`},
		{"", "POST", ada + "/course", `{"course": "weakness", "cause": "same-direction", "maneuver": "wing-over"}`, 400,
			"course.no-weakness"},
		{"", "POST", ada + "/course", `{"course": "weakness", "cause": "overbanked", "maneuver": "wing-over"}`, 200,
			`"flown":{"course":"weakness","cause":"overbanked","maneuver":"wing-over"}`},
		{"", "POST", ada + "/steps/part", `{"verdict": "passed"}`, 400, "course.no-reason"},
		{"", "POST", ada + "/steps/part", `{"verdict": "good", "reason": "x"}`, 400, "course.verdict"},
		{"", "POST", ada + "/steps/part", `{"verdict": ""}`, 400, "course.not-ruled"},
		{who.RoleInstructor, "POST", ada + "/steps/part", `{"verdict": "passed", "reason": "well", "by": "Di"}`, 200,
			`"by":"Cy Example"`},
		{"", "POST", ada + "/steps/part", `{"verdict": ""}`, 200, `"ruled":null`},
		{"", "POST", ada + "/steps/level-roll", `{"course": "first", "verdict": "not-yet", "reason": "r", "by": "Di"}`,
			200, `"by":"Di"`},
		{"", "POST", "/api/students/Nobody/steps/level-roll", `{"verdict": "passed", "reason": "x"}`, 400,
			"course.not-flown"},
	} {
		l.asked = nil
		w := as(s, x.role, x.method, x.path, x.body)
		if w.Code != x.status || !strings.Contains(w.Body.String(), x.want) {
			t.Errorf("%s %s %s: %d %.300s; must be %d with %s", x.method, x.path, x.body, w.Code, w.Body, x.status,
				x.want)
		}
		if x.role != who.RoleInstructor {
			continue
		}
		if len(l.asked) == 0 || slices.ContainsFunc(l.asked, func(o CourseQuestion) bool {
			return !slices.Equal(o.Stations, []string{"Seat 3"})
		}) {
			t.Errorf("%s %s: asked of %v", x.method, x.path, l.asked)
		}
	}
	j, err := b.Judging(t.Context(), id)
	if err != nil || len(j.Rulings) != 1 || j.Rulings[0].Step != "level-roll" || j.Rulings[0].Legs != 2 {
		t.Errorf("%+v, %v", j.Rulings, err)
	}
}

// Where nobody is named at a station there is no plan, and without a logbook there are no courses.
func TestNoCourses(t *testing.T) {
	b, _ := filled(t)
	s, h, _ := newServer(t, Config{Logbook: b, Courses: newLessons(t, stored.Courses{Archive: b})})
	h.Event(message.Message{Station: "Seat 3", Body: &message.Station{Name: "Seat 3", Link: "live"}})
	w := request(s, "GET", "/api/stations/Seat%203/next", "", nil)
	if want := `"student":"","course":"","passed":0,"of":0,"plan":null`; !strings.Contains(w.Body.String(), want) {
		t.Errorf("%d %s; must have %s", w.Code, w.Body, want)
	}
	none, _, _ := newServer(t, Config{Logbook: b})
	for _, row := range none.courseRoutes() {
		method, path, _ := strings.Cut(row.pattern, " ")
		path = strings.NewReplacer("{name}", "Seat%203", "{step}", "x").Replace(path)
		w := request(none, method, path, `{"course": "first"}`, map[string]string{"Content-Type": "application/json"})
		if w.Code != http.StatusNotFound {
			t.Errorf("%s: %d %s", row.pattern, w.Code, w.Body)
		}
	}
}

// The record as files: a table, JSON, and a page that holds it, without names unless they are asked for.
func TestCourseFiles(t *testing.T) {
	b, id := filled(t)
	l := newLessons(t, stored.Courses{Archive: b})
	s, _, _ := newServer(t, Config{Logbook: b, Courses: l})
	const ada = "/api/students/Ada%20Example/"
	said := request(s, "POST", ada+"steps/level-roll", `{"verdict": "passed", "reason": "a <b> reason", "by": "Di"}`,
		map[string]string{"Content-Type": "application/json"})
	if said.Code != http.StatusOK {
		t.Fatal(said.Body)
	}
	csv := request(s, "GET", ada+"course.csv", "", nil)
	if lines := strings.Count(csv.Body.String(), "\n"); lines != 14 || !strings.Contains(csv.Body.String(),
		",passed,Di,") || !strings.Contains(csv.Header().Get("Content-Disposition"), "course.csv") {
		t.Errorf("%d lines: %s", lines, csv.Body)
	}
	var rec assess.Record
	whole := request(s, "GET", ada+"course.json", "", nil)
	err := json.Unmarshal(whole.Body.Bytes(), &rec)
	if err != nil || rec.Student != "Ada Example" || len(rec.Steps) != 13 {
		t.Errorf("%v: %+v", err, rec)
	}
	for _, x := range []struct {
		query string
		names bool
	}{{"", false}, {"?names=1", true}} {
		page := request(s, "GET", ada+"course.html"+x.query, "", nil).Body.String()
		if !strings.Contains(page, `id="shared"`) || strings.Contains(page, "<link rel=") ||
			!strings.Contains(page, "import 'halfturn/course.js'") {
			t.Errorf("%.400s", page)
		}
		for _, name := range []string{"Ada Example", `"Di"`, `a \u003cb\u003e reason`, id} {
			if is := strings.Contains(page, name); is != x.names && name != id {
				t.Errorf("%s%s is in the page: %v", x.query, name, is)
			}
		}
		if strings.Contains(page, fmt.Sprintf("%q", id)) && !x.names {
			t.Error("the session is named")
		}
	}
}

// What people ruled on is shared without who they are and without their words; the judging itself stays as it is.
func TestRulingsWithoutNames(t *testing.T) {
	j := logbook.NewJudging()
	j.Rulings = []logbook.Ruling{{Step: "a", Verdict: logbook.StepPassed, By: "Bo Example", Reason: "as Ada said"}}
	out := WithoutNames(&j)
	if len(out.Rulings) != 1 || out.Rulings[0] != (logbook.Ruling{Step: "a", Verdict: logbook.StepPassed}) {
		t.Errorf("%+v", out.Rulings)
	}
	if j.Rulings[0].By == "" {
		t.Error("the names are gone from the judging")
	}
}

// A button box sets up what the student at its station flies next, with the aircraft of the station.
func TestNextStep(t *testing.T) {
	b, _ := filled(t)
	s, h, d := newServer(t, Config{Logbook: b, Courses: newLessons(t, stored.Courses{Archive: b})})
	named := *feed.Station("Seat 3", "live")
	nobody := named
	nobody.Student = ""
	h.Event(message.Message{Station: "Seat 3", Body: &nobody})
	w := request(s, "POST", "/do/step", "", nil)
	if w.Code != 409 || !strings.Contains(w.Body.String(), "nobody-here") {
		t.Errorf("nobody named: %d %s", w.Code, w.Body)
	}
	named.Student = "Ada Example"
	h.Event(message.Message{Station: "Seat 3", Body: &named})
	rec, err := s.cfg.Courses.Record(t.Context(), CourseQuestion{Student: named.Student})
	if err != nil {
		t.Fatal(err)
	}
	if w := request(s, "POST", "/do/step", "", nil); w.Code != 200 {
		t.Errorf("%d %s", w.Code, w.Body)
	}
	want := []string{"Seat 3 step first " + rec.Plan.Items[0].Step + " in " + named.Aircraft}
	if !slices.Equal(d.did, want) || named.Aircraft == "" {
		t.Errorf("did %q; must be %q", d.did, want)
	}
	without, h, _ := newServer(t, Config{})
	h.Event(message.Message{Station: "Seat 3", Body: &named})
	if w := request(without, "POST", "/do/step", "", nil); w.Code != 404 {
		t.Errorf("without courses: %d %s", w.Code, w.Body)
	}
}
