package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/internal/feed"
)

var flewAt = time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)

// filled is a logbook with one session of two legs, graded twice, and a remark on the second.
func filled(t *testing.T) (*archive.Archive, string) {
	t.Helper()
	b, err := archive.Open(t.TempDir(), archive.Options{Engine: sqlite.Engine{}, Version: "1.2.3"})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Close() })
	id, err := b.NewID(flewAt, "Seat 3")
	if err != nil {
		t.Fatal(err)
	}
	cards := []logbook.KeptCard{
		{Kind: "maneuvers", Name: "wing-over", Text: []byte(`title = "Wing-over"`)},
		{Kind: "aircraft", Name: "trainer", Text: []byte(`title = "A trainer"`)},
	}
	series := feed.Series()
	series.Legs = []coach.Leg{*feed.Finished(1, "right", 10), *feed.Finished(2, "left", 90)}
	r := debrief.New()
	r.Files = []debrief.FileReport{
		{Stations: []debrief.StationReport{{Station: "Seat 3", Series: []coach.Series{*series}}}},
	}
	begins := logbook.Entry{
		ID:       id,
		Station:  "Seat 3",
		Student:  logbook.Student{Name: "Ada Example"},
		Began:    flewAt,
		Maneuver: "wing-over",
		Standard: "course",
		Aircraft: "trainer",
		Cards:    cards,
	}
	again := logbook.Grading{
		At:          flewAt.Add(48 * time.Hour),
		Maneuver:    "wing-over",
		Standard:    "check",
		Aircraft:    "trainer",
		Report:      r,
		Differences: []phrase.Phrase{phrase.Plain("leg 2, bank at 90°: near, was met")},
	}
	at := 95.5
	said := logbook.Remark{
		Key:   "01RASFKVERTD18TS8WAPY7EWSN",
		Leg:   2,
		Time:  &at,
		By:    "instructor",
		Words: "The nose is late over the top.",
		At:    flewAt.Add(24 * time.Hour),
	}
	err = errors.Join(b.Begin(begins), b.Keep(id, r), b.End(id, flewAt.Add(20*time.Minute)))
	if err == nil {
		_, err = b.Regrade(who.Owner(), id, again)
	}
	if err == nil {
		_, err = b.Remark(who.Owner(), id, said)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b, id
}

// logbookAnswers are the answers of the logbook for the contract, shortened where they repeat.
func logbookAnswers(t *testing.T) string {
	t.Helper()
	b, id := filled(t)
	ctx := context.Background()
	list, err1 := b.List(ctx, logbook.Filter{Text: "nose"})
	detail, err2 := b.Session(ctx, id)
	trend, err3 := b.Trend(ctx, logbook.Filter{})
	none, err4 := b.Trend(ctx, logbook.Filter{Student: "Nobody"})
	students, err5 := b.Students(ctx, mostStudents)
	if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
		t.Fatal(err)
	}
	model := logbook.Model{
		Session: id,
		Leg:     2,
		Began:   detail.Began,
		Student: "Ada Example",
		Score:   97.5,
		Grade:   coach.Excellent,
	}
	trend.Checks = trend.Checks[:min(2, len(trend.Checks))]
	return "export const sessions: SessionList = " + indent(t, list) + ";\n\n" +
		"export const session: SessionDetail = " + indent(t, detail) + ";\n\n" +
		"export const trend: Trend = " + indent(t, trend) + ";\n\n" +
		"export const models: Models = " + indent(t, logbook.Models{Version: 1, Best: &model,
		Kept: []logbook.Model{model}}) + ";\n\n" +
		"export const noTrend: Trend = " + indent(t, none) + ";\n\n" +
		"export const remark: Remark = " + indent(t, detail.Said[0]) + ";\n\n" +
		"export const students: Students = " + indent(t, Students{apiVersion, students}) + ";\n"
}

