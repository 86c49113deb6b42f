package booktest

import (
	"fmt"
	"testing"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// Counts of the sessions that [RunMany] enters, which are more than an answer counts.
const (
	manySessions = 10_050
	manyUnflown  = 10_020
	manyStudents = 510
	manyOther    = 30 // sessions of another maneuver, which are the oldest
	mostCounted  = 10_000
	mostNamed    = 500
	mostTrend    = 1_000
)

// manyRows enter sessions a minute apart, the flown ones first and those without a leg behind them.
var manyRows = []string{
	fmt.Sprintf(`INSERT INTO students (key, name, fold, uid, flew)
		WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < %d)
		SELECT i, 'Student ' || i, 'student ' || i, 's' || i, i FROM n`, manyStudents),
	fmt.Sprintf(`INSERT INTO sessions (key, id, uid, began, ended, station, student, server, maneuver, standard,
			aircraft, title, legs, grade)
		WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < %d)
		SELECT i, 'x' || i, 'u' || i, i * 60000, i * 60000 + 1, 'seat', 1 + i %% %d, '', '', '', 'trainer', 'Trainer',
			CASE WHEN i <= %[3]d THEN 2 ELSE 0 END, CASE WHEN i <= %[3]d THEN 'good' ELSE '' END FROM n`,
		manySessions+manyUnflown, manyStudents, manySessions),
	fmt.Sprintf(`INSERT INTO flown (session, maneuver, title, legs, finished, head, tail, best)
		SELECT key, CASE WHEN key <= %d THEN 'steep-turn' ELSE 'wing-over' END, 'Wing ' || (key %% 2), 2, 2, 2, 2, 2
		FROM sessions WHERE legs > 0`, manyOther),
	`INSERT INTO things (session, maneuver, words, legs) SELECT session, maneuver, 'Bank sooner', 1 FROM flown`,
}

// RunMany tests that what an engine counts and names is bounded, and says so: lists, facets and trends of a logbook
// that is larger than the bounds. The book is empty and kept in the tables.
func RunMany(t *testing.T, b logbook.Book, in tables.Database) {
	must(t, in.Change(func(tx *tables.Tx) error {
		for _, q := range manyRows {
			if _, err := tx.Exec(q); err != nil {
				return err
			}
		}
		return nil
	}))
	for name, c := range map[string]struct {
		filter         logbook.Filter
		total, unflown int
		more           bool
	}{
		"all":      {logbook.Filter{}, mostCounted, 0, true},
		"flown":    {logbook.Filter{Flown: true}, mostCounted, mostCounted, true},
		"maneuver": {logbook.Filter{Maneuver: "steep-turn", Flown: true}, manyOther, 0, false},
		"student":  {logbook.Filter{Student: "Student 2", Grade: "good"}, 20, 0, false},
	} {
		list, err := b.List(t.Context(), c.filter)
		must(t, err)
		if list.Total != c.total || list.More != c.more || list.Unflown != c.unflown {
			t.Errorf("%s: %d and more %v, %d without a leg", name, list.Total, list.More, list.Unflown)
		}
		if len(list.Students) != mostNamed || list.Students[0] != fmt.Sprint("Student ", manyStudents) {
			t.Errorf("%s: names %d students, first %s", name, len(list.Students), list.Students[0])
		}
		if len(list.Maneuvers) != 2 || len(list.Aircraft) != 1 {
			t.Errorf("%s: %d maneuvers, %d aircraft", name, len(list.Maneuvers), len(list.Aircraft))
		}
	}
	trend, err := b.Trend(t.Context(), logbook.Filter{})
	must(t, err)
	title := fmt.Sprint("Wing ", manySessions%2)
	if trend.Maneuver == nil || trend.Maneuver.Title != title || trend.Sessions != mostTrend || !trend.More ||
		trend.Legs != 2*mostTrend || trend.Streak.Now != 2*mostTrend || trend.Things[0].Sessions != mostTrend {
		t.Errorf("%+v", trend)
	}
	trend, err = b.Trend(t.Context(), logbook.Filter{Maneuver: "steep-turn"})
	must(t, err)
	if trend.Sessions != manyOther || trend.More || trend.Streak.Best != 2*manyOther {
		t.Errorf("of all there are: %+v", trend)
	}
}
