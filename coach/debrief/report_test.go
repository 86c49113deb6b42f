package debrief

import (
	"encoding/json"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

var update = flag.Bool("update", false, "write the golden files")

func ptr(x float64) *float64 { return &x }

// checkOf makes a check of a verdict; the bands are low and high, nil for an open end.
func checkOf(id, label, unit, verdict string, v, score float64, low, high *float64, words string) coach.Check {
	return coach.Check{ID: id, Label: label, Kind: "value", Unit: unit, Value: &v, Met: [2]*float64{low, high},
		Near: [2]*float64{low, high}, Weight: 1, Verdict: verdict, Score: score, Words: words}
}

func point(turn, time, bank, pitch, airspeed, altitude float64) coach.Point {
	return coach.Point{
		Turn: turn,
		Time: time,
		Values: map[string]float64{
			"bank":     bank,
			"pitch":    pitch,
			"airspeed": airspeed,
			"altitude": altitude,
			"heading":  90 + turn,
		},
	}
}

// handMade is a report with everything a report can hold: each verdict, each outcome, a
// station without airspeed, one that could not be read, a file cut short.
func handMade() *Report {
	hole := coach.Hole{Time: 37.25, Shared: 57}
	hole.Tell(37.25)
	r := New()
	r.Session = &SessionDates{
		ID:    "2031-05-04T09-00-00Z_seat-3",
		Began: "2031-05-04T09:00:00Z",
		Ended: "2031-05-04T09:42:10Z",
	}

	good := coach.Leg{
		Number:    1,
		Direction: "right",
		Outcome:   coach.Finished,
		Start:     12.3,
		End:       41,
		Verdict:   coach.Met,
		Score:     93.4,
		Entry:     point(0, 12.3, 0.04, 1.2, 130.2, 5003),
		Points: []coach.Point{
			point(45, 19.1, 38, 24.04, 101, 5210.6),
			point(90, 25.25, 74.1, 0.4, 70.5, 5480),
			point(135, 31, 44.6, -17.5, 104, 5190),
		},
		Causes: []coach.Cause{},
		Checks: []coach.Check{
			checkOf("bank-at-90", "Bank at 90°", "°", coach.Met, 74.1, 100, ptr(60), ptr(88), ""),
			checkOf("stall-margin", "Margin over the stall", "kt", coach.Met, 12.25, 100, ptr(5), nil, ""),
			checkOf("height-lost", "Height lost", "ft", coach.Met, -11.6, 100, nil, ptr(110), ""),
			checkOf("power-constant", "Power left alone", "ratio", coach.Met, -0.004, 100, ptr(-0.02), ptr(0.02), ""),
			checkOf("same-way", "Legs flown twice the same way", "legs", coach.Met, 0, 100, ptr(0), ptr(0), ""),
		},
	}
	good.Checks[0].Turn, good.Checks[0].Aim, good.Checks[0].Channel = ptr(90), ptr(75), "bank"
	good.Checks[1].At, good.Checks[1].Kind = ptr(92.4), "extreme"
	even := checkOf(
		"even-rhythm",
		"Even pace through the turn",
		"ratio",
		coach.Met,
		2,
		100,
		ptr(1),
		ptr(2.9),
		"",
	)
	even.Note = phrase.Read("the quarters of the turn took 33, 17, 20 and 30 % of the time")
	good.Checks = append(good.Checks, even)
	exit := point(178.9, 41, 4.9, -2, 128, 4991.4)
	good.Exit = &exit
	good.Trace = []coach.Trace{{Turn: 1, Bank: 2.5, Pitch: 3, Airspeed: ptr(129), Height: nil}}

	poor := coach.Leg{
		Number:    2,
		Direction: "left",
		Outcome:   coach.KnockOff,
		Reason:    phrase.Read("below the hard deck"),
		Start:     50,
		End:       70.5,
		Verdict:   coach.Missed,
		Score:     41,
		Change:    phrase.Plain("Less bank at the top"),
		Points:    []coach.Point{{Turn: 45, Time: 57, Values: map[string]float64{"bank": 61, "pitch": -0.2}}},
		Entry:     coach.Point{Time: 50, Values: map[string]float64{"bank": -1, "pitch": 2}},
		Causes: []coach.Cause{{ID: "rushed", Share: 0.6, Evidence: phrase.Plain("roll-in in 4 s"),
			Advice: phrase.Plain("Roll in slower")}},
		Checks: []coach.Check{
			checkOf("bank-at-45", "Bank at 45°", "°", coach.Missed, 61, 10, ptr(36), ptr(53), "Roll in slower"),
			checkOf("nose", "Highest nose", "°", coach.Near, 29.5, 70, ptr(20), ptr(28), "Pull more gently"),
			{
				ID:      "apex-speed",
				Label:   "Lowest speed",
				Kind:    "extreme",
				Channel: "airspeed",
				Unit:    "kt",
				Verdict: coach.NotMeasured,
				Reason:  phrase.Read("the stream has no airspeed"),
			},
			{
				ID:      "ball-centered",
				Label:   "Ball within a quarter of its width",
				Kind:    "ball-centered",
				Channel: "slip",
				Unit:    "ratio",
				At:      ptr(97),
				Value:   ptr(0.4),
				Met:     [2]*float64{ptr(0.6), ptr(1)},
				Verdict: coach.Missed,
				Words:   "Step on the ball",
				Note:    phrase.Read("worst at 97°: skid, the ball half its width to the left; more left rudder"),
			},
		},
	}
	broken := coach.Leg{
		Number:    3,
		Direction: "right",
		Outcome:   coach.BrokenOff,
		Reason:    phrase.Read("turned back"),
		Start:     80,
		End:       84,
		Verdict:   coach.Missed,
		Score:     0,
		Entry:     coach.Point{Time: 80},
		Points:    []coach.Point{},
		Causes:    []coach.Cause{},
		Checks:    []coach.Check{},
	}

	r.Files = []FileReport{
		{File: "morning.pcap", Error: "the last record is cut short at byte 40812", Stations: []StationReport{
			{
				Station:  "127.0.0.1:50123",
				Format:   "columns",
				Samples:  7200,
				Duration: 120.4,
				Channels: []string{"time", "bank"},
				Derived:  []string{"bank"},
				Drops:    map[string]int{"late": 3},
				Holes:    []coach.Hole{hole},
				Series: []coach.Series{
					{
						Maneuver: "wing-over",
						Standard: "course",
						Aircraft: "radial-trainer",
						Verdict:  coach.Near,
						Score:    71.5,
						Legs:     []coach.Leg{good, poor},
						Missing:  phrase.Read("1 of 2 legs finished, one to the left is missing"),
						Checks: []coach.Check{
							checkOf(
								"legs",
								"Legs finished",
								"legs",
								coach.Missed,
								1,
								0,
								ptr(2),
								nil,
								"Fly all the legs",
							),
							checkOf(
								"pair-heading",
								"Back on the first heading",
								"°",
								coach.Near,
								11.2,
								70,
								ptr(-10),
								ptr(10),
								"Finish on the line",
							),
						},
					},
					{
						Maneuver: "chandelle-civil",
						Standard: "course",
						Verdict:  coach.NotMeasured,
						Checks:   []coach.Check{},
						Legs:     []coach.Leg{broken},
					},
				},
			},
			{
				Station:  "10.0.0.7:49002",
				Format:   "columns",
				Samples:  12,
				Duration: 0.6,
				Channels: []string{},
				Derived:  []string{},
				Series:   []coach.Series{},
			},
			{
				Station: "10.0.0.8:49002",
				Advice: phrase.Plain("no format fits: 80 datagrams of 12 bytes; " +
					"choose what is sent in the simulator's network settings"),
				Channels: []string{},
				Derived:  []string{},
				Series:   []coach.Series{},
			},
		}},
		{File: "empty.pcap", Stations: []StationReport{}},
	}
	return r
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	file := "testdata/" + name
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("differs from %s (run with -update to accept):\n%s", file, diff)
	}
}