func TestLogbookAsked(t *testing.T) {
	b, id := filled(t)
	s, _, _ := newServer(t, Config{Logbook: b, Captures: captures{}})
	day := flewAt.Local().Format(time.DateOnly)
	for _, c := range []struct {
		target string
		status int
		want   string
	}{
		{"/api/sessions", 200, `"total":1`},
		{"/api/sessions?student=Ada+Example&maneuver=wing-over&aircraft=trainer&text=NOSE+lat&from=" + day + "&to=" +
			day, 200, `"found":"The nose is late over the top."`},
		{"/api/sessions?student=nobody", 200, `"total":0`},
		{"/api/sessions?text=%22%28", 200, `"total":0`},
		{"/api/sessions?text=" + strings.Repeat("x", 201), 400, "longer than 200"},
		{"/api/sessions?grade=super", 400, "must be unable, fair, good or excellent"},
		{"/api/sessions?from=yesterday", 400, "year-month-day"},
		{"/api/sessions?to=2031-13-01", 400, "year-month-day"},
		{"/api/sessions?limit=0", 400, "between 1 and 200"},
		{"/api/sessions?limit=1e9", 400, "between 1 and 200"},
		{"/api/sessions?after=x", 400, "next of the answer before"},
		{"/api/sessions/trend", 200, `"legs":2`},
		{"/api/sessions/trend?maneuver=loop", 200, `"maneuver":null`},
		{"/api/sessions/" + id, 200, `"regrades":[{`},
		{"/api/sessions/" + id + "/legs/1/models", 200, `"kept":[`},
		{"/api/sessions/" + id + "/legs/x/models", 400, "count from 1"},
		{"/api/sessions/nobody/legs/1/models", 404, "there is no session"},
		{"/api/sessions/nobody", 404, "GET /api/sessions lists"},
		{"/api/sessions/..%2f..%2fetc", 404, "there is no session"},
		{"/api/students", 200, `["Ada Example"]`},
		{"/api/sessions/" + id + "/export?format=csv", 200, id + " csv 0"},
		{"/api/sessions/" + id + "/export?format=gpx&leg=2", 200, id + " gpx 2"},
		{"/api/sessions/" + id + "/export?format=exe", 400, "must be csv, gpx, json, kml or parquet"},
		{"/api/sessions/" + id + "/export?format=csv&leg=-1", 400, "count from 1"},
		{"/api/sessions/nobody/export?format=csv", 404, "there is no session"},
		{"/api/sessions/" + id + "/print.pdf?paper=letter", 200, id + " pdf 0 letter"},
		{"/api/sessions/" + id + "/print.pdf?paper=napkin", 400, "must be a4 or letter"},
	} {
		w := request(s, http.MethodGet, c.target, "", nil)
		if w.Code != c.status || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s: %d, %.300s; want %d, %s", c.target, w.Code, w.Body.String(), c.status, c.want)
		}
	}
	w := request(s, http.MethodGet, "/api/sessions/"+id+"/export?format=kml&leg=1", "", nil)
	if got := w.Header().Get("Content-Disposition"); got != "attachment; filename="+id+"_leg-1.kml" {
		t.Error(got)
	}
}

// captures gives back what it was asked, and takes anything in.
type captures struct{}

func (captures) Export(_ context.Context, w io.Writer, id string, e Export) error {
	if id == "nobody" {
		return &logbook.NotFound{ID: id}
	}
	_, err := fmt.Fprintf(w, "%s %s %d %s", id, e.Format, e.Leg, e.Paper)
	if e.Leg == 99 {
		err = errors.New("the disk broke")
	}
	return err
}

// Regrade knows no card but these two.
func (captures) Regrade(_ context.Context, _ string, by OtherCards) error {
	for name, of := range map[string]*string{"lazy-eight": by.Maneuver, "trainer": by.Aircraft} {
		if of != nil && *of != name {
			return &logbook.Refused{Words: "there is no card " + strconv.Quote(*of)}
		}
	}
	return nil
}

func (captures) Import(_ context.Context, name string, r io.Reader) (any, error) {
	data, err := io.ReadAll(r)
	return map[string]any{"name": name, "bytes": len(data)}, err
}

