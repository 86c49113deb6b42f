package wire_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

// Where one channel makes a stream useless, the advice names it and its value, whatever the format. GDL 90 is not
// among them: its attitude has a value for "none", and every other one can be.
func TestTheChannelThatMakesAStreamUselessIsNamed(t *testing.T) {
	const labels = "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts\n"
	noBank := wiretest.SampleOf(stream.Time, 5, stream.Heading, 90, stream.Pitch, 2, stream.Airspeed, 100,
		stream.Altitude, 5000,
		stream.Latitude, 47, stream.Longitude, 8, stream.GroundSpeed, 100, stream.Track, 90, stream.VerticalSpeed, 0)
	written := func(format string) string { // numbers of its own that a sample lacks are NaN
		e, err := encode.New(format)
		if err != nil {
			t.Fatal(err)
		}
		return string(e.Append(nil, noBank))
	}
	counted, err := mapping.Load("lines.toml", []byte("separator = \"newline\"\norder = [\"H\", \"P\"]\n"+
		"sources = [{ name = \"H\", channel = \"heading\", unit = \"deg\" }, { name = \"P\", channel = \"pitch\", "+
		"unit = \"deg\" }]"))
	if err != nil {
		t.Fatal(err)
	}
	tests := map[string]struct {
		options   format.Options
		first, in string
		want      string // how the advice begins
	}{
		"JSON, ms since 1970": {in: `{"time":1790000000123,"heading":90,"pitch":2,"bank":3}`,
			want: `The channel "time" is "1790000000123 s" in this stream`},
		"JSON, time before 0": {in: `{"time":-1.5,"heading":90,"pitch":2,"bank":3}`,
			want: `The channel "time" is "-1.5 s" in`},
		"JSON, time as a text": {in: `{"time":"12","heading":90,"pitch":2,"bank":3}`,
			want: `The channel "time" is no number`},
		"JSON, time not a number": {in: `{"time":NaN,"heading":90,"pitch":2,"bank":3}`,
			want: `The channel "time" is no number`},
		"JSON, pitch too high": {in: `{"time":1,"heading":90,"pitch":12034,"bank":3}`,
			want: `The channel "pitch" is "12034 °" in this stream`},
		"JSON, bank as a text": {in: `{"time":1,"heading":90,"pitch":2,"bank":"left"}`,
			want: `The channel "bank" is no number`},
		"JSON, two of them":  {in: `{"bank":1e9,"pitch":91,"time":1}`, want: `The channel "pitch" is "91 °"`},
		"JSON, nothing else": {in: `{"airspeed":1e300}`, want: `The channel "airspeed" is "1e+300 kt"`},
		"text with labels, time": {first: labels, in: "1790000000123,90,2,3,100\n",
			want: `The channel "time" is "1790000000123 s"`},
		"text with labels, words": {first: labels, in: "1,90,n/a,3,100\n", want: `The channel "pitch" is no number`},
		"text with labels, bank": {first: labels, in: "1,90,2,1234.5678,100\n",
			want: `The channel "bank" is "1234.568 °"`},
		"text columns": {options: format.Options{Map: mapping.ShippedNamed("flightgear")},
			in: strings.Repeat("nan,", 40) + "nan\n", want: `The channel "time" is no number`},
		"text pairs, time": {in: "t=1790000000123;hdg_true=90;pitch=2;roll=3",
			want: `The channel "time" is "1790000000123 s"`},
		"text pairs, words": {in: "t=1;hdg_true=north;pitch=2;roll=3",
			want: `The channel "heading" is no number`},
		"text lines, a value each": {options: format.Options{Map: counted}, in: "a\nb\n",
			want: `The channel "heading" is no number`},
		"DATA rows": {in: "DATA*\x11\x00\x00\x00" + "\x00\x00\x80\x3f" + "\x00\x00\xc0\x7f" +
			strings.Repeat("\x00\x00\x80\x3f", 6),
			want: `The channel "bank" is no number`},
		"RREF replies":     {in: "RREF,\x01\x00\x00\x00\x00\x00\xc0\x7f", want: `The channel "heading" is no number`},
		"position replies": {in: written("rpos"), want: `The channel "bank" is no number`},
		"tablet text":      {in: "XATTsim,90,2,left", want: `The channel "bank" is no number`},
		"FDM 24":           {in: written("fdm24"), want: `The channel "bank" is no number`},
		"FDM 25":           {in: written("fdm25"), want: `The channel "bank" is no number`},
		"MAVLink 1":        {in: written("mavlink1"), want: `The channel "bank" is no number`},
		"MAVLink 2":        {in: written("mavlink2"), want: `The channel "bank" is no number`},
		"generic binary":   {in: written("binary"), want: `The channel "bank" is no number`},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			r := wire.NewReader(tt.options)
			var s stream.Sample
			if tt.first != "" {
				_ = r.Decode([]byte(tt.first), 0, &s)
			}
			for i := range format.Patience {
				if advice := r.Advice().String(); i > 0 && strings.HasPrefix(advice, "The channel") {
					t.Errorf("after %d datagrams: %s", i, advice)
				}
				err := r.Decode([]byte(tt.in), float64(i), &s)
				if err == nil && s.Bad == 0 || r.Bad() == 0 {
					t.Fatalf("%v, has %v, bad %v", err, s.Has.Names(), r.Bad().Names())
				}
			}
			if r.Format() == "" {
				t.Error("the format is not told")
			}
			if got := r.Advice().String(); !strings.HasPrefix(got, tt.want) {
				t.Errorf("advice %q, want one that begins with %q", got, tt.want)
			}
		})
	}
}

