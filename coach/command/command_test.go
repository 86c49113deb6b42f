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
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// A noter notes what is done to it.
type noter []string

func (n *noter) note(format string, args ...any) error {
	*n = append(*n, fmt.Sprintf(format, args...))
	return nil
}
func (n *noter) Choose(c maneuver.Choice) error { return n.note("choose %+v", c) }
func (n *noter) Line(c coach.LineChoice) error  { return n.note("line %g %+v", *c.Heading, c.Side) }
func (n *noter) Prompt(how string) error        { return n.note("prompts %s", how) }
func (n *noter) Again() error                   { return n.note("again") }
func (n *noter) Student(name string) error      { return n.note("student %q", name) }
func (n *noter) End() error                     { return n.note("end") }

// each is one command of every kind, how it is written by this version, and how earlier ones wrote it.
func each() []struct {
	action         Action
	member, done   string
	recorded, past bool
} {
	heading := 90.0
	return []struct {
		action         Action
		member, done   string
		recorded, past bool
	}{
		{Choose{maneuver.Choice{Maneuver: "wing-over", Standard: "check", Aircraft: "light-single"}},
			`"choose":{"maneuver":"wing-over","standard":"check","aircraft":"light-single"}`,
			"choose {Maneuver:wing-over Standard:check Aircraft:light-single}", true, true},
		{Line{coach.LineChoice{Heading: &heading, Side: "left"}},
			`"line":{"heading":90,"side":"left","distance":null}`, "line 90 left", true, true},
		{Prompt{"fade"}, `"prompts":"fade"`, "prompts fade", true, false},
		{Again{}, `"again":{}`, "again", true, false},
		{Student{"Ada Example"}, `"student":"Ada Example"`, `student "Ada Example"`, true, true},
		{Student{}, `"student":""`, `student ""`, true, true},
		{End{}, `"end":{}`, "end", false, false},
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
		want := `{"id":"` + sent.ID + `","station":"Seat 3","by":{"name":"owner"},` +
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
			var n noter
			if err := got.Do(&n); err != nil || !slices.Equal(n, []string{c.done}) {
				t.Errorf("%s does %q, %v", text, n, err)
			}
		}
	}
	for kind := range kinds {
		if !seen[kind] {
			t.Errorf("no command of kind %q is tried here", kind)
		}
	}
}

// TestSetIsClosed: every action of the package has a row in kinds that decodes it.
func TestSetIsClosed(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), "command.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	actions := []string{}
	for _, d := range file.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Recv != nil && f.Name.Name == "kind" {
			actions = append(actions, f.Recv.List[0].Type.(*ast.Ident).Name)
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
