package assess

import (
	"math"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/score"
	"halfturn/configs"
	"halfturn/stream/phrase"
)

func p(x float64) *float64 { return &x }

// graded is a check of weight 1 with the verdict and score that the package of scores gives a value.
func graded(id string, value float64) coach.Check {
	spec := &check.Spec{ID: id, Label: id, Kind: "value", Channel: "bank", Aim: p(0), Weight: 1}
	spec.MetBand, spec.NearBand = check.Band{Low: p(-10), High: p(10)}, check.Band{Low: p(-20), High: p(20)}
	return score.Check(spec, check.Found(value, math.NaN()), &check.Facts{})
}

// flown is a series of two legs whose checks have these values: met is 0, missed is 30.
func flown(legs ...[]float64) coach.Series {
	s := coach.Series{Maneuver: "wing-over", Standard: "course", Aircraft: "trainer", Causes: []coach.Cause{}}
	for i, values := range legs {
		l := coach.Leg{Number: i + 1, Direction: "right", Outcome: coach.Finished, Causes: []coach.Cause{}}
		for k, v := range values {
			l.Checks = append(l.Checks, graded(string(rune('a'+k)), v))
		}
		score.Leg(&l, score.Ended{})
		score.Tell(&l)
		s.Legs = append(s.Legs, l)
	}
	score.AgainSeries(&s)
	s.Computed = nil
	return s
}

func overruled(leg, series int, check, verdict string) logbook.Overrule {
	return logbook.Overrule{Leg: leg, Series: series, Check: check, Verdict: verdict, By: "B. Example",
		At: time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC), Reason: "a gust"}
}

// TestSeries: what is overruled counts by the one rule of scores; what was computed stands beside it, and the computed
// grades are not changed.
func TestSeries(t *testing.T) {
	missed := []float64{0, 0, 0, 30}
	for name, c := range map[string]struct {
		o             []logbook.Overrule
		leg, series   string // grades
		head, change  string
		beside, posts string // the computed grade of the leg; verdict of its only post
	}{
		"nothing": {nil, coach.Fair, coach.Fair, "Not yet: d; 3 of 4 within limits", "less d", "", coach.Missed},
		"the missed check is met": {[]logbook.Overrule{overruled(1, 0, "d", coach.Met)}, coach.Excellent,
			coach.Excellent,
			"All 4 checks within limits", "", coach.Fair, coach.Met},
		"it is not to be counted": {[]logbook.Overrule{overruled(1, 0, "d", coach.NotMeasured)}, coach.Excellent,
			coach.Excellent, "All 3 checks within limits; 1 of 4 checks not measured", "", coach.Fair, coach.Met},
		"another is missed too": {[]logbook.Overrule{overruled(1, 0, "a", coach.Missed)}, coach.Fair, coach.Fair,
			"Not yet: d and 1 more; 2 of 4 within limits", "less d", coach.Fair, coach.Missed},
		"the leg": {[]logbook.Overrule{overruled(1, 0, "", coach.Met)}, coach.Good, coach.Good,
			"overruled by B. Example: a gust", "", coach.Fair, coach.Missed},
		"the series": {[]logbook.Overrule{overruled(0, 1, "", coach.Near)}, coach.Fair, coach.Fair,
			"Not yet: d; 3 of 4 within limits", "less d", "", coach.Missed},
	} {
		s := flown(missed)
		s.Legs[0].Checks[3].Words = "less d"
		s.Legs[0].Change = phrase.Plain("less d")
		was := s.Legs[0].Verdict + s.Legs[0].Checks[3].Verdict + s.Legs[0].Checks[0].Verdict
		out := Series([]coach.Series{s}, &logbook.Judging{Overruled: c.o})
		l := &out[0].Legs[0]
		if l.Grade != c.leg || out[0].Grade != c.series {
			t.Errorf("%s: leg %s, series %s; must be %s, %s", name, l.Grade, out[0].Grade, c.leg, c.series)
		}
		if l.Headline.String() != c.head || l.Change.String() != c.change || l.Posts[0].Verdict != c.posts {
			t.Errorf("%s: %q, change %q, %v; must be %q, %q, %s", name, l.Headline, l.Change, l.Posts, c.head, c.change,
				c.posts)
		}
		beside := ""
		if l.Computed != nil {
			beside = l.Computed.Grade
		}
		if beside != c.beside {
			t.Errorf("%s: computed is %q; must be %q", name, beside, c.beside)
		}
		if is := s.Legs[0].Verdict + s.Legs[0].Checks[3].Verdict + s.Legs[0].Checks[0].Verdict; is != was {
			t.Errorf("%s: the computed grades were changed", name)
		}
		if out[0].Headline.IsZero() || c.series == "" {
			t.Errorf("%s: the series has no headline", name)
		}
	}
}

