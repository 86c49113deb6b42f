package logbook

import (
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"halfturn/coach"
	"halfturn/coach/debrief"
)

func p(x float64) *float64 { return &x }

// flight makes a leg of a wing-over with one check.
func flight(n int, outcome, verdict, grade string, score float64, change string) coach.Leg {
	start := float64(n) * 60
	l := coach.Leg{Number: n, Direction: "right", Outcome: outcome, Start: start, End: start + 40, Change: change, Verdict: verdict, Score: score, Grade: grade, Said: 1,
		Entry:  coach.Point{Turn: 0, Time: start, Values: map[string]float64{"airspeed": 130.5}},
		Points: []coach.Point{{Turn: 90, Time: start + 20, Values: map[string]float64{"bank": 74}}},
		Checks: []coach.Check{
			{ID: "bank-at-90", Label: "Bank at 90°", Kind: "value", Channel: "bank", Turn: p(90), Value: p(score - 20), Unit: "°", Aim: p(75), Met: [2]*float64{p(60), p(90)}, Near: [2]*float64{p(55), nil}, Weight: 2, Verdict: verdict, Score: score, Words: "More bank", Note: "at 91°"},
			{ID: "ball", Label: "Ball", Kind: "share", Unit: "%", Weight: 1, Verdict: coach.NotMeasured, Reason: "the stream has no ball"},
		},
		Causes: []coach.Cause{{ID: "late", Leg: n, Share: 0.5, Evidence: "the nose came late", Advice: "Pull earlier"}}}
	if outcome == coach.Finished {
		l.Exit = &coach.Point{Turn: 179, Time: start + 40, Values: map[string]float64{"airspeed": 128}}
	}
	return l
}

// sitting is a report of one series of legs.
func sitting(id string, legs ...coach.Leg) *debrief.Report {
	r := debrief.New()
	r.Session = &debrief.SessionDates{ID: id, Began: began.Format(time.RFC3339), Ended: began.Add(time.Hour).Format(time.RFC3339)}
	r.Files = []debrief.FileReport{{File: "live", Stations: []debrief.StationReport{{Station: "seat", Series: []coach.Series{
		{Maneuver: "wing-over", Standard: "course", Aircraft: "trainer", Verdict: coach.Near, Score: 80, Grade: coach.Good, Change: "Both sides alike", Legs: legs,
			Checks:   []coach.Check{{ID: "symmetry", Label: "Right as left", Kind: "symmetry", Value: p(4), Unit: "°", Verdict: coach.Met, Score: 100}},
			Causes:   []coach.Cause{{ID: "one-sided", Share: 0.2, Evidence: "left is steeper", Advice: "Look", Minor: true}},
			Decision: &coach.Decision{Maneuver: "wing-over", Margin: 2}},
	}}}}}
	return r
}

var cards = []Card{
	{"maneuvers", "wing-over", []byte("name = \"wing-over\"\ntitle = \"Wing-over\"\n")},
	{"aircraft", "trainer", []byte("name = \"trainer\"\ntitle = \"The trainer\"\n")},
}

// entered begins a session with its folder.
func entered(t *testing.T, b *Book, began time.Time, student string) string {
	t.Helper()
	id, err := b.NewID(began, "seat")
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Begin(Entry{ID: id, Station: "seat", Student: student, Began: began, Version: "1.2", Maneuver: "wing-over", Standard: "course", Aircraft: "trainer", Cards: cards}); err != nil {
		t.Fatal(err)
	}
	return id
}

// must fails the test on an error.
func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// count asks for one number.
func count(t *testing.T, b *Book, q string, args ...any) (n int) {
	t.Helper()
	if err := b.read.QueryRow(q, args...).Scan(&n); err != nil {
		t.Fatalf("%s: %v", q, err)
	}
	return n
}

// A session entered after every leg is entered once, and a rebuild from its folder gives the same.
func TestKeepAndRebuild(t *testing.T) {
	data := t.TempDir()
	b, err := Open(data, Options{Version: "1.2"})
	must(t, err)
	id := entered(t, b, began, "")
	one, two := flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"), flight(2, coach.BrokenOff, coach.Missed, coach.Unable, 40, "More bank")
	for range 2 {
		must(t, b.Keep(id, sitting(id, one)), b.Keep(id, sitting(id, one, two)), b.Keep(id, sitting(id, one, two)))
	}
	if n := count(t, b, "SELECT count(*) FROM legs"); n != 2 {
		t.Errorf("%d legs, want 2", n)
	}
	if n := count(t, b, "SELECT count(*) FROM checks"); n != 5 {
		t.Errorf("%d checks, want 5: two a leg, one of the series", n)
	}
	must(t, b.SetStudent(id, " Ada  Example "), b.SetKeep(id, true))
	_, err = b.Remark(id, Remark{Leg: 2, Time: p(12.5), By: "instructor", Words: "the nose is late\nsee the apex"})
	must(t, err)
	must(t, b.End(id, began.Add(time.Hour)))
	_, err = b.Save(id, sitting(id, one, two))
	must(t, err)
	must(t, b.RememberStation("seat", StationChoice{Maneuver: "chandelle-civil"}))
	if c, ok, err := b.StationChoice("seat"); err != nil || !ok || c.Maneuver != "chandelle-civil" {
		t.Errorf("station: %+v, %v, %v", c, ok, err)
	}
	was := whole(t, b)
	if was.Sessions[0].Student != "Ada Example" || !was.Sessions[0].Keep || was.Sessions[0].Ended == "" {
		t.Errorf("%+v", was.Sessions[0])
	}
	n, err := b.Rebuild(context.Background(), nil)
	if err != nil || n != 1 {
		t.Fatalf("rebuilt %d, %v", n, err)
	}
	if d := cmp.Diff(was, whole(t, b)); d != "" {
		t.Errorf("rebuilt it is another (-was +is):\n%s", d)
	}
	if _, ok, err := b.StationChoice("seat"); err != nil || !ok {
		t.Errorf("the stations' choices are lost: %v", err)
	}
	must(t, b.Close())
}

