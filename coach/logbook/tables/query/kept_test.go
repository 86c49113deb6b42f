package query_test

import (
	"errors"
	"fmt"
	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"testing"
)

// TestLeftOut: at most fifty are named, the newest, and all are counted.
func TestLeftOut(t *testing.T) {
	b := opened(t)
	for n := range 60 {
		why, err := b.Take(&logbook.Stored{
			Entry: logbook.Entry{ID: fmt.Sprintf("s%02d", n)},
			Why:   errors.New("damaged"),
		})
		if why == nil || err != nil {
			t.Fatal(why, err)
		}
	}
	out, err := b.LeftOut(t.Context())
	must(t, err)
	if out.Total != 60 || len(out.Sessions) != 50 || out.Sessions[0].ID != "s59" ||
		out.Sessions[0].Why.String() != "damaged" {
		t.Errorf("%d of %d are named; the first is %+v", len(out.Sessions), out.Total, out.Sessions[0])
	}
}

// TestStations: the last choice at each counts.
func TestStations(t *testing.T) {
	b := opened(t)
	steep := maneuver.Choice{Maneuver: "steep-turn", Standard: "check"}
	for station, c := range map[string]maneuver.Choice{"one": {Maneuver: "wing-over"}, "two": steep} {
		must(t, b.RememberStation(who.Owner(), station, maneuver.Choice{Maneuver: "before"}, day(0)),
			b.RememberStation(who.Owner(), station, c, day(1)))
	}
	all, err := b.Stations(t.Context())
	must(t, err)
	if len(all) != 2 || all["one"].Maneuver != "wing-over" || all["two"] != steep {
		t.Errorf("%+v", all)
	}
}

// TestReport: a grading that there is comes back, and one that there is not is refused.
func TestReport(t *testing.T) {
	b := opened(t, school()...)
	again := booktest.Report("a1", leg(1, "right", coach.Excellent, 99, ""))
	better := []phrase.Phrase{phrase.Plain("better")}
	must(t, b.Regrade("a1", &logbook.Grading{At: day(5), Version: "2", Report: again, Differences: better}))
	for n, legs := range map[int]int{1: 3, 2: 1} {
		r, err := b.Report(t.Context(), "a1", n)
		must(t, err)
		if got := r.Files[0].Stations[0].Series[0].Legs; len(got) != legs || got[0].Entry.Values["airspeed"] != 130.5 ||
			got[0].Exit == nil || len(got[0].Points) != 1 || len(got[0].Checks) != 2 || len(got[0].Causes) != 1 {
			t.Errorf("grading %d: %+v", n, got)
		}
	}
	for _, n := range []int{0, 3, -1} {
		var refused *logbook.Refused
		if _, err := b.Report(t.Context(), "a1", n); !errors.As(err, &refused) {
			t.Errorf("grading %d: %v", n, err)
		}
	}
	d, err := b.Session(t.Context(), "a1")
	must(t, err)
	if g := d.Regrades; len(g) != 1 || g[0].Server != "2" || g[0].At != logbook.Zulu(day(5)) ||
		len(g[0].Differences) != 1 ||
		g[0].Differences[0].String() != "better" || d.Legs != 3 {
		t.Errorf("%+v", d)
	}
}
