package wire

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"halfturn/stream"
)

// TestBadInput gives each reader what a network can bring. Nothing of it may become a sample.
func TestBadInput(t *testing.T) {
	labels := "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts\n"
	row17 := string(rowEncoder{}.Append(nil, sampleOf(stream.Pitch, 1, stream.Bank, 2, stream.Heading, 3)))
	tests := []struct {
		name, first, in string
		want            error
	}{
		{"empty", "", "", ErrEmpty},
		{"blanks", "", " \r\n\t ", ErrEmpty},
		{"binary junk", "", "\x01\x02\x03\x04junk", ErrUnknown},
		{"zeros", "", strings.Repeat("\x00", 400), ErrUnknown},
		{"prose", "", "hello, simulator, how, are, you", ErrUnknown},
		{"wrong magic", "", "DATUM" + row17[5:], ErrUnknown},
		{"lower-case magic", "", "data*" + row17[5:], ErrUnknown},
		{"header only", "", "DATA*", ErrTruncated},
		{"row cut short", "", row17[:len(row17)-1], ErrTruncated},
		{"row too long", "", row17 + "\x00", ErrTruncated},
		{"rows without attitude", "", "DATA*" + "\x03" + strings.Repeat("\x00", 35), ErrPart},
		{"row 17 all filler", "", "DATA*\x11\x00\x00\x00" + strings.Repeat("\x00\xc0\x79\xc4", 8), ErrMalformed},
		{"row 17 all NaN", "", "DATA*\x11\x00\x00\x00" + strings.Repeat("\x00\x00\xc0\x7f", 8), ErrValue},
		{"columns without labels", "", "1,2,3\n", ErrNoLabels},
		{"labels nobody knows", "", "<LABELS> ,foo,bar\n", ErrNoChannels},
		{"labels without end", "", "<LABELS> " + strings.Repeat(",a", maxColumns+5), ErrTooLong},
		{"status line", "", "<STATUS>re-trimmed\n", ErrStatus},
		{"status line later", labels, "<STATUS>re-trimmed\n", ErrStatus},
		{"too few columns", labels, "1,90,2,0\n", ErrTruncated},
		{"too many columns", labels, "1,90,2,0,100,7\n", ErrMalformed},
		{"decimal commas", labels, "1,5,90,1,2,0,0,5,100,2\n", ErrMalformed},
		{"no numbers", labels, "a,b,c,d,e\n", ErrValue},
		{"time not a number", labels, "soon,90,2,0,100\n", ErrValue},
		{"time negative", labels, "-1,90,2,0,100\n", ErrValue},
		{"all empty", labels, ",,,,\n", ErrMalformed},
		{"foreign digits", labels, "١,٩٠,٢,٠,١\n", ErrUnknown},
		{"UTF-16 with mark", "", "\xff\xfe1\x00,\x002\x00", ErrEncoding},
		{"UTF-16 without mark", "", "1\x00,\x002\x00,\x00", ErrEncoding},
		{"line too long", labels, "1," + strings.Repeat("0", maxLine) + ",2,0,100\n", ErrTooLong},
		{"pairs with decimal commas", "", "t=1,5;pitch=2,5;roll=0,1", ErrMalformed},
		{"pairs nobody knows", "", "foo=1;bar=2", ErrNoChannels},
		{"pairs too long", "", "t=1;" + strings.Repeat("x", maxLine), ErrTooLong},
		{"JSON array", "", `{"time":1,"heading":[1,2]`, ErrTruncated},
		{"JSON cut short", "", `{"time":1,"head`, ErrTruncated},
		{"JSON without colon", "", `{"time" 1}`, ErrMalformed},
		{"JSON with more after it", "", `{"time":1} x`, ErrMalformed},
		{"JSON with more in the next line", "", "{\"time\":1,\"heading\":90}\nmore", ErrMalformed},
		{"JSON with more lines", "", "{\"time\":1,\"heading\":90}\nmore\n", ErrMalformed},
		{"JSON and a number", "", "{\"time\":1,\"heading\":90}\n5", ErrMalformed},
		{"JSON objects in one line", "", `{"time":1}{"time":2}`, ErrMalformed},
		{"JSON list of objects", "", `[{"time":1,"heading":90}]`, ErrUnknown},
		{"JSON null", "", `null`, ErrUnknown},
		{"JSON nulls", "", `{"time":null,"heading":null}`, ErrNoChannels},
		{"JSON value, then null", "", `{"heading":90,"heading":null}`, ErrNoChannels},
		{"JSON word that begins like null", "", `{"time":nullify}`, ErrMalformed},
		{"JSON cut in a word", "", `{"time":1,"on-ground":tr`, ErrTruncated},
		{"JSON cut in a number", "", `{"time":1,"bank":-`, ErrTruncated},
		{"JSON time is a text", "", `{"time":"12","heading":90}`, ErrValue},
		{"JSON time in ms since 1970", "", `{"time":1790000000123,"heading":90}`, ErrValue},
		{"JSON without names", "", `{1:2}`, ErrMalformed},
		{"JSON comma at the end", "", `{"time":1,}`, ErrMalformed},
		{"JSON nobody knows", "", `{"foo":1}`, ErrNoChannels},
		{"JSON empty", "", `{}`, ErrNoChannels},
		{"JSON deep", "", `{"x":` + strings.Repeat("[", 8000), ErrTruncated},
		{"format changed", labels, `{"time":1,"heading":90}`, ErrChanged},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := NewReader(Options{})
			s := *sampleOf(stream.Bank, 5)
			if tt.first != "" {
				if err := r.Decode([]byte(tt.first), &s); err != ErrLabels {
					t.Fatal(err)
				}
			}
			if err := r.Decode([]byte(tt.in), &s); err != tt.want {
				t.Fatalf("error %v, want %v", err, tt.want)
			}
			if s != (stream.Sample{}) {
				t.Errorf("the sample is not empty: %+v", s)
			}
		})
	}
}

