package gdl90_test

import (
	"fmt"
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/gdl90"
	"halfturn/stream/wire/wiretest"
)

// The published attitude message, as it is, spoiled, cut, and together with others.
const (
	gdlLevel = "7e650101c2012c83200064007826197e" // bank 45, pitch 30, heading 80 magnetic, 100 kt, 120 kt true
	gdlBeat  = "7e008141dbd00802b38b7e"           // heartbeat
	gdlPlace = "7e0a01f000001c25e6b50ff216098a0008004201537472617475780000dbf67e"
)

func TestGDLBadFrames(t *testing.T) {
	known := func() *wire.Reader {
		r := wire.NewReader(format.Options{})
		wiretest.Decode(t, r, wiretest.Unhex(t, gdlLevel))
		return r
	}
	for name, want := range map[string]struct {
		in  string
		err error
	}{
		"wrong checksum":     {"7e650101c2012c83200064007826187e", fault.ErrChecksum},
		"bit lost":           {"7e650101c2012c83200064007926197e", fault.ErrChecksum},
		"escape at the end":  {"7e650101c2012c832000640078267d7e", fault.ErrMalformed},
		"escape of nothing":  {"7e6501017d012c83200064007826197e", fault.ErrMalformed},
		"escape twice":       {"7e65017d7d5e2c83200064007826197e", fault.ErrMalformed},
		"too short":          {"7e65197e", fault.ErrChecksum},
		"a byte":             {"7e657e", fault.ErrChecksum},
		"known, too short":   {fmt.Sprintf("%x", frame([]byte{0x65, 1, 0, 0})), fault.ErrMalformed},
		"known, too long":    {fmt.Sprintf("%x", frame(make([]byte, 8))), fault.ErrMalformed},
		"unknown":            {fmt.Sprintf("%x", frame([]byte{0x53, 1, 2})), fault.ErrPart},
		"another 0x65":       {fmt.Sprintf("%x", frame([]byte{0x65, 9, 2})), fault.ErrPart},
		"another 0x4C":       {fmt.Sprintf("%x", frame([]byte{0x4C, 9, 2})), fault.ErrPart},
		"flags alone":        {"7e7e7e", fault.ErrPart},
		"too long to be one": {"7e" + fmt.Sprintf("%x", make([]byte, 500)) + "7e", fault.ErrMalformed},
		"good among bad":     {"7e010203047e" + gdlLevel, nil},
		"good before bad":    {gdlLevel + "7e010203047e", nil},
		"one flag between":   {gdlBeat + gdlLevel[2:], nil},
		"no flag at the end": {gdlLevel + gdlBeat[:10], nil},
	} {
		r := known()
		var s stream.Sample
		if err := r.Decode(wiretest.Unhex(t, want.in), 0, &s); err != want.err {
			t.Errorf("%s: %v; must be %v", name, err, want.err)
		}
	}
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	for _, in := range []string{"~", "~~~", "~hello~", "7e", "~1,2,3~\n"} {
		if err := r.Decode([]byte(in), 0, &s); err == nil || r.Format() == "GDL 90" {
			t.Errorf("%q is taken for GDL 90", in)
		}
	}
}

