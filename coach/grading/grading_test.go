package grading

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// A refusing judge follows nothing.
type refusing struct{}

var errRefused = errors.New("no card for it")

func (refusing) Follow(*play.Recording) (play.Following, error) {
	return play.Following{}, errRefused
}
func (refusing) By(*play.Recording, *play.Player) *debrief.JudgedBy { return nil }
func (refusing) Notes(*play.Player) []phrase.Phrase                 { return nil }
func (refusing) Judging(*play.Recording) (*logbook.Judging, error)  { return nil, nil }

// Files come back in their order, each with its own error, whatever the number of workers.
func TestAllInOrder(t *testing.T) {
	var names []string
	for _, n := range []string{"c", "a", "b", "e", "d"} {
		names = append(names, filepath.Join(t.TempDir(), n+".pcap"))
	}
	for _, jobs := range []int{0, 1, 4, 99} {
		var mu sync.Mutex
		done := map[string]int{}
		got := All(t.Context(), names, refusing{}, jobs, func(name string) {
			mu.Lock()
			defer mu.Unlock()
			done[name]++
		})
		for i, f := range got {
			if f.File != names[i] || !strings.Contains(f.Error, "no such file") || done[f.File] != 1 {
				t.Errorf("%d workers: file %d is %+v, done %d times", jobs, i, f, done[f.File])
			}
		}
		if len(got) != len(names) {
			t.Errorf("%d workers: %d of %d files", jobs, len(got), len(names))
		}
	}
}

// What was not graded to its end is left out.
func TestAllInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if got := All(ctx, []string{"a", "b"}, refusing{}, 2, nil); len(got) != 0 {
		t.Errorf("graded %+v", got)
	}
	if _, err := Recordings(ctx, []string{t.TempDir()}); !errors.Is(err, ErrInterrupted) {
		t.Errorf("listing: %v", err)
	}
}

// The judge's refusal is the error of a recording that can be opened.
func TestFileRefused(t *testing.T) {
	const recording = "../../cmd/halfturn/testdata/wo-single-b-rolled-out-early-1.pcap.gz"
	if _, err := os.Stat(recording); err != nil {
		t.Fatal(err)
	}
	var f debrief.FileReport
	if err := File(t.Context(), recording, refusing{}, &f); !errors.Is(err, errRefused) {
		t.Errorf("the error is %v", err)
	}
}

// flown is a report with a leg that was judged, one that was not, and a file that could not be read.
func flown() *debrief.Report {
	value, aim, low, high := 67.5, 70.0, 60.0, 88.0
	measured := coach.Check{
		ID: "bank-at-90", Label: "Bank at 90°", Kind: "point", Channel: "bank", Value: &value, Unit: "deg", Aim: &aim,
		Met: [2]*float64{&low, &high}, Weight: 2, Verdict: coach.Met, Score: 97.5,
	}
	unmeasured := coach.Check{
		ID:      "ball",
		Label:   "Ball",
		Verdict: coach.NotMeasured,
		Reason:  phrase.Read("the stream has no ball"),
	}
	r := debrief.New()
	r.Files = []debrief.FileReport{{
		File: "day/a.pcap",
		By:   &debrief.JudgedBy{Maneuver: debrief.UsedCards{Names: []string{"wing-over"}, From: debrief.FromFlag}},
		Stations: []debrief.StationReport{{Station: "Seat 3", Series: []coach.Series{{
			Maneuver: "wing-over",
			Verdict:  coach.Met,
			Decision: &coach.Decision{
				Maneuver: "wing-over", Margin: 0.4,
				Fits: []coach.Fit{{Maneuver: "wing-over"}, {Maneuver: "lazy-eight"}},
			},
			Legs: []coach.Leg{
				{Number: 1, Direction: "left", Outcome: "finished", Verdict: coach.Met, Score: 97.5,
					Checks: []coach.Check{measured}},
				{Number: 2, Direction: "right", Outcome: "finished", Verdict: coach.NotMeasured,
					Checks: []coach.Check{unmeasured}},
			},
		}}}},
	}, {File: "day/b.pcap", Error: "cut off", Stations: []debrief.StationReport{
		{Station: "x", Advice: phrase.Plain("Send more.")},
	}}}
	return r
}

