package assess

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// A Flown is a session of a student as a grade sheet takes it.
type Flown struct {
	Session string
	Began   time.Time
	Report  *debrief.Report // as [Report] returns it
	Titles  map[string]string
	Ratings []logbook.Rating // with what was measured
	Rulings []logbook.Ruling
	Signed  bool
}

// A Sheet is the grade sheet of a student: how each maneuver stands, and how well the student judges it.
type Sheet struct {
	Version   int         `json:"version"`
	Cautions  []string    `json:"cautions"`
	Student   string      `json:"student"`
	Sessions  int         `json:"sessions"`
	Signed    int         `json:"signed"` // sessions with a signature
	From      string      `json:"from"`   // RFC 3339: when the first session began, "" without one
	To        string      `json:"to"`     // when the latest began
	Maneuvers []SheetRow  `json:"maneuvers"`
	Agreement Agreement   `json:"agreement"`
	Ratings   []SheetRate `json:"ratings"` // oldest first
}

// A SheetRow is one maneuver on a grade sheet. Graded legs count: finished ones, and those that were stopped or given
// up.
type SheetRow struct {
	Maneuver string `json:"maneuver"`
	Title    string `json:"title"`
	Legs     int    `json:"legs"`
	Last     Grade  `json:"last"`
	Best     Grade  `json:"best"`
	Median   Grade  `json:"median"`   // of the middle leg, the lower of two
	Required string `json:"required"` // the grade for the block, "" where none is asked for
	// Reached says that the last leg has that grade. A better one before it is not enough (CNATRAINST 1542.155A p.
	// I-11: met earlier, the last flight of the block must meet it again).
	Reached bool          `json:"reached"`
	WorkOn  phrase.Phrase `json:"workOn"` // the most frequent thing to change over the last legs; nothing when none is
	Times   int           `json:"times"`  // legs it was found in
	Of      int           `json:"of"`     // of the last legs
}

// A Grade is that of a leg, and where it was flown.
type Grade struct {
	Grade   string  `json:"grade"`
	Score   float64 `json:"score"`
	Session string  `json:"session"`
	Leg     int     `json:"n"` // in the session, from 1
	Began   string  `json:"began"`
}

// An Agreement says how far a student and the measurement agree.
type Agreement struct {
	Rated  int `json:"rated"`  // legs with a rating and a grade
	Same   int `json:"same"`   // of the same grade
	Near   int `json:"near"`   // one grade apart
	Higher int `json:"higher"` // the student found the leg better
	Lower  int `json:"lower"`
	Named  int `json:"named"` // legs of which the student named one thing
	Thing  int `json:"thing"` // the same as was measured
}

// A SheetRate is a rating beside what was measured.
type SheetRate struct {
	Session string `json:"session"`
	Began   string `json:"began"`
	logbook.Rating
}

// lastLegs is over how many legs it is counted what to work on; common practice, no source.
const lastLegs = 10

// A Requirement says which grade a maneuver must have at the end of a block; "" asks for none.
type Requirement func(maneuver string) string

// SheetOf makes the grade sheet of a student from all sessions, oldest first.
func SheetOf(student string, flown []Flown, required Requirement) *Sheet {
	s := &Sheet{
		Version:   1,
		Cautions:  slices.Clone(coach.Cautions[:]),
		Student:   student,
		Sessions:  len(flown),
		Maneuvers: []SheetRow{},
		Ratings:   []SheetRate{},
	}
	by, order := map[string]*tally{}, []string{}
	for i := range flown {
		f := &flown[i]
		if f.Signed {
			s.Signed++
		}
		n := 0
		for _, station := range logbook.Stations(f.Report) {
			for k := range station.Series {
				x := &station.Series[k]
				if by[x.Maneuver] == nil {
					by[x.Maneuver] = &tally{}
					order = append(order, x.Maneuver)
				}
				t := by[x.Maneuver]
				t.title = cmp.Or(f.Titles[x.Maneuver], x.Maneuver)
				for m := range x.Legs {
					n++
					t.take(f, n, &x.Legs[m])
				}
			}
		}
		for _, r := range f.Ratings {
			s.Ratings = append(s.Ratings, SheetRate{f.Session, logbook.Zulu(f.Began), r})
			s.Agreement.take(&r)
		}
	}
	if n := len(flown); n > 0 {
		s.From, s.To = logbook.Zulu(flown[0].Began), logbook.Zulu(flown[n-1].Began)
	}
	for _, name := range order {
		if t := by[name]; len(t.legs) > 0 {
			s.Maneuvers = append(s.Maneuvers, t.row(name, required(name)))
		}
	}
	return s
}

