package encode_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/wiretest"
)

// A loss is what is lost on the way through a format: the channels it has no place for, and what its digits lose
// (absolute, in the channel's unit, and relative).
type loss struct {
	text     string // the Reader's name of the format
	lacks    []stream.Channel
	abs, rel float64
	coarse   map[stream.Channel]float64 // abs, where it is more
	mute     bool                       // nothing is sent of a sample without position
	blanks   bool                       // what a sample lacks is sent as NaN
}

var (
	bodyRates = []stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate}
	loads     = []stream.Channel{stream.NormalLoad, stream.LateralLoad, stream.AxialLoad}

	// flown are the channels that all binary formats have.
	flown = []stream.Channel{stream.Heading, stream.Pitch, stream.Bank, stream.Latitude, stream.Longitude,
		stream.Altitude,
		stream.GroundSpeed, stream.Track, stream.VerticalSpeed}

	protocolLacks = []stream.Channel{stream.Torque, stream.N1, stream.Paused}
)

var losses = map[string]loss{
	"labels": {
		text:  "text with labels",
		lacks: []stream.Channel{stream.Ball, stream.Torque, stream.StallWarning, stream.Paused},
		abs:   1e-9,
		rel:   1e-9,
	},
	"columns": {text: "text columns", lacks: protocolLacks, abs: 0.06},
	"pairs":   {text: "text pairs", lacks: protocolLacks, abs: 0.06},
	"rows": {
		text:  "DATA rows",
		lacks: []stream.Channel{stream.Ball, stream.Torque, stream.StallWarning, stream.OnGround, stream.Paused},
		rel:   1e-7,
	},
	"json": {text: "JSON lines"},
	"rref": {
		text:  "RREF replies",
		lacks: []stream.Channel{stream.Ball, stream.Torque, stream.StallWarning},
		rel:   1e-7,
	},
	"rpos": {
		text:   "position replies (RPOS)",
		lacks:  allBut(flown, bodyRates, []stream.Channel{stream.Height}),
		abs:    1e-5,
		rel:    1e-6,
		blanks: true,
	},
	"xatt": {
		text:   "XGPS/XATT text",
		lacks:  allBut(flown, bodyRates, loads),
		abs:    0.051,
		coarse: map[stream.Channel]float64{stream.GroundSpeed: 0.2, stream.Track: 0.1, stream.VerticalSpeed: 10},
	},
	"gdl90": {
		text:  "GDL 90",
		lacks: allBut(flown, []stream.Channel{stream.Airspeed, stream.TrueAirspeed, stream.NormalLoad}),
		abs:   0.051,
		coarse: map[stream.Channel]float64{
			stream.Airspeed:      0.5,
			stream.TrueAirspeed:  0.5,
			stream.GroundSpeed:   0.5,
			stream.Track:         0.71,
			stream.VerticalSpeed: 0.5,
			stream.Altitude:      2.5,
		},
	},
	"fdm24":    native("native FDM 24"),
	"fdm25":    native("native FDM 25"),
	"binary":   {text: "generic binary", lacks: protocolLacks, abs: 1e-9, rel: 1e-7, blanks: true},
	"mavlink1": mavlink("MAVLink 1"),
	"mavlink2": mavlink("MAVLink 2"),
	"dis":      {text: "DIS entity state", lacks: allBut(flown, bodyRates), abs: 1e-4, rel: 1e-6, mute: true},
}

func native(text string) loss {
	return loss{
		text: text,
		lacks: allBut(flown, bodyRates, loads, []stream.Channel{stream.Airspeed, stream.Height, stream.AngleOfAttack,
			stream.Sideslip, stream.RPM, stream.StallWarning, stream.OnGround}),
		abs:    1e-4,
		rel:    1e-6,
		blanks: true,
	}
}

func mavlink(text string) loss {
	return loss{
		text:   text,
		lacks:  allBut(flown, bodyRates, []stream.Channel{stream.Time, stream.Airspeed, stream.Throttle}),
		abs:    1e-5,
		rel:    1e-6,
		blanks: true,
		coarse: map[stream.Channel]float64{
			stream.Time:          5e-4,
			stream.GroundSpeed:   0.02,
			stream.Track:         0.01,
			stream.VerticalSpeed: 1,
			stream.Altitude:      0.002,
		},
	}
}

// allBut lists the channels that are not among these.
func allBut(lists ...[]stream.Channel) (others []stream.Channel) {
	for c := range stream.NumChannels {
		if !slices.Contains(slices.Concat(lists...), c) {
			others = append(others, c)
		}
	}
	return others
}