// sampleOf makes a sample from channels and values.
func sampleOf(pairs ...any) *stream.Sample {
	var s stream.Sample
	for i := 0; i < len(pairs); i += 2 {
		switch v := pairs[i+1].(type) {
		case int:
			s.Put(pairs[i].(stream.Channel), float64(v))
		case float64:
			s.Put(pairs[i].(stream.Channel), v)
		}
	}
	return &s
}

// TestBadValues: a value that cannot be believed loses its channel, not the sample.
func TestBadValues(t *testing.T) {
	labels := "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts\n"
	for _, field := range []string{"nan", "NaN", "-nan", "inf", "-Infinity", "1e999", "-1e400", "1" + strings.Repeat("0", 400),
		"95", "n/a", "1.2.3", "0x1p4", "1_0", "1e", "--1", "2x"} {
		for name, in := range map[string]string{
			"text with labels": "1," + "90," + field + ",3,100\n",
			"text pairs":       "t=1;hdg_true=90;pitch=" + field + ";roll=3;cas_kt=100\n",
		} {
			t.Run(name+"/"+field, func(t *testing.T) {
				r := NewReader(Options{})
				var s stream.Sample
				if name == "text with labels" {
					r.Decode([]byte(labels), &s)
				}
				s = mustDecode(t, r, []byte(in))
				if s.Has.Has(stream.Pitch) || !s.Bad.Has(stream.Pitch) || s.Value(stream.Bank) != 3 || s.Value(stream.Airspeed) != 100 {
					t.Errorf("has %v, bad %v, bank %v", s.Has.Names(), s.Bad.Names(), s.Value(stream.Bank))
				}
			})
		}
	}
	s := mustDecode(t, NewReader(Options{}), []byte(`{"time":1,"pitch":95,"bank":"3","heading":true,"airspeed":null,"on-ground":true}`))
	if got := fmt.Sprint(s.Bad.Names(), s.Has.Names()); got != "[heading pitch bank] [time on-ground]" {
		t.Error(got)
	}
}

