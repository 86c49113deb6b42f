package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/course"
	"halfturn/coach/ids"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/configs"
)

// A noter notes what is done to it, and the types of what its session publishes.
type noter struct {
	did       []string
	published []message.Type
	session   *session.Session
}

func (n *noter) Event(m message.Message)  { n.published = append(n.published, m.Type()) }
func (*noter) Frame(string, *coach.Frame) {}
func (*noter) Watched(string) bool        { return false }

func newNoter(t testing.TB) *noter {
	t.Helper()
	library, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := library.Judged("wing-over", "")
	if err != nil {
		t.Fatal(err)
	}
	n := &noter{}
	n.session = session.New(session.Options{Output: n, Coach: judge.Options{Plan: plan.New(card, nil)}})
	n.published = nil
	return n
}

func (n *noter) note(format string, args ...any) error {
	n.did = append(n.did, fmt.Sprintf(format, args...))
	return nil
}
func (n *noter) Choose(c maneuver.Choice) error { return n.note("choose %+v", c) }
func (n *noter) Session() *session.Session {
	_ = n.note("session")
	return n.session
}
func (n *noter) Present() *session.Session { return n.session }

func (n *noter) Student(by who.Who, name string) error { return n.note("student %q", name) }

func (n *noter) Mark(c Command, words string) error { return n.note("mark %q", words) }

func (n *noter) Start(Command) error { return n.note("start") }

func (n *noter) End(Command) error { return n.note("end") }

// each is one command of every kind: how it is written by this version, which is also how earlier ones wrote it, what
// the target is asked for, and what is published when somebody gives it.
func each() []struct {
	action       Action
	member, done string
	publishes    message.Type
	recorded     bool
} {
	heading, ada := 90.0, "Ada Example"
	choice := maneuver.Choice{Maneuver: "wing-over", Standard: "check", Aircraft: "light-single"}
	task := course.Task{Course: "first", Step: "wing-over", Title: "Wing-over, the whole", Choice: choice,
		Checks: []string{"exit-heading"}, Prompts: "all", Good: 5, Of: 6, Sides: course.EachSide, Slip: 3,
		Stands: course.Standing{State: course.Open, Row: -1, Right: []bool{true}, Left: []bool{}}}
	return []struct {
		action       Action
		member, done string
		publishes    message.Type
		recorded     bool
	}{
		{Choose{choice}, `"choose":{"maneuver":"wing-over","standard":"check","aircraft":"light-single"}`,
			"choose {Maneuver:wing-over Standard:check Aircraft:light-single}", message.TypeActed, true},
		{Line{coach.LineChoice{Heading: &heading, Side: "left"}},
			`"line":{"heading":90,"side":"left","distance":null}`, "session", message.TypeActed, true},
		{About{coach.AboutChoice{Clear: true}}, `"about":{"where":"","distance":null,"clear":true}`, "session",
			message.TypeActed, true},
		{Prompt{"fade"}, `"prompts":"fade"`, "session", message.TypeActed, true},
		{Again{}, `"again":{}`, "session", "", true},
		{Student{"Ada Example"}, `"student":"Ada Example"`, `student "Ada Example"`, message.TypeActed, true},
		{Student{}, `"student":""`, `student ""`, message.TypeActed, true},
		{End{}, `"end":{}`, "end", "", false},
		{Say{"Eyes outside"}, `"say":"Eyes outside"`, "", message.TypeCallout, true},
		{Mark{}, `"mark":""`, `mark ""`, message.TypeMark, true},
		{Mark{" Late with the foot "}, `"mark":" Late with the foot "`, `mark "Late with the foot"`,
			message.TypeMark, true},
		{Stop{}, `"stop":{}`, "", message.TypeCallout, true},
		{Start{}, `"start":{}`, "start", "", true},
		{Start{&ada}, `"start":{"student":"Ada Example"}`, "start", "", true},
		{Demonstrate{choice, "Demonstration"}, `"demonstrate":{"maneuver":"wing-over","standard":"check",` +
			`"aircraft":"light-single","shown":"Demonstration"}`, "", message.TypeHandover, true},
		{Private{true}, `"private":true`, "", message.TypeActed, true},
		{Step{task}, `"step":{"course":"first","step":"wing-over","title":"Wing-over, the whole",` +
			`"maneuver":"wing-over","standard":"check","aircraft":"light-single","checks":["exit-heading"],` +
			`"prompts":"all","checkFlight":false,"good":5,"of":6,"sides":"each","slip":3,"stands":{"state":"open",` +
			`"row":-1,"right":[true],"left":[],"tried":[false,false]}}`,
			"choose {Maneuver:wing-over Standard:check Aircraft:light-single}, session", message.TypeActed, true},
		{Drill{choice, "overbanked"}, `"drill":{"maneuver":"wing-over","standard":"check",` +
			`"aircraft":"light-single","cause":"overbanked"}`,
			"choose {Maneuver:wing-over Standard:check Aircraft:light-single}, session", message.TypeActed, true},
	}
}

