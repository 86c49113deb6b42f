package web

import (
	"encoding/json"
	"errors"
	"io"
	"maps"
	"net/netip"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/archive/play"
	"halfturn/coach/check"
	"halfturn/coach/course"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/coach/talk"
	"halfturn/configs"
	"halfturn/configs/guide"
	"halfturn/stream"
)

// texts are the texts that stand in shipped files and tables and are shown as they are, by what they are. The pages
// look each up whole, by its English; their tests hold the translation against this list.
type texts map[string]map[string]bool

func (x texts) add(of string, all ...string) {
	if x[of] == nil {
		x[of] = map[string]bool{}
	}
	for _, text := range all {
		if text != "" {
			x[of][text] = true
		}
	}
}

var wordIn = regexp.MustCompile("[a-z]{2}")

// shippedTexts are those of the shipped cards, guides and tables.
func shippedTexts(t *testing.T) texts {
	t.Helper()
	x := texts{}
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, card := range lib.Cards() {
		x.card(card)
	}
	for _, s := range lib.Standards() {
		x.add("standards", s.Name, s.Title, s.Summary)
		for _, task := range s.Tasks {
			for _, e := range task.Elements {
				x.add("elements", e.Asks, e.Reason)
				if wordIn.MatchString(e.ID) { // beside its letter and number
					x.add("elements", e.ID)
				}
			}
		}
	}
	for _, a := range lib.Aircraft() {
		x.add("aircraft", a.Title, a.Power)
		for _, s := range a.Speeds {
			x.add("aircraft", s.Power)
		}
	}
	courses, err := course.LoadLibrary(lib, configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range courses.Courses() {
		x.add("courses", c.Title, c.Summary)
		for i := range c.Steps {
			x.add("courses", c.Steps[i].Title)
		}
	}
	x.add("maneuvers", coach.AutoTitle)
	x.add("said", talk.Words()...)
	x.add("cautions", coach.Cautions[:]...)
	x.stream(t)
	x.guides(t)
	return x
}

// TestTexts holds the shipped texts against testdata/texts.json; go test -update writes it.
func TestTexts(t *testing.T) {
	out := map[string][]string{}
	for of, set := range shippedTexts(t) {
		out[of] = slices.Sorted(maps.Keys(set))
	}
	golden(t, "testdata/texts.json", indent(t, out)+"\n",
		"the shipped texts have changed; run go test -update, then the pages' tests, which ask for the German")
}

// card adds the texts of a maneuver card.
func (x texts) card(card *maneuver.Card) {
	x.add("maneuvers", card.Title, card.Summary)
	x.add("errors", card.Errors...)
	for _, p := range card.Phases {
		x.add("phases", p.Name)
	}
	for i := range card.Checkpoints {
		x.add("checkpoints", card.Checkpoints[i].Words)
	}
	for _, q := range card.AllCues {
		x.add("said", q.Say)
	}
	for i := range card.Checks {
		x.add("checks", card.Checks[i].Label)
		x.add("said", card.Checks[i].High, card.Checks[i].Low)
	}
	for i := range card.Watches {
		x.add("said", card.Watches[i].High, card.Watches[i].Low)
	}
}

// stream adds how channels, what is worked out from them, and formats are named.
func (x texts) stream(t *testing.T) {
	t.Helper()
	for c := range stream.NumChannels {
		x.add("channels", c.Info().Title)
	}
	for _, name := range check.QuantityNames() {
		q, _ := check.QuantityNamed(name)
		x.add("channels", name, q.Lacking)
	}
	data, err := os.ReadFile("../stream/wire/testdata/names.json")
	if err != nil {
		t.Fatal(err)
	}
	var formats []string
	if err := json.Unmarshal(data, &formats); err != nil {
		t.Fatal(err)
	}
	x.add("formats", formats...)
}

// guides adds how simulators are set up.
func (x texts) guides(t *testing.T) {
	t.Helper()
	guides, err := guide.All()
	if err != nil {
		t.Fatal(err)
	}
	for i := range guides {
		g := &guides[i]
		x.add("guides", append([]string{g.Title, g.Short, g.Say, g.Port, g.Quality, g.Notes}, g.Steps...)...)
	}
}

// What is said with numbers has the places that a plan fills, and no other text has any.
func TestPlacesOfTexts(t *testing.T) {
	fill := strings.NewReplacer("{bank}", "", "{speed}", "", "{heading}", "", "{pivotal}", "")
	for of, set := range shippedTexts(t) {
		for text := range set {
			left := fill.Replace(text)
			if of != "guides" && strings.ContainsAny(left, "{}") || of != "said" && left != text {
				t.Errorf("%s: %q has a place that nothing fills", of, text)
			}
		}
	}
}

// Of all that recorded flights are told, whatever has no code is a text of the list: the pages have its German.
func TestNothingElseIsTold(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]bool{}
	for _, set := range shippedTexts(t) {
		maps.Copy(known, set)
	}
	for _, flight := range []string{
		"wo-turboprop-a-rushed-1", "cc-single-a-bank-grows-1", "chandelle-traditional-turboprop-a-stalled",
	} {
		for _, card := range lib.Cards() {
			told := listener{t: t, known: known}
			told.fly(flight, card, lib.Aircraft()[0])
			if told.phrases == 0 {
				t.Errorf("%s by %s: nothing is told", flight, card.Name)
			}
		}
	}
}