// everything is what a logbook answers.
type everything struct {
	Sessions []SessionRow
	Details  []*SessionDetail
	Reports  []*debrief.Report
}

func whole(t *testing.T, b *Book) (all everything) {
	t.Helper()
	list, err := b.List(context.Background(), Filter{})
	must(t, err)
	all.Sessions = list.Sessions
	for _, s := range list.Sessions {
		d, err := b.Session(context.Background(), s.ID)
		must(t, err)
		r, err := b.Report(context.Background(), s.ID, 1)
		must(t, err)
		all.Details, all.Reports = append(all.Details, d), append(all.Reports, r)
	}
	return all
}

// A leg of which nothing was measured has no score to count.
func TestScoreIsOfJudgedLegs(t *testing.T) {
	b := open(t)
	dim := flight(1, coach.Finished, coach.NotMeasured, "", 0, "")
	for want, legs := range map[float64][]coach.Leg{
		-1: {dim},
		80: {dim, flight(2, coach.Finished, coach.Near, coach.Good, 80, "")},
	} {
		id := entered(t, b, began, "")
		must(t, b.Keep(id, sitting(id, legs...)))
		s, err := b.Session(t.Context(), id)
		must(t, err)
		if got := s.Score; (got == nil) != (want < 0) || got != nil && *got != want {
			t.Errorf("%d legs: score %v, want %g", len(legs), got, want)
		}
	}
}

// What comes out of the database is what went in.
func TestReportComesBack(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	in := sitting(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"), flight(2, coach.KnockOff, coach.Missed, coach.Unable, 40, ""))
	must(t, b.Keep(id, in))
	out, err := b.Report(context.Background(), id, 1)
	must(t, err)
	if d := cmp.Diff(in.Files[0].Stations[0].Series, out.Files[0].Stations[0].Series, cmpopts.EquateEmpty()); d != "" {
		t.Errorf("(-in +out):\n%s", d)
	}
	if out.Files[0].Stations[0].Station != "seat" {
		t.Error(out.Files[0].Stations[0].Station)
	}
}

// A card that changes later leaves the one an old grade was made by as it was.
func TestCardsAsTheyStood(t *testing.T) {
	b := open(t)
	first := entered(t, b, began, "")
	changed := []Card{{"maneuvers", "wing-over", []byte("name = \"wing-over\"\ntitle = \"Wing-over, steeper\"\n")}, cards[1]}
	second, err := b.NewID(began, "seat")
	must(t, err)
	must(t, b.Begin(Entry{ID: second, Station: "seat", Began: began, Maneuver: "wing-over", Cards: changed}))
	for _, id := range []string{first, second} {
		must(t, b.Keep(id, sitting(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))))
	}
	for id, want := range map[string]string{first: "Wing-over", second: "Wing-over, steeper"} {
		d, err := b.Session(context.Background(), id)
		must(t, err)
		if len(d.Maneuvers) != 1 || d.Maneuvers[0].Title != want {
			t.Errorf("%s: %+v, want %q", id, d.Maneuvers, want)
		}
		text, err := os.ReadFile(filepath.Join(b.Dir(), id, "cards", "maneuvers", "wing-over.toml"))
		if err != nil || !strings.Contains(string(text), `"`+want+`"`) {
			t.Errorf("%s: %s, %v", id, text, err)
		}
	}
	if n := count(t, b, "SELECT count(*) FROM cards"); n != 3 {
		t.Errorf("%d cards, want 3: two wing-overs and one aircraft", n)
	}
}

