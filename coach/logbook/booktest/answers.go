package booktest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// A leg of which nothing was measured has no score to count.
func testScoreIsOfJudgedLegs(t *testing.T, open Opener) {
	b := open(t)
	dim := Flight(1, coach.Finished, coach.NotMeasured, "", 0, "")
	for want, legs := range map[float64][]coach.Leg{
		-1: {dim},
		80: {dim, Flight(2, coach.Finished, coach.Near, coach.Good, 80, "")},
	} {
		id := entered(t, b, Began, "")
		must(t, b.Keep(id, Report(id, legs...)))
		s, err := b.Session(t.Context(), id)
		must(t, err)
		if got := s.Score; (got == nil) != (want < 0) || got != nil && *got != want {
			t.Errorf("%d legs: score %v, want %g", len(legs), got, want)
		}
	}
}

// What comes out of the database is what went in.
func testReportComesBack(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "")
	in := Report(id, Flight(1, coach.Finished, coach.Met, coach.Good, 90, "More bank"), Flight(2, coach.KnockOff,
		coach.Missed, coach.Unable, 40, ""))
	past := phrase.PastLimit.Of(phrase.Part("what", phrase.Plain("Bank at 90°")), phrase.Part("within",
		phrase.WithinLimits.Of(phrase.Int("met", 21), phrase.Int("of", 26))))
	for i := range in.Files[0].Stations[0].Series { // kept as it was said: that a limit was passed is in no check
		s := &in.Files[0].Stations[0].Series[i]
		for j := range s.Legs {
			s.Legs[j].Headline = past
		}
		s.Headline = past
	}
	must(t, b.Keep(id, in))
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if got := list.Sessions[0].Headline; got.String() != "Leg 2: "+past.String() || !got.Is(phrase.OfLeg) {
		t.Errorf("the list says %q", got)
	}
	out, err := b.Report(context.Background(), id, 1)
	must(t, err)
	if d := cmp.Diff(in.Files[0].Stations[0].Series, out.Files[0].Stations[0].Series, cmpopts.EquateEmpty()); d != "" {
		t.Errorf("(-in +out):\n%s", d)
	}
	if out.Files[0].Stations[0].Station != "seat" {
		t.Error(out.Files[0].Stations[0].Station)
	}
}

// sessionOf enters a session of legs by grade letters: u, f, g, e, and x for one broken off.
func sessionOf(t *testing.T, b logbook.Book, day int, student, grades string) string {
	t.Helper()
	id := entered(t, b, Began.AddDate(0, 0, day), student)
	must(t, b.Keep(id, Report(id, legsOf(grades)...)), b.End(id, Began.AddDate(0, 0, day).Add(time.Hour)))
	return id
}

// legsOf are legs by grade letters.
func legsOf(grades string) []coach.Leg {
	var legs []coach.Leg
	for i, c := range grades {
		outcome, grade := coach.Finished, map[rune]string{'u': coach.Unable, 'f': coach.Fair, 'g': coach.Good,
			'e': coach.Excellent, 'x': coach.Unable}[c]
		if c == 'x' {
			outcome = coach.BrokenOff
		}
		legs = append(legs, Flight(i+1, outcome, coach.Near, grade, 60+float64(i), "Change "+string(c)))
	}
	return legs
}

