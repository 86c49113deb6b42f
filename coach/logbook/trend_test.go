package logbook

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
)

// Quartiles by definition 7, the values as R's quantile gives them (R documentation, ?quantile:
// type 7 is its default); worked out by hand from q·(n−1).
func TestQuantile(t *testing.T) {
	for _, c := range []struct {
		values       []float64
		q1, q2, high float64
	}{
		{[]float64{7}, 7, 7, 7},
		{[]float64{1, 2}, 1.25, 1.5, 1.75},
		{[]float64{1, 2, 3, 4}, 1.75, 2.5, 3.25},
		{[]float64{1, 2, 3, 4, 100}, 2, 3, 4},
		{[]float64{-5, 0, 0, 10}, -1.25, 0, 2.5},
	} {
		got := []float64{quantile(c.values, 0.25), quantile(c.values, 0.5), quantile(c.values, 0.75)}
		if d := cmp.Diff([]float64{c.q1, c.q2, c.high}, got, cmpopts.EquateApprox(0, 1e-12)); d != "" {
			t.Errorf("%v: %s", c.values, d)
		}
	}
}

// sessionOf enters a session of legs by grade letters: u, f, g, e, and x for one broken off.
func sessionOf(t *testing.T, b *Book, day int, student, grades string) string {
	t.Helper()
	id := entered(t, b, began.AddDate(0, 0, day), student)
	var legs []coach.Leg
	for i, c := range grades {
		outcome, grade := coach.Finished, map[rune]string{'u': coach.Unable, 'f': coach.Fair, 'g': coach.Good, 'e': coach.Excellent, 'x': coach.Unable}[c]
		if c == 'x' {
			outcome = coach.BrokenOff
		}
		legs = append(legs, flight(i+1, outcome, coach.Near, grade, 60+float64(i), "Change "+string(c)))
	}
	must(t, b.Keep(id, sitting(id, legs...)), b.End(id, began.AddDate(0, 0, day).Add(time.Hour)))
	return id
}

// The streak over sessions is that over all their legs in a row, however they are cut into
// sessions.
func TestStreak(t *testing.T) {
	for _, c := range []struct {
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
		b := open(t)
		var ids []string
		for day, grades := range c.sessions {
			ids = append(ids, sessionOf(t, b, day, "", grades))
		}
		trend, err := b.Trend(context.Background(), Filter{})
		must(t, err)
		want := Streak{Now: c.now, Best: c.best}
		if c.at >= 0 {
			want.Session = ids[c.at]
		}
		if trend.Streak != want {
			t.Errorf("%v: %+v, want %+v", c.sessions, trend.Streak, want)
		}
	}
}

// Against counting leg by leg, on random sittings.
func TestStreakIsThatOfAllLegs(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for range 30 {
		b := open(t)
		now, best := 0, 0
		for day := range 1 + rnd.IntN(6) {
			var grades []byte
			for range rnd.IntN(6) {
				g := "ufgex"[rnd.IntN(5)]
				grades = append(grades, g)
				switch g {
				case 'g', 'e':
					now++
					best = max(best, now)
				case 'u', 'f':
					now = 0
				}
			}
			sessionOf(t, b, day, "", string(grades))
		}
		trend, err := b.Trend(context.Background(), Filter{})
		must(t, err)
		if trend.Streak.Now != now || trend.Streak.Best != best {
			t.Errorf("%+v, want now %d, best %d", trend.Streak, now, best)
		}
	}
}