func TestNotThere(t *testing.T) {
	b := open(t)
	_, remark := b.Remark("nobody", Remark{Words: "x"})
	_, session := b.Session(context.Background(), "nobody")
	for what, err := range map[string]error{"keep": b.SetKeep("nobody", true), "student": b.SetStudent("nobody", "A"), "end": b.End("nobody", began),
		"report": b.Keep("nobody", sitting("nobody")), "remark": remark, "session": session} {
		var none *NotFound
		if !errors.As(err, &none) || none.ID != "nobody" {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func TestRemarkRefused(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	for words, r := range map[string]Remark{
		"no words":       {Words: " \n"},
		"4001 letters":   {Words: strings.Repeat("é", 4001)},
		"81 letters":     {Words: "x", By: strings.Repeat("é", 81)},
		"leg -1":         {Words: "x", Leg: -1},
		"the moment -1 ": {Words: "x", Time: p(-1)},
	} {
		var refused *Refused
		if _, err := b.Remark(id, r); !errors.As(err, &refused) || !strings.Contains(err.Error(), words) {
			t.Errorf("%q: %v", words, err)
		}
	}
	if n := count(t, b, "SELECT count(*) FROM remarks"); n != 0 {
		t.Errorf("%d remarks", n)
	}
}

// A folder that is gone refuses the change and leaves the database as it was.
func TestFolderGone(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	must(t, os.RemoveAll(filepath.Join(b.Dir(), id)))
	if err := b.SetKeep(id, true); err == nil || !strings.Contains(err.Error(), "is gone") {
		t.Error(err)
	}
	if n := count(t, b, "SELECT count(*) FROM sessions WHERE keep"); n != 0 {
		t.Error("marked all the same")
	}
}

// The Writer enters what it is given, keeps only the latest, and tries again after a failure.
func TestWriter(t *testing.T) {
	b := open(t)
	id := newID(t, b, "seat")
	hidden := filepath.Join(b.Dir(), id)
	must(t, os.Rename(hidden, hidden+".away"), os.WriteFile(hidden, nil, 0o600)) // its folder is in nobody's reach
	warned, retry := make(chan error, 100), make(chan time.Time)
	w := newRetrying(b, func(err error) { warned <- err }, retry)
	w.Begin(Entry{ID: id, Station: "seat", Began: began, Cards: cards})
	if err := <-warned; err == nil {
		t.Error("entered without its folder")
	}
	must(t, os.Remove(hidden), os.Rename(hidden+".away", hidden))
	one := flight(1, coach.Finished, coach.Met, coach.Good, 90, "")
	for n := range 50 {
		one.Said = n
		w.Keep(id, sitting(id, one))
	}
	w.SetStudent(id, "Ada Example")
	w.End(id, began.Add(time.Minute))
	retry <- time.Time{}
	w.Close()
	d, err := b.Session(context.Background(), id)
	must(t, err)
	if d.Legs != 1 || d.Ended == "" || d.Student != "Ada Example" {
		t.Errorf("%+v", d)
	}
	if n := count(t, b, "SELECT corrections FROM legs"); n != 49 {
		t.Errorf("the latest report has 49 corrections, kept %d", n)
	}
}

// What can never be written is warned of, and does not hold up the rest or the end.
func TestWriterFails(t *testing.T) {
	b := open(t)
	good := newID(t, b, "seat")
	warned := make(chan error, 100)
	w := newRetrying(b, func(err error) { warned <- err }, nil)
	w.Begin(Entry{ID: "gone", Station: "seat", Began: began})
	if err := <-warned; err == nil || !strings.Contains(err.Error(), "gone") {
		t.Error(err)
	}
	w.Begin(Entry{ID: good, Station: "seat", Began: began})
	w.Close()
	if n := count(t, b, "SELECT count(*) FROM sessions"); n != 1 {
		t.Errorf("%d sessions", n)
	}
}

func TestMigrations(t *testing.T) {
	b := open(t)
	names, err := shapes()
	must(t, err)
	if n := count(t, b, "PRAGMA user_version"); n != len(names) {
		t.Errorf("version %d, want %d", n, len(names))
	}
	for pragma, want := range map[string]string{"journal_mode": "wal", "foreign_keys": "1", "synchronous": "2", "busy_timeout": "10000", "application_id": "1213484098"} {
		for _, db := range []*sql.DB{b.read, b.write} {
			var got string
			if err := db.QueryRow("PRAGMA " + pragma).Scan(&got); err != nil || got != want {
				t.Errorf("%s is %s, want %s; %v", pragma, got, want, err)
			}
		}
	}
	var said string
	if err := b.read.QueryRow("PRAGMA integrity_check").Scan(&said); err != nil || said != "ok" {
		t.Error(said, err)
	}
}

// A database of another program or of a newer version is neither used nor changed.
func TestForeign(t *testing.T) {
	for words, spoil := range map[string]string{
		"newer version":   "PRAGMA user_version = 99",
		"another program": "PRAGMA application_id = 7",
	} {
		data := t.TempDir()
		b, err := Open(data, Options{})
		must(t, err)
		_, err = b.write.Exec(spoil)
		must(t, err, b.Close())
		for _, o := range []Options{{}, {Repair: true}, {ReadOnly: true}} {
			if _, err := Open(data, o); err == nil || !strings.Contains(err.Error(), words) || !strings.Contains(err.Error(), "--data") {
				t.Errorf("%s, %+v: %v", spoil, o, err)
			}
		}
		if left, _ := filepath.Glob(filepath.Join(data, "logbook.db.damaged*")); len(left) > 0 {
			t.Errorf("moved aside: %v", left)
		}
	}
}
