package generic_test

import (
	"encoding/xml"
	"fmt"
	"testing"

	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

// binaryMap is the layout whose bytes the protocol's documentation shows (FlightGear,
// README.protocol, "Analyzing the resulting binary packet format"): int, float, float, int, bool.
func binaryMap(t testing.TB, order, footer string) *mapping.Map {
	t.Helper()
	m, err := mapping.Load("layout.toml", fmt.Appendf(nil, `
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
	want := *wiretest.SampleOf(stream.Airspeed, 112, stream.Pitch, 3.25, stream.Heading, 270.5, stream.Paused, 1)
	for name, tt := range map[string]struct {
		order, footer, in string
		err               error
	}{
		"plain":              {"network", "none", record, nil},
		"magic":              {"network", "0x12345678", record + "12345678", nil},
		"length":             {"network", "length", record + "00000011", nil},
		"host order":         {"host", "0x12345678", "70000000000050400040874" + "33b00000001" + "78563412", nil},
		"wrong magic":        {"network", "0x12345678", record + "12345679", fault.ErrMalformed},
		"wrong length":       {"network", "length", record + "00000012", fault.ErrMalformed},
		"no footer":          {"network", "length", record, fault.ErrTruncated},
		"footer cut":         {"network", "length", record + "0000", fault.ErrTruncated},
		"footer not awaited": {"network", "none", record + "00000011", fault.ErrMalformed},
		"cut":                {"network", "none", record[:30], fault.ErrTruncated},
		"text instead":       {"network", "none", fmt.Sprintf("%x", "1,2,3,4\n"), fault.ErrTruncated},
	} {
		r := wire.NewReader(format.Options{Map: binaryMap(t, tt.order, tt.footer)})
		var s stream.Sample
		err := r.Decode(wiretest.Unhex(t, tt.in), 0, &s)
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
	m, err := mapping.Load("types.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	r := wire.NewReader(format.Options{Map: m})
	rest := "40500000" + "6009" + "58" + "fffd8000" + "4047c00000000000"
	want := *wiretest.SampleOf(stream.Pitch, 3.25, stream.RPM, 2400, stream.N1, 88, stream.Bank, -2.5, stream.Latitude,
		47.5)
	for in, wantErr := range map[string]error{
		"00000003616263" + rest: nil, "00000000" + rest: nil,
		"00000063616263" + rest: fault.ErrTruncated, "ffffffff616263" + rest: fault.ErrTruncated,
		"000000": fault.ErrTruncated, "00000000" + rest[2:]: fault.ErrTruncated,
	} {
		var s stream.Sample
		if err := r.Decode(wiretest.Unhex(t, in), 0, &s); err != wantErr || err == nil && s != want {
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
	l := mapping.ShippedNamed("generic-binary").Layout
	if in.Binary != "true" || in.Order != "network" || l.Little || in.Footer != fmt.Sprintf("magic,0x%x", l.Number) ||
		len(in.Names) != len(l.Chunks) {
		t.Errorf("%+v", in)
	}
	kinds := map[string]mapping.ChunkKind{"bool": mapping.Bool, "float": mapping.Float, "double": mapping.Double}
	for i, kind := range in.Types {
		if _, ok := kinds[kind]; !ok {
			t.Fatalf("chunk %d is of type %s", i, kind)
		}
		if l.Chunks[i].Kind != kinds[kind] || l.Plan.Columns[i] == nil || l.Plan.Columns[i].Name != in.Names[i] {
			t.Errorf("chunk %d is %s %s in the protocol file", i, in.Names[i], kind)
		}
	}
	full := wiretest.FullSample()
	s := wiretest.Decode(t, wire.NewReader(format.Options{}), wiretest.Encode(t, "binary", &full))
	if s.Value(stream.Time) != full.Value(stream.Time) {
		t.Errorf("%+v", s)
	}
}

func FuzzBinary(f *testing.F) { wiretest.Fuzz(f, "FuzzBinary", "binary") }
