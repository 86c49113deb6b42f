package web

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/brief"
	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/configs"
	"halfturn/web/internal/feed"
)

// contractHead makes the golden file a module that the type checker holds against
// static/types.d.ts: JSON is TypeScript too.
const contractHead = `// Every answer as the server writes it; go test -update writes this file.
// The page's check reads it: what it says must fit static/types.d.ts.

import type { CourseList, CourseRecord, NextThing } from '../static/course.d.ts';
import type { Models, Remark, SessionDetail, SessionList, Students, Trend } from '../static/sessions.d.ts';
import type { BriefSheet, Cards, Choice, LineChoice, StationList } from '../static/types.d.ts';

`

// TestContract holds what the server writes against a golden file, which npm run check
// holds against the types of the page.
func TestContract(t *testing.T) {
	to := 90.0
	got := contractHead +
		"export const stations: StationList = " + indent(t, StationList{
		Version: apiVersion, Server: "1.2.3", Listen: []string{"127.0.0.1:7181"},
		Refused:  &Refused{Address: "192.168.1.29:49001", Senders: 64},
		Lost:     &Lost{Datagrams: 57, Last: "2026-05-04T10:15:00Z"},
		Stations: []message.Station{*feed.Station("Seat 3", "live")},
	}) + ";\n\n" +
		"export const cards: Cards = " + indent(t, Cards{
		Maneuvers: []brief.Title{
			{Name: "wing-over", Title: "Wing-over", Summary: "a climbing, then falling turn of 180°"},
		}, Auto: brief.Title{Name: coach.AutoManeuver, Title: coach.AutoTitle},
	}) + ";\n\n" +
		"export const choice: Choice = " + indent(t, command.ChooseForm{Maneuver: "wing-over"}) + ";\n\n" +
		"export const line: LineChoice = " + indent(t, coach.LineChoice{Heading: &to, Side: "right"}) + ";\n\n" +
		"export const brief: BriefSheet = " + indent(t, briefSheet(t)) + ";\n\n" +
		logbookAnswers(t) + "\n" + courseAnswers(t)
	golden(
		t,
		"testdata/contract.golden.ts",
		got,
		"the answers have changed; if they should, run go test -update, then npm run check",
	)
}

func indent(t *testing.T, v any) string {
	t.Helper()
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(b.String())
}

// briefSheet is a brief of a shipped card, shortened where it only repeats.
func briefSheet(t *testing.T) *brief.Sheet {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("steep-turn")
	if err != nil {
		t.Fatal(err)
	}
	aircraft, err := lib.AircraftNamed("light-single")
	if err != nil {
		t.Fatal(err)
	}
	b := brief.New(plan.New(card, aircraft))
	for i := range b.Plan.Lanes {
		b.Plan.Lanes[i].Corridor = b.Plan.Lanes[i].Corridor[:min(2, len(b.Plan.Lanes[i].Corridor))]
	}
	b.Path, b.Errors = b.Path[:2], b.Errors[:2]
	return b
}