func TestPrint(t *testing.T) {
	for format, want := range map[string][]string{
		"text": {coach.Cautions[0], "Station Seat 3, series 1: wing-over by 0.40 over lazy-eight"},
		"table": {coach.Cautions[0], "FILE", "a.pcap  Seat 3", "wing-over by 0.40 over lazy-eight", "left", "98", "–",
			"not read to its end: cut off", "no leg", "Send more."},
		"json": {`"file": "day/a.pcap"`, `"error": "cut off"`},
		"csv":  {"file,station,series", "day/a.pcap,Seat 3,1,wing-over"},
	} {
		var b strings.Builder
		if err := Print(&b, flown(), format, nil); err != nil {
			t.Fatal(err)
		}
		for _, w := range want {
			if !strings.Contains(b.String(), w) {
				t.Errorf("%s lacks %q:\n%s", format, w, b.String())
			}
		}
	}
}

// CSV has one row per check, with a score beside each verdict and none where nothing was judged.
func TestPrintCSV(t *testing.T) {
	var b strings.Builder
	report := flown()
	leg := &report.Files[0].Stations[0].Series[0].Legs[0]
	leg.Grade, leg.Headline = coach.Good, phrase.AllWithin.Of(phrase.Int("of", 25))
	if err := Print(&b, report, "csv", nil); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(b.String())).ReadAll()
	if err != nil || len(rows) != 3 || !slices.Equal(rows[0], columns) {
		t.Fatalf("%v: %q", err, rows)
	}
	cell := func(row int, column string) string { return rows[row][slices.Index(columns, column)] }
	for column, want := range map[string][2]string{
		"leg": {"1", "2"}, "leg_score": {"97.5", ""}, "check": {"bank-at-90", "ball"}, "value": {"67.5", ""},
		"met_low": {"60", ""}, "near_low": {"", ""}, "score": {"97.5", ""}, "reason": {"", "the stream has no ball"},
		"margin": {"0.4", "0.4"}, "leg_grade": {coach.Good, ""},
		"headline": {leg.Headline.String(), ""},
	} {
		if got := [2]string{cell(1, column), cell(2, column)}; got != want {
			t.Errorf("%s: %q, want %q", column, got, want)
		}
	}
}

// JSON can be read back as the same report.
func TestPrintJSON(t *testing.T) {
	var b strings.Builder
	if err := Print(&b, flown(), "json", nil); err != nil {
		t.Fatal(err)
	}
	var back debrief.Report
	if err := json.Unmarshal([]byte(b.String()), &back); err != nil || len(back.Files) != 2 ||
		len(back.Files[0].Stations[0].Series[0].Legs) != 2 {
		t.Errorf("%v: %+v", err, back)
	}
}

func TestFound(t *testing.T) {
	two := []coach.Fit{{Maneuver: "a"}, {Maneuver: "b"}}
	for want, s := range map[string]coach.Series{
		"chosen":                        {Maneuver: "chosen"},
		"a by 0.50 over b":              {Maneuver: "a", Decision: &coach.Decision{Margin: 0.5, Fits: two}},
		"a, the only card it resembles": {Maneuver: "a", Decision: &coach.Decision{Fits: two[:1]}},
		"unclear: a or b (0.10 apart, 0.30 needed)": {Maneuver: coach.Unclear,
			Decision: &coach.Decision{Margin: 0.1, Fits: two}},
		"unclear: too little was flown to tell": {Maneuver: coach.Unclear, Decision: &coach.Decision{}},
	} {
		if got := found(&s, nil); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
