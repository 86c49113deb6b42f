package sessions

import (
	"errors"
	"flag"
	"fmt"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/layout/layouttest"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

var update = flag.Bool("update", false, "write the golden files")

// here has the tests read times by a clock two hours ahead of UTC.
func here(t *testing.T) {
	before := time.Local
	time.Local = time.FixedZone("test", 2*3600)
	t.Cleanup(func() { time.Local = before })
}

// row is a session with a leg of each verdict.
func row() logbook.SessionRow {
	score := 84.6
	return logbook.SessionRow{
		ID:        "2030-03-01T22-30-00Z_bench",
		Began:     "2030-03-01T22:30:00Z",
		Ended:     "2030-03-01T23:15:00Z",
		Station:   "bench",
		Student:   "Ada Example",
		Keep:      true,
		Maneuvers: []logbook.Named{{Name: "wing-over", Title: "Wing-over"}, {Name: "lazy-eight", Title: "Lazy eight"}},
		Verdicts:  []string{coach.Met, coach.Near, coach.Missed, coach.NotMeasured},
		Score:     &score,
		Grade:     coach.Good,
		Headline:  phrase.Plain("Within standard: 24 of 25"),
		Change:    phrase.Plain("More bank at the top"),
		Found:     "See \n the\tapex",
	}
}

// printed is what a printer writes.
func printed(t *testing.T, print func(*strings.Builder) error) string {
	t.Helper()
	var b strings.Builder
	if err := print(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// A row shows what is known of a session, by this computer's clock, and dashes for the rest.
func TestPrintSessions(t *testing.T) {
	here(t)
	bare := logbook.SessionRow{ID: "2030-03-02T10-00-00Z_bench", Began: "2030-03-02T10:00:00Z"}
	list := &logbook.SessionList{Total: 5, Sessions: []logbook.SessionRow{row(), bare}}
	out := printed(t, func(b *strings.Builder) error { return printSessions(b, list, nil) })
	lines := strings.Split(out, "\n")
	var columns [][]string
	for _, line := range lines {
		var cells []string
		for cell := range strings.SplitSeq(line, "  ") {
			if cell = strings.TrimSpace(cell); cell != "" {
				cells = append(cells, cell)
			}
		}
		columns = append(columns, cells)
	}
	for i, want := range [][]string{
		{"SESSION", "BEGAN", "STUDENT", "FLOWN", "LEGS", "SCORE", "GRADE", "WHY", "THE ONE THING"},
		{"2030-03-01T22-30-00Z_bench (kept)", "2030-03-02 00:30", "Ada Example", "Wing-over, Lazy eight",
			"1 missed, 1 near, 1 met, 1 not measured", "85", coach.Good, "Within standard: 24 of 25",
			"More bank at the top"},
		{"“See the apex”"},
		{"2030-03-02T10-00-00Z_bench", "2030-03-02 12:00", "–", "no leg", "–", "–", "–", "–", "–"},
		{"2 of 5; --limit 0 lists all"},
	} {
		if fmt.Sprint(columns[i]) != fmt.Sprint(want) {
			t.Errorf("line %d is %q; must be %q", i, columns[i], want)
		}
	}
}

// Of many legs the first 24 are drawn.
func TestPrintManyLegs(t *testing.T) {
	for n, want := range map[int]string{24: strings.Repeat("●", 24), 25: strings.Repeat("●", 24) + "…"} {
		r := row()
		r.Verdicts = nil
		for range n {
			r.Verdicts = append(r.Verdicts, coach.Met)
		}
		list := &logbook.SessionList{Total: 1, Sessions: []logbook.SessionRow{r}}
		screen := &layouttest.Terminal{Columns: 300}
		if err := printSessions(screen, list, nil); err != nil {
			t.Fatal(err)
		}
		out := screen.String()
		if !strings.Contains(out, "  "+want+"  ") || strings.Contains(out, "--limit") {
			t.Errorf("%d legs:\n%s", n, out)
		}
	}
}

// Sessions that are not in the logbook are named with the reason, whether any other is listed or not.
func TestPrintLeftOut(t *testing.T) {
	empty := logbook.LeftOutSession{ID: "a", Why: phrase.Plain("its folder\nis empty")}
	one := logbook.LeftOut{Total: 1, Sessions: []logbook.LeftOutSession{empty}}
	list := &logbook.SessionList{LeftOut: one}
	out := printed(t, func(b *strings.Builder) error { return printSessions(b, list, nil) })
	const want = "No session is like that.\n\n1 session is left out of the logbook:\n  a: its folder is empty\n" +
		"Their folders stay as they are. Mend what is said, then: halfturn sessions rebuild\n"
	if out != want {
		t.Errorf("printed\n%s\nmust be\n%s", out, want)
	}
	many := logbook.LeftOut{Total: 9}
	for i := range 7 {
		cut := logbook.LeftOutSession{ID: string(rune('a' + i)), Why: phrase.Plain("cut")}
		many.Sessions = append(many.Sessions, cut)
	}
	out = printed(t, func(b *strings.Builder) error { return printLeftOut(layout.NewPage(b), &many, nil) })
	if !strings.HasPrefix(out, "\n9 sessions are left out") || !strings.Contains(out, "  g: cut\n  and 2 more\n") {
		t.Errorf("printed\n%s", out)
	}
	for names, out := range map[string]*logbook.LeftOut{
		"a, b, c, d, e, and 4 more": &many,
		"a":                         &one,
		"":                          {},
	} {
		if got := leftOutNames(out, nil); got != names {
			t.Errorf("named %q; must be %q", got, names)
		}
	}
	none := func(b *strings.Builder) error { return printLeftOut(layout.NewPage(b), &logbook.LeftOut{}, nil) }
	if out := printed(t, none); out != "" {
		t.Errorf("of none: %q", out)
	}
}

// One session: who flew it, by what it was judged, what was said of it.
func TestPrintSession(t *testing.T) {
	here(t)
	at := 61.5
	d := &logbook.SessionDetail{SessionRow: row(), Server: "0.1.0", Problem: phrase.Plain("its recording is cut off")}
	d.Said = []logbook.Remark{{
		ID:    3,
		At:    time.Date(2030, 3, 1, 23, 0, 0, 0, time.UTC),
		Leg:   2,
		Time:  &at,
		By:    "B. Example",
		Words: "See\nthe apex",
	}}
	d.Regrades = []logbook.Regrade{
		{At: "2030-03-03T08:00:00Z", Maneuver: "wing-over", Standard: "check", Grade: coach.Fair},
		{At: "2030-03-04T08:00:00Z", Maneuver: "lazy-eight"},
	}
	out := printed(t, func(b *strings.Builder) error { return printSession(b, d, debrief.New(), nil) })
	for _, line := range append(coach.Cautions[:],
		"Session 2030-03-01T22-30-00Z_bench",
		"  2030-03-02 00:30 to 2030-03-02 01:15 at station bench, student Ada Example",
		"  aircraft none chosen, standard as on the cards, recorded by version 0.1.0",
		"  marked to be kept",
		"  its recording is cut off",
		"  Remark 3, 2030-03-02: Leg 2 at 1:02: See the apex (B. Example)",
		"  Grading 2, 2030-03-03 10:00: wing-over, check standard: fair, 0 verdicts or grades differ",
		"  Grading 3, 2030-03-04 10:00: lazy-eight, its own standard: no grade, 0 verdicts or grades differ",
		"  no leg was flown",
	) {
		if !strings.Contains(out, line+"\n") {
			t.Errorf("there is no line %q in\n%s", line, out)
		}
	}
	d = &logbook.SessionDetail{}
	d.ID, d.Began = "x", "some time"
	d.Aircraft.Title, d.Standard = "Light single", "course"
	out = printed(t, func(b *strings.Builder) error { return printSession(b, d, debrief.New(), nil) })
	for _, words := range []string{"  some time is being flown now at station", "student not named\n",
		"aircraft Light single, standard course,"} {
		if !strings.Contains(out, words) {
			t.Errorf("there is no %q in\n%s", words, out)
		}
	}
	if strings.Contains(out, "marked") || strings.Contains(out, "Remark") {
		t.Errorf("what is not so is printed:\n%s", out)
	}
}

var errFull = errors.New("no space left on device")

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

// A list that cannot be written is a failure of the command.
func TestPrintFails(t *testing.T) {
	list := &logbook.SessionList{Total: 1, Sessions: []logbook.SessionRow{row()}}
	out := &logbook.LeftOut{Total: 1}
	for name, err := range map[string]error{
		"sessions": printSessions(full{}, list, nil),
		"left out": printLeftOut(layout.NewPage(full{}), out, nil),
		"session":  printSession(full{}, &logbook.SessionDetail{}, debrief.New(), nil),
		"done":     (&bookFlags{}).done(base.Streams{Out: full{}}, nil, "done"),
		"as JSON":  (&bookFlags{Format: "json"}).done(base.Streams{Out: full{}}, map[string]any{}, "done"),
	} {
		if !errors.Is(err, errFull) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestFirstOf(t *testing.T) {
	a, b := errors.New("a"), errors.New("b")
	for _, c := range []struct {
		errs []error
		want error
	}{{nil, nil}, {[]error{nil, nil}, nil}, {[]error{a, b}, a}, {[]error{nil, b}, b}} {
		if got := firstOf(c.errs...); got != c.want {
			t.Errorf("%v: %v; must be %v", c.errs, got, c.want)
		}
	}
}

// TestListScreens: the list fits terminals of 80 and of 120 columns, with a shape for each leg, and looks as accepted.
func TestListScreens(t *testing.T) {
	here(t)
	long, bare := row(), row()
	long.Student, long.Keep = "Ada Example the Elder", true
	bare.ID, bare.Student, bare.Score, bare.Verdicts, bare.Maneuvers = "2030-03-02T10-00-00Z_bench", "", nil, nil, nil
	list := &logbook.SessionList{Total: 5, Sessions: []logbook.SessionRow{long, row(), bare}}
	for _, columns := range layouttest.Widths {
		screen := &layouttest.Terminal{Columns: columns}
		if err := printSessions(screen, list, nil); err != nil {
			t.Fatal(err)
		}
		layouttest.Fits(t, screen.String(), columns)
		layouttest.Golden(t, *update, fmt.Sprintf("list-%d.txt", columns), screen.String())
	}
}
