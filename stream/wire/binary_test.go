package wire

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"

	"halfturn/configs"
	"halfturn/stream"
)

// binaryMap is the layout whose bytes the protocol's documentation shows (FlightGear,
// README.protocol, "Analyzing the resulting binary packet format"): int, float, float, int, bool.
func binaryMap(t testing.TB, order, footer string) *Map {
	t.Helper()
	m, err := LoadMap("layout.toml", fmt.Appendf(nil, `
sources = [
  { name = "ias", channel = "airspeed", unit = "kt" },
  { name = "pitch", channel = "pitch", unit = "deg" },
  { name = "hdg", channel = "heading", unit = "deg" },
  { name = "ap", channel = "paused", unit = "flag" },
]
[binary]
byte-order = %q
footer = %q
chunks = [
  { name = "ias", type = "int" }, { name = "pitch", type = "float" }, { name = "hdg", type = "float" },
  { name = "oat", type = "int" }, { name = "ap", type = "bool" },
]`, order, footer))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Records of that layout, computed by its rules: network order without footer, with a magic
// number and with the length; host order; and what is wrong with others.
func TestBinary(t *testing.T) {
	const record = "0000007040500000438740000000003b01"
	want := *sampleOf(stream.Airspeed, 112, stream.Pitch, 3.25, stream.Heading, 270.5, stream.Paused, 1)
	for name, tt := range map[string]struct {
		order, footer, in string
		err               error
	}{
		"plain":              {"network", "none", record, nil},
		"magic":              {"network", "0x12345678", record + "12345678", nil},
		"length":             {"network", "length", record + "00000011", nil},
		"host order":         {"host", "0x12345678", "70000000000050400040874" + "33b00000001" + "78563412", nil},
		"wrong magic":        {"network", "0x12345678", record + "12345679", ErrMalformed},
		"wrong length":       {"network", "length", record + "00000012", ErrMalformed},
		"no footer":          {"network", "length", record, ErrTruncated},
		"footer cut":         {"network", "length", record + "0000", ErrTruncated},
		"footer not awaited": {"network", "none", record + "00000011", ErrMalformed},
		"cut":                {"network", "none", record[:30], ErrTruncated},
		"text instead":       {"network", "none", fmt.Sprintf("%x", "1,2,3,4\n"), ErrTruncated},
	} {
		r := NewReader(Options{Map: binaryMap(t, tt.order, tt.footer)})
		var s stream.Sample
		err := r.Decode(unhex(t, tt.in), &s)
		if err != tt.err || err == nil && s != want {
			t.Errorf("%s: %v, %+v", name, err, s)
		}
		if err == nil && r.Format() != "generic binary" {
			t.Error(r.Format())
		}
	}
}

// All types of the protocol: a word is never swapped, a string is as long as it says.
func TestBinaryTypes(t *testing.T) {
	text := `
sources = [
  { name = "f", channel = "pitch", unit = "deg" },
  { name = "w", channel = "rpm", unit = "rpm" },
  { name = "b", channel = "n1", unit = "%" },
  { name = "x", channel = "bank", unit = "deg" },
  { name = "d", channel = "latitude", unit = "deg" },
]
[binary]
chunks = [ { name = "s", type = "string" }, { name = "f", type = "float" }, { name = "w", type = "word" },
  { name = "b", type = "byte" }, { name = "x", type = "fixed" }, { name = "d", type = "double" } ]`
	m, err := LoadMap("types.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	r := NewReader(Options{Map: m})
	rest := "40500000" + "6009" + "58" + "fffd8000" + "4047c00000000000"
	want := *sampleOf(stream.Pitch, 3.25, stream.RPM, 2400, stream.N1, 88, stream.Bank, -2.5, stream.Latitude, 47.5)
	for in, wantErr := range map[string]error{
		"00000003616263" + rest: nil, "00000000" + rest: nil,
		"00000063616263" + rest: ErrTruncated, "ffffffff616263" + rest: ErrTruncated, "000000": ErrTruncated, "00000000" + rest[2:]: ErrTruncated,
	} {
		var s stream.Sample
		if err := r.Decode(unhex(t, in), &s); err != wantErr || err == nil && s != want {
			t.Errorf("%s: %v, %+v", in, err, s)
		}
	}
}

// The shipped protocol file sends what the shipped map reads, and such records are recognized.
func TestBinaryShipped(t *testing.T) {
	data, err := configs.FS.ReadFile("simulators/flightgear/Protocol/halfturn-binary.xml")
	if err != nil {
		t.Fatal(err)
	}
	var in struct {
		Binary string   `xml:"generic>output>binary_mode"`
		Order  string   `xml:"generic>output>byte_order"`
		Footer string   `xml:"generic>output>binary_footer"`
		Names  []string `xml:"generic>output>chunk>name"`
		Types  []string `xml:"generic>output>chunk>type"`
	}
	if err := xml.Unmarshal(data, &in); err != nil {
		t.Fatal(err)
	}
	l := shippedMap("generic-binary").layout
	if in.Binary != "true" || in.Order != "network" || l.little || in.Footer != fmt.Sprintf("magic,0x%x", l.number) || len(in.Names) != len(l.chunks) {
		t.Errorf("%+v", in)
	}
	for i, kind := range in.Types {
		if l.chunks[i] != chunkKinds[kind] || l.plan.columns[i] == nil || l.plan.columns[i].name != in.Names[i] {
			t.Errorf("chunk %d is %s %s in the protocol file", i, in.Names[i], kind)
		}
	}
	full := fullSample()
	s := mustDecode(t, NewReader(Options{}), mustEncoder(t, "binary").Append(nil, &full))
	if s.Value(stream.Time) != full.Value(stream.Time) {
		t.Errorf("%+v", s)
	}
}

// Where values and records are both separated by line ends a record is so many lines, as in the
// protocol documentation's example of speed, heading and pitch (README.protocol, "examples").
func TestCounted(t *testing.T) {
	m, err := LoadMap("lines.toml", []byte(`
separator = "newline"
order = ["V", "H", "P"]
sources = [
  { name = "V", channel = "airspeed", unit = "kt" },
  { name = "H", channel = "heading", unit = "rad" },
  { name = "P", channel = "pitch", unit = "deg" },
]`))
	if err != nil {
		t.Fatal(err)
	}
	named := "V=16\nH=3.590505\nP=3.59\nV=12\nH=3.589020\nP=3.59\n"
	plain := strings.NewReplacer("V=", "", "H=", "", "P=", "").Replace(named)
	for name, tt := range map[string]struct {
		in    string
		all   string // the airspeeds
		err   error
		named bool
	}{
		"numbers alone":  {plain, "[16 12]", nil, false},
		"no end":         {strings.TrimSuffix(plain, "\n"), "[16 12]", nil, false},
		"one record":     {"12\n3.589020\n3.59\n", "[12]", nil, false},
		"names before":   {named, "[16 12]", nil, true},
		"a line too few": {"16\n3.590505\n3.59\n12\n3.589020\n", "[16]", ErrTruncated, false},
		"one value":      {"16", "[]", ErrTruncated, false},
		"no numbers":     {"a\nb\nc\n", "[]", ErrValue, false},
	} {
		var speeds []float64
		err := NewReader(Options{Map: m}).DecodeAll([]byte(tt.in), func(s *stream.Sample) { speeds = append(speeds, s.Value(stream.Airspeed)) })
		if err != tt.err || fmt.Sprint(speeds) != tt.all {
			t.Errorf("%s: %v, %v", name, speeds, err)
		}
		r := NewReader(Options{Map: m})
		var s stream.Sample
		err = r.Decode([]byte(tt.in), &s)
		if tt.err == nil && (err != nil || s.Value(stream.Airspeed) != 12 || !near(stream.Heading, s.Value(stream.Heading), 205.6357, 1e-4)) || tt.err != nil && err == nil {
			t.Errorf("%s: the last is %+v, %v", name, s, err)
		}
		if want := map[bool]string{true: "text pairs", false: "text lines, a value each"}[tt.named]; tt.err == nil && r.Format() != want {
			t.Errorf("%s: format %q", name, r.Format())
		}
	}
}