// The streak over sessions is that over all their legs in a row, however they are cut into
// sessions.
func testStreak(t *testing.T, open Opener) {
	b := open(t)
	for i, c := range []struct {
		sessions  []string
		now, best int
		at        int // session of the best, -1 for none
	}{
		{[]string{""}, 0, 0, -1},
		{[]string{"u"}, 0, 0, -1},
		{[]string{"gg"}, 2, 2, 0},
		{[]string{"gge", "egf"}, 0, 5, 1},
		{[]string{"fgg", "gg", "g"}, 5, 5, 2},
		{[]string{"ggg", "fgfgg"}, 2, 3, 0},
		{[]string{"gg", "fgg"}, 2, 2, 1},
		{[]string{"g", "x", "g"}, 2, 2, 2}, // only finished legs count
		{[]string{"ggff", "", "fgggf", "g"}, 1, 3, 2},
	} {
		student := fmt.Sprint("Student ", i)
		var ids []string
		for day, grades := range c.sessions {
			ids = append(ids, sessionOf(t, b, day, student, grades))
		}
		trend, err := b.Trend(context.Background(), logbook.Filter{Student: student})
		must(t, err)
		want := logbook.Streak{Now: c.now, Best: c.best}
		if c.at >= 0 {
			want.Session = ids[c.at]
		}
		if trend.Streak != want {
			t.Errorf("%v: %+v, want %+v", c.sessions, trend.Streak, want)
		}
	}
}

// Against counting leg by leg, on random sittings.
func testStreakIsThatOfAllLegs(t *testing.T, open Opener) {
	rnd := rand.New(rand.NewPCG(3, 4))
	b := open(t)
	const students = 30
	var all []*logbook.Stored
	var now, best [students]int
	for i := range students {
		for day := range 1 + rnd.IntN(6) {
			var grades []byte
			for range rnd.IntN(6) {
				g := "ufgex"[rnd.IntN(5)]
				grades = append(grades, g)
				switch g {
				case 'g', 'e':
					now[i]++
					best[i] = max(best[i], now[i])
				case 'u', 'f':
					now[i] = 0
				}
			}
			id := fmt.Sprintf("%d-%d", i, day)
			e := Entry(id, Began.AddDate(0, 0, day), fmt.Sprint("Student ", i))
			all = append(all, &logbook.Stored{
				Entry:    *e,
				Standing: logbook.Standing{Student: e.Student},
				Report:   Report(id, legsOf(string(grades))...),
			})
		}
	}
	n, err := b.Rebuild(t.Context(), slices.Values(all), func(id string, why error) { t.Error(id, why) })
	if must(t, err); n != len(all) {
		t.Fatalf("%d sessions of %d", n, len(all))
	}
	for i := range students {
		trend, err := b.Trend(context.Background(), logbook.Filter{Student: fmt.Sprint("Student ", i)})
		must(t, err)
		if trend.Streak.Now != now[i] || trend.Streak.Best != best[i] {
			t.Errorf("%+v, want now %d, best %d", trend.Streak, now[i], best[i])
		}
	}
}