// through writes a sample five times, until a map is believed, and returns what is read of the last.
func through(t *testing.T, name string, o format.Options, in *stream.Sample) (r *wire.Reader, got stream.Sample) {
	t.Helper()
	e, r := wiretest.NewEncoder(t, name), wire.NewReader(o)
	if p := e.Preamble(); p != nil {
		if err := r.Decode(p, 0, &got); err != fault.ErrLabels {
			t.Fatal(name, err)
		}
	}
	for range 5 {
		_ = r.Decode(e.Append(nil, in), 0, &got)
	}
	return r, got
}

// What an encoder writes is read back within the printed digits, in a sample with every channel and in one with few.
func TestRoundTrip(t *testing.T) {
	few := *wiretest.SampleOf(stream.Time, 1, stream.Heading, 0.25, stream.Pitch, -3, stream.Bank, 0)
	for _, name := range encode.Formats() {
		want, ok := losses[name]
		if !ok {
			t.Errorf("%s: nothing says what it loses", name)
			continue
		}
		for what, in := range map[string]stream.Sample{"full": wiretest.FullSample(), "few": few} {
			if want.mute && what == "few" {
				if b := wiretest.Encode(t, name, &in); len(b) != 0 {
					t.Errorf("%s: %d bytes of a sample that cannot be sent", name, len(b))
				}
				continue
			}
			r, got := through(t, name, format.Options{Rows: format.RowsNew}, &in)
			expect := in
			for _, c := range want.lacks {
				expect.Drop(c)
			}
			if name == "binary" && what == "few" { // flags have no blank
				expect.Put(stream.StallWarning, 0)
				expect.Put(stream.OnGround, 0)
			}
			if got.Has != expect.Has || got.Bad != 0 && !want.blanks || r.Format() != want.text {
				t.Errorf("%s, %s: %q has %v, want %v", name, what, r.Format(), got.Has.Names(), expect.Has.Names())
			}
			want.compare(t, name+", "+what, &got, &expect)
		}
	}
}

func (l *loss) compare(t *testing.T, what string, got, want *stream.Sample) {
	t.Helper()
	for c := range stream.NumChannels {
		abs := l.abs
		if more, ok := l.coarse[c]; ok {
			abs = more
		}
		if v := want.Value(c); math.Abs(got.Value(c)-v) > abs+l.rel*math.Abs(v) {
			t.Errorf("%s: %s = %v, want %v", what, c, got.Value(c), v)
		}
	}
}

// A magnetic heading stays one where the format can say so, and is left out where it cannot: in columns without labels
// the true one has its fixed place.
func TestRoundTripMagnetic(t *testing.T) {
	in := *wiretest.SampleOf(stream.Time, 1, stream.Heading, 80, stream.Pitch, 1)
	in.Magnetic = true
	for _, name := range encode.Formats() {
		_, got := through(t, name, format.Options{}, &in)
		keeps := slices.Contains([]string{"pairs", "rows", "json", "gdl90"}, name)
		if got.Has.Has(stream.Heading) != keeps || got.Magnetic != keeps {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// The shape of the bytes is that of the recorded socket: the same first labels, twelve places per column, a line end.
func TestLabelsLikeTheSimulator(t *testing.T) {
	recorded, err := os.ReadFile("../../wire/testdata/flights/properties.txt")
	if err != nil {
		t.Fatal(err)
	}
	e := wiretest.NewEncoder(t, "labels")
	label := string(e.Preamble())
	if n := strings.Index(label, ",throttle"); n < 0 || !strings.HasPrefix(string(recorded), label[:n]) {
		t.Errorf("labels\n%s\nrecorded\n%.200s", label, recorded)
	}
	in := wiretest.FullSample()
	line := string(e.Append(nil, &in))
	begins := strings.HasPrefix(line, "    123.4567, 21.79146571,-158.2781088,      6638.6,")
	if strings.Count(line, ",")+1 != strings.Count(label, ",") || !begins || !strings.HasSuffix(line, "\n") {
		t.Errorf("line %q", line)
	}
}

func TestUnknownFormat(t *testing.T) {
	const want = `format is "morse"; must be labels, columns, pairs, rows, json, `
	if _, err := encode.New("morse"); err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Error(err)
	}
}

// Writing allocates nothing once the buffer is long enough.
func TestNoAllocations(t *testing.T) {
	for _, name := range encode.Formats() {
		e, in := wiretest.NewEncoder(t, name), wiretest.FullSample()
		b := e.Append(nil, &in)
		if n := testing.AllocsPerRun(200, func() { b = e.Append(b[:0], &in) }); n != 0 {
			t.Errorf("%s: writing allocates %v times", name, n)
		}
	}
}

// BenchmarkEncode writes one datagram of each format.
func BenchmarkEncode(b *testing.B) {
	for _, name := range encode.Formats() {
		b.Run(name, func(b *testing.B) {
			e, in := wiretest.NewEncoder(b, name), wiretest.FullSample()
			b.ReportAllocs()
			var dst []byte
			for b.Loop() {
				dst = e.Append(dst[:0], &in)
			}
		})
	}
}
