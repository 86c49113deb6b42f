package folder

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// graded is a report of a session that lasted a number of seconds.
func graded(dates *debrief.SessionDates, seconds float64) *debrief.Report {
	r := debrief.New()
	r.Session = dates
	r.Files = []debrief.FileReport{{Stations: []debrief.StationReport{{
		Station:  "Seat 3",
		Duration: seconds,
		Series:   []coach.Series{{Maneuver: "lazy-eight", Standard: "check", Aircraft: "trainer"}},
	}}}}
	return r
}

// TestEntryOf: notes say when and what a session was; without them its grades do, then the name of its folder.
func TestEntryOf(t *testing.T) {
	dates := &debrief.SessionDates{Began: "2031-06-01T10:00:00Z", Ended: "2031-06-01T10:30:00Z"}
	const dated = "2031-07-01T00-00-00Z_192.168.1.20-1"
	for name, c := range map[string]struct {
		id     string
		notes  *Notes
		report *debrief.Report
		began  string // "" is unknown
		says   string // station, maneuver, standard, aircraft
	}{
		"notes": {
			id, &Notes{ID: "other", Key: "k", Station: "Bench", Began: began, Maneuver: "wing-over"}, graded(dates, 60),
			"2031-05-04T09:00:07Z", "Bench wing-over  ",
		},
		"undated notes": {dated, &Notes{Station: "Bench"}, nil, "2031-07-01T00:00:00Z", "192.168.1.20-1   "},
		"grades": {
			"copied", nil, graded(dates, 60), "2031-06-01T10:00:00Z", "Seat 3 lazy-eight check trainer",
		},
		"name and grades": {
			dated, nil, graded(nil, 60), "2031-07-01T00:00:00Z", "Seat 3 lazy-eight check trainer",
		},
		"name":                 {dated, nil, nil, "2031-07-01T00:00:00Z", "192.168.1.20-1   "},
		"nothing":              {"copied", nil, nil, "", ""},
		"grades without dates": {"copied", nil, graded(nil, 60), "", ""},
		"a date that is none":  {"copied", nil, graded(&debrief.SessionDates{Began: "yesterday"}, 60), "", ""},
	} {
		e := entryOf(c.id, c.notes, c.report)
		if (e == nil) != (c.began == "") {
			t.Errorf("%s: %+v", name, e)
		}
		if e == nil {
			continue
		}
		says := strings.Join([]string{e.Station, e.Maneuver, e.Standard, e.Aircraft}, " ")
		if e.ID != c.id || logbook.Zulu(e.Began) != c.began || says != c.says || e.Key == "" {
			t.Errorf("%s: %+v; must say %q", name, e, c.says)
		}
	}
}

// TestEndOf: the end is that of the notes, then of the grades; without notes it follows from the length of the stream.
func TestEndOf(t *testing.T) {
	noted := began.Add(time.Hour)
	dates := &debrief.SessionDates{Ended: "2031-05-04T09:30:07Z"}
	for name, c := range map[string]struct {
		notes  *Notes
		report *debrief.Report
		after  time.Duration // since it began; negative is not over
	}{
		"notes":             {&Notes{Ended: noted}, graded(dates, 60), time.Hour},
		"grades":            {&Notes{}, graded(dates, 60), 30 * time.Minute},
		"going on":          {&Notes{}, nil, -1},
		"going on, graded":  {&Notes{}, graded(nil, 60), -1},
		"length":            {nil, graded(nil, 90), 90 * time.Second},
		"grades, not notes": {nil, graded(dates, 60), 30 * time.Minute},
		"nothing":           {nil, nil, 0},
	} {
		got, want := endOf(c.notes, c.report, began), began.Add(c.after)
		if c.after < 0 {
			want = time.Time{}
		}
		if !got.Equal(want) {
			t.Errorf("%s: over at %v; must be %v", name, got, want)
		}
	}
}

