package play_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/streamtest"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
)

// logsOf writes a recorded flight as logs: its lines as they were sent, and its samples in other ways.
func logsOf(t *testing.T, recording string) map[string]string {
	t.Helper()
	var lines, decimal, objects strings.Builder
	decoder := wire.NewReader(format.Options{})
	var s stream.Sample
	decimal.WriteString("\xEF\xBB\xBFtime;" + strings.Join(stream.ChannelNames()[1:], ";") + "\r\n")
	for _, d := range streamtest.Read(t, recording) {
		lines.Write(bytes.TrimPrefix(d.Payload, []byte("<LABELS> ,")))
		if err := decoder.Decode(d.Payload, d.Seconds(), &s); err != nil {
			continue
		}
		members := map[string]any{}
		for c := range stream.NumChannels {
			if c > 0 {
				decimal.WriteByte(';')
			}
			if v, ok := s.Get(c); ok {
				decimal.WriteString(strings.Replace(fmt.Sprint(v), ".", ",", 1))
				members[c.String()] = v
			}
		}
		decimal.WriteString("\r\n")
		object, err := json.Marshal(members)
		must(t, err)
		objects.Write(append(object, '\n'))
	}
	return map[string]string{
		"lines.csv":   lines.String(),
		"decimal.csv": decimal.String(),
		"rows.jsonl":  objects.String(),
	}
}

// graded plays a recording by a card.
func graded(t *testing.T, lib *maneuver.Library, file string, c maneuver.Choice) (all []debrief.StationReport) {
	t.Helper()
	chosen, auto := plansFor(t, lib, c)
	rec, err := play.Open(t.Context(), file)
	must(t, err)
	p, err := rec.Play(t.Context(), play.Following{
		Options: session.Options{Coach: judge.Options{Plan: chosen, Deck: 1500}, Auto: auto},
	})
	must(t, err)
	must(t, p.Run(nil))
	defer p.Close()
	for _, f := range p.Flights() {
		all = append(all, p.Report(f))
	}
	return all
}

// verdicts are what was decided on each leg, with the values to three digits.
func verdicts(reports []debrief.StationReport, values bool) (all []string) {
	for _, r := range reports {
		all = append(all, verdictsOf(&r, values)...)
	}
	return all
}

func verdictsOf(r *debrief.StationReport, values bool) (all []string) {
	for _, s := range r.Series {
		for _, l := range s.Legs {
			all = append(all, fmt.Sprintf("%s leg %d %s %s %s %.0f", s.Maneuver, l.Number, l.Direction, l.Outcome,
				l.Verdict, l.Score))
			for _, k := range l.Checks {
				value := ""
				if k.Value != nil && values {
					value = fmt.Sprintf("%.3g", *k.Value)
				}
				all = append(all, fmt.Sprintf("  %s %s %s", k.ID, k.Verdict, value))
			}
		}
	}
	return all
}

// TestLogsLikeRecordings: a flight that was recorded gives the same legs and verdicts when it is read from a log.
func TestLogsLikeRecordings(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	must(t, err)
	names, err := filepath.Glob("../../session/testdata/flights/*.pcap.gz")
	must(t, err)
	legs := 0
	for _, name := range names {
		if testing.Short() && legs > 0 {
			break
		}
		c := maneuver.Choice{Maneuver: coach.AutoManeuver, Aircraft: "turboprop-trainer"}
		recorded := graded(t, lib, name, c)
		one := len(recorded) == 1 // of two stations the log makes one, whose values differ slightly
		want := verdicts(recorded, one)
		legs += len(want)
		for file, text := range logsOf(t, name) {
			path := filepath.Join(t.TempDir(), file)
			must(t, os.WriteFile(path, []byte(text), 0o600))
			got := graded(t, lib, path, c)
			if d := cmp.Diff(want, verdicts(got, one)); d != "" {
				t.Errorf("%s as %s (- recorded, + log):\n%s", filepath.Base(name), file, d)
			}
			if base, _, _ := strings.Cut(file, "."); got[0].Station != base {
				t.Errorf("%s: the station is %s", file, got[0].Station)
			}
		}
	}
	if legs < 100 && !testing.Short() {
		t.Errorf("%d lines were compared", legs)
	}
}
