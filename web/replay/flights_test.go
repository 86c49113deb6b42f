package replay_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"math"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/playback"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/guard"
	"halfturn/web/replay"
)

// TestFlights holds the pictures of a recorded wing-over against what the coach measured.
func TestFlights(t *testing.T) {
	f := replay.NewFlights(recorded(t, flight), nil, nil)
	list, err := f.Legs(t.Context(), "a")
	if err != nil {
		t.Fatal(err)
	}
	if len(list.Legs) != 2 || len(list.Plans) != 1 || list.Duration < 60 {
		t.Fatalf("%d legs of %d plans over %g s", len(list.Legs), len(list.Plans), list.Duration)
	}
	if len(list.Series) != 1 || len(list.Series[0].Checks) == 0 || list.Series[0].Legs != nil ||
		list.Legs[1].Series != 1 {
		t.Errorf("the series are %+v", list.Series)
	}
	for _, sheet := range list.Legs {
		data, err := f.Leg(t.Context(), "a", sheet.Number)
		if err != nil {
			t.Fatal(err)
		}
		leg := unzip(t, data)
		rows := leg.Samples
		n := len(rows["time"])
		if lasts := leg.Leg.End - leg.Leg.Start; float64(n) < 9*lasts || float64(n) > 11*(lasts+7) {
			t.Errorf("leg %d: %d samples of %.0f s", sheet.Number, n, lasts)
		}
		for name, row := range rows {
			if len(row) != n {
				t.Errorf("leg %d: %d of %s, %d of time", sheet.Number, len(row), name, n)
			}
		}
		if len(leg.Path) != 181 || leg.Path[90].Turn != 90 || leg.Path[90].Height < 300 {
			t.Errorf("leg %d: the reference path has %d points", sheet.Number, len(leg.Path))
		}
		for _, p := range leg.Leg.Points { // ten samples a second lie within a tenth of a second of it
			i := at(rows["turn"], p.Turn)
			for name, most := range map[string]float64{"bank": 2, "pitch": 1.5, "airspeed": 2} {
				if d := *rows[name][i] - p.Values[name]; math.Abs(d) > most {
					t.Errorf("leg %d at %g°: %s differs by %g from what was measured", sheet.Number, p.Turn, name, d)
				}
			}
		}
		if len(leg.Callouts) == 0 || leg.Track.From == "" {
			t.Errorf("leg %d: %d callouts, track from %q", sheet.Number, len(leg.Callouts), leg.Track.From)
		}
		// Half a turn ends on a line beside the one it began on, on the side of the turn.
		end := at(rows["turn"], leg.Leg.Exit.Turn)
		for rows["across"][end] == nil { // positions are those of the trace, which ends within a degree of the exit
			end--
		}
		if *rows["across"][end] < 500 {
			t.Errorf("leg %d ends %g ft to the side", sheet.Number, *rows["across"][end])
		}
	}
	var p *guard.Problem
	if _, err := f.Leg(t.Context(), "a", 3); !errors.As(err, &p) || p.Status != 404 {
		t.Errorf("a third leg: %v", err)
	}
}

// at is where a row first reaches a value.
func at(row []*float64, value float64) int {
	for i, v := range row {
		if v != nil && *v >= value {
			return i
		}
	}
	return len(row) - 1
}

func unzip(t *testing.T, data []byte) (leg web.FlownLeg) {
	t.Helper()
	r, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.NewDecoder(r).Decode(&leg); err != nil {
		t.Fatal(err)
	}
	return leg
}

