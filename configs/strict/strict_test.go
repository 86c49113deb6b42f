package strict

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

type sample struct {
	Name  string `toml:"name"`
	Items []item `toml:"item"`
	Sub   struct {
		On bool `toml:"on"`
	} `toml:"sub"`
	Size  *float64        `toml:"size"`
	Count int             `toml:"count"`
	Mixed []any           `toml:"mixed"`
	Named map[string]item `toml:"named"`
}

type item struct {
	ID   string    `toml:"id"`
	Band []float64 `toml:"band"`
	Part []part    `toml:"part"`
}

type part struct {
	Size float64 `toml:"size"`
}

func TestDecodeErrors(t *testing.T) {
	cases := map[string]struct{ in, want string }{
		"unknown key": {"name = 'a'\nnmae = 'b'\n",
			"x.toml:2: nmae: is not a known key; must be count, item, mixed, name, named, size or sub"},
		"unknown nested": {"[[item]]\nid = 'a'\nbnad = [1]\n",
			"x.toml:3: item[0].bnad: is not a known key; must be band, id or part"},
		"wrong type": {"name = 'a'\n[sub]\non = 3\n",
			"x.toml:3: sub.on: is a TOML integer; must be true or false"},
		"unknown table": {"name = 'a'\n[sbu]\non = true\n",
			"x.toml:2: sbu: is not a known key; must be count, item, mixed, name, named, size or sub"},
		"unknown array": {"[[itme]]\nid = 'a'\n",
			"x.toml:1: itme: is not a known key; must be count, item, mixed, name, named, size or sub"},
		"after a subtable": {"[sub]\non = true\nname = 'a'\n",
			"x.toml:3: sub.name: is not a known key; must be on"},
		"deep": {"[[item]]\n[[item.part]]\nsize = 1\nbreadth = 2\n",
			"x.toml:4: item[0].part[0].breadth: is not a known key; must be size"},
		"in a map": {"[named.a]\nid = 'a'\nod = 'b'\n",
			"x.toml:3: named.a.od: is not a known key; must be band, id or part"},
		"dotted": {"sub.on = true\nsub.off = true\n",
			"x.toml:2: sub.off: is not a known key; must be on"},
		"inline": {"name = 'a'\nsub = {on = true, off = true}\n",
			"x.toml:2: sub.off: is not a known key; must be on"},
		"inline in array": {"item = [\n  {id = 'a'},\n  {id = 'b', bnad = [1]},\n]\n",
			"x.toml:3: item[1].bnad: is not a known key; must be band, id or part"},
		"carriage returns": {"name = 'a'\r\n\r\n[sub]\r\non = 3\r\n",
			"x.toml:4: sub.on: is a TOML integer; must be true or false"},
		"byte order mark": {"\ufeffname = 'a'\nsize = 'b'\n", "x.toml:2: size: is a TOML string; must be a number"},
		"not whole":       {"count = 1.5\n", "x.toml:1: count: is a TOML float; must be a whole number"},
		"not an array":    {"mixed = 5\n", "x.toml:1: mixed: is a TOML integer; must be an array"},
		"not a table":     {"sub = 5\n", "x.toml:1: sub: is a TOML integer; must be a table"},
		"single brackets": {"name = 'a'\n[item]\nid = 'a'\n",
			"x.toml:2: item: is headed [item]; must be [[item]], once for each"},
		"not a map":        {"named = 5\n", "x.toml:1: named: is a TOML integer; must be a table"},
		"array of a table": {"[[sub]]\non = true\n", "x.toml:1: sub: is an array table; must be a table"},
		"table of a value": {"[name]\non = true\n", "x.toml:1: name: is a table; must be a string"},
		"value of tables": {"item = 5\n",
			"x.toml:1: item: is a TOML integer; must be tables, each headed by the key in double brackets"},
		"inline for text": {"name = {a = 1}\n", "x.toml:1: name: is a TOML inline table; must be a string"},
		"date":            {"size = 2001-02-03\n", "x.toml:1: size: is a TOML local date; must be a number"},
		"too large":       {"size = 1e999\n", "x.toml:1: size: is a number too large or too small to be used"},
		"twice":           {"name = 'a'\nname = 'b'\n", "x.toml:2: name: key name is already defined"},
		"no UTF-8":        {"name = '\xff'\n", "x.toml:1: invalid UTF-8 character in literal string"},
		"nan":             {"name = 'a'\nsize = nan\n", "x.toml:2: size: is nan; must be a finite number"},
		"inf in array": {"[[item]]\nid = 'a'\n[[item]]\nband = [1, -inf]\n",
			"x.toml:4: item[1].band[1]: is -inf; must be a finite number"},
		"inf inline": {"named = {a = {id = 'a', band = [+inf]}}\n",
			"x.toml:1: named.a.band[0]: is +inf; must be a finite number"},
		"nan of any type": {"mixed = [[1], {a = nan}]\n", "x.toml:1: mixed[1].a: is nan; must be a finite number"},
		"other case": {"Name = 'a'\n",
			"x.toml:1: Name: is not a known key; must be count, item, mixed, name, named, size or sub"},
		"escape in a key": {"\"\\u001b[31m\" = 1\n",
			`x.toml:1: \x1b[31m: is not a known key; must be count, item, mixed, name, named, size or sub`},
		"deep key": {"named.a.b.c.d.e.f.g.h = 1\n",
			"x.toml:1: named.a.b: is not a known key; must be band, id or part"},
		"deep table": {"mixed = [{a.b.c.d.e.f.g = 1}]\n",
			"x.toml:1: has a key of more than 100 letters, or within more than 7 tables"},
		"deep array": {"mixed = [[[[[[[[1]]]]]]]]\n",
			"x.toml:1: mixed[0][0][0][0][0][0][0]: has an array within more than 7 tables and arrays"},
		"long key": {"[named]\n" + strings.Repeat("k", 101) + ".id = 'a'\n",
			"x.toml:2: has a key of more than 100 letters, or within more than 7 tables"},
		"many names": {manyNames(10001),
			"x.toml:10001: named.k10000: is one of more than 10000 tables in braces and keys of any name"},
		"many in braces": {"item = [\n" + strings.Repeat("{id = 'a'},\n", 10001) + "]\n",
			"x.toml:10002: item[10000]: is one of more than 10000 tables in braces and keys of any name"},
		"too many bytes": {"#" + strings.Repeat(" ", Largest),
			"x.toml: is larger than 1 MB; must be a card, a map or a configuration, which take a few kB"},
		"syntax": {"name = \n", "x.toml:1: unexpected character U+000A at start of value"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			var v sample
			_, err := Decode("x.toml", []byte(c.in), &v)
			if err == nil || err.Error() != c.want {
				t.Errorf("got  %v\nwant %s", err, c.want)
			}
		})
	}
}

