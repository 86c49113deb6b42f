package web

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/web/internal/feed"
)

// contractHead makes the golden file a module that the type checker holds against
// static/types.d.ts: JSON is TypeScript too.
const contractHead = `// Every message and answer as the server writes them; go test -update writes this file.
// The page's check reads it: what it says must fit static/types.d.ts.

import type { Models, Remark, SessionDetail, SessionList, Students, Trend } from '../static/sessions.d.ts';
import type { BriefSheet, Cards, Choice, LineChoice, Message, StationList } from '../static/types.d.ts';

`

// TestContract holds what the server writes against a golden file, which npm run check
// holds against the types of the page.
func TestContract(t *testing.T) {
	to := 90.0
	got := contractHead +
		"export const messages: Message[] = " + indent(t, everyMessage(t)) + ";\n\n" +
		"export const stations: StationList = " + indent(t, StationList{
		Version: contractVersion, Server: "1.2.3", Listen: []string{"127.0.0.1:7181"}, Refused: &Refused{Address: "192.168.1.29:49001", Seats: 64},
		Stations: []session.Station{*feed.Station("Seat 3", "live")},
	}) + ";\n\n" +
		"export const cards: Cards = " + indent(t, Cards{
		Maneuvers: []Card{{Name: "wing-over", Title: "Wing-over", Summary: "a climbing, then falling turn of 180°"}}, Auto: Card{Name: coach.AutoManeuver, Title: coach.AutoTitle},
	}) + ";\n\n" +
		"export const choice: Choice = " + indent(t, Choice{Maneuver: "wing-over"}) + ";\n\n" +
		"export const line: LineChoice = " + indent(t, coach.LineChoice{Heading: &to, Side: "right"}) + ";\n\n" +
		"export const brief: BriefSheet = " + indent(t, briefSheet(t)) + ";\n\n" + logbookAnswers(t)
	golden(t, "testdata/contract.golden.ts", got, "the messages have changed; if they should, run go test -update, then npm run check")
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

// everyMessage sends one of each type, full and empty, through a hub and returns what a
// viewer hears, shortened where it only repeats.
func everyMessage(t *testing.T) []any {
	t.Helper()
	h := NewHub("1.2.3", zerolog.Nop())
	early := watch(t, h, wish{})
	send := func(kind string, body any) {
		h.Event(session.Message{Type: kind, Station: "Seat 3", Body: body})
	}
	plan := feed.Plan()
	for i := range plan.Lanes {
		plan.Lanes[i].Corridor = plan.Lanes[i].Corridor[:2]
	}
	leg := feed.Finished(1, "right", 10)
	leg.Trace = leg.Trace[:2]
	leg.Trace[1].Airspeed, leg.Trace[1].Height = nil, nil
	series := feed.Series()
	series.Legs = []coach.Leg{*leg}
	send(session.TypeStation, feed.Station("Seat 3", "live"))
	send(session.TypeStation, feed.Station("Seat 3", "live")) // the first one came with the hello
	send(session.TypePlan, plan)
	send(session.TypeSession, session.Sitting{ID: "2026-01-02-a", State: "began"})
	send(session.TypeSetup, coach.Setup{Time: 5, Ready: true, Gates: feed.Gates(true)})
	send(session.TypePhase, coach.Phase{Time: 10, Phase: "up", Turn: 0, Direction: "right"})
	to, due := 45.0, 14.04
	for _, c := range []coach.Callout{
		{Kind: coach.Cue, ID: "at-45", Words: "Nose high at forty-five", Turn: 28, To: &to, Due: &due},
		{Kind: coach.After, ID: "bank-at-45", Tone: "met", Turn: 45},
		{Kind: coach.Safety, ID: "hard-deck", Words: "Hard deck, climb", Tone: "safety"},
		{Kind: coach.Clear, ID: "hard-deck"},
		{Kind: coach.Result, ID: "leg", Words: "Near", Tone: "missed"},
	} {
		c.Time = 12
		send(session.TypeCallout, c)
	}
	send(session.TypeLeg, leg)
	send(session.TypeLeg, &coach.Leg{Number: 2, Direction: "left", Outcome: coach.BrokenOff, Reason: "the turn stopped short", Verdict: coach.NotMeasured})
	send(session.TypeSeries, series)
	h.Frame("Seat 3", feed.At(12, 3, 0))
	all := raw(t, early)
	h.Frame("Seat 3", &coach.Frame{Time: 30, State: "set-up"})
	all = append(all, raw(t, early)...)
	return append(all, raw(t, watch(t, h, wish{}))...)
}

// raw returns what came, as sent; what differs at every start is made the same.
func raw(t *testing.T, w *watcher) []any {
	t.Helper()
	w.v.mu.Lock()
	defer w.v.mu.Unlock()
	out := []any{}
	all := w.v.queue
	if w.v.frame != nil {
		all = append(all, w.v.frame)
	}
	w.v.queue, w.v.frame = nil, nil
	for _, m := range all {
		data := m
		var head struct{ Run string }
		if err := json.Unmarshal(data, &head); err != nil {
			t.Fatal(err)
		}
		if head.Run != "" {
			data = bytes.ReplaceAll(data, []byte(head.Run), []byte("run"))
		}
		out = append(out, json.RawMessage(data))
	}
	return out
}

// briefSheet is a brief of a shipped card, shortened where it only repeats.
func briefSheet(t *testing.T) *session.Brief {
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
	b := session.NewBrief(plan.New(card, aircraft))
	for i := range b.Plan.Lanes {
		b.Plan.Lanes[i].Corridor = b.Plan.Lanes[i].Corridor[:min(2, len(b.Plan.Lanes[i].Corridor))]
	}
	b.Path, b.Errors = b.Path[:2], b.Errors[:2]
	return b
}
