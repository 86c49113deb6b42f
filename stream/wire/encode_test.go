package wire

import (
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
)

// fullSample has every channel.
func fullSample() stream.Sample {
	return *sampleOf(stream.Time, 123.4567, stream.Heading, 245.1157, stream.Pitch, 13.9722, stream.Bank, -43.5661,
		stream.Airspeed, 118.545, stream.TrueAirspeed, 126.538, stream.GroundSpeed, 125.311, stream.Track, 244.8829,
		stream.VerticalSpeed, -999.0, stream.Altitude, 6638.6, stream.Height, 5639.25, stream.Latitude, 21.79146571,
		stream.Longitude, -158.27810879, stream.AngleOfAttack, 3.8649, stream.Sideslip, -0.2675, stream.Ball, 0.0183,
		stream.NormalLoad, 1.4142, stream.LateralLoad, -0.0029, stream.AxialLoad, 0.1677, stream.RollRate, -1.9813,
		stream.PitchRate, 6.6861, stream.YawRate, 2.9182, stream.Throttle, 0.75, stream.RPM, 2591.2, stream.Torque, 61.5,
		stream.N1, 88.25, stream.Elevator, 0.0224, stream.Aileron, -0.0029, stream.Rudder, 0.0738,
		stream.StallWarning, 1, stream.OnGround, 1, stream.Paused, 1)
}

// roundTrip gives, per format, the channels it has no place for, and what its digits lose
// (absolute, in the channel's unit, and relative).
var roundTrip = map[string]struct {
	lacks    []stream.Channel
	abs, rel float64
	text     string                     // Reader's name of it
	coarse   map[stream.Channel]float64 // what is lost where it is more
	mute     bool                       // nothing is sent of a sample without position
	blanks   bool                       // what a sample lacks is sent as NaN
}{
	"labels":  {lacks: []stream.Channel{stream.Ball, stream.Torque, stream.StallWarning, stream.Paused}, abs: 1e-9, rel: 1e-9, text: "text with labels"},
	"columns": {lacks: []stream.Channel{stream.Torque, stream.N1, stream.Paused}, abs: 0.06, text: "text columns"},
	"pairs":   {lacks: []stream.Channel{stream.Torque, stream.N1, stream.Paused}, abs: 0.06, text: "text pairs"},
	"rows":    {lacks: []stream.Channel{stream.Ball, stream.Torque, stream.StallWarning, stream.OnGround, stream.Paused}, rel: 1e-7, text: "DATA rows"},
	"json":    {text: "JSON lines"},
	"rref":    {lacks: []stream.Channel{stream.Ball, stream.Torque, stream.StallWarning}, rel: 1e-7, text: "RREF replies"},
	"rpos":    {lacks: only(flown, stream.RollRate, stream.PitchRate, stream.YawRate, stream.Height), abs: 1e-5, rel: 1e-6, text: "position replies (RPOS)", blanks: true},
	"xatt": {lacks: only(flown, stream.RollRate, stream.PitchRate, stream.YawRate, stream.NormalLoad, stream.LateralLoad, stream.AxialLoad),
		abs: 0.051, text: "XGPS/XATT text", coarse: map[stream.Channel]float64{stream.GroundSpeed: 0.2, stream.Track: 0.1, stream.VerticalSpeed: 10}},
	"gdl90": {lacks: only(flown, stream.Airspeed, stream.TrueAirspeed, stream.NormalLoad), abs: 0.051, text: "GDL 90",
		coarse: map[stream.Channel]float64{stream.Airspeed: 0.5, stream.TrueAirspeed: 0.5, stream.GroundSpeed: 0.5, stream.Track: 0.71, stream.VerticalSpeed: 0.5, stream.Altitude: 2.5}},
	"fdm24":  {lacks: fdmLacks, abs: 1e-4, rel: 1e-6, text: "native FDM 24", blanks: true},
	"fdm25":  {lacks: fdmLacks, abs: 1e-4, rel: 1e-6, text: "native FDM 25", blanks: true},
	"binary": {lacks: []stream.Channel{stream.Torque, stream.N1, stream.Paused}, abs: 1e-9, rel: 1e-7, text: "generic binary", blanks: true},
	"mavlink1": {lacks: mavLacks, abs: 1e-5, rel: 1e-6, text: "MAVLink 1", blanks: true,
		coarse: map[stream.Channel]float64{stream.Time: 5e-4, stream.GroundSpeed: 0.02, stream.Track: 0.01, stream.VerticalSpeed: 1, stream.Altitude: 0.002}},
	"mavlink2": {lacks: mavLacks, abs: 1e-5, rel: 1e-6, text: "MAVLink 2", blanks: true,
		coarse: map[stream.Channel]float64{stream.Time: 5e-4, stream.GroundSpeed: 0.02, stream.Track: 0.01, stream.VerticalSpeed: 1, stream.Altitude: 0.002}},
	"dis": {lacks: only(flown, stream.RollRate, stream.PitchRate, stream.YawRate), abs: 1e-4, rel: 1e-6, text: "DIS entity state", mute: true},
}