// TestVerdictAndScoreAgree: whatever is overruled to whatever, grade, verdict and score of legs and series say the same
// (go doc ./coach/score).
func TestVerdictAndScoreAgree(t *testing.T) {
	least := map[string]float64{coach.Unable: 0, coach.Fair: 60, coach.Good: 80, coach.Excellent: 95}
	agree := func(what, verdict, grade string, score float64) {
		t.Helper()
		good := grade == coach.Good || grade == coach.Excellent
		if verdict == coach.NotMeasured && grade == "" && score == 0 {
			return
		}
		if (verdict == coach.Met) != good || verdict == coach.Near && grade != coach.Fair || score < least[grade] {
			t.Errorf("%s: %s, %s, %g", what, verdict, grade, score)
		}
	}
	for _, values := range [][]float64{{0, 0}, {0, 15}, {0, 30}, {30, 300}} {
		for _, verdict := range score.Verdicts() {
			for _, o := range []logbook.Overrule{overruled(1, 0, "a", verdict), overruled(2, 0, "b", verdict),
				overruled(1, 0, "", verdict), overruled(0, 1, "", verdict)} {
				out := Series([]coach.Series{flown(values, values)}, &logbook.Judging{Overruled: []logbook.Overrule{o}})
				for i := range out[0].Legs {
					l := &out[0].Legs[i]
					agree("leg", l.Verdict, l.Grade, l.Score)
				}
				agree("series", out[0].Verdict, out[0].Grade, out[0].Score)
			}
		}
	}
}

// TestFind: legs count over all series.
func TestFind(t *testing.T) {
	list := []coach.Series{flown([]float64{0}, []float64{0}), flown([]float64{0, 0})}
	for _, c := range []struct {
		leg, series int
		check       string
		there       bool
	}{
		{1, 0, "", true}, {3, 0, "b", true}, {2, 0, "b", false}, {4, 0, "", false}, {0, 2, "", true}, {0, 3, "", false},
		{0, 0, "", false}, {1, 1, "", false}, {-1, 0, "", false}, {0, 1, "x", false}, {0, -1, "", false},
	} {
		if is := Find(list, c.leg, c.series, c.check); is != c.there {
			t.Errorf("%+v: %v", c, is)
		}
	}
}

// TestForms: a form has the elements of the published test (FAA-S-ACS-7 CA.V.A has eleven rows here), marked by the
// worst of their checks over the legs, and by hand where somebody did.
func TestForms(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	s := coach.Series{Maneuver: "steep-turn", Standard: "course", Legs: []coach.Leg{
		{Checks: []coach.Check{{ID: "bank-held", Verdict: coach.Met}, {ID: "speed-held", Verdict: coach.Met}}},
		{Checks: []coach.Check{{ID: "bank-held", Verdict: coach.Missed},
			{ID: "speed-held", Verdict: coach.NotMeasured}}},
	}}
	j := &logbook.Judging{Observed: []logbook.Observation{
		{Series: 1, Element: "S1", Mark: logbook.Satisfactory, By: "B. Example"},
		{Series: 2, Element: "S5 bank", Mark: logbook.Satisfactory},
	}}
	forms := Forms(lib, []coach.Series{s, {Maneuver: "wing-over", Standard: "check"}}, j)
	f := &forms[0]
	if f.Document != "FAA-S-ACS-7" || f.Task != "CA.V.A" || f.Standard != "check" || f.Flown != "course" ||
		len(f.Elements) != 11 {
		t.Fatalf("%+v", f)
	}
	marks := map[string][2]string{}
	for _, e := range f.Elements {
		marks[e.ID] = [2]string{e.Computed, e.Mark}
	}
	for id, want := range map[string][2]string{
		"S1":          {logbook.NotObserved, logbook.Satisfactory},
		"S5 bank":     {logbook.Unsatisfactory, logbook.Unsatisfactory},
		"S5 airspeed": {logbook.Satisfactory, logbook.Satisfactory},
		"R1, R2, R4":  {logbook.NotObserved, logbook.NotObserved},
	} {
		if marks[id] != want {
			t.Errorf("%s: %v; must be %v", id, marks[id], want)
		}
	}
	if !f.Has("S5 bank") || f.Has("S9") || forms[1].Document != "" || len(forms[1].Elements) > 0 {
		t.Errorf("%+v", forms[1])
	}
}

