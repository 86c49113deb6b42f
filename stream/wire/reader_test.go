package wire_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/scan"
	"halfturn/stream/wire/wiretest"
)

// TestBadInput gives each reader what a network can bring. Nothing of it may become a sample.
func TestBadInput(t *testing.T) {
	labels := "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts\n"
	row17 := string(wiretest.Encode(t, "rows", wiretest.SampleOf(stream.Pitch, 1, stream.Bank, 2, stream.Heading, 3)))
	tests := []struct {
		name, first, in string
		want            error
	}{
		{"empty", "", "", fault.ErrEmpty},
		{"blanks", "", " \r\n\t ", fault.ErrEmpty},
		{"binary junk", "", "\x01\x02\x03\x04junk", fault.ErrUnknown},
		{"zeros", "", strings.Repeat("\x00", 400), fault.ErrUnknown},
		{"prose", "", "hello, simulator, how, are, you", fault.ErrUnknown},
		{"wrong magic", "", "DATUM" + row17[5:], fault.ErrUnknown},
		{"lower-case magic", "", "data*" + row17[5:], fault.ErrUnknown},
		{"header only", "", "DATA*", fault.ErrTruncated},
		{"row cut short", "", row17[:len(row17)-1], fault.ErrTruncated},
		{"row too long", "", row17 + "\x00", fault.ErrTruncated},
		{"rows without attitude", "", "DATA*" + "\x03" + strings.Repeat("\x00", 35), fault.ErrPart},
		{"row 17 all filler", "", "DATA*\x11\x00\x00\x00" + strings.Repeat("\x00\xc0\x79\xc4", 8), fault.ErrMalformed},
		{"row 17 all NaN", "", "DATA*\x11\x00\x00\x00" + strings.Repeat("\x00\x00\xc0\x7f", 8), fault.ErrValue},
		{"columns without labels", "", "1,2,3\n", fault.ErrNoLabels},
		{"labels nobody knows", "", "<LABELS> ,foo,bar\n", fault.ErrNoChannels},
		{"labels without end", "", "<LABELS> " + strings.Repeat(",a", mapping.MaxColumns+5), fault.ErrTooLong},
		{"status line", "", "<STATUS>re-trimmed\n", fault.ErrStatus},
		{"status line later", labels, "<STATUS>re-trimmed\n", fault.ErrStatus},
		{"too few columns", labels, "1,90,2,0\n", fault.ErrTruncated},
		{"too many columns", labels, "1,90,2,0,100,7\n", fault.ErrMalformed},
		{"decimal commas", labels, "1,5,90,1,2,0,0,5,100,2\n", fault.ErrMalformed},
		{"no numbers", labels, "a,b,c,d,e\n", fault.ErrValue},
		{"time not a number", labels, "soon,90,2,0,100\n", fault.ErrValue},
		{"time negative", labels, "-1,90,2,0,100\n", fault.ErrValue},
		{"all empty", labels, ",,,,\n", fault.ErrMalformed},
		{"foreign digits", labels, "١,٩٠,٢,٠,١\n", fault.ErrUnknown},
		{"UTF-16 with mark", "", "\xff\xfe1\x00,\x002\x00", fault.ErrEncoding},
		{"UTF-16 without mark", "", "1\x00,\x002\x00,\x00", fault.ErrEncoding},
		{"line too long", labels, "1," + strings.Repeat("0", scan.MaxLine) + ",2,0,100\n", fault.ErrTooLong},
		{"pairs with decimal commas", "", "t=1,5;pitch=2,5;roll=0,1", fault.ErrMalformed},
		{"pairs nobody knows", "", "foo=1;bar=2", fault.ErrNoChannels},
		{"pairs too long", "", "t=1;" + strings.Repeat("x", scan.MaxLine), fault.ErrTooLong},
		{"JSON array", "", `{"time":1,"heading":[1,2]`, fault.ErrTruncated},
		{"JSON cut short", "", `{"time":1,"head`, fault.ErrTruncated},
		{"JSON without colon", "", `{"time" 1}`, fault.ErrMalformed},
		{"JSON with more after it", "", `{"time":1} x`, fault.ErrMalformed},
		{"JSON with more in the next line", "", "{\"time\":1,\"heading\":90}\nmore", fault.ErrMalformed},
		{"JSON with more lines", "", "{\"time\":1,\"heading\":90}\nmore\n", fault.ErrMalformed},
		{"JSON and a number", "", "{\"time\":1,\"heading\":90}\n5", fault.ErrMalformed},
		{"JSON objects in one line", "", `{"time":1}{"time":2}`, fault.ErrMalformed},
		{"JSON list of objects", "", `[{"time":1,"heading":90}]`, fault.ErrUnknown},
		{"JSON null", "", `null`, fault.ErrUnknown},
		{"JSON nulls", "", `{"time":null,"heading":null}`, fault.ErrNoChannels},
		{"JSON value, then null", "", `{"heading":90,"heading":null}`, fault.ErrNoChannels},
		{"JSON word that begins like null", "", `{"time":nullify}`, fault.ErrMalformed},
		{"JSON cut in a word", "", `{"time":1,"on-ground":tr`, fault.ErrTruncated},
		{"JSON cut in a number", "", `{"time":1,"bank":-`, fault.ErrTruncated},
		{"JSON time is a text", "", `{"time":"12","heading":90}`, fault.ErrValue},
		{"JSON time in ms since 1970", "", `{"time":1790000000123,"heading":90}`, fault.ErrValue},
		{"JSON without names", "", `{1:2}`, fault.ErrMalformed},
		{"JSON comma at the end", "", `{"time":1,}`, fault.ErrMalformed},
		{"JSON nobody knows", "", `{"foo":1}`, fault.ErrNoChannels},
		{"JSON empty", "", `{}`, fault.ErrNoChannels},
		{"JSON deep", "", `{"x":` + strings.Repeat("[", 8000), fault.ErrTruncated},
		{"format changed", labels, `{"time":1,"heading":90}`, fault.ErrChanged},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := wire.NewReader(format.Options{})
			s := *wiretest.SampleOf(stream.Bank, 5)
			if tt.first != "" {
				if err := r.Decode([]byte(tt.first), 0, &s); err != fault.ErrLabels {
					t.Fatal(err)
				}
			}
			if err := r.Decode([]byte(tt.in), 0, &s); err != tt.want {
				t.Fatalf("error %v; must be %v", err, tt.want)
			}
			if s != (stream.Sample{}) {
				t.Errorf("the sample is not empty: %+v", s)
			}
		})
	}
}

