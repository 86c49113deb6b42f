package mapping_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

// load reads a map.
func load(t *testing.T, text string) *mapping.Map {
	t.Helper()
	m, err := mapping.Load("maps/mine.toml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// angles is a map by name, with a fallback and a magnetic heading.
const angles = `
sources = [
  { name = "mag", channel = "heading", unit = "deg", magnetic = true },
  { name = "hdg", channel = "heading", unit = "deg" },
  { name = "ias", channel = "airspeed", unit = "m/s" },
  { name = "kias", channel = "airspeed", unit = "kt" },
  { name = "bank", channel = "bank", unit = "rad", sign = -1 },
  { name = "temp", channel = "throttle", unit = "%", factor = 2.0, offset = 0.1 },
]
`

// values are channels and what they hold.
type values = map[stream.Channel]float64

// Of several columns for a channel the source listed first is used, a true heading before any magnetic one, the left
// one of two that have the same name.
func TestBind(t *testing.T) {
	m := load(t, angles)
	for _, c := range []struct {
		columns, line string
		want          values
		magnetic      bool
	}{
		{"hdg,ias,kias", "90,51.4444444444,7", values{stream.Heading: 90, stream.Airspeed: 100}, false},
		{"kias,ias", "7,51.4444444444", values{stream.Airspeed: 100}, false},
		{"kias", "7", values{stream.Airspeed: 7}, false},
		{"mag,hdg", "80,90", values{stream.Heading: 90}, false},
		{"mag", "80", values{stream.Heading: 80}, true},
		{"hdg,hdg", "10,20", values{stream.Heading: 10}, false},
		{"x,bank", "1,0.5235987755982988", values{stream.Bank: -30}, false},
		{"temp", "20", values{stream.Throttle: 0.5}, false}, // 20 % twice, and a tenth
		{"hdg,mag", ",80", nil, false},                      // the true heading has its place, and no value
	} {
		p := m.Bind(strings.Split(c.columns, ","))
		var s stream.Sample
		err := p.Decode([]byte(c.line), &s)
		if c.want == nil {
			if err == nil {
				t.Errorf("%s: %+v", c.columns, s)
			}
			continue
		}
		if err != nil || s.Magnetic != c.magnetic {
			t.Errorf("%s: %v, %+v", c.columns, err, s)
		}
		for ch := range stream.NumChannels {
			want, ok := c.want[ch]
			if s.Has.Has(ch) != ok || ok && !wiretest.Near(ch, s.Value(ch), want, 1e-9) {
				t.Errorf("%s: %s is %v; must be %v", c.columns, ch, s.Value(ch), want)
			}
		}
	}
	if p := m.Bind([]string{"a", "b"}); p.Channels != 0 || p.Open {
		t.Errorf("columns of nothing known: %+v", p)
	}
}

// One line of columns: padded, empty, wrong, too few and too many.
func TestPlanDecode(t *testing.T) {
	for _, c := range []struct {
		separator, line string
		err             error
		has, bad        []string
	}{
		{",", "1,2,3", nil, []string{"time", "pitch", "bank"}, nil},
		{",", "   1,  2 ,     3   ", nil, []string{"time", "pitch", "bank"}, nil},
		{",", "1,,3", nil, []string{"time", "bank"}, nil},
		{",", "1, ,3", nil, []string{"time", "bank"}, nil},
		{",", "1,x,3", nil, []string{"time", "bank"}, []string{"pitch"}},
		{",", "1,2x,3", nil, []string{"time", "bank"}, []string{"pitch"}},
		{",", "1,nan,3", nil, []string{"time", "bank"}, []string{"pitch"}},
		{",", "1,95,3", nil, []string{"time", "bank"}, []string{"pitch"}}, // no nose is 95° up
		{",", "1,2", fault.ErrTruncated, nil, nil},
		{",", "", fault.ErrTruncated, nil, nil},
		{",", "1,2,3,4", fault.ErrMalformed, nil, nil},
		{",", "1;2;3", fault.ErrTruncated, nil, nil},
		{",", "x,y,z", fault.ErrValue, nil, nil},
		{"tab", "1\t2\t3", nil, []string{"time", "pitch", "bank"}, nil},
		{"|", "1|2|3", nil, []string{"time", "pitch", "bank"}, nil},
		{";", "1;2;3", nil, []string{"time", "pitch", "bank"}, nil},
		{"space", "1 2 3", nil, []string{"time", "pitch", "bank"}, nil},
		{"space", "1   2  3", nil, []string{"time", "pitch", "bank"}, nil},
		{"newline", "1\n2\n3", nil, []string{"time", "pitch", "bank"}, nil},
	} {
		m := load(t, fmt.Sprintf("separator = %q\norder = ['t', 'p', 'b']\nsources = [\n"+
			"{ name = 't', channel = 'time', unit = 's' },\n{ name = 'p', channel = 'pitch', unit = 'deg' },\n"+
			"{ name = 'b', channel = 'bank', unit = 'deg' },\n]\n", c.separator))
		var s stream.Sample
		if err := m.InOrder.Decode([]byte(c.line), &s); err != c.err {
			t.Errorf("%q: error %v; must be %v", c.line, err, c.err)
			continue
		}
		if c.err != nil {
			continue
		}
		if !slices.Equal(s.Has.Names(), c.has) || !slices.Equal(s.Bad.Names(), c.bad) {
			t.Errorf("%q: has %v, bad %v; must be %v, %v", c.line, s.Has.Names(), s.Bad.Names(), c.has, c.bad)
		}
	}
}

// Sources by column leave the rest of a line open.
func TestByColumn(t *testing.T) {
	m := load(t, "sources = [\n{ column = 4, channel = 'bank', unit = 'deg' },\n"+
		"{ column = 2, channel = 'pitch', unit = 'deg' },\n]\n")
	for line, want := range map[string]error{
		"x,2,y,3":       nil,
		"x,2,y,3,and,9": nil,
		"x,2,y":         fault.ErrTruncated,
	} {
		var s stream.Sample
		if err := m.InOrder.Decode([]byte(line), &s); err != want {
			t.Errorf("%q: error %v; must be %v", line, err, want)
		} else if err == nil && (s.Value(stream.Pitch) != 2 || s.Value(stream.Bank) != 3) {
			t.Errorf("%q: %+v", line, s)
		}
	}
}

// What a stream without labels must look like: spans, flags and times of ISO 8601, all else numbers or nothing.
func TestFitsSignature(t *testing.T) {
	m := load(t, `
order = ["when", "gear", "lat", "x"]
signature = [
  { name = "when", is = "iso-time" },
  { name = "gear", is = "flag" },
  { name = "lat", between = [-90.0, 90.0] },
]
sources = [{ name = "x", channel = "bank", unit = "deg" }]
`)
	for line, want := range map[string]bool{
		"2000-01-31T10:20:30,1,47.5,3":       true,
		"2000-01-31T10:20:30.25Z,0,-90,3":    true,
		"2000-01-31T10:20:30,,90,":           true,
		"2000-01-31T10:20:30, 1 , 47.5 , 3 ": true,
		"2000-01-31T10:20:30,1,,3":           true,
		"2000-01-31 10:20:30,1,47.5,3":       false,
		"2000-1-31T10:20:30,1,47.5,3":        false,
		"10:20:30,1,47.5,3":                  false,
		",1,47.5,3":                          false,
		"2000-01-31T10:20:30,2,47.5,3":       false,
		"2000-01-31T10:20:30,10,47.5,3":      false,
		"2000-01-31T10:20:30,1,90.5,3":       false,
		"2000-01-31T10:20:30,1,nan,3":        false,
		"2000-01-31T10:20:30,1,47.5x,3":      false,
		"2000-01-31T10:20:30,1,47.5,north":   false,
		"2000-01-31T10:20:30,1,47.5,3 4":     false,
	} {
		if got := m.Fits([]byte(line)); got != want {
			t.Errorf("%q fits: %v; must be %v", line, got, want)
		}
	}
}

// A geocentric latitude of 45° is 45.1924° geodetic at sea level: the deviation is 11.5456' there (Snyder, Map
// Projections, USGS Professional Paper 1395, table of auxiliary latitudes: 0.19242°).
func TestToGeodetic(t *testing.T) {
	for _, c := range []struct{ sent, altitude, want, tolerance float64 }{
		{0, 0, 0, 1e-12},
		{90, 0, 90, 1e-9},
		{-90, 10000, -90, 1e-9},
		{44.80758, 0, 45, 1e-4}, // 45° − 0.19242°
		{-44.80758, 0, -45, 1e-4},
		{44.80758, 40000, 45, 4e-4}, // the height takes 12,192 m / 6,378 km of it
	} {
		s := wiretest.SampleOf(stream.Latitude, c.sent, stream.Altitude, c.altitude)
		mapping.ToGeodetic(s)
		if got := s.Value(stream.Latitude); math.Abs(got-c.want) > c.tolerance {
			t.Errorf("%v° at %v ft: %v°; must be %v°", c.sent, c.altitude, got, c.want)
		}
	}
	var none stream.Sample
	if mapping.ToGeodetic(&none); none.Has != 0 {
		t.Errorf("of no latitude: %v", none.Has.Names())
	}
}

// Every shipped map has a title and a name, is found by it, and is the same value each time.
func TestShipped(t *testing.T) {
	all := mapping.Shipped()
	if len(all) < 3 {
		t.Fatalf("%d maps", len(all))
	}
	for _, m := range all {
		if m.Name == "" || m.Title == "" || mapping.ShippedNamed(m.Name) != m || len(m.Sources) == 0 {
			t.Errorf("%q: %q, %d sources", m.Name, m.Title, len(m.Sources))
		}
		for i := range m.Sources {
			if m.Sources[i].Name == "" {
				continue
			}
			if n, ok := m.SourceNamed([]byte(m.Sources[i].Name)); !ok || int(n) != i {
				t.Errorf("%s: %s is source %d, %v; must be %d", m.Name, m.Sources[i].Name, n, ok, i)
			}
		}
		if _, ok := m.SourceNamed([]byte("no such name")); ok {
			t.Errorf("%s knows every name", m.Name)
		}
	}
	if mapping.ShippedNamed("none") != nil {
		t.Error("there is a map named none")
	}
}

// A column that is named by a property's path counts by its last part, and only where no column has the name itself.
func TestBindPaths(t *testing.T) {
	m := mapping.ShippedNamed("jsbsim")
	for _, c := range []struct {
		names []string
		at    int // of the heading; −1: none
		roll  bool
	}{
		{[]string{"Time", "/fdm/jsbsim/attitude/psi-deg", "/fdm/jsbsim/velocities/p-rad_sec"}, 1, true},
		{[]string{"attitude/psi-deg", "psi-deg", "velocities/p-rad sec"}, 1, true},
		{[]string{"Time", "attitude/psi-degrees", "p-rad_sec"}, -1, false},
		{[]string{"Time", "true / psi-deg", "velocities/x-p-rad_sec"}, -1, false},
	} {
		p := m.Bind(c.names)
		at := -1
		for i, src := range p.Columns {
			if src != nil && src.Channel == stream.Heading {
				at = i
			}
		}
		if at != c.at || p.Channels.Has(stream.RollRate) != c.roll {
			t.Errorf("%q: heading at %d, channels %v", c.names, at, p.Channels.Names())
		}
	}
}