// A listener holds what it is told to the known texts.
type listener struct {
	t       *testing.T
	known   map[string]bool
	phrases int
}

func (l *listener) Event(m message.Message)    { l.hold(m) }
func (l *listener) Frame(string, *coach.Frame) {}
func (l *listener) Watched(string) bool        { return true }

// fly plays a recorded flight by a card.
func (l *listener) fly(flight string, card *maneuver.Card, by *aircraft.Aircraft) {
	l.t.Helper()
	rec, err := play.Open(l.t.Context(), "../coach/session/testdata/flights/"+flight+".pcap.gz")
	if err != nil {
		l.t.Fatal(err)
	}
	p, err := rec.Play(l.t.Context(), play.Following{
		Options: session.Options{Coach: judge.Options{Plan: plan.New(card, by), Deck: 1500}},
		Output:  func(netip.AddrPort) session.Output { return l },
	})
	if err != nil {
		l.t.Fatal(err)
	}
	if err := p.Run(nil); err != nil && !errors.Is(err, io.EOF) {
		l.t.Fatal(err)
	}
	for _, s := range p.Flights() {
		l.hold(p.Report(s))
	}
	if err := p.Close(); err != nil {
		l.t.Error(err)
	}
}

// hold looks at the phrases in what is sent.
func (l *listener) hold(v any) {
	data, err := json.Marshal(v)
	if err != nil {
		l.t.Fatal(err)
	}
	var in any
	if err := json.Unmarshal(data, &in); err != nil {
		l.t.Fatal(err)
	}
	l.look(in, false)
}

// shown are the members that hold phrases, or a text of a card.
var shown = []string{"and", "title", "change", "advice", "evidence", "reason", "note", "want", "headline"}

// look follows what is sent down to its texts. Within the arguments of a phrase, all in a list are phrases.
func (l *listener) look(v any, phrases bool) {
	switch v := v.(type) {
	case string:
		if phrases && v != "" && !l.known[v] {
			l.t.Errorf("%q has neither a code nor a place in the list of texts", v)
		}
	case []any:
		for _, item := range v {
			l.look(item, phrases)
		}
	case map[string]any:
		if args, ok := v["args"].(map[string]any); ok {
			l.phrases++
			for _, arg := range args {
				_, one := arg.(string)
				l.look(arg, !one)
			}
			return
		}
		for name, member := range v {
			_, check := v["verdict"] // the label of a checkpoint is a turn angle
			l.look(member, slices.Contains(shown, name) || check && name == "label")
		}
	}
}
