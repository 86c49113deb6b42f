package wire

import (
	"bytes"
	"encoding/hex"
	"math"
	"testing"

	"halfturn/stream"
)

func unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// The request for 20 times a second, index 7: the structure is that of the simulator's own
// documentation, its length of 413 bytes also that of two independent receivers.
func TestRequest(t *testing.T) {
	const name = "sim/flightmodel/position/indicated_airspeed"
	got := AppendRequest(nil, 20, 7, name)
	want := append(unhex(t, "52524546001400000007000000"), name...)
	want = append(want, make([]byte, 413-len(want))...)
	if !bytes.Equal(got, want) {
		t.Errorf("%q", got)
	}
	long := AppendRequest(nil, 1, 1, string(bytes.Repeat([]byte("x"), 999)))
	if len(long) != 413 || long[412] != 0 {
		t.Errorf("a name too long gives %d bytes", len(long))
	}
}

// Replies with the header of versions 11 and 12 and of version 10. The first was captured from a
// simulator (public Python client, PaulskPt), the others are computed.
func TestReplies(t *testing.T) {
	asked := make([]Dataref, 9)
	for i, c := range map[int]stream.Channel{0: stream.Altitude, 1: stream.Bank, 7: stream.Airspeed, 8: stream.Pitch} {
		asked[i] = Dataref{Channel: c, scale: 1}
	}
	for in, want := range map[string]*stream.Sample{
		"525245462c0000000000582c460100000000000000": sampleOf(stream.Altitude, 11030, stream.Bank, 0),
		"525245462c070000000000cb4208000000000010c0": sampleOf(stream.Airspeed, 101.5, stream.Pitch, -2.25),
		"525245464f070000000000cb4208000000000010c0": sampleOf(stream.Airspeed, 101.5, stream.Pitch, -2.25),
	} {
		r := NewReader(Options{Datarefs: asked})
		if got := mustDecode(t, r, unhex(t, in)); got != *want || r.Format() != "RREF replies" {
			t.Errorf("%s: %+v", in, got)
		}
	}
}

// The list to ask for: no name and no channel twice, few enough for one go, units as documented.
func TestDatarefs(t *testing.T) {
	names, channels := map[string]bool{}, map[stream.Channel]bool{}
	for _, d := range Datarefs() {
		if names[d.Name] || channels[d.Channel] || d.magnetic {
			t.Errorf("%s is there twice, or its channel", d.Name)
		}
		names[d.Name], channels[d.Channel] = true, true
	}
	if len(names) > 100 || len(names) != asked {
		t.Errorf("%d are asked for", len(names))
	}
	for name, sent := range map[string]struct {
		channel stream.Channel
		sent    float32
		want    float64
	}{ // DataRefs.txt of version 10.41: knots, m/s, m, °, ft/min, rad/s
		"sim/flightmodel/position/indicated_airspeed": {stream.Airspeed, 100, 100},
		"sim/flightmodel/position/true_airspeed":      {stream.TrueAirspeed, 100, 100 * 3600 / 1852.0},
		"sim/flightmodel/position/groundspeed":        {stream.GroundSpeed, 100, 100 * 3600 / 1852.0},
		"sim/flightmodel/position/elevation":          {stream.Altitude, 304.8, 1000},
		"sim/flightmodel/position/y_agl":              {stream.Height, 304.8, 1000},
		"sim/flightmodel/position/vh_ind":             {stream.VerticalSpeed, 5.08, 1000},
		"sim/flightmodel/position/vh_ind_fpm":         {stream.VerticalSpeed, 500, 500},
		"sim/flightmodel/position/beta":               {stream.Sideslip, 2, -2},
		"sim/flightmodel/position/P":                  {stream.RollRate, 10, 10},
		"sim/flightmodel/position/Qrad":               {stream.PitchRate, 1, 180 / math.Pi},
		"sim/flightmodel/forces/g_nrml":               {stream.NormalLoad, 1, 1},
		"sim/cockpit2/controls/yoke_pitch_ratio":      {stream.Elevator, 1, 1},
		"sim/time/paused":                             {stream.Paused, 1, 1},
	} {
		d, ok := DatarefNamed(name)
		var m merger
		d.put(sent.sent, 0, &m)
		if got := m.latest.Value(sent.channel); !ok || math.Abs(got-sent.want) > 1e-4 {
			t.Errorf("%s: %v, want %v", name, got, sent.want)
		}
	}
	if _, ok := DatarefNamed("sim/none"); ok {
		t.Error("a dataref nobody knows")
	}
}