func manyNames(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "[named.k%d]\n", i)
	}
	return b.String()
}

// What is within the limits is read.
func TestDecodeLarge(t *testing.T) {
	for name, in := range map[string]string{
		"bytes":     "#" + strings.Repeat(" ", Largest-1),
		"names":     manyNames(loosest),
		"in braces": "item = [\n" + strings.Repeat("{id = 'a'},\n", loosest) + "]\n",
		"tables":    strings.Repeat("[[item]]\nid = 'a'\n", 40_000),
		"depth":     "mixed = [{a.b.c.d.e.f = 1}]\n",
	} {
		var v sample
		if _, err := Decode("x.toml", []byte(in), &v); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A fault quotes what is wrong only so far as it can be read, and without what a terminal would obey.
func TestErrorIsReadable(t *testing.T) {
	e := Error{File: "a\x1b]0;.toml", Line: 3, Key: "n\rame", What: "is " + strings.Repeat("é", 5000) + "\x00"}
	if got := e.Error(); !strings.HasPrefix(got, `a\x1b]0;.toml:3: n\rame: is éé`) || len(got) > 1100 ||
		!utf8.ValidString(got) {
		t.Errorf("%d bytes: %.100q", len(got), got)
	}
}

func TestPrintable(t *testing.T) {
	for in, want := range map[string]string{
		"plain, Ü, −3° 滑":     "plain, Ü, −3° 滑",
		"\x1b[31mred\x07\r\n": `\x1b[31mred\a\r\n`,
		"\u009b31m\u202e":     `\u009b31m\u202e`, // a control sequence in one letter; text from right to left
		"a\x9bb\xff":          `a\x9bb\xff`,      // no UTF-8
	} {
		if got := Printable(in); got != want {
			t.Errorf("%q: got %q; must be %q", in, got, want)
		}
	}
}

// The time of one key stays the same whatever the size of the file; ns/key says it.
func BenchmarkDecode(b *testing.B) {
	for _, n := range []int{1000, 10_000, 40_000} {
		data := []byte(strings.Repeat("[[item]]\nid = 'a'\n", n/2))
		b.Run(fmt.Sprintf("keys=%d", n), func(b *testing.B) {
			for b.Loop() {
				var v sample
				if _, err := Decode("x.toml", data, &v); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/key")
		})
	}
}

func TestErrorfFindsTheLine(t *testing.T) {
	var v sample
	f, err := Decode("x.toml", []byte("name = 'a' # first\n\n[[item]]\nid = 'a'\n[[item]]\nid = 'b'\nband = [1, "+
		"2]\n[sub]\non = true\n"), &v)
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{
		"name":         "x.toml:1: name: bad",
		"item[0].id":   "x.toml:4: item[0].id: bad",
		"item[1].band": "x.toml:7: item[1].band: bad",
		"item[0].band": "x.toml:3: item[0].band: bad", // not written: the table's line
		"sub.on":       "x.toml:9: sub.on: bad",
		"nowhere":      "x.toml: nowhere: bad",
	} {
		if got := f.Errorf(key, "bad").Error(); got != want {
			t.Errorf("%s: got %q; must be %q", key, got, want)
		}
	}
}

// The lines of keys in every form TOML has for tables; the text is read with both line ends,
// and with a byte order mark.
func TestErrorfLines(t *testing.T) {
	const text = `# first
"name" = 'a'
sub.on = true
mixed = [
  {a = 1},
  {b = 2, c.d = 3},
]

[[item]]
id = "a"
  [[item.part]]
  size = 1
  [[item.part]]
  size = 2
[[item]] # the second
id = """
two lines"""
band = [1, 2]
  [[item.part]]
  size = 3

[named.one]
id = 'x'
[named]
two = {id = 'y', band = [
  3,
]}
`
	lines := map[string]int{
		"name": 2, "sub.on": 3, "mixed": 4, "mixed[0].a": 5, "mixed[1].b": 6, "mixed[1].c.d": 6,
		"item[0]": 9, "item[0].id": 10, "item[0].part[0]": 11, "item[0].part[0].size": 12, "item[0].part[1].size": 14,
		"item[1]": 15, "item[1].id": 16, "item[1].band": 18, "item[1].part[0]": 19, "item[1].part[0].size": 20,
		"named.one": 22, "named.one.id": 23, "named": 24, "named.two": 25, "named.two.id": 25, "named.two.band": 25,
		// Not written: the nearest above.
		"item[0].part[1].breadth": 13, "item[1].part[7].size": 15, "item[9].id": 0, "named.two.part": 25, "mixed[5]": 4,
		"sub": 0,
	}
	for name, in := range map[string]string{"as written": text, "CRLF": strings.ReplaceAll(text, "\n", "\r\n"),
		"mark": "\ufeff" + text} {
		var v sample
		f, err := Decode("x.toml", []byte(in), &v)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for key, want := range lines {
			if got := f.Errorf(key, "bad").(*Error); got.Line != want || got.Key != key {
				t.Errorf("%s: %s: line %d (%v); must be %d", name, key, got.Line, got, want)
			}
		}
		for key, want := range map[string]bool{"name": true, "item[0].part[1].size": true, "item[2]": false,
			"size": false, "sub": false} {
			if f.Has(key) != want {
				t.Errorf("%s: Has(%q) = %v", name, key, !want)
			}
		}
		if len(v.Items) != 2 || len(v.Items[0].Part) != 2 || v.Items[1].Part[0].Size != 3 ||
			v.Named["two"].Band[0] != 3 {
			t.Errorf("%s: read as %+v", name, v)
		}
	}
}

// Whatever the text, the error is one line that begins with the file; no error means that
// every key noted stands on a line of the file, that no number is nan or inf.
func FuzzDecode(f *testing.F) {
	f.Add([]byte("name = 'a'\n[[item]]\nid = 'a'\n[[item.part]]\nsize = 1\n[sub]\non = true\n"))
	f.Add([]byte("mixed = [{a = 1}, [{b = [nan]}], 'x']\r\nsub.on = 3"))
	f.Add([]byte("\ufeffnamed = {a = {id = 'a'}}"))
	f.Add([]byte("[[item]]\n[item.part]\n[[item]]\n[[item.part]]\n"))
	f.Add([]byte("size = nan\n[[item]]\nband = [-inf, 1e999, 1e308]\n"))
	f.Add([]byte("\"\\u001b\".'\x7f' = \"\\u0000\""))
	f.Add([]byte("named = {a.part = [{size = +inf}]}"))
	form := regexp.MustCompile(`^x\.toml(:\d+)?: [\pL\pM\pN\pP\pS ]+$`)
	f.Fuzz(func(t *testing.T, data []byte) {
		var v sample
		file, err := Decode("x.toml", data, &v)
		if err != nil {
			if !form.MatchString(err.Error()) {
				t.Fatalf("%q", err)
			}
			return
		}
		most := strings.Count(string(data), "\n") + 1
		for key, line := range file.lines {
			if line < 1 || line > most {
				t.Fatalf("%q at line %d of %d", key, line, most)
			}
		}
		finite(t, reflect.ValueOf(v))
	})
}

// finite fails where a number within v is none.
func finite(t *testing.T, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			t.Fatalf("read %v", v.Float())
		}
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			finite(t, v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			finite(t, v.Index(i))
		}
	case reflect.Map:
		for it := v.MapRange(); it.Next(); {
			finite(t, it.Value())
		}
	}
}