// TestCommands: what is written is read back, and does what it says; so does what earlier versions wrote into
// recordings, which had neither id nor station, by and at.
func TestCommands(t *testing.T) {
	at := time.Date(2026, 1, 2, 3, 4, 5, 600, time.UTC)
	seen := map[Kind]bool{}
	for _, c := range each() {
		sent := New(ids.New(at), at, "Seat 3", who.Owner(), c.action)
		seen[sent.Kind()] = true
		if sent.Recorded() != c.recorded {
			t.Errorf("%s: recorded %v", sent.Kind(), sent.Recorded())
		}
		data, err := json.Marshal(sent)
		if err != nil {
			t.Fatal(err)
		}
		want := `{"id":"` + sent.ID + `","station":"Seat 3","by":{"name":"owner","role":"owner"},` +
			`"at":"2026-01-02T03:04:05.0000006Z",` + c.member + `}`
		if string(data) != want {
			t.Errorf("written is %s, must be %s", data, want)
		}
		earlier := New("", time.Time{}, "", who.Who{}, c.action)
		for text, want := range map[string]Command{string(data): sent, "{" + c.member + "}": earlier} {
			got, err := Decode([]byte(text))
			if d := cmp.Diff(want, got); err != nil || d != "" {
				t.Errorf("%s: %v\n%s", text, err, d)
			}
			n := newNoter(t)
			if err := got.Do(n); err != nil || strings.Join(n.did, ", ") != c.done {
				t.Errorf("%s does %q, %v", text, n.did, err)
			}
			if c.publishes == message.TypeActed && got.By == (who.Who{}) {
				continue // it was nobody's
			}
			told := []message.Type{c.publishes}
			if sent.Kind() == KindAbout { // it is said, too: whoever chooses a point looks outside
				told = []message.Type{message.TypeCallout, c.publishes}
			}
			if c.publishes != "" && !slices.Equal(n.published, told) {
				t.Errorf("%s publishes %q", text, n.published)
			}
		}
	}
	for kind := range kinds {
		if !seen[kind] {
			t.Errorf("no command of kind %q is tried here", kind)
		}
	}
}

// TestRefused: what cannot be said, and what is too long to be kept with a mark, is refused and does nothing.
func TestRefused(t *testing.T) {
	for says, a := range map[string]Action{
		"nothing to say":              Say{" \n"},
		"9 words and 17 letters":      Say{"a b c d e f g h i"},
		"1 words and 61 letters":      Say{strings.Repeat("e", 61)},
		"holds the character":         Say{"Nose \x1b[2J up"},
		"the remark is 401 letters":   Mark{strings.Repeat("e", 401)},
		"must be card, all, fade":     Prompt{"loud"},
		"not in UTF-8":                Say{"\xff"},
		"which is not seen":           Mark{"\u202egnp"},
		"heading is 400; must be bet": Line{coach.LineChoice{Heading: new(400.0)}},
		`"prompts" is missing or wr`:  Step{course.Task{Step: "x", Choice: maneuver.Choice{Maneuver: "wing-over"}}},
		"no check of a leg of":        Drill{maneuver.Choice{Maneuver: "wing-over"}, "no-cause"},
	} {
		n := newNoter(t)
		err := New("01J", time.Now(), "Seat 3", who.Owner(), a).Do(n)
		if err == nil || !strings.Contains(err.Error(), says) || len(n.published) > 0 {
			t.Errorf("%+v: %v, and publishes %q; must say %q", a, err, n.published, says)
		}
	}
}

