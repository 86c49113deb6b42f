package query_test

import (
	"errors"
	"fmt"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
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
	newest := logbook.LeftOutSession{ID: "s59", Why: "damaged"}
	if out.Total != 60 || len(out.Sessions) != 50 || out.Sessions[0] != newest {
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