func TestJSON(t *testing.T) {
	got, err := json.MarshalIndent(handMade(), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "report.json", append(got, '\n'))
}

// The members that the format promises: each path leads to them, through the first element of
// an array.
func TestJSONMembers(t *testing.T) {
	data, err := json.Marshal(handMade())
	if err != nil {
		t.Fatal(err)
	}
	var all map[string]any
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	leg := "files.stations.series.legs"
	for path, members := range map[string]string{
		"":                      "version cautions session files",
		"session":               "id began ended",
		"files":                 "file stations",
		"files.stations":        "station samples duration channels series",
		"files.stations.series": "maneuver standard aircraft verdict score checks legs",
		leg:                     "direction outcome reason start end entry points exit checks causes verdict score",
		leg + ".entry":          "turn time heading airspeed altitude pitch bank",
		leg + ".points":         "turn time heading airspeed altitude pitch bank",
		leg + ".exit":           "turn time heading airspeed altitude pitch bank",
		leg + ".checks":         "id kind channel turn value unit aim met near verdict score",
	} {
		at := walk(t, all, path)
		for _, m := range strings.Fields(members) {
			if _, ok := at[m]; !ok {
				t.Errorf("%q has no member %q", path, m)
			}
		}
	}
	second := walk(t, all, "files.stations.series")["legs"].([]any)[1].(map[string]any)
	first := second["causes"].([]any)[0].(map[string]any)
	for _, m := range []string{"id", "share", "evidence", "advice"} {
		if _, ok := first[m]; !ok {
			t.Errorf("a cause has no member %q", m)
		}
	}
	// What was not measured or not reached is null, never left out or 0.
	if exit, ok := second["exit"]; !ok || exit != nil {
		t.Errorf("exit of a leg that has none: %v", exit)
	}
	lacking := second["checks"].([]any)[2].(map[string]any)
	if v, ok := lacking["value"]; !ok || v != nil || lacking["verdict"] != "not-measured" || lacking["reason"] == "" {
		t.Errorf("a check not measured: %v", lacking)
	}
	if met := lacking["met"].([]any); len(met) != 2 || met[0] != nil {
		t.Errorf("open ends: %v", met)
	}
	if all["version"] != 1.0 {
		t.Errorf("version %v", all["version"])
	}
}

func walk(t *testing.T, at map[string]any, path string) map[string]any {
	t.Helper()
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' }) {
		next := at[step]
		if list, ok := next.([]any); ok && len(list) > 0 {
			next = list[0]
		}
		m, ok := next.(map[string]any)
		if !ok {
			t.Fatalf("%s: %s is %v", path, step, next)
		}
		at = m
	}
	return at
}

// A report without anything flown is a report still: arrays, not null.
func TestNew(t *testing.T) {
	data, err := json.Marshal(New())
	if err != nil {
		t.Fatal(err)
	}
	if s := string(data); !strings.HasPrefix(
		s,
		`{"version":1,"cautions":["For simulator practice only.`,
	) || !strings.HasSuffix(s, `"files":[]}`) {
		t.Errorf("%s", s)
	}
}

// A report that is read does not write into the cautions that every other report shows.
func TestCautionsAreItsOwn(t *testing.T) {
	before := coach.Cautions
	if err := json.Unmarshal([]byte(`{"cautions": ["none at all", "none", "none"]}`), New()); err != nil {
		t.Fatal(err)
	}
	if coach.Cautions != before {
		t.Errorf("the cautions are now %q", coach.Cautions)
	}
}