// A frame may be cut by the end of a datagram at any place and go on in the next.
func TestGDLAcrossDatagrams(t *testing.T) {
	whole := wiretest.Unhex(t, gdlBeat+gdlLevel)
	for cut := len(gdlBeat)/2 + 2; cut < len(whole); cut++ {
		r := wire.NewReader(format.Options{})
		var s stream.Sample
		if err := r.Decode(whole[:cut], 0, &s); err != fault.ErrPart {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		if s = wiretest.Decode(t, r, whole[cut:]); s.Value(stream.Bank) != 45 || s.Value(stream.Airspeed) != 100 ||
			!s.Magnetic {
			t.Errorf("cut at %d: %+v", cut, s)
		}
	}
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	r.Decode(whole[:len(whole)-3], 0, &s)
	if err := r.Decode([]byte(`{"time":1,"heading":70}`), 0, &s); err != nil || r.Format() != "JSON lines" {
		t.Error("the rest never came, text came instead:", err)
	}
}

// Of both attitude messages the one with a heading counts, 0x65 before 0x4C; what only one has
// is taken from it.
func TestGDLPrecedence(t *testing.T) {
	both := *wiretest.SampleOf(stream.Heading, 80, stream.Pitch, 2, stream.Bank, 3, stream.Airspeed, 100,
		stream.NormalLoad, 1.5, stream.VerticalSpeed, 700)
	other := both
	other.Put(stream.Heading, 95)
	other.Put(stream.Airspeed, 90)
	const first = 12 + 4 // bytes of an 0x65 frame without stuffed ones
	frames := attitudeFrames(t, &both)
	in65, in4C := frames[:first], attitudeFrames(t, &other)[first:]
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	read := func(now float64, b []byte, heading, airspeed float64, made bool) {
		t.Helper()
		if err := r.Decode(b, now, &s); (err == nil) != made ||
			made && (s.Value(stream.Heading) != heading || s.Value(stream.Airspeed) != airspeed) {
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
	blind := attitudeFrames(t, &none)[:first]
	read(3.1, blind, 0, 0, false) // 0x65 without heading, as from some devices
	if s.Has != 0 {
		t.Error("a sample beside an error")
	}
	read(3.2, in4C, 95, 100, true)
}

// Altitude: pressure altitude until the sender says that its geometric one is above mean sea
// level; then no way back, for that would read as a climb.
func TestGDLAltitude(t *testing.T) {
	geometric := wiretest.Unhex(t, "7e0b065b000ac3b17e") // 8,135 ft
	sea := wiretest.Unhex(t, "7e65000100000000000004d254455354204445565445535420444556494345f09f988e200100000033a57e")
	r := wire.NewReader(format.Options{})
	altitude := func(now float64, b []byte) float64 {
		t.Helper()
		var s stream.Sample
		r.Decode(b, now, &s)
		if err := r.Decode(wiretest.Unhex(t, gdlLevel), now, &s); err != nil {
			t.Fatal(err)
		}
		return wiretest.OrNaN(&s, stream.Altitude)
	}
	for i, step := range []struct {
		now  float64
		b    []byte
		want float64
	}{
		{0, geometric, 8135}, {0.5, wiretest.Unhex(t, gdlPlace), 7800}, {1, geometric, 7800}, {1.1, sea, 7800},
		{1.2, geometric, 8135},
		{1.5, wiretest.Unhex(t, gdlPlace), 8135}, {4, wiretest.Unhex(t, gdlPlace), math.NaN()}, {4.5, geometric, 8135},
	} {
		if got := altitude(step.now, step.b); got != step.want && !(got != got && step.want != step.want) {
			t.Errorf("step %d: %v; must be %v", i, got, step.want)
		}
	}
	if r.Detail().String() != "altitude is above mean sea level; attitude by message 0x65" {
		t.Error(r.Detail())
	}
}

// attitudeFrames writes the two attitude messages of a sample, 0x65 and 0x4C: the last two frames of the encoder.
func attitudeFrames(t testing.TB, s *stream.Sample) []byte {
	t.Helper()
	e := wiretest.NewEncoder(t, "gdl90")
	e.Append(nil, s) // what comes once a second
	return e.Append(nil, s)
}

// frame puts a message between flags, with its checksum, stuffed.
func frame(message []byte) []byte {
	sum := gdl90.Sum(message)
	out := []byte{gdl90.Flag}
	for _, c := range append(message[:len(message):len(message)], byte(sum), byte(sum>>8)) {
		if c == gdl90.Flag || c == gdl90.Escape {
			out = append(out, gdl90.Escape)
			c ^= gdl90.Mask
		}
		out = append(out, c)
	}
	return append(out, gdl90.Flag)
}

func FuzzGDL90(f *testing.F) {
	wiretest.Fuzz(f, "FuzzGDL90", "gdl90", string(wiretest.Unhex(f, gdlLevel)))
}

// FuzzGDLMessage gives messages the right checksum first: chance never does.
func FuzzGDLMessage(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzGDLMessage")
	f.Fuzz(func(t *testing.T, a, b []byte) {
		if len(a) == 0 || len(b) == 0 {
			return
		}
		datagram := append(frame(a), frame(b)...)
		wiretest.Feed(t, format.Options{}, nil, datagram, "gdl90")
		wiretest.Feed(t, format.Options{}, []string{string(frame(a))}, frame(b), "gdl90")
		if len(a) > gdl90.Longest-2 {
			return
		}
		var d gdl90.Deframer // what was framed comes out again, wherever it was cut
		for cut := range len(datagram) {
			message, _, err := d.Next(datagram[:cut])
			if message == nil {
				message, _, err = d.Next(datagram[cut:])
			}
			if err != nil && len(a) > 0 || string(message) != string(a) {
				t.Fatalf("%x gives %x, %v", a, message, err)
			}
			d = gdl90.Deframer{}
		}
	})
}

// Stuffing as in the specification's section 2.2.1: 7E and 7D inside become 7D 5E and 7D 5D.
func TestGDLStuffing(t *testing.T) {
	for _, in := range []struct {
		message []byte
		prefix  string
	}{{[]byte{2, 0x7E}, "7e027d5e"}, {[]byte{3, 0x7D}, "7e037d5d"}} {
		got := frame(in.message)
		if fmt.Sprintf("%x", got[:4]) != in.prefix {
			t.Errorf("%x", got)
		}
		var d gdl90.Deframer
		if back, _, err := d.Next(got); err != nil || string(back) != string(in.message) {
			t.Errorf("%x, %v", back, err)
		}
	}
}
