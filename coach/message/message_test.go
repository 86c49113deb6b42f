package message

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"halfturn/coach"
)

// TestRoundTrip encodes and decodes a message of every type twice: with every member set, and with none.
func TestRoundTrip(t *testing.T) {
	for kind, decode := range kinds {
		t.Run(string(kind), func(t *testing.T) {
			empty, err := decode([]byte("{}"))
			if err != nil {
				t.Fatal(err)
			}
			if empty.kind() != kind {
				t.Fatalf("the row decodes a body of type %q", empty.kind())
			}
			full := reflect.New(reflect.TypeOf(empty)).Elem()
			fill(t, full, 1)
			for _, m := range []Message{
				{Station: "Seat 3", Body: empty},
				{Station: "Seat <3> \"ä\"", Seq: 1<<53 + 1, Body: full.Interface().(Body)},
			} {
				roundTrip(t, m)
			}
		})
	}
}

func roundTrip(t *testing.T, m Message) {
	t.Helper()
	data, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	back, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(m, back, cmpopts.EquateEmpty()); d != "" {
		t.Errorf("the message is not what was sent (-sent +decoded):\n%s", d)
	}
	again, err := json.Marshal(back)
	if err != nil {
		t.Fatal(err)
	}
	if string(again) != string(data) {
		t.Errorf("encoded again it is\n%s, and was\n%s", again, data)
	}
}

// fill sets everything in v to something other than zero, n making values differ. Members without a name in JSON
// stay as they are, but for the values of a point, which are written as members of their own.
func fill(t testing.TB, v reflect.Value, n int) {
	t.Helper()
	switch v.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(t, v.Elem(), n)
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if f.IsExported() && (f.Tag.Get("json") != "-" || v.Type() == reflect.TypeFor[coach.Point]()) {
				fill(t, v.Field(i), n+i)
			}
		}
	case reflect.Slice:
		if v.Type() == reflect.TypeFor[Snapshot]() {
			v.SetBytes([]byte(`{"time":12}`))
			return
		}
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range 2 {
			fill(t, v.Index(i), n+i)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(t, v.Index(i), n+i)
		}
	case reflect.Map:
		value := reflect.New(v.Type().Elem()).Elem()
		fill(t, value, n)
		v.Set(reflect.MakeMap(v.Type()))
		v.SetMapIndex(reflect.ValueOf("bank").Convert(v.Type().Key()), value)
	case reflect.String:
		v.SetString("word " + string(rune('a'+n%26)))
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int64, reflect.Int8, reflect.Int16, reflect.Int32:
		v.SetInt(int64(n))
	case reflect.Uint, reflect.Uint64, reflect.Uint8, reflect.Uint16, reflect.Uint32:
		v.SetUint(uint64(n))
	case reflect.Float64, reflect.Float32:
		v.SetFloat(float64(n) + 0.5)
	default:
		t.Fatalf("the test cannot fill a %v", v.Type())
	}
}

// TestSetIsClosed: every type of this package with a method kind has a row in kinds, and every row a constant.
func TestSetIsClosed(t *testing.T) {
	bodies := receivers(t, ".", "kind")
	rows := []string{}
	for kind, decode := range kinds {
		body, err := decode([]byte("{}"))
		if err != nil {
			t.Fatal(err)
		}
		name := reflect.TypeOf(body).String()
		rows = append(rows, name[strings.LastIndex(name, ".")+1:])
		if body.kind() != kind {
			t.Errorf("%s is of type %q in its method and %q in the table", name, body.kind(), kind)
		}
	}
	slices.Sort(rows)
	if d := cmp.Diff(bodies, rows); d != "" || len(bodies) < 10 {
		t.Errorf("bodies without a row in kinds, or rows without a body (-bodies +rows):\n%s", d)
	}
}

// TestEveryEventHasABody: what the coach finds can be sent.
func TestEveryEventHasABody(t *testing.T) {
	events := []coach.Event{&coach.Setup{}, &coach.Phase{}, &coach.Callout{}, &coach.Leg{}, &coach.Series{}}
	names := []string{}
	for _, e := range events {
		names = append(names, reflect.TypeOf(e).Elem().Name())
		if Of(e) == nil {
			t.Errorf("%T has no body", e)
		}
	}
	slices.Sort(names)
	if d := cmp.Diff(receivers(t, "..", "event"), names); d != "" {
		t.Errorf("events of the coach this test does not know (-coach +test):\n%s", d)
	}
}

// receivers lists the types of a package that have a method.
func receivers(t *testing.T, dir, method string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Recv == nil || f.Name.Name != method {
				continue
			}
			of := f.Recv.List[0].Type
			if star, ok := of.(*ast.StarExpr); ok {
				of = star.X
			}
			found[of.(*ast.Ident).Name] = true
		}
	}
	return slices.Sorted(maps.Keys(found))
}

// TestBytes holds the form of a message: type, station and seq come first, the body's members beside them.
func TestBytes(t *testing.T) {
	for want, m := range map[string]Message{
		`{"type":"session","station":"Seat 3","seq":7,"id":"s","state":"began","legs":0}`: {
			Station: "Seat 3", Seq: 7, Body: &Session{ID: "s", State: SessionBegan}},
		`{"type":"phase","station":"a","time":1,"phase":"up","turn":0,"direction":"right"}`: {
			Station: "a", Body: Phase{&coach.Phase{Time: 1, Phase: "up", Direction: "right"}}},
	} {
		if got, err := json.Marshal(m); err != nil || string(got) != want {
			t.Errorf("%s, %v; must be\n%s", got, err, want)
		}
	}
}

// TestDecodeRefuses: what is no message gives an error that says why.
func TestDecodeRefuses(t *testing.T) {
	for text, says := range map[string]string{
		`{`:                               "cannot be read",
		`[]`:                              "cannot be read",
		`{"type":"other","station":"a"}`:  `"other"`,
		`{"station":"a"}`:                 `""`,
		`{"type":"leg","score":"high"}`:   `"leg"`,
		`{"type":"hello","frame":"none"}`: `"hello"`,
		`{"type":"station","seq":-1}`:     "cannot be read",
	} {
		if m, err := Decode([]byte(text)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %+v, %v", text, m, err)
		}
	}
	if _, err := Decode([]byte(`{"type":"session","state":"began","later":1}`)); err != nil {
		t.Errorf("a member of a newer version: %v", err)
	}
}

// FuzzDecode: whatever comes, what can be read can be written and read again.
func FuzzDecode(f *testing.F) {
	for kind := range kinds {
		f.Add([]byte(`{"type":"` + string(kind) + `","station":"a","seq":1}`))
	}
	f.Add([]byte(`{"type":"hello","frame":{"time":1},"trace":[{"turn":1}],"series":[null]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := Decode(data)
		if err != nil {
			return
		}
		written, err := json.Marshal(m)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Decode(written); err != nil {
			t.Fatalf("%s: %v", written, err)
		}
	})
}