func TestLogbookChanged(t *testing.T) {
	b, id := filled(t)
	s, _, _ := newServer(t, Config{Logbook: b, Captures: captures{}})
	page := map[string]string{"Content-Type": "application/json", "Origin": "http://127.0.0.1:7180"}
	other := map[string]string{"Content-Type": "application/json", "Origin": "http://evil.example"}
	file := map[string]string{"Content-Type": "application/octet-stream"}
	for _, c := range []struct {
		target, body string
		header       map[string]string
		status       int
		want         string
	}{
		{"/" + id + "/remarks", `{"leg":1,"time":3.5,"by":"Ada","words":"better"}`, page, 200,
			`"id":2,"leg":1,"time":3.5,"by":"Ada","words":"better"`},
		{"/" + id + "/remarks", `{"leg":0,"time":null,"by":"","words":" "}`, page, 400, "no words"},
		{"/" + id + "/remarks", `{"words":"` + strings.Repeat("é", 4000) + `"}`, page, 200, `"id":3`},
		{"/" + id + "/remarks", `{"words":"` + strings.Repeat("x", 40000) + `"}`, page, 413, "longer than"},
		{"/" + id + "/remarks", `{"words":"x"}`, other, 403, "another site"},
		{"/" + id + "/keep", `{"keep":true}`, page, 200, `{}`},
		{"/" + id + "/keep", `{}`, page, 400, "send {"},
		{"/" + id + "/keep", `{"keep":true}`, other, 403, "another site"},
		{"/" + id + "/regrade", `{"aircraft":"trainer"}`, page, 200, `"regrades":[{`},
		{"/" + id + "/regrade", `{"maneuver":"lazy-eight","aircraft":"trainer"}`, page, 200, `"regrades":[{`},
		{"/" + id + "/regrade", `{"maneuver":"../x.toml"}`, page, 400, "there is no card"},
		{"/" + id + "/regrade", `{}`, page, 400, "send {"},
		{"/" + id + "/regrade", `{"aircraft":"trainer"}`, other, 403, "another site"},
		{"/" + id + "/student", `{"student":"Bo Example"}`, page, 200, `{"student":"Bo Example"}`},
		{"/" + id + "/student", `{"name":"Bo"}`, page, 400, "send {"},
		{"/" + id + "/student", `{"student":"` + strings.Repeat("x", 81) + `"}`, page, 400, "must be at most 80"},
		{"/" + id + "/student", `{"student":"Ada\u001b[31m"}`, page, 400, `holds the character \"U+001B\"`},
		{"/" + id + "/student", `{"student":"\u202eAda"}`, page, 400, `holds the character \"U+202E\"`},
		{"/" + id + "/student", `{"student":"bo \u00a0 EXAMPLE"}`, page, 200, `{"student":"Bo Example"}`},
		{"/" + id + "/remarks", `{"words":"late\u001b]0;x\u0007"}`, page, 400, `holds the character \"U+001B\"`},
		{"/" + id + "/remarks", `{"words":"x","by":"B.\u009b"}`, page, 400, `holds the character \"U+009B\"`},
		{"/" + id + "/remarks", `{"leg":9,"words":"x"}`, page, 400, "has no leg 9"},
		{"/nobody/student", `{"student":"Bo"}`, page, 404, "there is no session"},
		{"/nobody/keep", `{"keep":false}`, page, 404, "there is no session"},
		{"/import?name=..%2f..%2fx.pcap", "abc", file, 200, `"name":"x.pcap"`},
		{"/import?name=" + strings.Repeat("x", 300), "abc", file, 200, `"name":"capture"`},
		{"/import", "abc", page, 415, "application/octet-stream"},
		{"/import", "abc", map[string]string{"Content-Type": "application/octet-stream",
			"Origin": "http://evil.example"}, 403, "another site"},
	} {
		w := request(s, http.MethodPost, "/api/sessions"+c.target, c.body, c.header)
		if w.Code != c.status || !strings.Contains(w.Body.String(), c.want) {
			t.Errorf("%s %.60s: %d, %.300s; want %d, %s", c.target, c.body, w.Code, w.Body.String(), c.status, c.want)
		}
	}
	var d logbook.SessionDetail
	if err := json.Unmarshal(request(s, http.MethodGet, "/api/sessions/"+id, "", nil).Body.Bytes(), &d); err != nil {
		t.Fatal(err)
	}
	if d.Student != "Bo Example" || !d.Keep || len(d.Said) != 3 || d.Remarks != 3 {
		t.Errorf("%+v", d.SessionRow)
	}
}

// An export that fails half way cuts the connection: no half file looks whole.
func TestExportCutOff(t *testing.T) {
	s, _, _ := newServer(t, Config{Captures: captures{}})
	defer func() {
		if recover() != http.ErrAbortHandler {
			t.Error("the answer ended as if it were whole")
		}
	}()
	request(s, http.MethodGet, "/api/sessions/x/export?format=csv&leg=99", "", nil)
}

// Without a logbook and recordings the calls say so.
func TestNoLogbook(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	page := map[string]string{"Content-Type": "application/json"}
	for _, target := range []string{"", "/trend", "/x", "/x/export?format=csv", "/x/print.pdf"} {
		if w := request(s, http.MethodGet, "/api/sessions"+target, "", nil); w.Code != 404 {
			t.Errorf("%s: %d", target, w.Code)
		}
	}
	for _, target := range []string{"x/remarks", "x/keep", "x/student", "import"} {
		if w := request(s, http.MethodPost, "/api/sessions/"+target, "{}", page); w.Code != 404 {
			t.Errorf("%s: %d", target, w.Code)
		}
	}
}