// TestBadValues: a value that cannot be believed loses its channel, not the sample.
func TestBadValues(t *testing.T) {
	labels := "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts\n"
	for _, field := range []string{"nan", "NaN", "-nan", "inf", "-Infinity", "1e999", "-1e400",
		"1" + strings.Repeat("0", 400),
		"95", "n/a", "1.2.3", "0x1p4", "1_0", "1e", "--1", "2x"} {
		for name, in := range map[string]string{
			"text with labels": "1," + "90," + field + ",3,100\n",
			"text pairs":       "t=1;hdg_true=90;pitch=" + field + ";roll=3;cas_kt=100\n",
		} {
			t.Run(name+"/"+field, func(t *testing.T) {
				r := wire.NewReader(format.Options{})
				var s stream.Sample
				if name == "text with labels" {
					r.Decode([]byte(labels), 0, &s)
				}
				s = wiretest.Decode(t, r, []byte(in))
				if s.Has.Has(stream.Pitch) || !s.Bad.Has(stream.Pitch) || s.Value(stream.Bank) != 3 ||
					s.Value(stream.Airspeed) != 100 {
					t.Errorf("has %v, bad %v, bank %v", s.Has.Names(), s.Bad.Names(), s.Value(stream.Bank))
				}
			})
		}
	}
	s := wiretest.Decode(t, wire.NewReader(format.Options{}),
		[]byte(`{"time":1,"pitch":95,"bank":"3","heading":true,"airspeed":null,"on-ground":true}`))
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
		"JSON with more": {`{"a":{"b":[1,"}",{"c":"\""}]},"time":1,"s":"x\\","heading":90,"n":null,` +
			`"pitch":2,"bank":3,"airspeed":100,"t":true}`},
		"JSON lines": {"{\"time\":0}\n{\"time\":1,\"heading\":90,\"pitch\":2,\"bank\":3,\"airspeed\":100}\n"},
		"JSON, cut line": {`{"time":1,"heading":90,"pitch":2,"bank":3,"airspeed":100}` + "\n" +
			`{"time":1.1,"heading":9`},
		"JSON, null twice": {`{"time":1,"bank":null,"heading":90,"pitch":2,"bank":3,"airspeed":100,` +
			`"track":5,"track":null}`},
		"JSON, name twice": {`{"time":1,"heading":500000000,"heading":90,"pitch":2,"bank":3,"airspeed":100}`},
	} {
		t.Run(name, func(t *testing.T) {
			if name == "JSON spaced" {
				in = []string{strings.ReplaceAll(in[0], "\n", " ")}
			}
			r := wire.NewReader(format.Options{})
			var s stream.Sample
			for i, b := range in {
				err := r.Decode([]byte(b), 0, &s)
				if i < len(in)-1 && err != fault.ErrLabels || i == len(in)-1 && err != nil {
					t.Fatalf("datagram %d: %v", i, err)
				}
			}
			want := *wiretest.SampleOf(stream.Time, 1, stream.Heading, 90, stream.Pitch, 2, stream.Bank, 3,
				stream.Airspeed, 100)
			if s != want {
				t.Errorf("got %+v", s)
			}
		})
	}
}