// flown are the channels all formats have that tell of attitude and position.
var flown = []stream.Channel{stream.Heading, stream.Pitch, stream.Bank, stream.Latitude, stream.Longitude, stream.Altitude,
	stream.GroundSpeed, stream.Track, stream.VerticalSpeed}

var (
	fdmLacks = only(flown, stream.Airspeed, stream.Height, stream.AngleOfAttack, stream.Sideslip, stream.NormalLoad, stream.LateralLoad, stream.AxialLoad,
		stream.RollRate, stream.PitchRate, stream.YawRate, stream.RPM, stream.StallWarning, stream.OnGround)
	mavLacks = only(flown, stream.Time, stream.Airspeed, stream.RollRate, stream.PitchRate, stream.YawRate, stream.Throttle)
)

// only lists the channels that are not among these.
func only(base []stream.Channel, more ...stream.Channel) (others []stream.Channel) {
	for c := range stream.NumChannels {
		if !slices.Contains(base, c) && !slices.Contains(more, c) {
			others = append(others, c)
		}
	}
	return others
}

func mustEncoder(t testing.TB, format string) Encoder {
	t.Helper()
	e, err := NewEncoder(format)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// TestRoundTrip: what an encoder writes, the reader reads back within the printed digits,
// in a sample with every channel and in one with few.
func TestRoundTrip(t *testing.T) {
	for _, format := range Formats() {
		want := roundTrip[format]
		for name, in := range map[string]stream.Sample{
			"full": fullSample(), "few": *sampleOf(stream.Time, 1, stream.Heading, 0.25, stream.Pitch, -3, stream.Bank, 0),
		} {
			e, r := mustEncoder(t, format), NewReader(Options{Rows: RowsNew})
			var got stream.Sample
			if p := e.Preamble(); p != nil {
				if err := r.Decode(p, &got); err != ErrLabels {
					t.Fatal(format, err)
				}
			}
			for range trialLines {
				_ = r.Decode(e.Append(nil, &in), &got)
			}
			expect := in
			for _, c := range want.lacks {
				expect.Drop(c)
			}
			if want.mute && name == "few" {
				if b := e.Append(nil, &in); len(b) != 0 {
					t.Errorf("%s: %d bytes of a sample that cannot be sent", format, len(b))
				}
				continue
			}
			if format == "binary" && name == "few" { // flags have no blank
				expect.Put(stream.StallWarning, 0)
				expect.Put(stream.OnGround, 0)
			}
			if got.Has != expect.Has || got.Bad != 0 && !want.blanks || r.Format() != want.text {
				t.Errorf("%s, %s: %q has %v, want %v", format, name, r.Format(), got.Has.Names(), expect.Has.Names())
			}
			for c := range stream.NumChannels {
				abs := want.abs
				if more, ok := want.coarse[c]; ok {
					abs = more
				}
				if v := expect.Value(c); math.Abs(got.Value(c)-v) > abs+want.rel*math.Abs(v) {
					t.Errorf("%s, %s: %s = %v, want %v", format, name, c, got.Value(c), v)
				}
			}
		}
	}
}

// TestRoundTripMagnetic: a magnetic heading stays one where the format can say so, and is
// left out where it cannot: in columns without labels the true one has its fixed place.
func TestRoundTripMagnetic(t *testing.T) {
	in := *sampleOf(stream.Time, 1, stream.Heading, 80, stream.Pitch, 1)
	in.Magnetic = true
	for _, format := range Formats() {
		e, r := mustEncoder(t, format), NewReader(Options{})
		var got stream.Sample
		_ = r.Decode(e.Preamble(), &got)
		for range trialLines {
			_ = r.Decode(e.Append(nil, &in), &got)
		}
		if keeps := slices.Contains([]string{"pairs", "rows", "json", "gdl90"}, format); got.Has.Has(stream.Heading) != keeps || got.Magnetic != keeps {
			t.Errorf("%s: %+v", format, got)
		}
	}
}

// TestLabelsLikeTheSimulator: the shape of the bytes is that of the recorded socket: the same
// first labels, twelve places a column, a line end.
func TestLabelsLikeTheSimulator(t *testing.T) {
	e := mustEncoder(t, "labels")
	real := string(datagrams(t, "flights/properties.txt")[0])
	label := string(e.Preamble())
	if n := strings.Index(label, ",throttle"); !strings.HasPrefix(real, label[:n]) {
		t.Errorf("labels\n%s\nrecorded\n%s", label, real)
	}
	in := fullSample()
	line := string(e.Append(nil, &in))
	if strings.Count(line, ",")+1 != strings.Count(label, ",") || !strings.HasPrefix(line, "    123.4567, 21.79146571,-158.2781088,      6638.6,") || !strings.HasSuffix(line, "\n") {
		t.Errorf("line %q", line)
	}
}

func TestNewEncoderUnknown(t *testing.T) {
	if _, err := NewEncoder("morse"); err == nil || !strings.Contains(err.Error(), "labels, columns, pairs, rows, json") {
		t.Error(err)
	}
}

// warm returns a reader that has recognized the format, and one datagram of it.
func warm(t testing.TB, format string) (*Reader, []byte) {
	t.Helper()
	e, r := mustEncoder(t, format), NewReader(Options{})
	var s stream.Sample
	_ = r.Decode(e.Preamble(), &s)
	in := fullSample()
	b := e.Append(nil, &in)
	for range 2 * trialLines {
		_ = r.Decode(b, &s)
	}
	if r.Format() != roundTrip[format].text {
		t.Fatalf("%s read as %q", format, r.Format())
	}
	return r, b
}

// TestNoAllocations: in the steady state neither reading nor writing allocates, nor does
// refusing junk, nor labels that are sent again.
func TestNoAllocations(t *testing.T) {
	var s stream.Sample
	for _, format := range Formats() {
		r, b := warm(t, format)
		if n := testing.AllocsPerRun(200, func() { _ = r.Decode(b, &s) }); n != 0 || s.Has == 0 {
			t.Errorf("%s: reading allocates %v times, has %v", format, n, s.Has.Names())
		}
		e, in := mustEncoder(t, format), fullSample()
		if n := testing.AllocsPerRun(200, func() { b = e.Append(b[:0], &in) }); n != 0 {
			t.Errorf("%s: writing allocates %v times", format, n)
		}
		each := func(*stream.Sample) {}
		if n := testing.AllocsPerRun(200, func() { _ = r.DecodeAll(b, each) }); n != 0 {
			t.Errorf("%s: reading all allocates %v times", format, n)
		}
		for name, junk := range junkDatagrams() {
			if n := testing.AllocsPerRun(20, func() { _ = r.Decode(junk, &s) }); n != 0 {
				t.Errorf("%s: refusing %s allocates %v times", format, name, n)
			}
		}
	}
	r, _ := warm(t, "labels")
	label := mustEncoder(t, "labels").Preamble()
	if n := testing.AllocsPerRun(200, func() { _ = r.Decode(label, &s) }); n != 0 {
		t.Errorf("labels sent again allocate %v times", n)
	}
}

// junkDatagrams are as long as a datagram can be.
func junkDatagrams() map[string][]byte {
	const full = 65507
	return map[string][]byte{
		"zeros":      make([]byte, full),
		"digits":     []byte(strings.Repeat("1", full)),
		"commas":     []byte(strings.Repeat(",", full)),
		"short rows": append([]byte("DATA*"), make([]byte, full-5)...),
		"braces":     []byte(strings.Repeat("{", full)),
		"line ends":  []byte("1" + strings.Repeat("\n", full-1)),
		"lines":      []byte(strings.Repeat("1\n", full/2)),
		"equals":     []byte("a" + strings.Repeat("=", full-1)),
		"one key":    []byte(strings.Repeat("a=", full/2)),
		"key, key":   []byte(strings.Repeat("a=;", full/3)),
	}
}