// TestGradesOf: grades that cannot be read are made again from the recording, and what cannot be graded is told.
func TestGradesOf(t *testing.T) {
	again := graded(nil, 1)
	for name, c := range map[string]struct {
		summary   string
		recording bool
		regrade   func(string) (*debrief.Report, error)
		report    bool
		told      int
	}{
		"grades":                    {`{"version":1}`, true, nil, true, 0},
		"none":                      {"", false, nil, false, 0},
		"damaged":                   {"{", false, nil, false, 1},
		"damaged, with recording":   {"{", true, func(string) (*debrief.Report, error) { return again, nil }, true, 1},
		"none, with recording":      {"", true, func(string) (*debrief.Report, error) { return again, nil }, true, 0},
		"none, and nobody regrades": {"", true, nil, false, 0},
		"cannot be graded": {"", true, func(string) (*debrief.Report, error) { return nil, errors.New("no") }, false,
			1},
		"no version": {`{}`, false, nil, false, 0},
	} {
		dir, told := t.TempDir(), 0
		if c.summary != "" {
			must(t, os.WriteFile(filepath.Join(dir, SummaryFile), []byte(c.summary), 0o600))
		}
		if c.recording {
			must(t, os.WriteFile(filepath.Join(dir, "stream-0001.pcapng"), nil, 0o600))
		}
		r := &Reader{Regrade: c.regrade, Tell: func(string) { told++ }}
		report, err := r.gradesOf(dir)
		if err != nil || (report != nil) != c.report || told != c.told {
			t.Errorf("%s: %v, %v, told %d times; must be %v and %d", name, report, err, told, c.report, c.told)
		}
	}
}

// TestRegradesOf: what the notes say of a grading counts, and of one they do not know its grades; a damaged one is left
// out.
func TestRegradesOf(t *testing.T) {
	dir := t.TempDir()
	for n, text := range []string{"", `{"version":1}`, "{", ""} {
		if text == "" && n == 0 {
			continue
		}
		if text == "" {
			_, err := SaveRegrade(dir, graded(nil, 1))
			must(t, err)
			continue
		}
		must(t, os.WriteFile(filepath.Join(dir, regradeFile(n)), []byte(text), 0o600))
	}
	told := 0
	r := &Reader{Version: "1.2", Tell: func(string) { told++ }}
	known := Regraded{At: began, Server: "0.9", Maneuver: "wing-over", Differences: []phrase.Phrase{phrase.Plain("x")}}
	all, err := r.regradesOf(dir, []Regraded{known})
	if err != nil || len(all) != 2 || told != 1 {
		t.Fatalf("%d gradings, told %d times, %v", len(all), told, err)
	}
	if g := all[0]; !g.At.Equal(began) || g.Version != "0.9" || g.Maneuver != "wing-over" || len(g.Differences) != 1 {
		t.Errorf("the first is %+v", g)
	}
	if g := all[1]; g.At.IsZero() || g.Version != "1.2" || g.Maneuver != "lazy-eight" || g.Standard != "check" {
		t.Errorf("the one that the notes do not know is %+v", g)
	}
}

// TestOldNotes: remarks and the mark of notes of version 1 are acts, in the order of their numbers; the same each time.
func TestOldNotes(t *testing.T) {
	moment := 12.5
	notes := fmt.Sprintf(`{"version":1,"id":%q,"station":"Seat  3","began":"2031-05-04T09:00:07Z",
		"student":" Ada  Example","keep":true,"remarks":[
			{"id":2,"leg":3,"time":%g,"by":"B. Example","words":"late","at":"2031-05-04T10:00:00Z"},
			{"id":1,"words":"good","at":"2031-05-04T09:30:00Z"}]}`, id, moment)
	dir := filepath.Join(t.TempDir(), id)
	must(t, os.Mkdir(dir, 0o750), os.WriteFile(filepath.Join(dir, NotesFile), []byte(notes), 0o600))
	n, err := ReadNotes(dir)
	must(t, err, n.Sound())
	if n.Station != "Seat 3" || n.Student != "Ada Example" || n.Key == "" {
		t.Errorf("%+v", n)
	}
	acts, err := ReadActs(dir, n)
	must(t, err)
	if len(acts) != 3 || acts[0].Words != "good" || acts[1].Words != "late" || acts[2].Kind != logbook.ActKeep ||
		!acts[2].Keep {
		t.Fatalf("%+v", acts)
	}
	if a := acts[1]; a.By != who.Owner() || a.Author != "B. Example" || a.About.Number != 3 || a.About.Leg == "" ||
		a.About.Moment == nil || *a.About.Moment != moment || a.About.Session != n.Key {
		t.Errorf("%+v", a)
	}
	again, err := ReadNotes(dir)
	must(t, err)
	same, err := ReadActs(dir, again)
	must(t, err)
	if d := cmp.Diff(acts, same); d != "" {
		t.Errorf("read again (-first +again):\n%s", d)
	}
}

// TestSound: remarks of old notes need numbers of their own, from 1.
func TestSound(t *testing.T) {
	remark := func(n int) logbook.Act { return logbook.Act{Kind: logbook.ActRemark, Number: n} }
	keep := logbook.Act{Kind: logbook.ActKeep}
	for wrong, acts := range map[string][]logbook.Act{
		"":                  {remark(1), remark(7), keep, keep},
		"the id 0":          {remark(0)},
		"the id -1":         {remark(1), remark(-1)},
		"two remarks with ": {remark(1), remark(2), remark(1)},
	} {
		err := (&Notes{acts: acts}).Sound()
		if (err == nil) != (wrong == "") || err != nil && !strings.Contains(err.Error(), wrong) {
			t.Errorf("%v; must say %q", err, wrong)
		}
	}
}

