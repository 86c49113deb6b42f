package archive

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"go.uber.org/goleak"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// The flights of the tests are those of an engine's.
var (
	began    = booktest.Began
	cards    = booktest.Cards
	flight   = booktest.Flight
	reportOf = booktest.Report
	whole    = booktest.Whole
)

type everything = booktest.Everything

func p(x float64) *float64 { return &x }

// entered begins a session with its folder.
func entered(t *testing.T, b *Archive, began time.Time, student string) string {
	t.Helper()
	id, err := b.NewID(began, "seat")
	if err != nil {
		t.Fatal(err)
	}
	e := booktest.Entry(id, began, student)
	e.Key = ""
	if err := b.Begin(*e); err != nil {
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
func count(t *testing.T, b *Archive, q string, args ...any) (n int) {
	t.Helper()
	db, err := sql.Open("sqlite", b.file)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := db.QueryRow(q, args...).Scan(&n); err != nil {
		t.Fatalf("%s: %v", q, err)
	}
	return n
}

// A session entered after every leg is entered once, and a rebuild from its folder gives the same.
func TestKeepAndRebuild(t *testing.T) {
	data := t.TempDir()
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
	must(t, err)
	id := entered(t, b, began, "")
	one, two := flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"), flight(2, coach.BrokenOff,
		coach.Missed, coach.Unable, 40, "More bank")
	for range 2 {
		must(t, b.Keep(id, reportOf(id, one)), b.Keep(id, reportOf(id, one, two)), b.Keep(id, reportOf(id, one, two)))
	}
	if n := count(t, b, "SELECT count(*) FROM legs"); n != 2 {
		t.Errorf("%d legs, want 2", n)
	}
	if n := count(t, b, "SELECT count(*) FROM checks"); n != 5 {
		t.Errorf("%d checks, want 5: two a leg, one of the series", n)
	}
	must(t, b.SetStudent(who.Owner(), id, " Ada  Example "), b.SetKeep(who.Owner(), id, true))
	_, err = b.Remark(who.Owner(), id, logbook.Remark{Leg: 2, Time: p(12.5), By: "instructor",
		Words: "the nose is late\nsee the apex"})
	must(t, err)
	must(t, b.End(id, began.Add(time.Hour)))
	_, err = b.Save(id, reportOf(id, one, two))
	must(t, err)
	must(t, b.RememberStation(who.Owner(), "seat", maneuver.Choice{Maneuver: "chandelle-civil"}))
	if c, ok, err := b.StationChoice("seat"); err != nil || !ok || c.Maneuver != "chandelle-civil" {
		t.Errorf("station: %+v, %v, %v", c, ok, err)
	}
	was := whole(t, b)
	if was.Sessions[0].Student != "Ada Example" || !was.Sessions[0].Keep || was.Sessions[0].Ended == "" {
		t.Errorf("%+v", was.Sessions[0])
	}
	n, err := b.Rebuild(context.Background(), who.Owner(), nil)
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

// A card that changes later leaves the one an old grade was made by as it was.
func TestCardsAsTheyStood(t *testing.T) {
	b := open(t)
	first := entered(t, b, began, "")
	changed := []logbook.KeptCard{{Kind: "maneuvers", Name: "wing-over",
		Text: []byte("name = \"wing-over\"\ntitle = \"Wing-over, steeper\"\n")}, cards[1]}
	second, err := b.NewID(began, "seat")
	must(t, err)
	must(t, b.Begin(logbook.Entry{ID: second, Station: "seat", Began: began, Maneuver: "wing-over", Cards: changed}))
	for _, id := range []string{first, second} {
		must(t, b.Keep(id, reportOf(id, flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))))
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
	_, remark := b.Remark(who.Owner(), "nobody", logbook.Remark{Words: "x"})
	_, session := b.Session(context.Background(), "nobody")
	for what, err := range map[string]error{"keep": b.SetKeep(who.Owner(), "nobody", true),
		"student": b.SetStudent(who.Owner(), "nobody", "A"), "end": b.End("nobody", began),
		"report": b.Keep("nobody", reportOf("nobody")), "remark": remark, "session": session} {
		var none *logbook.NotFound
		if !errors.As(err, &none) || none.ID != "nobody" {
			t.Errorf("%s: %v", what, err)
		}
	}
}

func TestRemarkRefused(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	for words, r := range map[string]logbook.Remark{
		"no words":       {Words: " \n"},
		"4001 letters":   {Words: strings.Repeat("é", 4001)},
		"81 letters":     {Words: "x", By: strings.Repeat("é", 81)},
		"leg -1":         {Words: "x", Leg: -1},
		"the moment -1 ": {Words: "x", Time: p(-1)},
	} {
		var refused *logbook.Refused
		if _, err := b.Remark(who.Owner(), id, r); !errors.As(err, &refused) || !strings.Contains(err.Error(), words) {
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
	if err := b.SetKeep(who.Owner(), id, true); err == nil || !strings.Contains(err.Error(), "is gone") {
		t.Error(err)
	}
	if n := count(t, b, "SELECT count(*) FROM sessions WHERE keep"); n != 0 {
		t.Error("marked all the same")
	}
}

func TestMain(m *testing.M) {
	if name := os.Getenv("HALFTURN_TEST_WRITES"); name != "" {
		os.Exit(otherProcess(name))
	}
	if what := os.Getenv("HALFTURN_TEST_BREAKS"); what != "" {
		os.Exit(breakOff(what))
	}
	goleak.VerifyTestMain(m)
}

// A database of another program or of a newer version is neither used nor changed.
func TestForeign(t *testing.T) {
	for words, spoil := range map[string]string{
		"newer version":   "PRAGMA user_version = 99",
		"another program": "PRAGMA application_id = 7",
	} {
		data := t.TempDir()
		b, err := Open(data, Options{Engine: sqlite.Engine{}})
		must(t, err)
		must(t, b.Close())
		db, err := sql.Open("sqlite", b.file)
		must(t, err)
		_, err = db.Exec(spoil)
		must(t, err, db.Close())
		before, err := os.ReadFile(b.file)
		must(t, err)
		for _, o := range []Options{{}, {Repair: true}, {ReadOnly: true}} {
			o.Engine = sqlite.Engine{}
			if _, err := Open(data, o); err == nil || !strings.Contains(err.Error(), words) ||
				!strings.Contains(err.Error(), "--data") {
				t.Errorf("%s, %+v: %v", spoil, o, err)
			}
		}
		if after, err := os.ReadFile(b.file); err != nil || !bytes.Equal(before, after) {
			t.Errorf("%s: it was changed: %v", spoil, err)
		}
		if left, _ := filepath.Glob(filepath.Join(data, "logbook.db.damaged*")); len(left) > 0 {
			t.Errorf("moved aside: %v", left)
		}
	}
}