// A tally is the graded legs of one maneuver, oldest first.
type tally struct {
	title  string
	legs   []Grade
	things []phrase.Phrase
}

func (t *tally) take(f *Flown, n int, l *coach.Leg) {
	if l.Verdict == coach.NotMeasured || l.Grade == "" {
		return
	}
	t.legs = append(t.legs, Grade{l.Grade, l.Score, f.Session, n, logbook.Zulu(f.Began)})
	t.things = append(t.things, l.Change)
}

func (t *tally) row(name, required string) SheetRow {
	n := len(t.legs)
	sorted := slices.SortedStableFunc(slices.Values(t.legs), func(a, b Grade) int {
		return cmp.Or(cmp.Compare(rank(a.Grade), rank(b.Grade)), cmp.Compare(a.Score, b.Score))
	})
	r := SheetRow{
		Maneuver: name,
		Title:    t.title,
		Legs:     n,
		Last:     t.legs[n-1],
		Best:     sorted[n-1],
		Median:   sorted[(n-1)/2],
		Required: required,
		Reached:  rank(t.legs[n-1].Grade) >= rank(required),
		Of:       min(n, lastLegs),
	}
	times := map[string]int{}
	for _, thing := range slices.Backward(t.things[n-r.Of:]) { // of equals the latest
		if thing.IsZero() {
			continue
		}
		times[thing.String()]++
	}
	for _, thing := range slices.Backward(t.things[n-r.Of:]) {
		if k := times[thing.String()]; !thing.IsZero() && k > r.Times {
			r.WorkOn, r.Times = thing, k
		}
	}
	return r
}

func rank(grade string) int { return slices.Index(logbook.Grades(), grade) }

func (a *Agreement) take(r *logbook.Rating) {
	n, ok := apart(r.Grade, r.Measured.Grade)
	if !ok {
		return
	}
	a.Rated++
	switch {
	case n == 0:
		a.Same++
	case n == 1:
		a.Near++
	}
	switch d := rank(r.Grade) - rank(r.Measured.Grade); {
	case d > 0:
		a.Higher++
	case d < 0:
		a.Lower++
	}
	if r.Thing != "" {
		a.Named++
		if r.Thing == r.Measured.Thing {
			a.Thing++
		}
	}
}

// Table is the sheet as rows of cells, one row for each maneuver below the names of the columns.
func (s *Sheet) Table() [][]string {
	rows := [][]string{{
		"student", "maneuver", "title", "legs", "last_grade", "last_score", "last_session", "best_grade", "best_score",
		"median_grade", "median_score", "required", "reached", "work_on", "work_on_legs", "rated", "rated_same",
		"rated_near", "thing_named", "thing_same",
	}}
	number := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
	a := &s.Agreement
	for i := range s.Maneuvers {
		r := &s.Maneuvers[i]
		rows = append(rows, []string{
			Cell(s.Student), r.Maneuver, Cell(r.Title), strconv.Itoa(r.Legs), r.Last.Grade, number(r.Last.Score),
			r.Last.Session, r.Best.Grade, number(r.Best.Score), r.Median.Grade, number(r.Median.Score), r.Required,
			strconv.FormatBool(r.Reached), Cell(r.WorkOn.String()), strconv.Itoa(r.Times), strconv.Itoa(a.Rated),
			strconv.Itoa(a.Same), strconv.Itoa(a.Near), strconv.Itoa(a.Named), strconv.Itoa(a.Thing),
		})
	}
	return rows
}

// Cell is what a person wrote as a cell of a table: a spreadsheet must not take it for a formula.
func Cell(words string) string {
	if words != "" && strings.ContainsRune("=+-@\t\r", rune(words[0])) {
		return "'" + words
	}
	return words
}