// Replies that nobody here asked for are passed over; one without attitude makes no sample.
func TestRepliesForeign(t *testing.T) {
	r := NewReader(Options{})
	var s stream.Sample
	for in, want := range map[string]error{
		"525245462c":                                      ErrTruncated,
		"525245462c00000000":                              ErrTruncated,
		"525245462cffffffff0000803f":                      ErrPart, // index −1
		"525245462c001000000000803f":                      ErrPart,
		"525245462c040000000000c842":                      ErrPart, // airspeed alone
		hex.EncodeToString(AppendRequest(nil, 5, 1, "x")): ErrStatus,
	} {
		if err := r.Decode(unhex(t, in), &s); err != want {
			t.Errorf("%.40s: %v, want %v", in, err, want)
		}
	}
	if s = mustDecode(t, r, unhex(t, "525245462c020000000000a040")); s != *sampleOf(stream.Pitch, 5, stream.Airspeed, 100) {
		t.Errorf("%+v", s)
	}
}

// dref makes dataref output as documented: value, then the name in 500 bytes.
func dref(name string, bits string) []byte {
	b, _ := hex.DecodeString("445245462b" + bits)
	b = append(b, name...)
	return append(b, make([]byte, datarefLength-len(b))...)
}

// Dataref output: the attitude makes a sample when all three angles came.
func TestDatarefOutput(t *testing.T) {
	r := NewReader(Options{})
	var s stream.Sample
	for _, b := range [][]byte{
		dref("sim/flightmodel/position/indicated_airspeed", "0000cb42"), // 101.5, computed from the structure
		dref("sim/flightmodel/position/theta", "0000a040"),
		dref("sim/flightmodel/position/mag_psi", "00002042"),
		dref("sim/weather/rain", "0000a040"),
	} {
		if err := r.Decode(b, &s); err != ErrPart {
			t.Fatal(err)
		}
	}
	s = mustDecode(t, r, dref("sim/flightmodel/position/phi", "0000f041"))
	want := *sampleOf(stream.Airspeed, 101.5, stream.Pitch, 5, stream.Heading, 40, stream.Bank, 30)
	if want.Magnetic = true; s != want || r.Format() != "dataref output (DREF)" {
		t.Errorf("%+v", s)
	}
	if err := r.Decode(dref("sim/flightmodel/position/phi", "0000f041"), &s); err != ErrPart {
		t.Error("bank alone made a sample:", err)
	}
	r.Decode(dref("sim/flightmodel/position/theta", "0000a040"), &s)
	if s = mustDecode(t, r, dref("sim/flightmodel/position/psi", "00002042")); s.Magnetic || s.Value(stream.Heading) != 40 {
		t.Errorf("the true heading does not win: %+v", s)
	}
	if err := r.Decode(dref("x", "00000000")[:400], &s); err != ErrTruncated {
		t.Error(err)
	}
}

// A beacon of version 1.2, computed from the documented structure.
func TestBeacon(t *testing.T) {
	in := unhex(t, "4245434e0001020100000024d501000100000068bf53494d50430072bf")
	got, err := DecodeBeacon(in)
	if err != nil || got != (Beacon{Host: 1, Version: 120100, Role: 1, Port: 49000, Name: "SIMPC"}) {
		t.Errorf("%+v, %v", got, err)
	}
	for n := range len(in) - 2 {
		if _, err := DecodeBeacon(in[:n]); err == nil {
			t.Errorf("%d bytes are taken for a beacon", n)
		}
	}
	in[5] = 2
	if _, err := DecodeBeacon(in); err != ErrUnknown {
		t.Error("an unknown major version:", err)
	}
}

// Which layout of row 16 was decided is said, and why.
func TestRowsDetail(t *testing.T) {
	turn := flight(600, func(i int) (p, q, r float64) { return 15 * math.Sin(float64(i)/40), 1, 1 })
	for want, o := range map[string]Options{
		"row 16 is roll, pitch, yaw in °/s (version 12), found from the change of attitude": {},
		"row 16 is roll, pitch, yaw in °/s (version 12), as told":                           {Rows: RowsNew},
		"row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), as told":                 {Rows: RowsOld},
	} {
		r := NewReader(o)
		for i := range turn {
			mustDecode(t, r, rowEncoder{}.Append(nil, &turn[i]))
			if i == 2 && o.Rows == RowsAuto && r.Detail() != "row 16: layout not found yet, its rates are not used" {
				t.Errorf("at first: %q", r.Detail())
			}
		}
		if r.Detail() != want {
			t.Errorf("%q, want %q", r.Detail(), want)
		}
	}
}
