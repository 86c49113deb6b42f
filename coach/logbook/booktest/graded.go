package booktest

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/logbook"
)

// What is read of many sessions at once is what is read of each, but for the points of the legs: in the order of the
// ids, without those that are not there, and with all that belongs to a session and nothing that belongs to another.
func testGraded(t *testing.T, open Opener) {
	b := open(t)
	var ids []string
	for n := range 3 {
		id := entered(t, b, Began.Add(time.Duration(n)*time.Hour), fmt.Sprint("Student ", n))
		ids = append(ids, id)
		r := twoLegs(id)
		stations := &r.Files[0].Stations
		for k := range n { // series and stations more
			more := twoLegs(id).Files[0].Stations[0]
			more.Series[0].Score = float64(50 + k)
			(*stations)[0].Series = append((*stations)[0].Series, more.Series...)
			more.Station = fmt.Sprint("seat ", k)
			*stations = append(*stations, more)
		}
		must(t, b.Keep(id, r), b.End(id, Began.Add(time.Duration(n)*time.Hour+time.Minute)))
	}
	s := logbook.Standing{Judging: logbook.NewJudging()}
	s.Judging.Ratings = []logbook.Rating{{Leg: 1, Grade: coach.Good, Thing: "bank", By: "Ada Example", At: Began}}
	must(t, b.Act(ids[1], &s))
	empty := entered(t, b, Began.AddDate(0, 0, 1), "") // nothing was graded yet
	asked := []string{ids[2], "2030-01-01T00-00-00Z_none", empty, ids[0], ids[1]}
	var want []logbook.Graded
	for _, id := range asked {
		if id == asked[1] {
			continue
		}
		d, err := b.Session(t.Context(), id)
		must(t, err)
		r, err := b.Report(t.Context(), id, 1)
		must(t, err)
		for _, station := range r.Files[0].Stations {
			for i := range station.Series {
				for k := range station.Series[i].Legs {
					l := &station.Series[i].Legs[k]
					l.Entry, l.Exit, l.Points = coach.Point{}, nil, []coach.Point{}
				}
			}
		}
		want = append(want, logbook.Graded{Session: id, Report: r, Judging: d.Judging})
	}
	got, err := b.Graded(t.Context(), asked)
	must(t, err)
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-each +at once):\n%s", d)
	}
	if none, err := b.Graded(t.Context(), nil); err != nil || len(none) != 0 {
		t.Errorf("of none: %+v, %v", none, err)
	}
}