// What is said of a stream is told and logged when it changes: it must stand while the stream stays as bad as it is.
func TestAdviceStandsWhileNothingChanges(t *testing.T) {
	for name, in := range map[string]func(i int) string{
		"a bad value": func(i int) string {
			return fmt.Sprintf(`{"time":%d,"heading":90}`,
				1790000000000+int64(i))
		},
		"a bad line":         func(i int) string { return fmt.Sprintf(`{"time":%d,"heading"=90}`, i) },
		"nothing known":      func(i int) string { return fmt.Sprintf("\x01\x02\x03%d", i) },
		"a bad line, before": func(i int) string { return fmt.Sprintf("t=%d;pitch=2,5;roll", i) },
	} {
		r := wire.NewReader(format.Options{})
		var s stream.Sample
		if err := r.Decode([]byte(`{"time":1,"heading":90}`), 0, &s); err != nil {
			t.Fatal(err)
		}
		said := map[string]bool{}
		for i := range 20 {
			_ = r.Decode([]byte(in(i)), float64(i), &s)
			if i >= format.Patience {
				said[r.Advice().String()] = true
			}
		}
		if len(said) != 1 || said[""] {
			t.Errorf("%s: %d advices, want one that stands: %v", name, len(said), said)
		}
	}
}

// A stray bad value, one that coaching can do without, and a stream that is mended need no word.
func TestNoChannelIsNamedWithoutNeed(t *testing.T) {
	good, bad := `{"time":%,"heading":90,"pitch":2,"bank":3}`, `{"time":%,"heading":90,"pitch":2,"bank":999}`
	for name, in := range map[string][]string{
		"never in a row": {bad, bad, good, bad, bad, good, bad},
		"mended":         {bad, bad, bad, bad, good},
		"one of little use": {`{"time":%,"heading":90,"pitch":2,"bank":3,"torque":1e9}`,
			`{"time":%,"heading":90,"pitch":2,"bank":3,"torque":1e9}`,
			`{"time":%,"heading":90,"pitch":2,"bank":3,"torque":1e9}`},
	} {
		r := wire.NewReader(format.Options{})
		var s stream.Sample
		for i, text := range in {
			_ = r.Decode([]byte(strings.ReplaceAll(text, "%", string(rune('1'+i)))), 0, &s)
		}
		if advice := r.Advice().String(); advice != "" {
			t.Errorf("%s: %s", name, advice)
		}
	}
}

// Seconds since 1970 are a time like any other, in every format with a clock that can hold it.
func TestUnixTimeIsTaken(t *testing.T) {
	const unix = 1790000000.125 // in September 2026
	const labels = "<LABELS> ,Time,psi-deg,theta-deg,phi-deg,vc-kts\n"
	binary, err := encode.New("binary")
	if err != nil {
		t.Fatal(err)
	}
	for name, in := range map[string][]string{
		"JSON lines":       {`{"time":1790000000.125,"heading":90,"pitch":2,"bank":3}`},
		"JSON, exponent":   {`{"time":1.790000000125e9,"heading":90,"pitch":2,"bank":3}`},
		"text with labels": {labels, "1790000000.125,90,2,3,100\n"},
		"text pairs":       {"t=1790000000.125;hdg_true=90;pitch=2;roll=3"},
		"generic binary": {string(binary.Append(nil,
			wiretest.SampleOf(stream.Time, unix, stream.Heading, 90, stream.Pitch, 2, stream.Bank, 3)))},
	} {
		r := wire.NewReader(format.Options{})
		var s stream.Sample
		for _, b := range in {
			err = r.Decode([]byte(b), 0, &s)
		}
		if err != nil || math.Abs(s.Value(stream.Time)-unix) > 1e-6 {
			t.Errorf("%s: time %v, %v", name, s.Value(stream.Time), err)
		}
	}
}