func testTrend(t *testing.T, open Opener) {
	b := open(t)
	one := sessionOf(t, b, 0, "Ada Example", "gfg")
	sessionOf(t, b, 1, "Bo Example", "g")
	three := entered(t, b, Began.AddDate(0, 0, 2), "Ada Example")
	legs := []coach.Leg{Flight(1, coach.BrokenOff, coach.Near, coach.Unable, 60, "Change x"), Flight(2, coach.Finished,
		coach.Near, coach.Good, 61, "Change g")}
	for i := range legs {
		legs[i].Checks[0].Met[0] = p(40) // held against another standard
	}
	must(t, b.Keep(three, Report(three, legs...)), b.End(three, Began.AddDate(0, 0, 2).Add(time.Hour)))
	sessionOf(t, b, 3, "Ada Example", "x") // no finished leg: no point
	trend, err := b.Trend(context.Background(), logbook.Filter{Student: "Ada Example"})
	must(t, err)
	if trend.Sessions != 3 || trend.Legs != 6 || trend.Maneuver == nil || trend.Maneuver.Title != "Wing-over" {
		t.Errorf("%+v", trend)
	}
	// The bank of flight is the score less 20: 40, 41, 42; and 41 of the third day.
	near := [2]*float64{p(55), nil}
	first := logbook.Judged{Aim: p(75), Met: [2]*float64{p(60), p(90)}, Near: near}
	second := logbook.Judged{Aim: p(75), Met: [2]*float64{p(40), p(90)}, Near: near}
	want := []logbook.TrendCheck{
		{ID: "bank-at-90", Label: "Bank at 90°", Unit: "°", Aim: p(75), Met: second.Met, Near: second.Near,
			Points: []logbook.TrendPoint{
				{Session: one, Began: "2031-05-04T09:00:07Z", Legs: 3, Low: 40, Q1: 40.5, Median: 41, Q3: 41.5,
					High: 42, Judged: first},
				{Session: three, Began: "2031-05-06T09:00:07Z", Legs: 1, Low: 41, Q1: 41, Median: 41, Q3: 41, High: 41,
					Judged: second}}},
		{ID: "ball", Label: "Ball", Unit: "%", Points: []logbook.TrendPoint{}},
	}
	if d := cmp.Diff(want, trend.Checks); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	things := []logbook.Thing{
		{Words: phrase.Plain("Change g"), Legs: 3, Sessions: 2, Session: three},
		{Words: phrase.Plain("Change x"), Legs: 2, Sessions: 2, Session: trend.Things[1].Session},
		{Words: phrase.Plain("Change f"), Legs: 1, Sessions: 1, Session: one},
	}
	if d := cmp.Diff(things, trend.Things); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// Legs that fitted no maneuver clearly are no trend of their own while there is one of a maneuver.
func testTrendLeavesUnclearLast(t *testing.T, open Opener) {
	b := open(t)
	sessionOf(t, b, 0, "", "g")
	id := entered(t, b, Began.AddDate(0, 0, 1), "")
	report := Report(id, Flight(1, coach.Finished, coach.NotMeasured, "", 0, ""), Flight(2, coach.Finished,
		coach.NotMeasured, "", 0, ""))
	report.Files[0].Stations[0].Series[0].Maneuver = coach.Unclear
	must(t, b.Keep(id, report), b.End(id, Began.AddDate(0, 0, 1).Add(time.Hour)))
	for maneuver, want := range map[string]string{"": "wing-over", coach.Unclear: coach.Unclear} {
		trend, err := b.Trend(context.Background(), logbook.Filter{Maneuver: maneuver})
		must(t, err)
		if trend.Maneuver == nil || trend.Maneuver.Name != want {
			t.Errorf("of %q: %+v, want %q", maneuver, trend.Maneuver, want)
		}
	}
}

// What filters and pages give together is what a plain look through all sessions gives.
func testListAgainstPlain(t *testing.T, open Opener) {
	b := open(t)
	const sessions = 120
	fill(t, b, sessions, 1) // lists show none of them
	ctx := context.Background()
	everyone := pages(t, b, logbook.Filter{Limit: 37})
	if len(everyone) != sessions || !slices.IsSortedFunc(everyone, func(a,
		b logbook.SessionRow) int {
		return -cmpStrings(a.Began, b.Began)
	}) {
		t.Fatalf("%d sessions, or not newest first", len(everyone))
	}
	for _, f := range Filters {
		want := 0
		for _, r := range everyone {
			at, _ := time.Parse(time.RFC3339, r.Began)
			ok := (f.Filter.Student == "" || r.Student == f.Filter.Student) && (f.Filter.Aircraft == "" ||
				r.Aircraft.Name == f.Filter.Aircraft) &&
				(f.Filter.Maneuver == "" || r.Maneuvers[0].Name == f.Filter.Maneuver) && (f.Filter.Grade == "" ||
				r.Grade == f.Filter.Grade) &&
				(f.Filter.Stations == nil || slices.Contains(f.Filter.Stations, r.Station)) &&
				(f.Filter.From.IsZero() || !at.Before(f.Filter.From)) && (f.Filter.To.IsZero() ||
				at.Before(f.Filter.To))
			if ok && f.Filter.Text == "" {
				want++
			}
		}
		list, err := b.List(ctx, f.Filter)
		must(t, err)
		if f.Filter.Text == "" && list.Total != want {
			t.Errorf("%s: %d, want %d", f.Name, list.Total, want)
		}
		if got := pages(t, b, f.Filter); len(got) != list.Total {
			t.Errorf("%s: %d on the pages, %d told", f.Name, len(got), list.Total)
		}
	}
}

func cmpStrings(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// pages reads a list to its end.
func pages(t *testing.T, b logbook.Book, f logbook.Filter) (all []logbook.SessionRow) {
	t.Helper()
	for {
		list, err := b.List(context.Background(), f)
		must(t, err)
		all = append(all, list.Sessions...)
		if f.After = list.Next; f.After == "" {
			return all
		}
	}
}

func testText(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "")
	said := []string{"Die Nase kommt zu spät über den Scheitel", "see the apex; don't rush",
		"C++ -- \"quoted\" (x) NEAR y*", "Größe und Straße, ÉTÉ"}
	s := &logbook.Standing{}
	for i, words := range said {
		s.Remarks = append(s.Remarks, logbook.Remark{ID: i + 1, Words: words, At: Began})
		must(t, b.Act(id, s))
	}
	for text, want := range map[string]int{"nase": 1, "SPAT": 1, "schei": 1, "apex see": 1, "apex nase": 0, "don't": 1,
		"grosse": 1, "GRÖSSE": 1, "größ": 1, "strasse": 1, "STRAẞE": 1, "ete": 1, "e\u0301te\u0301": 1, "gross nase": 0,
		`"quoted" (`: 1, "NEAR": 1, "*": 0, `"`: 0, "': DROP TABLE remarks": 0, "a OR b": 0, "\x00": 0, "x AND " +
			"NOT": 0} {
		list, err := b.List(context.Background(), logbook.Filter{Text: text})
		if err != nil || list.Total != want {
			t.Errorf("%q: %d, %v; want %d", text, list.Total, err, want)
		}
		if want == 1 && err == nil && list.Sessions[0].Found == "" {
			t.Errorf("%q: not told what was found", text)
		}
	}
}

// The grade of a session is that of its middle leg, the lower of two.
func testGradeOfSession(t *testing.T, open Opener) {
	b := open(t)
	for grades, want := range map[string]string{"": "", "g": coach.Good, "ge": coach.Good, "uge": coach.Good,
		"uuge": coach.Unable, "eee": coach.Excellent, "x": coach.Unable, "fe": coach.Fair} {
		d, err := b.Session(context.Background(), sessionOf(t, b, 0, "", grades))
		must(t, err)
		if d.Grade != want {
			t.Errorf("%s: %q, want %q", grades, d.Grade, want)
		}
		if (d.Score == nil) != (grades == "") {
			t.Errorf("%s: score %v", grades, fmt.Sprint(d.Score))
		}
	}
}

// A list without the sessions in which nothing was flown counts them. One that goes on, is kept or has a remark is in
// it.
func testUnflown(t *testing.T, open Opener) {
	b := open(t)
	ids := make([]string, 6)
	for n := range ids {
		ids[n] = entered(t, b, Began.Add(time.Duration(n)*time.Hour), "Ada Example")
		if n < 5 {
			must(t, b.End(ids[n], Began.Add(time.Duration(n)*time.Hour+time.Minute)))
		}
	}
	must(t, b.Keep(ids[0], Report(ids[0], Flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))),
		b.Act(ids[1], &logbook.Standing{Student: logbook.Student{Name: "Ada Example"}, Keep: true}),
		b.Act(ids[2], &logbook.Standing{Student: logbook.Student{Name: "Ada Example"},
			Remarks: []logbook.Remark{{ID: 1, Words: "radio only", At: Began}}}))
	for flown, want := range map[bool][3]int{false: {6, 0, 6}, true: {4, 2, 4}} {
		list, err := b.List(t.Context(), logbook.Filter{Flown: flown, Student: "Ada Example", Limit: 10})
		must(t, err)
		if got := [3]int{list.Total, list.Unflown, len(list.Sessions)}; got != want {
			t.Errorf("flown %v: %v, want %v", flown, got, want)
		}
	}
}
