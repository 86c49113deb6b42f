package text_test

import (
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

// Where values and records are both separated by line ends a record is that number of lines, as in the
// protocol documentation's example of speed, heading and pitch (README.protocol, "examples").
func TestCounted(t *testing.T) {
	m, err := mapping.Load("lines.toml", []byte(`
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
		err   error
		named bool
	}{
		"numbers alone":  {plain, nil, false},
		"no end":         {strings.TrimSuffix(plain, "\n"), nil, false},
		"one record":     {"12\n3.589020\n3.59\n", nil, false},
		"names before":   {named, nil, true},
		"a line too few": {"16\n3.590505\n3.59\n12\n3.589020\n", fault.ErrMalformed, false},
		"one value":      {"16", fault.ErrTruncated, false},
		"no numbers":     {"a\nb\nc\n", fault.ErrValue, false},
	} {
		r := wire.NewReader(format.Options{Map: m})
		var s stream.Sample
		err := r.Decode([]byte(tt.in), 0, &s)
		if err != tt.err {
			t.Errorf("%s: %v; must be %v", name, err, tt.err)
		}
		if tt.err == nil && (s.Value(stream.Airspeed) != 12 ||
			!wiretest.Near(stream.Heading, s.Value(stream.Heading), 205.6357, 1e-4)) || tt.err != nil && err == nil {
			t.Errorf("%s: the last is %+v, %v", name, s, err)
		}
		if want := map[bool]string{true: "text pairs", false: "text lines, a value each"}[tt.named]; tt.err == nil &&
			r.Format() != want {
			t.Errorf("%s: format %q", name, r.Format())
		}
	}
}
