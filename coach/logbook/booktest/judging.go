package booktest

import (
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// What people made of grades comes back as it was entered; lists follow what was overruled, whether it was entered
// before the grades or after them, and what was computed stays in the report.
func testJudging(t *testing.T, open Opener) {
	b := open(t)
	id := entered(t, b, Began, "Ada Example")
	must(t, b.Keep(id, twoLegs(id)))
	was := Whole(t, b)
	s := logbook.Standing{Student: logbook.Student{Name: "Ada Example"}, Remarks: []logbook.Remark{},
		Judging: logbook.NewJudging()}
	at := Began.Add(time.Hour)
	for leg := 1; leg <= 2; leg++ {
		s.Judging.Overruled = append(s.Judging.Overruled, logbook.Overrule{Leg: leg, Verdict: coach.Near,
			By: "B. Example", At: at, Reason: "a gust"})
	}
	s.Judging.Observed = []logbook.Observation{{Series: 1, Element: "S1", Mark: logbook.Satisfactory, By: "B", At: at}}
	s.Judging.Ratings = []logbook.Rating{{Leg: 1, Grade: coach.Good, Thing: "bank", By: "Ada Example", At: at}}
	s.Judging.Signed = []logbook.Signing{{ID: "x", By: "B. Example", At: at, Hash: "00", Acts: 4}}
	must(t, b.Act(id, &s))
	for range 2 {
		d, err := b.Session(t.Context(), id)
		must(t, err)
		if diff := cmp.Diff(s.Judging, d.Judging); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
		if d.Grade != coach.Fair || d.Verdicts[0] != coach.Near || d.Verdicts[1] != coach.Near {
			t.Errorf("the row says %s, %v", d.Grade, d.Verdicts)
		}
		r, err := b.Report(t.Context(), id, 1)
		must(t, err)
		if legs := r.Files[0].Stations[0].Series[0].Legs; legs[0].Verdict != coach.Met {
			t.Errorf("what was computed says %s", legs[0].Verdict)
		}
		must(t, b.Keep(id, twoLegs(id))) // graded by the same again
	}
	s.Judging = logbook.NewJudging()
	must(t, b.Act(id, &s))
	if is := Whole(t, b).Sessions[0]; is.Grade != was.Sessions[0].Grade || !slices.Equal(is.Verdicts,
		was.Sessions[0].Verdicts) {
		t.Errorf("taken back: %+v; must be %+v", is, was.Sessions[0])
	}
}

// A student who is forgotten is in no list any more, nor in what was remembered of stations.
func testForgetStudent(t *testing.T, open Opener) {
	b := open(t)
	ada, bo := entered(t, b, Began, "Ada Example"), entered(t, b, Began.Add(time.Hour), "Bo Example")
	choice := maneuver.Choice{Maneuver: "wing-over"}
	must(t, b.RememberStation(who.Who{Name: "Ada Example"}, "seat", choice, Began),
		b.RememberStation(who.Owner(), "ada example", choice, Began),
		b.RememberStation(who.Owner(), "Seat 2", choice, Began))
	first := logbook.CourseChoice{Course: "first"}
	must(t, b.RememberCourse(who.Owner(), "Ada Example", first, Began),
		b.RememberCourse(who.Who{Name: "Ada Example"}, "Bo Example", first, Began))
	must(t, b.Forget(ada), b.ForgetStudent("ADA EXAMPLE"), b.ForgetStudent("nobody"))
	for name, want := range map[string]logbook.CourseChoice{"Ada Example": {}, "Bo Example": first} {
		if c, err := b.CourseOf(t.Context(), name); c != want || err != nil {
			t.Errorf("%s flies %+v, %v; must be %+v", name, c, err, want)
		}
	}
	all, err := b.Students(t.Context(), 0)
	must(t, err)
	stations, err := b.Stations(t.Context())
	must(t, err)
	if len(all) != 1 || all[0] != "Bo Example" || len(stations) != 1 {
		t.Errorf("%q, %v", all, stations)
	}
	if d, err := b.Session(t.Context(), bo); err != nil || d.Student != "Bo Example" {
		t.Errorf("%+v, %v", d, err)
	}
}