// TestSheetOf: last, best and median are of legs in the order flown; what to work on is the most frequent thing, and a
// grade that was reached earlier does not count (CNATRAINST 1542.155A p. I-11).
func TestSheetOf(t *testing.T) {
	leg := func(grade string, points float64, thing string) coach.Leg {
		return coach.Leg{Outcome: coach.Finished, Verdict: coach.Near, Grade: grade, Score: points,
			Change: phrase.Plain(thing)}
	}
	session := func(id string, day int, legs ...coach.Leg) Flown {
		r := debrief.New()
		series := []coach.Series{{Maneuver: "wing-over", Legs: legs}}
		r.Files = []debrief.FileReport{{Stations: []debrief.StationReport{{Series: series}}}}
		return Flown{Session: id, Began: time.Date(2031, 5, day, 9, 0, 0, 0, time.UTC), Report: r,
			Titles: map[string]string{"wing-over": "Wing-over"}}
	}
	first := session("s1", 1, leg(coach.Good, 82, "More bank"), leg(coach.Unable, 40, "Wait"),
		coach.Leg{Verdict: coach.NotMeasured})
	first.Ratings = []logbook.Rating{
		{Leg: 1, Grade: coach.Good, Thing: Bank, Measured: logbook.Measured{Grade: coach.Good, Thing: Bank}},
		{Leg: 2, Grade: coach.Good, Thing: Nose, Measured: logbook.Measured{Grade: coach.Unable, Thing: Speed}},
		{Leg: 3, Grade: coach.Fair},
	}
	second := session("s2", 2, leg(coach.Fair, 70, "Wait"))
	second.Signed = true
	s := SheetOf("Ada Example", []Flown{first, second}, func(string) string { return coach.Good })
	r := s.Maneuvers[0]
	if len(s.Maneuvers) != 1 || r.Title != "Wing-over" || r.Legs != 3 || r.Last.Grade != coach.Fair ||
		r.Last.Session != "s2" || r.Best.Score != 82 || r.Median.Score != 70 || r.Reached ||
		r.WorkOn.String() != "Wait" || r.Times != 2 || r.Of != 3 {
		t.Errorf("%+v", r)
	}
	if a := (Agreement{Rated: 2, Same: 1, Higher: 1, Named: 2, Thing: 1}); s.Agreement != a || s.Signed != 1 ||
		len(s.Ratings) != 3 {
		t.Errorf("%+v; must be %+v", s.Agreement, a)
	}
	if rows := s.Table(); len(rows) != 2 || len(rows[0]) != len(rows[1]) || rows[1][0] != "Ada Example" {
		t.Errorf("%q", rows)
	}
	if c := Cell("=1+1"); c != "'=1+1" {
		t.Errorf("a formula is written as %q", c)
	}
	if none := SheetOf("Bo", nil, func(string) string { return "" }); len(none.Maneuvers) != 0 || none.From != "" {
		t.Errorf("%+v", none)
	}
}

// TestMeasured: what a rating is held against is what the check is about that lost most.
func TestMeasured(t *testing.T) {
	s := flown([]float64{0, 30})
	s.Legs[0].Checks[1].Channel = "airspeed"
	ratings := []logbook.Rating{{Leg: 1, Grade: coach.Fair}, {Leg: 7}}
	Rate([]coach.Series{s}, ratings)
	if m := ratings[0].Measured; m.Thing != Speed || m.Grade != s.Legs[0].Grade || ratings[1].Measured.Grade != "" {
		t.Errorf("%+v", ratings)
	}
	met := flown([]float64{0})
	if m := Measured(&met.Legs[0]); m.Thing != Nothing {
		t.Errorf("%+v", m)
	}
	for _, c := range []coach.Check{{Kind: "rhythm"}, {Kind: "gain"}, {Channel: "ball"}} {
		if a := AspectOf(&c); a == "" {
			t.Errorf("%+v is about nothing", c)
		}
	}
}