// TestMagnetic: a magnetic heading is used only when no true one is there, and said to be so.
func TestMagnetic(t *testing.T) {
	for _, in := range []string{"t=1;hdg_mag=80", `{"heading":80,"magnetic":true}`} {
		if s := wiretest.Decode(t, wire.NewReader(format.Options{}), []byte(in)); !s.Magnetic ||
			s.Value(stream.Heading) != 80 {
			t.Errorf("%s: %+v", in, s)
		}
	}
	magnetic := wiretest.Encode(t, "rows",
		func() *stream.Sample { s := wiretest.SampleOf(stream.Heading, 80); s.Magnetic = true; return s }())
	if s := wiretest.Decode(t, wire.NewReader(format.Options{}), magnetic); !s.Magnetic ||
		s.Value(stream.Heading) != 80 {
		t.Errorf("rows: %+v", s)
	}
}

// TestChange: a stray datagram changes nothing; a sender that sends something else for good
// is followed, and one that goes back to lines without labels keeps those it had.
func TestChange(t *testing.T) {
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	r.Decode([]byte("<LABELS> ,Time,psi-deg,theta-deg\n"), 0, &s)
	line, object := []byte("1,90,2\n"), []byte(`{"time":1,"heading":70}`)
	wiretest.Decode(t, r, line)
	for i := range format.Patience {
		if err := r.Decode(object, 0, &s); err != fault.ErrChanged {
			t.Fatalf("datagram %d: %v", i, err)
		}
	}
	if wiretest.Decode(t, r, object); r.Format() != "JSON lines" {
		t.Fatal(r.Format())
	}
	for range format.Patience {
		r.Decode(line, 0, &s)
	}
	if s := wiretest.Decode(t, r, line); r.Format() != "text with labels" || s.Value(stream.Heading) != 90 {
		t.Fatal(r.Format(), s)
	}
	if err := r.Decode([]byte("<LABELS> ,Time,theta-deg,psi-deg\n"), 0, &s); err != fault.ErrLabels {
		t.Fatal(err)
	}
	if s := wiretest.Decode(t, r, line); s.Value(stream.Heading) != 2 {
		t.Fatal("new labels were not taken")
	}
	if err := r.Decode([]byte("1,90,2,4\n"), 0, &s); err != fault.ErrMalformed {
		t.Fatal("a line of another shape:", err)
	}
}

// TestUnlabeled: a map is believed only when it is the only one with that many columns and
// the lines bear it out.
func TestUnlabeled(t *testing.T) {
	lines := wiretest.ReadLines(t, "flights/nolabels.txt")
	lenient := func(name string) *mapping.Map {
		order := strings.Repeat(`"x",`, 28)
		m, err := mapping.Load(name, []byte("order = ["+order+`"y"]`+"\nsources = [{name=\"y\", channel=\"time\", "+
			"unit=\"s\"}]"))
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
		options format.Options
		lines   [][]byte
		format  string
		advice  string
	}{
		{"as recorded", format.Options{}, lines, "text columns", ""},
		{"two maps fit", format.Options{Maps: append(mapping.Shipped(), lenient("other.toml"))}, lines, "",
			"--map FILE"},
		{"time falls", format.Options{}, backward, "", "--map FILE"},
		{"another count", format.Options{}, spoil(",", ",0,"), "", "30 columns without labels"},
		{"heading out of range", format.Options{}, spoil("135.1715", "435.1715")[:5], "", "--map FILE"},
		{"text in a column", format.Options{}, spoil("7100.106", "7100.106x")[:5], "", "--map FILE"},
		{"a map of the user's", format.Options{Map: mapping.ShippedNamed("jsbsim")}, lines, "text columns", ""},
		{"a wrong map of the user's", format.Options{Map: mapping.ShippedNamed("flightgear")}, lines, "",
			"The stream has 29 columns, the map \"flightgear\" lists 41"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := wire.NewReader(tt.options)
			wiretest.DecodeAll(r, tt.lines)
			if r.Format() != tt.format || !strings.Contains(r.Advice().String(), tt.advice) ||
				(tt.advice == "") != r.Advice().IsZero() {
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
		r := wire.NewReader(format.Options{})
		var s stream.Sample
		for range 5 {
			r.Decode([]byte(in), 0, &s)
		}
		if !strings.Contains(r.Advice().String(), want) || r.Format() != "" {
			t.Errorf("%.20q: advice %q, format %q", in, r.Advice(), r.Format())
		}
	}
	r := wire.NewReader(format.Options{})
	good := []byte(`{"time":1,"heading":70}`)
	var s stream.Sample
	for range 5 {
		r.Decode(good[:9], 0, &s)
	}
	wiretest.Decode(t, r, good)
	if !r.Advice().IsZero() {
		t.Error("advice though all is well:", r.Advice())
	}
}