// TestCheckRemark: what a remark must be.
func TestCheckRemark(t *testing.T) {
	soon, never, late := 1.5, -1.0, 1e8
	for wrong, r := range map[string]logbook.Remark{
		"":                     {Words: " nose  low ", By: " B.  Example ", Leg: 2, Time: &soon},
		"no words":             {Words: "  "},
		"4001 letters":         {Words: strings.Repeat("ß", MaxWords+1)},
		"leg -1":               {Words: "x", Leg: -1},
		"the moment -1":        {Words: "x", Time: &never},
		"the moment 100000000": {Words: "x", Time: &late},
		"must be at most 80":   {Words: "x", By: strings.Repeat("x", 81)},
	} {
		err := CheckRemark(&r)
		var refused *logbook.Refused
		switch {
		case (err == nil) != (wrong == ""),
			err != nil && (!errors.As(err, &refused) || !strings.Contains(err.Error(), wrong)):
			t.Errorf("%v; must say %q", err, wrong)
		case err == nil && (r.By != "B. Example" || r.At.IsZero() || r.At.Location() != time.UTC):
			t.Errorf("%+v", r)
		}
	}
}

// TestRemark: a remark gets the next number; a session takes those on legs that it has, and not without end.
func TestRemark(t *testing.T) {
	f := begun(t)
	on := func(leg, legs int) (logbook.Remark, error) {
		r := logbook.Remark{Words: "x", Leg: leg, At: began}
		return r, f.Remark(who.Owner(), &r, legs)
	}
	for n, leg := range []int{0, 2, 1} {
		r, err := on(leg, 2)
		if err != nil || r.ID != n+1 || r.Key == "" {
			t.Errorf("remark %d on leg %d: %+v, %v", n+1, leg, r, err)
		}
	}
	for says, c := range map[string][2]int{"has no legs": {1, 0}, "no leg 3; its last one is leg 2": {3, 2}} {
		if _, err := on(c[0], c[1]); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("on leg %d of %d: %v", c[0], c[1], err)
		}
	}
	for len(f.Added) < MaxRemarks {
		_, err := on(0, 0)
		must(t, err)
	}
	if _, err := on(0, 0); err == nil || !strings.Contains(err.Error(), "500 remarks") {
		t.Errorf("remarks never end: %v", err)
	}
}

// TestReadActs: a line without an end was being written when the power went; any other that cannot be read is told with
// its number.
func TestReadActs(t *testing.T) {
	for name, c := range map[string]struct {
		file  string
		acts  int
		wrong string
	}{
		"none":                       {"", 0, ""},
		"two":                        {`{"id":"a","kind":"keep"}` + "\n" + `{"id":"b","kind":"keep"}` + "\n", 2, ""},
		"cut off":                    {`{"id":"a","kind":"keep"}` + "\n" + `{"id":"b"`, 1, ""},
		"whole, but without its end": {`{"id":"a","kind":"keep"}`, 0, ""},
		"damaged":                    {`{"id":"a","kind":"keep"}` + "\nx\n", 0, "line 2"},
		"an empty line":              {"\n", 0, "line 1"},
	} {
		dir := t.TempDir()
		must(t, os.WriteFile(filepath.Join(dir, ActsFile), []byte(c.file), 0o600))
		acts, err := ReadActs(dir, &Notes{acts: []logbook.Act{{ID: "old"}, {ID: "older"}, {ID: "oldest"}}})
		told := err == nil && c.wrong == "" || err != nil && c.wrong != "" && strings.Contains(err.Error(), c.wrong)
		if len(acts) != c.acts || !told {
			t.Errorf("%s: %d acts, %v", name, len(acts), err)
		}
	}
	if acts, err := ReadActs(t.TempDir(), nil); len(acts) > 0 || err != nil {
		t.Errorf("neither notes nor acts: %v, %v", acts, err)
	}
}

// TestOneName: a card is one file in its folder.
func TestOneName(t *testing.T) {
	for name, want := range map[string]bool{"wing-over": true, "a.b": true, "": false, ".": false, "..": false,
		"a/b": false, `a\b`: false, "a\x00": false, "/": false} {
		if oneName(name) != want {
			t.Errorf("%q is the name of one file: %v", name, !want)
		}
	}
}
