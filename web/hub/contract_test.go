package hub

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/internal/feed"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// contractHead makes the golden file a module that the type checker holds against static/types.d.ts: JSON is
// TypeScript too.
const contractHead = `// Every message as the server writes it; go test -update writes this file.
// The page's check reads it: what it says must fit static/types.d.ts.

import type { Message } from '../static/types.d.ts';

`

// contractFile is among those of the pages, which check it.
const contractFile = "../testdata/messages.golden.ts"

// TestContract holds the messages against a golden file, which npm run check holds against the types of the pages.
func TestContract(t *testing.T) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(everyMessage(t)); err != nil {
		t.Fatal(err)
	}
	got := contractHead + "export const messages: Message[] = " + strings.TrimSpace(b.String()) + ";\n"
	if *update {
		if err := os.WriteFile(contractFile, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(contractFile)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf(
			"the messages have changed; if they should, run go test -update, then npm run check (-golden +now):\n%s",
			d,
		)
	}
}

// everyMessage sends one of each type, full and empty, through a hub and returns what a
// viewer hears, shortened where it only repeats.
func everyMessage(t *testing.T) []any {
	t.Helper()
	h := New("1.2.3", zerolog.Nop())
	early := watch(t, h, Wish{})
	wall, _ := h.Join(Wish{Wall: true}, 100)
	t.Cleanup(func() { h.Leave(wall) })
	send := func(body message.Body) { h.Event(message.Message{Station: "Seat 3", Body: body}) }
	plan := feed.Plan()
	for i := range plan.Lanes {
		plan.Lanes[i].Corridor = plan.Lanes[i].Corridor[:2]
	}
	leg := feed.Finished(1, "right", 10)
	leg.Trace = leg.Trace[:2]
	leg.Trace[1].Airspeed, leg.Trace[1].Height = nil, nil
	series := feed.Series()
	series.Legs = []coach.Leg{*leg}
	series = series.WithoutTraces()
	send(feed.Station("Seat 3", "live"))
	send(feed.Station("Seat 3", "live")) // the first one came with the hello
	send(plan)
	send(&message.Session{ID: "2026-01-02-a", State: "began"})
	mo := who.Who{Name: "Mo Example"}
	when := time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)
	turn := 45.0
	choice := maneuver.Choice{Maneuver: "wing-over", Standard: "course", Aircraft: "turboprop-trainer"}
	h.Tell(message.Message{Station: "Seat 3", Body: &message.Act{Act: message.ActMute}})
	send(&message.Mark{ID: "01J", By: mo, At: when, Time: 11.5, Turn: &turn, Words: "Late with the foot"})
	send(&message.Mark{ID: "01K", By: mo, At: when, Time: 11.5})
	send(&message.Acted{ID: "01L", Command: "choose", By: mo, At: when, Choice: &choice})
	hole := coach.Hole{Time: 11.5, Shared: 57}
	hole.Tell(11.5)
	send(message.Hole{Hole: &hole})
	send(&message.Handover{By: mo, Station: "Demonstration", Choice: choice})
	send(message.Setup{Setup: &coach.Setup{Time: 5, Ready: true, Gates: feed.Gates(true)}})
	send(message.Phase{Phase: &coach.Phase{Time: 10, Phase: "up", Turn: 0, Direction: "right"}})
	to, due := 45.0, 14.04
	for _, c := range []coach.Callout{
		{Kind: coach.Cue, ID: "at-45", Words: "Nose high at forty-five", Turn: 28, To: &to, Due: &due},
		{Kind: coach.After, ID: "bank-at-45", Tone: "met", Turn: 45},
		{Kind: coach.Safety, ID: "hard-deck", Words: "Hard deck, climb", Tone: "safety"},
		{Kind: coach.Clear, ID: "hard-deck"},
		{Kind: coach.Said, ID: "said", Words: "Eyes outside", By: "Mo Example"},
		{Kind: coach.Result, ID: "leg", Words: "Near", Tone: "missed"},
	} {
		c.Time = 12
		send(message.Callout{Callout: &c})
	}
	send(message.Leg{Leg: leg})
	send(message.Leg{Leg: &coach.Leg{
		Number:    2,
		Direction: "left",
		Outcome:   coach.BrokenOff,
		Reason:    phrase.Read("the turn stopped short"),
		Verdict:   coach.NotMeasured,
	}})
	send(message.Series{Series: series})
	h.Frame("Seat 3", feed.At(12, 3, 0))
	all := append(raw(t, early), walled(t, wall, time.Now()))
	h.Frame("Seat 3", &coach.Frame{Time: 30, State: "set-up"})
	h.Frame("Seat 3", feed.At(31, 4, 0))
	h.Event(callout("Seat 3", 31))
	all = append(append(all, raw(t, early)...), walled(t, wall, time.Now().Add(time.Minute)))
	all = append(all, raw(t, watch(t, h, Wish{}))...)
	other := watch(t, h, Wish{Who: mo, Other: true})
	all = append(append(all, raw(t, early)...), raw(t, other)...)
	closed := feed.Station("Seat 3", "live")
	closed.Private = true
	send(closed)
	return append(append(all, raw(t, early)...), raw(t, other)...)
}

// walled returns what a viewer of the wall is sent at a time, with what follows the clock made the same.
func walled(t *testing.T, v *Viewer, at time.Time) any {
	t.Helper()
	data, _ := v.wall.next(at)
	decoded(t, data)
	data = bytes.ReplaceAll(data, []byte(v.wall.hub.run), []byte("run"))
	data = regexp.MustCompile(`"(time|since)":\d{12,}`).ReplaceAll(data, []byte(`"$1":1`))
	data = regexp.MustCompile(`"ticks":"[^"]*"`).ReplaceAll(data, []byte(`"ticks":"-------------------9999059"`))
	return json.RawMessage(data)
}

// raw returns what came, as sent; what differs at every start is made the same.
func raw(t *testing.T, w *watcher) []any {
	t.Helper()
	w.v.mu.Lock()
	defer w.v.mu.Unlock()
	out := []any{}
	all := slices.Clone(w.v.queue)
	if w.v.company != nil {
		all = append(all, w.v.company)
	}
	if w.v.frame != nil {
		all = append(all, w.v.frame)
	}
	w.v.queue, w.v.company, w.v.frame = nil, nil, nil
	for _, m := range all {
		data := m
		var head struct{ Run string }
		if err := json.Unmarshal(data, &head); err != nil {
			t.Fatal(err)
		}
		if head.Run != "" {
			data = bytes.ReplaceAll(data, []byte(head.Run), []byte("run"))
		}
		decoded(t, data)
		out = append(out, json.RawMessage(data))
	}
	return out
}

// decoded holds the decoder against the encoders of the hub: what is sent is what is read, to the byte.
func decoded(t *testing.T, data []byte) {
	t.Helper()
	m, err := message.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	again, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(data), string(again)); d != "" {
		t.Errorf("a %s is decoded to something else (-sent +decoded):\n%s", m.Type(), d)
	}
}
