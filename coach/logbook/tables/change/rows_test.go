package change

import (
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/sqlite/db"
)

// count asks for one number.
func count(t *testing.T, b Changes, q string, args ...any) (n int) {
	t.Helper()
	must(t, b.Database.(db.Tables).Read.QueryRow(q, args...).Scan(&n))
	return n
}

// begun enters a session of a student.
func begun(t *testing.T, b Changes, id, student string) {
	t.Helper()
	must(t, b.Begin(booktest.Entry(id, booktest.Began, student)))
}

func leg(n int, change string) coach.Leg {
	return booktest.Flight(n, coach.Finished, coach.Near, coach.Good, 80, change)
}

// TestKeepWritesWhatChanged: a report that grows while a session is flown writes the series that changed, and leaves
// the rows of the others alone; of a series that is not in it any more nothing is left.
func TestKeepWritesWhatChanged(t *testing.T) {
	b := To(opened(t))
	begun(t, b, "x", "")
	report := booktest.Report("x", leg(1, "More bank"))
	series := &report.Files[0].Stations[0].Series
	*series = append(*series, (*series)[0])
	must(t, b.Keep("x", report))
	keys := func() (all [2]int) {
		for n := range all {
			all[n] = count(t, b, `SELECT coalesce(max(key), 0) FROM series WHERE n = ?`, n+1)
		}
		return all
	}
	before := keys()
	must(t, b.Keep("x", report))
	if keys() != before {
		t.Error("a report that did not change is written again")
	}
	(*series)[0].Legs = []coach.Leg{leg(1, "Nose down")}
	must(t, b.Keep("x", report))
	if after := keys(); after[0] == before[0] || after[1] != before[1] {
		t.Errorf("of the series %v %v are written again", before, after)
	}
	*series = (*series)[:1]
	must(t, b.Keep("x", report))
	left := map[string]int{"series": 1, "legs": 1, "points": 3, "checks": 3, "causes": 2, "things": 1}
	for table, want := range left {
		if n := count(t, b, `SELECT count(*) FROM `+table); n != want {
			t.Errorf("%d rows of %s are left; must be %d", n, table, want)
		}
	}
}

// TestFingerprint tells what is written from what is not: pictures are made of the recording.
func TestFingerprint(t *testing.T) {
	s := booktest.Report("x", leg(1, "")).Files[0].Stations[0].Series[0]
	first := fingerprint(&s, 0)
	s.Legs[0].Trace = []coach.Trace{{Turn: 1}}
	traced := fingerprint(&s, 0)
	later := fingerprint(&s, 1)
	s.Legs[0].Score++
	scored := fingerprint(&s, 0)
	if string(traced) != string(first) || len(s.Legs[0].Trace) != 1 {
		t.Error("a trace counts, or is lost")
	}
	if string(later) == string(first) || string(scored) == string(first) {
		t.Error("another place, or another score, is the same")
	}
}

// TestForgetAndUndo: a session that is forgotten leaves its student; one that is undone also a student who flew no
// other. Cards that grade nothing any more go.
func TestForgetAndUndo(t *testing.T) {
	for name, c := range map[string]struct {
		remove   func(Changes) error
		students int
		cards    int
	}{
		"forget":         {func(b Changes) error { return b.Forget("x") }, 2, 2},
		"undo":           {func(b Changes) error { return b.Undo("x") }, 1, 2},
		"undo the other": {func(b Changes) error { return b.Undo("y") }, 2, 2},
		"both": {func(b Changes) error {
			must(t, b.Undo("x"), b.Undo("y"))
			return b.Undo("z")
		}, 0, 0},
		"what is not there": {func(b Changes) error { return b.Undo("none") }, 2, 2},
	} {
		b := To(opened(t))
		begun(t, b, "x", "Ada Example")
		begun(t, b, "y", "Bo Example")
		begun(t, b, "z", "Bo Example")
		must(t, b.Act("x", &logbook.Standing{
			Student: logbook.Student{Name: "Ada Example"},
			Remarks: []logbook.Remark{{ID: 1, Words: "good", At: booktest.Began, Key: "k"}},
		}), c.remove(b))
		students := count(t, b, `SELECT count(*) FROM students`)
		cards := count(t, b, `SELECT count(*) FROM cards`)
		if students != c.students || cards != c.cards {
			t.Errorf("%s: %d students and %d cards are left; must be %d and %d", name, students, cards, c.students,
				c.cards)
		}
		n := count(t, b, `SELECT count(*) FROM remarks WHERE session NOT IN (SELECT key FROM sessions)`)
		if n > 0 {
			t.Errorf("%s: %d remarks belong to no session", name, n)
		}
	}
}

// TestActReplaces: how a session stands is the last word on it.
func TestActReplaces(t *testing.T) {
	b := To(opened(t))
	begun(t, b, "x", "Ada Example")
	remark := func(n int, words string) logbook.Remark {
		return logbook.Remark{ID: n, Words: words, At: booktest.Began.Add(time.Hour), Key: words}
	}
	for _, s := range []logbook.Standing{
		{Student: logbook.Student{Name: "Ada Example"}, Remarks: []logbook.Remark{remark(1, "one")}},
		{Student: logbook.Student{Name: "Bo Example"}, Keep: true, Remarks: []logbook.Remark{remark(1, "one"),
			remark(2, "two")}},
		{Keep: true},
	} {
		must(t, b.Act("x", &s))
		var keep, remarks int
		var student string
		must(t, b.Database.(db.Tables).Read.QueryRow(`SELECT keep, remarks,
			coalesce((SELECT name FROM students WHERE key = student), '') FROM sessions`).
			Scan(&keep, &remarks, &student))
		rows := count(t, b, `SELECT count(*) FROM remarks`)
		found := count(t, b, `SELECT count(*) FROM remarks_text WHERE remarks_text MATCH 'one OR two'`)
		if keep == 1 != s.Keep || student != s.Student.Name || remarks != len(s.Remarks) || rows != len(s.Remarks) ||
			found != len(s.Remarks) {
			t.Errorf("%+v stands as keep %d, %q, %d remarks, %d rows, %d found", s, keep, student, remarks, rows, found)
		}
	}
}