func TestTrend(t *testing.T) {
	b := open(t)
	one := sessionOf(t, b, 0, "Ada Example", "gfg")
	sessionOf(t, b, 1, "Bo Example", "g")
	three := entered(t, b, began.AddDate(0, 0, 2), "Ada Example")
	legs := []coach.Leg{flight(1, coach.BrokenOff, coach.Near, coach.Unable, 60, "Change x"), flight(2, coach.Finished, coach.Near, coach.Good, 61, "Change g")}
	for i := range legs {
		legs[i].Checks[0].Met[0] = p(40) // held against another standard
	}
	must(t, b.Keep(three, sitting(three, legs...)), b.End(three, began.AddDate(0, 0, 2).Add(time.Hour)))
	sessionOf(t, b, 3, "Ada Example", "x") // no finished leg: no point
	trend, err := b.Trend(context.Background(), Filter{Student: "Ada Example"})
	must(t, err)
	if trend.Sessions != 3 || trend.Legs != 6 || trend.Maneuver == nil || trend.Maneuver.Title != "Wing-over" {
		t.Errorf("%+v", trend)
	}
	// The bank of flight is the score less 20: 40, 41, 42; and 41 of the third day.
	first, second := Judged{p(75), [2]*float64{p(60), p(90)}, [2]*float64{p(55), nil}}, Judged{p(75), [2]*float64{p(40), p(90)}, [2]*float64{p(55), nil}}
	want := []TrendCheck{
		{ID: "bank-at-90", Label: "Bank at 90°", Unit: "°", Aim: p(75), Met: second.Met, Near: second.Near, Points: []TrendPoint{
			{Session: one, Began: "2031-05-04T09:00:07Z", Legs: 3, Low: 40, Q1: 40.5, Median: 41, Q3: 41.5, High: 42, Judged: first},
			{Session: three, Began: "2031-05-06T09:00:07Z", Legs: 1, Low: 41, Q1: 41, Median: 41, Q3: 41, High: 41, Judged: second}}},
		{ID: "ball", Label: "Ball", Unit: "%", Points: []TrendPoint{}},
	}
	if d := cmp.Diff(want, trend.Checks); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	things := []Thing{{"Change g", 3, 2, three}, {"Change x", 2, 2, trend.Things[1].Session}, {"Change f", 1, 1, one}}
	if d := cmp.Diff(things, trend.Things); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// Legs that fitted no maneuver clearly are no trend of their own while there is one of a maneuver.
func TestTrendLeavesUnclearLast(t *testing.T) {
	b := open(t)
	sessionOf(t, b, 0, "", "g")
	id := entered(t, b, began.AddDate(0, 0, 1), "")
	report := sitting(id, flight(1, coach.Finished, coach.NotMeasured, "", 0, ""), flight(2, coach.Finished, coach.NotMeasured, "", 0, ""))
	report.Files[0].Stations[0].Series[0].Maneuver = coach.Unclear
	must(t, b.Keep(id, report), b.End(id, began.AddDate(0, 0, 1).Add(time.Hour)))
	for maneuver, want := range map[string]string{"": "wing-over", coach.Unclear: coach.Unclear} {
		trend, err := b.Trend(context.Background(), Filter{Maneuver: maneuver})
		must(t, err)
		if trend.Maneuver == nil || trend.Maneuver.Name != want {
			t.Errorf("of %q: %+v, want %q", maneuver, trend.Maneuver, want)
		}
	}
}

// What filters and pages give together is what a plain look through all sessions gives.
func TestListAgainstPlain(t *testing.T) {
	b := filled(t, t.TempDir(), 300)
	defer b.Close()
	ctx := context.Background()
	everyone := pages(t, b, Filter{Limit: 37})
	if len(everyone) != 300 || !slices.IsSortedFunc(everyone, func(a, b SessionRow) int { return -cmpStrings(a.Began, b.Began) }) {
		t.Fatalf("%d sessions, or not newest first", len(everyone))
	}
	for _, f := range schoolFilters {
		want := 0
		for _, r := range everyone {
			at, _ := time.Parse(time.RFC3339, r.Began)
			ok := (f.filter.Student == "" || r.Student == f.filter.Student) && (f.filter.Aircraft == "" || r.Aircraft.Name == f.filter.Aircraft) &&
				(f.filter.Maneuver == "" || r.Maneuvers[0].Name == f.filter.Maneuver) && (f.filter.Grade == "" || r.Grade == f.filter.Grade) &&
				(f.filter.From.IsZero() || !at.Before(f.filter.From)) && (f.filter.To.IsZero() || at.Before(f.filter.To))
			if ok && f.filter.Text == "" {
				want++
			}
		}
		list, err := b.List(ctx, f.filter)
		must(t, err)
		if f.filter.Text == "" && list.Total != want {
			t.Errorf("%s: %d, want %d", f.name, list.Total, want)
		}
		if got := pages(t, b, f.filter); len(got) != list.Total {
			t.Errorf("%s: %d on the pages, %d told", f.name, len(got), list.Total)
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
func pages(t *testing.T, b *Book, f Filter) (all []SessionRow) {
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

func TestText(t *testing.T) {
	b := open(t)
	id := entered(t, b, began, "")
	for _, words := range []string{"Die Nase kommt zu spät über den Scheitel", "see the apex; don't rush", "C++ -- \"quoted\" (x) NEAR y*"} {
		_, err := b.Remark(id, Remark{Words: words})
		must(t, err)
	}
	for text, want := range map[string]int{"nase": 1, "SPAT": 1, "schei": 1, "apex see": 1, "apex nase": 0, "don't": 1, `"quoted" (`: 1, "NEAR": 1, "*": 0, `"`: 0, "': DROP TABLE remarks": 0, "a OR b": 0, "\x00": 0, "x AND NOT": 0} {
		list, err := b.List(context.Background(), Filter{Text: text})
		if err != nil || list.Total != want {
			t.Errorf("%q: %d, %v; want %d", text, list.Total, err, want)
		}
		if want == 1 && err == nil && list.Sessions[0].Found == "" {
			t.Errorf("%q: not told what was found", text)
		}
	}
}

// No search makes an error, whatever it holds.
func FuzzText(f *testing.F) {
	b, err := Open(f.TempDir(), Options{})
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { _ = b.Close() })
	for _, s := range []string{"nose", `"`, "a OR", "NEAR(", "*", "col:x", "^a", "-a", "é", "\xff", "a\x00b", "+", "{}", "座席"} {
		f.Add(s, "1_x")
	}
	f.Fuzz(func(t *testing.T, text, after string) {
		if _, err := b.List(context.Background(), Filter{Text: text}); err != nil {
			t.Errorf("%q: %v", text, err)
		}
		if _, err := b.List(context.Background(), Filter{After: after}); err != nil {
			if _, ok := err.(*Refused); !ok {
				t.Errorf("after %q: %v", after, err)
			}
		}
	})
}

// The grade of a session is that of its middle leg, the lower of two.
func TestGradeOfSession(t *testing.T) {
	for grades, want := range map[string]string{"": "", "g": coach.Good, "ge": coach.Good, "uge": coach.Good, "uuge": coach.Unable, "eee": coach.Excellent, "x": coach.Unable, "fe": coach.Fair} {
		b := open(t)
		d, err := b.Session(context.Background(), sessionOf(t, b, 0, "", grades))
		must(t, err)
		if d.Grade != want {
			t.Errorf("%s: %q, want %q", grades, d.Grade, want)
		}
		if (d.Score == nil) != (grades == "" || grades == "x") {
			t.Errorf("%s: score %v", grades, fmt.Sprint(d.Score))
		}
	}
}

// A list without the sessions in which nothing was flown counts them. One that goes on, is kept or has a remark is in it.
func TestUnflown(t *testing.T) {
	b, err := Open(t.TempDir(), Options{Version: "1.2"})
	must(t, err)
	defer b.Close()
	ids := make([]string, 6)
	for n := range ids {
		ids[n] = entered(t, b, began.Add(time.Duration(n)*time.Hour), "Ada Example")
		if n < 5 {
			must(t, b.End(ids[n], began.Add(time.Duration(n)*time.Hour+time.Minute)))
		}
	}
	must(t, b.Keep(ids[0], sitting(ids[0], flight(1, coach.Finished, coach.Met, coach.Good, 90, ""))), b.SetKeep(ids[1], true))
	_, err = b.Remark(ids[2], Remark{Words: "radio only"})
	must(t, err)
	for flown, want := range map[bool][3]int{false: {6, 0, 6}, true: {4, 2, 4}} {
		list, err := b.List(t.Context(), Filter{Flown: flown, Student: "Ada Example", Limit: 10})
		must(t, err)
		if got := [3]int{list.Total, list.Unflown, len(list.Sessions)}; got != want {
			t.Errorf("flown %v: %v, want %v", flown, got, want)
		}
	}
}
