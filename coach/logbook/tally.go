package logbook

import (
	"database/sql"
	"encoding/json"
	"math"
	"strings"

	"halfturn/coach"
	"halfturn/coach/debrief"
)

// letters are the verdicts as a row of a list keeps them.
var letters = map[string]byte{coach.Met: 'm', coach.Near: 'n', coach.Missed: 'x', coach.NotMeasured: 'o'}

// mostVerdicts is how many of a session are shown in a row of a list.
const mostVerdicts = 100

// summary writes what a list and a trend read of the first grading.
func summary(tx *sql.Tx, session, grade int64, r *debrief.Report, titles map[string]string) error {
	var all []coach.Series
	for _, s := range stationsOf(r) {
		all = append(all, s.Series...)
	}
	sum := &tally{by: map[string]*flown{}, titles: titles, named: []Named{}}
	for i := range all {
		sum.series(&all[i])
	}
	if s := debrief.Summarize(all); s != nil {
		sum.change = s.Change
	}
	named, err := json.Marshal(sum.named)
	if err != nil {
		return err
	}
	score, mark := sum.mean(), sum.grade()
	if _, err := tx.Exec(`UPDATE sessions SET maneuvers = ?, verdicts = ?, legs = ?, score = ?, grade = ?, change = ? WHERE key = ?`,
		string(named), string(sum.verdicts), sum.legs, score, mark, sum.change, session); err != nil {
		return err
	}
	if _, err := tx.Exec(`UPDATE grades SET score = ?, grade = ? WHERE key = ?`, score, mark, grade); err != nil {
		return err
	}
	for _, table := range []string{"flown", "measured", "things"} {
		if _, err := tx.Exec(`DELETE FROM `+table+` WHERE session = ?`, session); err != nil {
			return err
		}
	}
	for name, f := range sum.by {
		checks, err := json.Marshal(f.checks.sum())
		if err != nil {
			return err
		}
		if _, err := tx.Exec(`INSERT INTO measured (session, maneuver, checks) VALUES (?, ?, ?)`, session, name, string(checks)); err != nil {
			return err
		}
		if _, err := tx.Exec(`INSERT INTO flown (session, maneuver, title, legs, finished, head, tail, best) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
			session, name, f.title, f.legs, f.finished, f.head, f.tail, f.best); err != nil {
			return err
		}
		for words, n := range f.things {
			if _, err := tx.Exec(`INSERT INTO things (session, maneuver, words, legs) VALUES (?, ?, ?, ?)`, session, name, words, n); err != nil {
				return err
			}
		}
	}
	return nil
}

// A tally sums up a session.
type tally struct {
	titles       map[string]string
	by           map[string]*flown
	named        []Named
	verdicts     []byte
	legs, judged int     // all, and the finished ones that were judged
	score        float64 // sum of the judged legs
	ranks        []int   // of the graded legs
	change       string
}

// flown is what a session holds of one maneuver.
type flown struct {
	title                            string
	legs, finished, head, tail, best int
	things                           map[string]int
	checks                           gathering
}

func (t *tally) series(s *coach.Series) {
	f := t.by[s.Maneuver]
	if f == nil {
		f = &flown{title: t.titles["maneuvers/"+s.Maneuver], things: map[string]int{}, checks: gathering{}}
		if f.title == "" {
			f.title = s.Maneuver
		}
		t.by[s.Maneuver] = f
		t.named = append(t.named, Named{s.Maneuver, f.title})
	}
	lacks := s.Missing != "" && s.Verdict == coach.Missed
	for i := range s.Legs {
		l := &s.Legs[i]
		t.legs++
		f.legs++
		if len(t.verdicts) < mostVerdicts {
			t.verdicts = append(t.verdicts, letters[l.Verdict])
		}
		if l.Change != "" {
			f.things[l.Change]++
		}
		if l.Outcome == coach.Finished {
			if l.Verdict != coach.NotMeasured {
				t.judged++
				t.score += l.Score
				f.count(rank(l.Grade) >= rank(coach.Good))
			}
			f.checks.take(l.Checks)
		}
		if r := rank(l.Grade); r > 0 {
			if lacks { // as the grade of the series
				r = min(r, rank(coach.Fair))
			}
			t.ranks = append(t.ranks, r)
		}
	}
}

// count takes a finished leg that was judged into the rows of good ones.
func (f *flown) count(good bool) {
	f.finished++
	if !good {
		f.tail = 0
		return
	}
	f.tail++
	f.best = max(f.best, f.tail)
	if f.tail == f.finished {
		f.head = f.tail
	}
}

// scale is the grades from the lowest.
var scale = []string{"", coach.Unable, coach.Fair, coach.Good, coach.Excellent}

func rank(grade string) int {
	for i, g := range scale {
		if g == grade {
			return i
		}
	}
	return 0
}

// mean is the score over the legs that were judged; null without one.
func (t *tally) mean() *float64 {
	if t.judged == 0 {
		return nil
	}
	x := math.Round(t.score/float64(t.judged)*10) / 10
	return &x
}

// grade is the word of the middle leg, the lower of two: one leg that went wrong is not the
// session, nor is one that went well (common practice, no source).
func (t *tally) grade() string {
	if len(t.ranks) == 0 {
		return ""
	}
	counts := make([]int, len(scale))
	for _, r := range t.ranks {
		counts[r]++
	}
	left := (len(t.ranks) + 1) / 2
	for r, n := range counts {
		if left -= n; left <= 0 {
			return scale[r]
		}
	}
	return ""
}

// verdictsOf reads the letters of a row.
func verdictsOf(s string) []string {
	list := make([]string, 0, len(s))
	for _, word := range strings.Split(s, "") {
		for v, c := range letters {
			if word[0] == c {
				list = append(list, v)
			}
		}
	}
	return list
}