// TestOddButRight: forms that real senders use and that must be read.
func TestOddButRight(t *testing.T) {
	labels := "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts\n"
	for name, in := range map[string][]string{
		"padded":             {labels, "           1,          90,           2,           3,         100\n"},
		"exponents":          {labels, "1e0,9.0E+01,2000e-3,3,1.00e2\n"},
		"no line end":        {labels, "1,90,2,3,100"},
		"DOS line end":       {labels, "1,90,2,3,100\r\n"},
		"NUL counted in":     {labels, "1,90,2,3,100\n\x00"},
		"labels and data":    {labels + "1,90,2,3,100\n"},
		"last of three":      {labels, "0.8,80,2,3,99\n0.9,85,2,3,99\n1,90,2,3,100\n"},
		"last line cut":      {labels, "1,90,2,3,100\n1.1,91,2"},
		"labels repeated":    {labels, labels, "1,90,2,3,100\n"},
		"labels, no marker":  {"Time,psi-deg,theta-deg,phi-deg,vc-kts\n", "1,90,2,3,100\n"},
		"semicolons":         {"Time;psi-deg;theta-deg;phi-deg;vc-kts\n", "1;90;2;3;100\n"},
		"tabs":               {"Time\tpsi-deg\ttheta-deg\tphi-deg\tvc-kts\n", "1\t90\t2\t3\t100\n"},
		"byte order mark":    {"\xEF\xBB\xBF" + labels, "\xEF\xBB\xBF1,90,2,3,100\n"},
		"same label twice":   {"<LABELS> ,Time,psi-deg,psi-deg,theta-deg,phi-deg,vc-kts\n", "1,90,270,2,3,100\n"},
		"radians":            {"<LABELS> ,Time,psi-rad,theta-deg,phi-deg,vc-kts\n", "1,1.5707963267948966,2,3,100\n"},
		"degrees go first":   {"<LABELS> ,Time,psi-rad,psi-deg,theta-deg,phi-deg,vc-kts\n", "1,9,90,2,3,100\n"},
		"pairs, one a line":  {"t=1\nhdg_true=90\npitch=2\nroll=3\ncas_kt=100\n"},
		"pairs, two records": {"t=0;hdg_true=9;pitch=9;roll=9;cas_kt=9\nt=1;hdg_true=90;pitch=2;roll=3;cas_kt=100\n"},
		"pairs with blanks":  {" t = 1 ; hdg_true = 90 ; pitch = 2;roll=3;cas_kt=100;"},
		"pairs, commas":      {"t=1,hdg_true=90,pitch=2,roll=3,cas_kt=100"},
		"pairs, true wins":   {"t=1;hdg_true=90;hdg_mag=80;ias_kt=1;pitch=2;roll=3;cas_kt=100"},
		"pairs, true later":  {"t=1;hdg_mag=80;hdg_true=90;ias_kt=1;pitch=2;roll=3;cas_kt=100"},
		"JSON":               {`{"time":1,"heading":90,"pitch":2,"bank":3,"airspeed":1e2}`},
		"JSON spaced":        {"  { \"time\" : 1 , \"heading\":90,\n\t\"pitch\":2,\"bank\":3,\"airspeed\":100 } "},
		"JSON with more":     {`{"a":{"b":[1,"}",{"c":"\""}]},"time":1,"s":"x\\","heading":90,"n":null,"pitch":2,"bank":3,"airspeed":100,"t":true}`},
		"JSON lines":         {"{\"time\":0}\n{\"time\":1,\"heading\":90,\"pitch\":2,\"bank\":3,\"airspeed\":100}\n"},
		"JSON, cut line":     {"{\"time\":1,\"heading\":90,\"pitch\":2,\"bank\":3,\"airspeed\":100}\n{\"time\":1.1,\"heading\":9"},
		"JSON, null twice":   {`{"time":1,"bank":null,"heading":90,"pitch":2,"bank":3,"airspeed":100,"track":5,"track":null}`},
		"JSON, name twice":   {`{"time":1,"heading":500000000,"heading":90,"pitch":2,"bank":3,"airspeed":100}`},
	} {
		t.Run(name, func(t *testing.T) {
			if name == "JSON spaced" {
				in = []string{strings.ReplaceAll(in[0], "\n", " ")}
			}
			r := NewReader(Options{})
			var s stream.Sample
			for i, b := range in {
				err := r.Decode([]byte(b), &s)
				if i < len(in)-1 && err != ErrLabels || i == len(in)-1 && err != nil {
					t.Fatalf("datagram %d: %v", i, err)
				}
			}
			want := *sampleOf(stream.Time, 1, stream.Heading, 90, stream.Pitch, 2, stream.Bank, 3, stream.Airspeed, 100)
			if s != want {
				t.Errorf("got %+v", s)
			}
		})
	}
}