// TestNothingToGrade tells what to do about a recording of positions alone. The sentence is the example of the NMEA
// 0183 standard's RMC as commonly printed. What was lost is told too.
func TestNothingToGrade(t *testing.T) {
	name := filepath.Join(t.TempDir(), "position.pcapng")
	var b bytes.Buffer
	w, err := capture.NewWriter(&b, "test", "", "")
	for i := range 20 {
		err = errors.Join(
			err,
			w.Write(
				&capture.Datagram{
					Received:    time.Unix(int64(i), 0),
					Source:      netip.MustParseAddrPort("127.0.0.1:5000"),
					Destination: netip.MustParseAddrPort("127.0.0.1:7181"),
					Comments:    []string{playback.HoleComment(0, uint64(i/19))},
					Payload:     []byte("$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A\r\n"),
				},
			),
		)
	}
	if err := errors.Join(err, w.Flush(), os.WriteFile(name, b.Bytes(), 0o600)); err != nil {
		t.Fatal(err)
	}
	list, err := replay.NewFlights(recorded(t, name), nil, nil).Legs(t.Context(), "a")
	if err != nil || len(list.Legs) != 0 || !strings.Contains(list.Advice.String(), "position stream") {
		t.Errorf("%d legs, advice %q, %v", len(list.Legs), list.Advice, err)
	}
	if h := list.Holes; len(h) != 1 || h[0].Shared != 1 || !strings.Contains(h[0].Words.String(), "others: 1.") {
		t.Errorf("what was lost: %+v", list.Holes)
	}
	if list, err := replay.NewFlights(recorded(t, flight), nil, nil).Legs(t.Context(), "a"); err != nil ||
		!list.Advice.IsZero() {
		t.Errorf("of a good flight: %q, %v", list.Advice, err)
	}
}

// A leg shows what it was graded when it was flown, as lists of sessions do, and says where it would be graded
// otherwise now. What is not known from then is shown as it is graded now.
func TestGradedWhenFlown(t *testing.T) {
	now, err := replay.NewFlights(recorded(t, flight), nil, nil).Legs(t.Context(), "a")
	if err != nil || len(now.Legs) != 2 {
		t.Fatalf("%d legs, %v", len(now.Legs), err)
	}
	was := coach.Series{Maneuver: "wing-over", Verdict: coach.Missed, Score: 33, Grade: coach.Unable,
		Legs: []coach.Leg{now.Legs[0].Leg, now.Legs[1].Leg}}
	was.Legs[0].Verdict, was.Legs[0].Grade, was.Legs[0].Score = coach.Missed, coach.Unable, 33
	was.Legs[0].Headline, was.Legs[0].Trace = phrase.Plain("as it was said then"), nil
	for name, c := range map[string]struct {
		graded  []coach.Series
		grade   string
		series  string
		changed []bool
	}{
		"graded otherwise": {[]coach.Series{was}, coach.Unable, coach.Unable, []bool{true, false}},
		"nothing kept":     {nil, now.Legs[0].Grade, now.Series[0].Grade, []bool{false, false}},
		"of other legs": {[]coach.Series{{Grade: coach.Unable, Legs: []coach.Leg{{Start: 1, End: 2}}}},
			now.Legs[0].Grade, now.Series[0].Grade, []bool{false, false}},
	} {
		f := replay.NewFlights(recorded(t, flight), nil, func(string) []coach.Series { return c.graded })
		list, err := f.Legs(t.Context(), "a")
		if err != nil {
			t.Fatal(err)
		}
		if list.Legs[0].Grade != c.grade || list.Series[0].Grade != c.series || list.Series[0].Legs != nil {
			t.Errorf("%s: leg 1 is %s, the series %s", name, list.Legs[0].Grade, list.Series[0].Grade)
		}
		for i, changed := range c.changed {
			data, err := f.Leg(t.Context(), "a", i+1)
			if err != nil {
				t.Fatal(err)
			}
			leg := unzip(t, data)
			if leg.Changed != changed || leg.Leg.Grade != list.Legs[i].Grade || len(leg.Leg.Trace) < 50 {
				t.Errorf("%s, leg %d: changed %v, %s, %d points", name, i+1, leg.Changed, leg.Leg.Grade,
					len(leg.Leg.Trace))
			}
		}
	}
}
