package text_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/text"
)

// userMap is a map of the user's with five sources; rest adds keys before them.
func userMap(t *testing.T, rest string) *mapping.Map {
	t.Helper()
	m, err := mapping.Load("mine.toml", []byte(rest+`
sources = [
  { name = "T", channel = "time", unit = "s" },
  { name = "P", channel = "pitch", unit = "deg" },
  { name = "B", channel = "bank", unit = "deg" },
  { name = "M", channel = "heading", unit = "deg", magnetic = true },
  { name = "H", channel = "heading", unit = "deg" },
]
`))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Records of name=value as FlightGear's README.protocol lets a protocol file lay them out: with any separator, on one
// line or one pair per line.
func TestPairs(t *testing.T) {
	for name, c := range map[string]struct {
		keys, in string
		err      error
		heading  float64
		magnetic bool
	}{
		"commas":                         {"", "T=1,P=2,B=3,H=90\n", nil, 90, false},
		"semicolons":                     {"", "T=1;P=2;B=3;H=90\n", nil, 90, false},
		"bars":                           {"", "T=1|P=2|B=3|H=90", nil, 90, false},
		"tabs":                           {"", "T=1\tP=2\tB=3\tH=90", nil, 90, false},
		"a pair per line":                {"", "T=1\nP=2\nB=3\nH=90\n", nil, 90, false},
		"spaces about values":            {"", "T= 1, P= 2, B =3 ,H=90", nil, 90, false},
		"the last record counts":         {"", "T=1,P=8,B=9,H=10\nT=2,P=2,B=3,H=90\n", nil, 90, false},
		"a record that is cut":           {"", "T=1,P=2,B=3,H=90\nT=2,P=2,B=3", nil, math.NaN(), false},
		"names of nothing":               {"", "T=1,X=7,P=2,Y=,B=3,H=90", nil, 90, false},
		"no value":                       {"", "T=1,P=2,B=3,H=", nil, math.NaN(), false},
		"spaces as separator":            {"separator = 'space'", "T=1 P=2 B=3 H=90", nil, 90, false},
		"colons":                         {"assign = ':'", "T:1,P:2,B:3,H:90", nil, 90, false},
		"a true heading before magnetic": {"", "T=1,P=2,B=3,M=80,H=90", nil, 90, false},
		"whatever comes first":           {"", "T=1,P=2,B=3,H=90,M=80", nil, 90, false},
		"a magnetic heading alone":       {"", "T=1,P=2,B=3,M=80", nil, 80, true},
		"a heading that is no number":    {"", "T=1,P=2,B=3,H=north", nil, math.NaN(), false},
		"a byte order mark":              {"", "\xEF\xBB\xBFT=1,P=2,B=3,H=90", nil, 90, false},
		"decimal commas":                 {"", "T=1,5,P=2,25,B=3,0,H=90", fault.ErrMalformed, 0, false},
		"names that feed nothing":        {"", "X=1,Y=2", fault.ErrNoChannels, 0, false},
		"a record too long":              {"", "T=1,P=2," + strings.Repeat("x=1,", 2100), fault.ErrTooLong, 0, false},
	} {
		d := text.Pairs.New(&format.Options{Map: userMap(t, c.keys), Maps: []*mapping.Map{userMap(t, c.keys)}})
		for range 2 { // the second record is read by the places of the first
			var s stream.Sample
			if err := d.Decode([]byte(c.in), 0, &s); err != c.err {
				t.Errorf("%s: error %v; must be %v", name, err, c.err)
				break
			}
			if c.err != nil {
				continue
			}
			heading, ok := s.Get(stream.Heading)
			if s.Value(stream.Pitch) != 2 || s.Value(stream.Bank) != 3 || ok == math.IsNaN(c.heading) ||
				ok && heading != c.heading || s.Magnetic != c.magnetic {
				t.Errorf("%s: %+v", name, s)
			}
		}
	}
}

// A sender whose order of names changes is still read by name, also where it has more names than are remembered.
func TestPairsInAnotherOrder(t *testing.T) {
	o := &format.Options{Map: userMap(t, ""), Maps: []*mapping.Map{userMap(t, "")}}
	d := text.Pairs.New(o)
	var many strings.Builder
	for i := range 200 {
		fmt.Fprintf(&many, "X%d=%d,", i, i)
	}
	for _, in := range []string{
		"T=1,P=2,B=3,H=90",
		"H=90,B=3,P=2,T=1",
		"B=3,T=1,P=2,H=90",
		many.String() + "P=2,B=3,H=90",
		many.String() + "H=90,B=3,P=2",
	} {
		var s stream.Sample
		if err := d.Decode([]byte(in), 0, &s); err != nil || s.Value(stream.Pitch) != 2 || s.Value(stream.Bank) != 3 ||
			s.Value(stream.Heading) != 90 {
			t.Errorf("%.40s: %v, %+v", in, err, s)
		}
	}
}

// Without a map of the user's the one that knows most of the names is used, and again after a record that it cannot
// read: FlightGear's names, then those of X-Plane's.
func TestPairsChooseTheMap(t *testing.T) {
	maps := []*mapping.Map{}
	for i, names := range [][2]string{{"roll", "nose"}, {"phi", "theta"}} {
		m, err := mapping.Load(fmt.Sprintf("%d.toml", i), []byte(fmt.Sprintf("sources = [\n"+
			"{ name = %q, channel = 'bank', unit = 'deg' },\n{ name = %q, channel = 'pitch', unit = 'deg' },\n]\n",
			names[0], names[1])))
		if err != nil {
			t.Fatal(err)
		}
		maps = append(maps, m)
	}
	d := text.Pairs.New(&format.Options{Maps: maps})
	for _, step := range []struct {
		in  string
		err error
	}{
		{"roll=3,nose=2", nil},
		{"phi=3,theta=2", fault.ErrNoChannels}, // not of the map that was chosen, which is given up
		{"phi=3,theta=2", nil},
		{"phi=3,theta=2,nose=7", nil},
	} {
		var s stream.Sample
		if err := d.Decode([]byte(step.in), 0, &s); err != step.err {
			t.Errorf("%s: error %v; must be %v", step.in, err, step.err)
		} else if err == nil && (s.Value(stream.Bank) != 3 || s.Value(stream.Pitch) != 2) {
			t.Errorf("%s: %+v", step.in, s)
		}
	}
}

// What can be claimed of a datagram by its first bytes.
func TestClaims(t *testing.T) {
	colons := &format.Options{Map: userMap(t, "assign = ':'")}
	for _, c := range []struct {
		in             string
		options        *format.Options
		pairs, columns bool
	}{
		{"a=1,b=2", &format.Options{}, true, false},
		{"1,2,3", &format.Options{}, false, true},
		{"-1,2", &format.Options{}, false, true},
		{"=1", &format.Options{}, false, true}, // no name before the sign
		{"<LABELS>,a", &format.Options{}, false, true},
		{"<STATUS>,a", &format.Options{}, false, true},
		{"a:1", colons, true, false},
		{"a=1,b", colons, false, true},
		{"\x00\x01\x02", &format.Options{}, false, false},
		{"\xFFabc", &format.Options{}, false, false},
		{"abc\x7F", &format.Options{}, false, false},
		{"", &format.Options{}, false, false},
	} {
		d := &format.Datagram{Bytes: []byte(c.in), Head: []byte(c.in), Options: c.options}
		pairs, columns := text.Pairs.Recognize(d), text.Columns.Recognize(d)
		if (pairs != format.No) != c.pairs || (columns != format.No) != c.columns {
			t.Errorf("%q: pairs %v, columns %v; must be %v, %v", c.in, pairs, columns, c.pairs, c.columns)
		}
	}
}

// A stream without labels is believed after five lines in a row that fit the one map with as many columns, and not
// where a line breaks the row.
func TestColumnsOnTrial(t *testing.T) {
	m := userMap(t, "order = ['T', 'P', 'B', 'H']\n")
	lines := func(n int, at float64) (list []string) {
		for i := range n {
			list = append(list, fmt.Sprintf("%g,2,3,90\n", at+float64(i)))
		}
		return list
	}
	for name, c := range map[string]struct {
		in   []string
		read int // the first line that is read, from 0; −1 for none
	}{
		"five lines":             {lines(6, 1), 4},
		"a time that goes back":  {append(lines(4, 9), lines(6, 1)...), 9},
		"a value out of range":   {append(append(lines(4, 1), "5,95,3,90\n"), lines(6, 6)...), 9},
		"a word among them":      {append(append(lines(4, 1), "5,2,x,90\n"), lines(6, 6)...), 9},
		"another number of them": {append(append(lines(4, 1), "5,2\n"), lines(6, 6)...), 9},
		"too few":                {lines(4, 1), -1},
	} {
		d := text.Columns.New(&format.Options{Maps: []*mapping.Map{m}})
		first := -1
		for i, line := range c.in {
			var s stream.Sample
			if err := d.Decode([]byte(line), 0, &s); err == nil && first < 0 {
				if first = i; s.Value(stream.Pitch) != 2 || s.Value(stream.Heading) != 90 {
					t.Errorf("%s: %+v", name, s)
				}
			}
		}
		if first != c.read {
			t.Errorf("%s: read from line %d on; must be %d", name, first, c.read)
		}
	}
}

// Two maps of as many columns leave it open which is meant.
func TestColumnsOfTwoMaps(t *testing.T) {
	m := userMap(t, "order = ['T', 'P', 'B', 'H']\n")
	d := text.Columns.New(&format.Options{Maps: []*mapping.Map{m, m}})
	for i := range 20 {
		var s stream.Sample
		if err := d.Decode(fmt.Appendf(nil, "%d,2,3,90\n", i), 0, &s); err != fault.ErrNoLabels {
			t.Fatalf("line %d: %v", i, err)
		}
	}
}

// What a user is told of columns that cannot be read: how many came, and what the map lists.
func TestColumnsAdvice(t *testing.T) {
	ordered, unordered := userMap(t, "order = ['T', 'P', 'B', 'H']\n"), userMap(t, "")
	for name, c := range map[string]struct {
		options *format.Options
		in      string
		want    phrase.Phrase
	}{
		"a map of another order": {&format.Options{Map: ordered, Maps: []*mapping.Map{ordered}}, "1,2,3\n",
			phrase.ColumnsInOrder.Of(phrase.Int("columns", 3), phrase.Name("map", "mine"), phrase.Int("listed", 4))},
		"a map without an order": {&format.Options{Map: unordered, Maps: []*mapping.Map{unordered}}, "1,2,3\n",
			phrase.ColumnsOfMap.Of(phrase.Int("columns", 3), phrase.Name("map", "mine"))},
		"as many as a map has, but unlike it": {&format.Options{Maps: []*mapping.Map{ordered}}, "1,95,3,90\n",
			phrase.ColumnsUnlike.Of(phrase.Int("columns", 4))},
		"as many as no map has": {&format.Options{Maps: []*mapping.Map{ordered}}, "1,2,3\n",
			phrase.ColumnsUnknown.Of(phrase.Int("columns", 3))},
	} {
		d := text.Columns.New(c.options)
		for range format.Patience {
			var s stream.Sample
			_ = d.Decode([]byte(c.in), 0, &s)
		}
		if got := d.Advice(format.Silence{Failures: format.Patience}); got.String() != c.want.String() {
			t.Errorf("%s: %q; must be %q", name, got, c.want)
		}
		if got := d.Advice(format.Silence{Failures: format.Patience - 1}); got.Code() != "" {
			t.Errorf("%s: %q after a line less", name, got)
		}
	}
}

// A plan that fails for long is given up for another, once there are labels or lines of another kind; a map of the
// user's is not.
func TestColumnsChange(t *testing.T) {
	d := text.Columns.New(format.Options{}.Complete())
	feed := func(line string) (s stream.Sample, err error) {
		err = d.Decode([]byte(line), 0, &s)
		return s, err
	}
	if _, err := feed("<LABELS>,Time,psi-deg,theta-deg,phi-deg"); err != fault.ErrLabels {
		t.Fatal(err)
	}
	if s, err := feed("1,90,2,3\n"); err != nil || s.Value(stream.Pitch) != 2 || d.Name() != "text with labels" {
		t.Errorf("%v, %q", err, d.Name())
	}
	if _, err := feed("<LABELS>,Time,phi-deg,theta-deg,psi-deg"); err != fault.ErrLabels {
		t.Fatal(err)
	}
	if s, err := feed("1,3,2,90\n"); err != nil || s.Value(stream.Bank) != 3 || s.Value(stream.Heading) != 90 {
		t.Errorf("after other labels: %v, %+v", err, s)
	}
	for i := range format.Patience - 1 {
		if _, err := feed("1,3\n"); err != fault.ErrTruncated {
			t.Fatalf("line %d: %v", i, err)
		}
	}
	if _, err := feed("1,3\n"); err != fault.ErrNoLabels {
		t.Errorf("after %d lines: %v", format.Patience, err)
	}
}