// TestMagnetic: a magnetic heading is used only when no true one is there, and said to be so.
func TestMagnetic(t *testing.T) {
	for _, in := range []string{"t=1;hdg_mag=80", `{"heading":80,"magnetic":true}`} {
		if s := mustDecode(t, NewReader(Options{}), []byte(in)); !s.Magnetic || s.Value(stream.Heading) != 80 {
			t.Errorf("%s: %+v", in, s)
		}
	}
	magnetic := rowEncoder{}.Append(nil, func() *stream.Sample { s := sampleOf(stream.Heading, 80); s.Magnetic = true; return s }())
	if s := mustDecode(t, NewReader(Options{}), magnetic); !s.Magnetic || s.Value(stream.Heading) != 80 {
		t.Errorf("rows: %+v", s)
	}
}

// TestChange: a stray datagram changes nothing; a sender that sends something else for good
// is followed, and one that goes back to lines without labels keeps those it had.
func TestChange(t *testing.T) {
	r := NewReader(Options{})
	var s stream.Sample
	r.Decode([]byte("<LABELS> ,Time,psi-deg,theta-deg\n"), &s)
	line, object := []byte("1,90,2\n"), []byte(`{"time":1,"heading":70}`)
	mustDecode(t, r, line)
	for i := range patience {
		if err := r.Decode(object, &s); err != ErrChanged {
			t.Fatalf("datagram %d: %v", i, err)
		}
	}
	if mustDecode(t, r, object); r.Format() != "JSON lines" {
		t.Fatal(r.Format())
	}
	for range patience {
		r.Decode(line, &s)
	}
	if s := mustDecode(t, r, line); r.Format() != "text with labels" || s.Value(stream.Heading) != 90 {
		t.Fatal(r.Format(), s)
	}
	if err := r.Decode([]byte("<LABELS> ,Time,theta-deg,psi-deg\n"), &s); err != ErrLabels {
		t.Fatal(err)
	}
	if s := mustDecode(t, r, line); s.Value(stream.Heading) != 2 {
		t.Fatal("new labels were not taken")
	}
	if err := r.Decode([]byte("1,90,2,4\n"), &s); err != ErrMalformed {
		t.Fatal("a line of another shape:", err)
	}
}

// TestUnlabeled: a map is believed only when it is the only one with that many columns and
// the lines bear it out.
func TestUnlabeled(t *testing.T) {
	lines := datagrams(t, "flights/nolabels.txt")
	lenient := func(name string) *Map {
		order := strings.Repeat(`"x",`, 28)
		m, err := LoadMap(name, []byte("order = ["+order+`"y"]`+"\nsources = [{name=\"y\", channel=\"time\", unit=\"s\"}]"))
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	spoil := func(find, put string) [][]byte {
		var out [][]byte
		for _, l := range lines {
			out = append(out, bytes.Replace(l, []byte(find), []byte(put), 1))
		}
		return out
	}
	backward := append([][]byte{}, lines[:4]...)
	backward = append(backward, lines[0])
	for _, tt := range []struct {
		name    string
		options Options
		lines   [][]byte
		format  string
		advice  string
	}{
		{"as recorded", Options{}, lines, "text columns", ""},
		{"two maps fit", Options{Maps: append(ShippedMaps(), lenient("other.toml"))}, lines, "", "--map FILE"},
		{"time falls", Options{}, backward, "", "--map FILE"},
		{"another count", Options{}, spoil(",", ",0,"), "", "30 columns without labels"},
		{"heading out of range", Options{}, spoil("135.1715", "435.1715")[:5], "", "--map FILE"},
		{"text in a column", Options{}, spoil("7100.106", "7100.106x")[:5], "", "--map FILE"},
		{"a map of the user's", Options{Map: shippedMap("jsbsim")}, lines, "text columns", ""},
		{"a wrong map of the user's", Options{Map: shippedMap("flightgear")}, lines, "", "The stream has 29 columns, the map \"flightgear\" lists 41"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := NewReader(tt.options)
			decodeAllOf(r, tt.lines)
			if r.Format() != tt.format || !strings.Contains(r.Advice(), tt.advice) || (tt.advice == "") != (r.Advice() == "") {
				t.Errorf("format %q, advice %q", r.Format(), r.Advice())
			}
		})
	}
}

