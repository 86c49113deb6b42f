package mapping_test

import (
	"encoding/hex"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/mapping"
)

// A record of every type of chunk, written by hand: IEEE 754 (pitch 2.5 = 40200000, time 1.5 = 3ff8000000000000), 16.16
// fixed point (bank -30.5 = ffe18000), two's complement (altitude 1000 = 000003e8), a string by its length (FlightGear,
// README.protocol).
func TestLayout(t *testing.T) {
	const layout = `
[binary]
byte-order = "ORDER"
footer = "FOOTER"
chunks = [
  { name = "t", type = "double" }, { name = "who", type = "string" }, { name = "pitch", type = "float" },
  { name = "roll", type = "fixed" }, { name = "alt", type = "int" }, { name = "wow", type = "bool" },
]
[[sources]]
name = "t"
channel = "time"
unit = "s"
[[sources]]
name = "pitch"
channel = "pitch"
unit = "deg"
[[sources]]
name = "roll"
channel = "bank"
unit = "deg"
[[sources]]
name = "alt"
channel = "altitude"
unit = "ft"
[[sources]]
name = "wow"
channel = "on-ground"
unit = "flag"
`
	const big = "3ff8000000000000" + "00000002" + "6869" + "40200000" + "ffe18000" + "000003e8" + "01"
	const little = "000000000000f83f" + "02000000" + "6869" + "00002040" + "0080e1ff" + "e8030000" + "01"
	for name, tt := range map[string]struct {
		order, footer, record string
		err                   error
	}{
		"network order":        {"network", "none", big, nil},
		"host order":           {"host", "none", little, nil},
		"length at the end":    {"network", "length", big + "0000001b", nil},
		"magic at the end":     {"network", "0x48544c46", big + "48544c46", nil},
		"magic, little endian": {"host", "0x48544c46", little + "464c5448", nil},
		"another magic":        {"network", "0x48544c46", big + "48544c47", fault.ErrMalformed},
		"another length":       {"network", "length", big + "0000001c", fault.ErrMalformed},
		"no footer":            {"network", "length", big, fault.ErrTruncated},
		"more than a record":   {"network", "none", big + "00", fault.ErrMalformed},
		"cut in a chunk":       {"network", "none", big[:len(big)-4], fault.ErrTruncated},
		"cut in the string":    {"network", "none", big[:26], fault.ErrTruncated},
		"a string of 4 GB":     {"network", "none", big[:16] + "ffffffff" + big[24:], fault.ErrTruncated},
		"empty":                {"network", "none", "", fault.ErrTruncated},
	} {
		m, err := mapping.Load("binary.toml",
			[]byte(strings.NewReplacer("ORDER", tt.order, "FOOTER", tt.footer).Replace(layout)))
		if err != nil {
			t.Fatal(name, err)
		}
		record, err := hex.DecodeString(tt.record)
		if err != nil {
			t.Fatal(name, err)
		}
		var s stream.Sample
		if err := m.Layout.Decode(record, &s); err != tt.err {
			t.Errorf("%s: error %v; must be %v", name, err, tt.err)
		}
		if tt.err != nil {
			continue
		}
		for c, want := range map[stream.Channel]float64{
			stream.Time: 1.5, stream.Pitch: 2.5, stream.Bank: -30.5, stream.Altitude: 1000, stream.OnGround: 1,
		} {
			if got, ok := s.Get(c); !ok || got != want {
				t.Errorf("%s: %v is %v, %v; must be %v", name, c, got, ok, want)
			}
		}
	}
}

// The shipped map for text without labels fits a line that its protocol file sends, and none of which a column cannot
// be what the map says.
func TestFits(t *testing.T) {
	m, err := mapping.Load("fits.toml", []byte(`
order = ["t", "utc", "wow", "heading"]
sources = [ { name = "t", channel = "time", unit = "s" }, { name = "heading", channel = "heading", unit = "deg" } ]
[[signature]]
name = "utc"
is = "iso-time"
[[signature]]
name = "wow"
is = "flag"
[[signature]]
name = "heading"
between = [0, 360]
`))
	if err != nil {
		t.Fatal(err)
	}
	for line, want := range map[string]bool{
		"1.5,2000-01-31T10:20:30,0,270":      true,
		" 1.5, 2000-01-31T10:20:30Z , 1,  0": true,
		",2000-01-31T10:20:30,,":             true, // the sender has no values
		"1.5,2000-01-31 10:20:30,0,270":      false,
		"1.5,20000131T102030,0,270":          false,
		"1.5,,0,270":                         false,
		"1.5,2000-01-31T10:20:30,2,270":      false,
		"1.5,2000-01-31T10:20:30,0,361":      false,
		"1.5,2000-01-31T10:20:30,0,west":     false,
		"late,2000-01-31T10:20:30,0,270":     false,
	} {
		if got := m.Fits([]byte(line)); got != want {
			t.Errorf("%q fits: %v; must be %v", line, got, want)
		}
	}
}