// TestSetIsClosed: every action of the package has a row in kinds that decodes it.
func TestSetIsClosed(t *testing.T) {
	actions := []string{}
	for _, name := range []string{"actions.go", "person.go", "practice.go"} {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil && f.Name.Name == "kind" {
				actions = append(actions, f.Recv.List[0].Type.(*ast.Ident).Name)
			}
		}
	}
	rows := []string{}
	for kind, row := range kinds {
		a, _ := row.read([]byte("null"))
		if a.kind() != kind {
			t.Errorf("the row of %q decodes a command of kind %q", kind, a.kind())
		}
		rows = append(rows, reflect.TypeOf(a).Name())
	}
	slices.Sort(actions)
	slices.Sort(rows)
	if d := cmp.Diff(actions, rows); d != "" || len(rows) < 4 {
		t.Errorf("actions without a row in kinds, or rows without an action (-actions +rows):\n%s", d)
	}
}

// TestDecodeRefuses: what is no command says so.
func TestDecodeRefuses(t *testing.T) {
	for text, says := range map[string]string{
		`{`:                               "unexpected end",
		`{"student":5}`:                   "student:",
		`{"student":"Ada","end":{}}`:      `both "end" and "student"`,
		`{"choose":[]}`:                   "choose:",
		`{"at":"yesterday","student":""}`: "yesterday",
	} {
		if c, err := Decode([]byte(text)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %+v, %v", text, c, err)
		}
	}
	for _, text := range []string{`{}`, `{"lost":12}`, `{"version":1,"program":"1.2.3"}`} {
		if _, err := Decode([]byte(text)); !errors.Is(err, ErrNone) {
			t.Errorf("%s: %v", text, err)
		}
	}
	if _, err := json.Marshal(Command{ID: "x"}); err == nil {
		t.Error("a command that does nothing is written")
	}
}

// FuzzDecode: whatever comes, what can be read can be written and is read the same.
func FuzzDecode(f *testing.F) {
	for _, c := range each() {
		f.Add([]byte("{" + c.member + "}"))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := Decode(data)
		if err != nil {
			return
		}
		written, err := json.Marshal(c)
		if err != nil {
			t.Skip("a time that JSON cannot hold")
		}
		if _, err := Decode(written); err != nil {
			t.Fatalf("%s: %v", written, err)
		}
	})
}

// TestForms: every command can be asked for by its name. A form that says what it must gives the command that is
// written the same way; one that leaves out what the command needs is refused.
func TestForms(t *testing.T) {
	for kind := range kinds {
		form, says, ok := FormOf(string(kind))
		if !ok || says == "" {
			t.Errorf("there is no form for %q, or nothing tells what it says", kind)
			continue
		}
		if a, err := form.Action(); err == nil && a.kind() != kind {
			t.Errorf("the form of %q asks for %q", kind, a.kind())
		}
	}
	for _, c := range []struct {
		kind, body string
		action     Action
		wrong      string
	}{
		{"choose", `{"maneuver":"wing-over","standard":"check"}`,
			Choose{maneuver.Choice{Maneuver: "wing-over", Standard: "check"}}, ""},
		{"choose", `{"aircraft":"light-single"}`, nil, "names no maneuver"},
		{"line", `{"side":"left"}`, Line{coach.LineChoice{Side: "left"}}, ""},
		{"student", `{"student":"Ada Example"}`, Student{"Ada Example"}, ""},
		{"student", `{"student":""}`, Student{}, ""},
		{"student", `{}`, nil, "says nothing"},
		{"end", `{}`, End{}, ""},
		{"say", `{"say":"Eyes outside"}`, Say{"Eyes outside"}, ""},
		{"mark", `{}`, Mark{}, ""},
		{"start", `{"student":""}`, Start{new("")}, ""},
		{"demonstrate", `{"maneuver":"wing-over"}`,
			Demonstrate{Choice: maneuver.Choice{Maneuver: "wing-over"}}, ""},
		{"private", `{"private":false}`, Private{}, ""},
		{"private", `{}`, nil, "says nothing"},
	} {
		form, _, _ := FormOf(c.kind)
		if err := json.Unmarshal([]byte(c.body), form); err != nil {
			t.Fatal(err)
		}
		a, err := form.Action()
		if d := cmp.Diff(c.action, a); d != "" || (err == nil) != (c.wrong == "") ||
			err != nil && err.Error() != c.wrong {
			t.Errorf("%s %s: %v; must be %q\n%s", c.kind, c.body, err, c.wrong, d)
		}
	}
	for _, name := range []string{"", "fly", "Choose", "choose/"} {
		if _, _, ok := FormOf(name); ok {
			t.Errorf("%q is a command", name)
		}
	}
}