// TestAdvice: whatever cannot be read, the user is told what to do.
func TestAdvice(t *testing.T) {
	for in, want := range map[string]string{
		"DATA*\x03" + strings.Repeat("\x00", 35): "row 17",
		"$GPRMC,221743,A,2148.0000,N":            "NMEA",
		"BECN\x00\x01\x02":                       "beacon",
		"1,2,3":                                  "3 columns without labels",
		"\x01\x02":                               "Nothing in these datagrams",
	} {
		r := NewReader(Options{})
		var s stream.Sample
		for range 5 {
			r.Decode([]byte(in), &s)
		}
		if !strings.Contains(r.Advice(), want) || r.Format() != "" {
			t.Errorf("%.20q: advice %q, format %q", in, r.Advice(), r.Format())
		}
	}
	r := NewReader(Options{})
	good := []byte(`{"time":1,"heading":70}`)
	var s stream.Sample
	for range 5 {
		r.Decode(good[:9], &s)
	}
	mustDecode(t, r, good)
	if r.Advice() != "" {
		t.Error("advice though all is well:", r.Advice())
	}
}

// TestDecodeAll: every record of a datagram, in order, and the first fault.
func TestDecodeAll(t *testing.T) {
	all := func(r *Reader, in string) (times []float64, err error) {
		err = r.DecodeAll([]byte(in), func(s *stream.Sample) { times = append(times, s.Value(stream.Time)) })
		return times, err
	}
	for _, tt := range []struct {
		in, want string
		err      error
	}{
		{"<LABELS> ,Time,psi-deg\n1,90\n2,91\n", "[1 2]", nil},
		{"<LABELS> ,Time,psi-deg\n", "[]", ErrLabels},
		{"<LABELS> ,Time,psi-deg\n1,90\n2\n3,90\n", "[1 3]", ErrTruncated},
		{"{\"time\":1}\n\n{\"time\":2}\n{\"time\":3", "[1 2]", ErrTruncated},
		{"t=1;pitch=2\nt=2;pitch=2\nt=3;pitch=2", "[1 2 3]", nil},
		{"t=1\npitch=2\nt=2\npitch=2", "[1 2]", nil},
		{string(rowEncoder{}.Append(nil, sampleOf(stream.Time, 5, stream.Pitch, 1))), "[5]", nil},
		{"", "[]", ErrEmpty},
		{"\x01", "[]", ErrUnknown},
	} {
		times, err := all(NewReader(Options{}), tt.in)
		if fmt.Sprint(times) != tt.want || err != tt.err {
			t.Errorf("%q: %v, %v; want %v, %v", tt.in, times, err, tt.want, tt.err)
		}
	}
}

// TestReasons: every error of the package has a label that fits a metric.
func TestReasons(t *testing.T) {
	seen := map[string]bool{}
	for err, label := range reasons {
		if Reason(err) != label || label != "" && (seen[label] || strings.ContainsAny(label, " _\n") || label != strings.ToLower(label)) {
			t.Errorf("%v: %q", err, label)
		}
		seen[label] = true
	}
	if Reason(nil) != "" || Reason(fmt.Errorf("x")) != "other" {
		t.Error("nil or a foreign error")
	}
}
