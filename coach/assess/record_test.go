package assess

import (
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
)

// record is one of two steps, the first passed by a person, with a leg of some checks in each session.
func record() (*Record, []course.Flown) {
	checks := func(verdicts ...string) *coach.Leg {
		l := &coach.Leg{}
		for i, v := range verdicts {
			channel := []string{"bank", "pitch", "bank"}[i]
			l.Checks = append(l.Checks, coach.Check{ID: "c" + string(rune('0'+i)), Channel: channel, Weight: 1,
				Verdict: v})
		}
		return l
	}
	const met, near, missed, not = coach.Met, coach.Near, coach.Missed, coach.NotMeasured
	legs := []course.Flown{
		{Session: "A", Number: 1, Leg: checks(missed, missed, missed)}, // before the last three
		{Session: "A", Number: 2, Leg: checks(met, met, missed)},
		{Session: "A", Number: 3, Leg: checks(near, not, met)},
		{Session: "B", Number: 1, Leg: checks(met, near, near)},
		{Session: "B", Number: 2, Leg: checks(near, missed, met)},
	}
	tries := func(list ...int) (out []course.Try) {
		for _, i := range list {
			out = append(out, course.Try{Session: legs[i].Session, Number: legs[i].Number, Grade: coach.Fair,
				Signed: i == 0})
		}
		return out
	}
	r := &Record{
		Student: "=Ada",
		Course: &course.Course{Name: "c", Steps: []course.Step{
			{ID: "a", Title: "A"}, {ID: "b", Checks: []string{"c1"}},
		}},
		Progress: &course.Progress{Steps: []course.State{
			{ID: "a", State: course.Passed, PassedBy: tries(0, 1), Lately: tries(0, 1, 2, 3),
				Sides: []course.Side{{Direction: "right", Good: 2, Need: 5}, {Direction: "left", Good: 1, Need: 5}},
				Ruled: &course.Ruling{Passed: true, By: "Bo", Reason: "+well", At: "2031-05-04T09:00:07Z",
					Session: "A"}},
			{ID: "b", State: course.Open, Lately: tries(4), Missed: []course.Missed{{ID: "c1", Times: 2, Of: 3}}},
		}},
		Steps: []RecordStep{{}, {}},
	}
	return r, legs
}

// A block is the middle verdict of the last three tries, each by its worst check; a step has those of its part alone.
func TestBlocks(t *testing.T) {
	r, legs := record()
	got := BlocksOf(r.Course, r.Progress, legs)
	want := []Block{
		{Bank, false, []string{coach.Near, ""}}, // missed, near, near
		{Nose, true, []string{coach.Near, coach.Missed}},
	}
	if !slices.EqualFunc(got, want, func(a, b Block) bool {
		return a.Aspect == b.Aspect && a.Weak == b.Weak && slices.Equal(a.Marks, b.Marks)
	}) {
		t.Errorf("%+v; must be %+v", got, want)
	}
	if none := BlocksOf(r.Course, r.Progress, nil); len(none) != 0 {
		t.Errorf("of nothing: %+v", none)
	}
}

// The grade that is required is held against the latest, which counts and not the best (CNATRAINST 1542.155A p. I-11).
func TestStepOf(t *testing.T) {
	of := func(grades ...string) *course.State {
		s := &course.State{}
		for _, g := range grades {
			s.Lately = append(s.Lately, course.Try{Grade: g})
		}
		return s
	}
	for _, x := range []struct {
		required string
		state    *course.State
		last     string
		reached  bool
	}{
		{coach.Good, of(), "", false},
		{coach.Good, of(coach.Good), coach.Good, true},
		{coach.Good, of(coach.Excellent, coach.Fair), coach.Fair, false},
		{coach.Good, of(coach.Fair, coach.Excellent), coach.Excellent, true},
		{"", of(coach.Unable), coach.Unable, true},
	} {
		if s := StepOf("T", x.required, x.state); s != (RecordStep{"T", x.required, x.last, x.reached}) {
			t.Errorf("%q, %+v: %+v", x.required, x.state.Lately, s)
		}
	}
}

// The table has a cell for each column, and no cell that a spreadsheet takes for a formula; without names nobody is in
// it, and the record it was made of is as it was.
func TestRecordTable(t *testing.T) {
	r, _ := record()
	rows := r.Table()
	if len(rows) != 3 {
		t.Fatalf("%d rows", len(rows))
	}
	cell := func(row int, column string) string { return rows[row][slices.Index(rows[0], column)] }
	for column, want := range map[string]string{
		"student": "'=Ada", "state": "passed", "right_good": "2", "left_good": "1", "needed": "5",
		"passed_by": "A:1 A:2", "signed": "1", "ruled": logbook.StepPassed, "ruled_by": "Bo", "reason": "'+well",
	} {
		if got := cell(1, column); got != want {
			t.Errorf("%s is %q; must be %q", column, got, want)
		}
	}
	if cell(2, "missed_most") != "c1" || cell(2, "ruled") != "" || cell(2, "passed_by") != "" {
		t.Errorf("%q", rows[2])
	}
	for _, row := range rows {
		if len(row) != len(rows[0]) {
			t.Errorf("%d cells below %d columns", len(row), len(rows[0]))
		}
	}
	nameless := r.WithoutNames()
	for _, row := range nameless.Table()[1:] {
		for _, name := range []string{"Ada", "Bo", "well", "A:1"} {
			if strings.Contains(strings.Join(row, "\n"), name) {
				t.Errorf("%s is in %q", name, row)
			}
		}
	}
	if got := r.Table(); !slices.EqualFunc(got, rows, slices.Equal) {
		t.Errorf("the record was changed: %q", got)
	}
}
