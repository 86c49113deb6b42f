package wire

import (
	"fmt"
	"math"
	"testing"

	"halfturn/stream"
)

// Fields as the specification's own tables have them (560-1058-00 Rev A, sections 3.5.1.3,
// 3.5.1.4, 3.5.1.8 and 3.8); NaN: no value.
func TestGDLFields(t *testing.T) {
	for in, want := range map[string]float64{
		"000000": 0, "000001": 2.1457672119140625e-05, "ffffff": -2.1457672119140625e-05, "200000": 45, "e00000": -45,
		"400000": 90, "800000": -180, "7fffff": 179.99997854232788,
	} {
		if got := gdlAngle(unhex(t, in)); got != want {
			t.Errorf("angle %s: %v, want %v", in, got, want)
		}
	}
	field := func(c stream.Channel, spoil func(b *[28]byte)) float64 {
		b := [28]byte{gdlOwnship}
		spoil(&b)
		var g gdlReader
		var m merger
		g.ownship(b[:], 0, &m)
		return orNaN(&m.latest, c)
	}
	same := func(what string, got, want float64) {
		t.Helper()
		if got != want && !(got != got && want != want) {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	none := math.NaN()
	for v, want := range map[int]float64{0x000: -1000, 0x028: 0, 0x050: 1000, 0xFFE: 101350, 0xFFF: none} {
		same(fmt.Sprintf("altitude %03x", v), field(stream.Altitude, func(b *[28]byte) { b[11], b[12] = byte(v>>4), byte(v<<4) }), want)
	}
	for v, want := range map[int]float64{0: 0, 1: 64, 0xFFF: -64, 0x1FD: 32576, 0xE03: -32576, 0x800: none, 0x1FE: none, 0xE02: none} {
		same(fmt.Sprintf("vertical speed %03x", v), field(stream.VerticalSpeed, func(b *[28]byte) { b[15], b[16] = byte(v>>8), byte(v) }), want)
	}
	for v, want := range map[int]float64{0: 0, 123: 123, 0xFFD: none, 0xFFE: none, 0xFFF: none} { // 0xFFD is out of the channel's range
		same(fmt.Sprintf("speed %03x", v), field(stream.GroundSpeed, func(b *[28]byte) { b[14], b[15] = byte(v>>4), byte(v<<4) }), want)
	}
	for v, want := range map[int]float64{0: none, 1: 90, 2: none, 3: none} { // only a true track is one; section 3.5.1.5
		same(fmt.Sprintf("track %x", v), field(stream.Track, func(b *[28]byte) { b[12], b[17] = byte(v), 64 }), want)
	}
	for v, want := range map[int]float64{0xFF38: -1000, 0: 0, 0x00C8: 1000} {
		var g gdlReader
		var m merger
		g.geometric([]byte{gdlGeometric, byte(v >> 8), byte(v), 0, 10}, 0, &m)
		same(fmt.Sprintf("geometric altitude %04x", v), m.latest.Value(stream.Altitude), want)
	}
	for v, want := range map[uint16]float64{0: 0, 900: 90, 0x8000 | 900: 90, 3600: 360, 0x7FFF &^ 899: -90, 0xFFFF: none, 3601: none} {
		got, ok := gdlHeading(v)
		if !ok {
			got = none
		}
		same(fmt.Sprintf("heading %04x", v), got, want)
	}
}

// Stuffing as in the specification's section 2.2.1: 7E and 7D inside become 7D 5E and 7D 5D.
func TestGDLStuffing(t *testing.T) {
	for _, in := range []struct {
		message []byte
		prefix  string
	}{{[]byte{2, 0x7E}, "7e027d5e"}, {[]byte{3, 0x7D}, "7e037d5d"}} {
		got := gdlFrame(nil, in.message)
		if fmt.Sprintf("%x", got[:4]) != in.prefix {
			t.Errorf("%x", got)
		}
		var d deframer
		if back, _, err := d.next(got); err != nil || string(back) != string(in.message) {
			t.Errorf("%x, %v", back, err)
		}
	}
}

// The published attitude message, as it is, spoiled, cut, and together with others.
const (
	gdlLevel = "7e650101c2012c83200064007826197e" // bank 45, pitch 30, heading 80 magnetic, 100 kt, 120 kt true
	gdlBeat  = "7e008141dbd00802b38b7e"           // heartbeat
	gdlPlace = "7e0a01f000001c25e6b50ff216098a0008004201537472617475780000dbf67e"
)

func TestGDLBadFrames(t *testing.T) {
	known := func() *Reader {
		r := NewReader(Options{})
		mustDecode(t, r, unhex(t, gdlLevel))
		return r
	}
	for name, want := range map[string]struct {
		in  string
		err error
	}{
		"wrong checksum":     {"7e650101c2012c83200064007826187e", ErrChecksum},
		"bit lost":           {"7e650101c2012c83200064007926197e", ErrChecksum},
		"escape at the end":  {"7e650101c2012c832000640078267d7e", ErrMalformed},
		"escape of nothing":  {"7e6501017d012c83200064007826197e", ErrMalformed},
		"escape twice":       {"7e65017d7d5e2c83200064007826197e", ErrMalformed},
		"too short":          {"7e65197e", ErrChecksum},
		"a byte":             {"7e657e", ErrChecksum},
		"known, too short":   {fmt.Sprintf("%x", gdlFrame(nil, []byte{0x65, 1, 0, 0})), ErrMalformed},
		"known, too long":    {fmt.Sprintf("%x", gdlFrame(nil, make([]byte, 8))), ErrMalformed},
		"unknown":            {fmt.Sprintf("%x", gdlFrame(nil, []byte{0x53, 1, 2})), ErrPart},
		"another 0x65":       {fmt.Sprintf("%x", gdlFrame(nil, []byte{0x65, 9, 2})), ErrPart},
		"another 0x4C":       {fmt.Sprintf("%x", gdlFrame(nil, []byte{0x4C, 9, 2})), ErrPart},
		"flags alone":        {"7e7e7e", ErrPart},
		"too long to be one": {"7e" + fmt.Sprintf("%x", make([]byte, 500)) + "7e", ErrMalformed},
		"good among bad":     {"7e010203047e" + gdlLevel, nil},
		"good before bad":    {gdlLevel + "7e010203047e", nil},
		"one flag between":   {gdlBeat + gdlLevel[2:], nil},
		"no flag at the end": {gdlLevel + gdlBeat[:10], nil},
	} {
		r := known()
		var s stream.Sample
		if err := r.Decode(unhex(t, want.in), &s); err != want.err {
			t.Errorf("%s: %v, want %v", name, err, want.err)
		}
	}
	r := NewReader(Options{})
	var s stream.Sample
	for _, in := range []string{"~", "~~~", "~hello~", "7e", "~1,2,3~\n"} {
		if err := r.Decode([]byte(in), &s); err == nil || r.Format() == "GDL 90" {
			t.Errorf("%q is taken for GDL 90", in)
		}
	}
}

// A frame may be cut by the end of a datagram at any place and go on in the next.
func TestGDLAcrossDatagrams(t *testing.T) {
	whole := unhex(t, gdlBeat+gdlLevel)
	for cut := len(gdlBeat)/2 + 2; cut < len(whole); cut++ {
		r := NewReader(Options{})
		var s stream.Sample
		if err := r.Decode(whole[:cut], &s); err != ErrPart {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		if s = mustDecode(t, r, whole[cut:]); s.Value(stream.Bank) != 45 || s.Value(stream.Airspeed) != 100 || !s.Magnetic {
			t.Errorf("cut at %d: %+v", cut, s)
		}
	}
	r := NewReader(Options{})
	var s stream.Sample
	r.Decode(whole[:len(whole)-3], &s)
	if err := r.Decode([]byte(`{"time":1,"heading":70}`), &s); err != nil || r.Format() != "JSON lines" {
		t.Error("the rest never came, text came instead:", err)
	}
}

// Of both attitude messages the one with a heading counts, 0x65 before 0x4C; what only one has
// is taken from it.
func TestGDLPrecedence(t *testing.T) {
	both := *sampleOf(stream.Heading, 80, stream.Pitch, 2, stream.Bank, 3, stream.Airspeed, 100, stream.NormalLoad, 1.5, stream.VerticalSpeed, 700)
	other := both
	other.Put(stream.Heading, 95)
	other.Put(stream.Airspeed, 90)
	const first = 12 + 4 // bytes of an 0x65 frame without stuffed ones
	frames := gdlAttitudeFrames(nil, &both)
	in65, in4C := frames[:first], gdlAttitudeFrames(nil, &other)[first:]
	r := NewReader(Options{})
	var s stream.Sample
	read := func(now float64, b []byte, heading, airspeed float64, made bool) {
		t.Helper()
		if err := r.DecodeAt(b, now, &s); (err == nil) != made || made && (s.Value(stream.Heading) != heading || s.Value(stream.Airspeed) != airspeed) {
			t.Errorf("%.1f s: %v, %+v", now, err, s)
		}
	}
	read(0, in4C, 95, 90, true)
	read(0.1, in65, 80, 100, true)
	if s.Value(stream.NormalLoad) != 1.5 || s.Value(stream.VerticalSpeed) != 700 {
		t.Error("what 0x4C has alone is lost")
	}
	read(0.2, in4C, 0, 0, false) // 0x65 leads
	read(1.0, in65, 80, 100, true)
	read(2.1, in4C, 95, 100, true) // 0x65 no longer comes; its airspeed is not too old yet
	read(3.0, in4C, 95, 90, true)
	none := both
	none.Drop(stream.Heading)
	blind := gdlAttitudeFrames(nil, &none)[:first]
	read(3.1, blind, 0, 0, false) // 0x65 without heading, as from some devices
	if s.Has != 0 {
		t.Error("a sample beside an error")
	}
	read(3.2, in4C, 95, 100, true)
}

// Altitude: pressure altitude until the sender says that its geometric one is above mean sea
// level; then no way back, for that would read as a climb.
func TestGDLAltitude(t *testing.T) {
	geometric := unhex(t, "7e0b065b000ac3b17e") // 8,135 ft
	sea := unhex(t, "7e65000100000000000004d254455354204445565445535420444556494345f09f988e200100000033a57e")
	r := NewReader(Options{})
	altitude := func(now float64, b []byte) float64 {
		t.Helper()
		var s stream.Sample
		r.DecodeAt(b, now, &s)
		if err := r.DecodeAt(unhex(t, gdlLevel), now, &s); err != nil {
			t.Fatal(err)
		}
		return orNaN(&s, stream.Altitude)
	}
	for i, step := range []struct {
		now  float64
		b    []byte
		want float64
	}{
		{0, geometric, 8135}, {0.5, unhex(t, gdlPlace), 7800}, {1, geometric, 7800}, {1.1, sea, 7800}, {1.2, geometric, 8135},
		{1.5, unhex(t, gdlPlace), 8135}, {4, unhex(t, gdlPlace), math.NaN()}, {4.5, geometric, 8135},
	} {
		if got := altitude(step.now, step.b); got != step.want && !(got != got && step.want != step.want) {
			t.Errorf("step %d: %v, want %v", i, got, step.want)
		}
	}
	if r.Detail() != "altitude is above mean sea level; attitude by message 0x65" {
		t.Error(r.Detail())
	}
}
