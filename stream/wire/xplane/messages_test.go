package xplane_test

import (
	"bytes"
	"encoding/hex"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/wiretest"
	"halfturn/stream/wire/xplane"
)

// The request for 20 times a second, index 7: the structure is that of the simulator's own
// documentation, its length of 413 bytes also that of two independent receivers.
func TestRequest(t *testing.T) {
	const name = "sim/flightmodel/position/indicated_airspeed"
	got := xplane.AppendRequest(nil, 20, 7, name)
	want := append(wiretest.Unhex(t, "52524546001400000007000000"), name...)
	want = append(want, make([]byte, 413-len(want))...)
	if !bytes.Equal(got, want) {
		t.Errorf("%q", got)
	}
	long := xplane.AppendRequest(nil, 1, 1, string(bytes.Repeat([]byte("x"), 999)))
	if len(long) != 413 || long[412] != 0 {
		t.Errorf("a name too long gives %d bytes", len(long))
	}
}

// Replies that nobody here asked for are passed over; one without attitude makes no sample.
func TestRepliesForeign(t *testing.T) {
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	for in, want := range map[string]error{
		"525245462c":                 fault.ErrTruncated,
		"525245462c00000000":         fault.ErrTruncated,
		"525245462cffffffff0000803f": fault.ErrPart, // index −1
		"525245462c001000000000803f": fault.ErrPart,
		"525245462c040000000000c842": fault.ErrPart, // airspeed alone
		hex.EncodeToString(xplane.AppendRequest(nil, 5, 1, "x")): fault.ErrStatus,
	} {
		if err := r.Decode(wiretest.Unhex(t, in), 0, &s); err != want {
			t.Errorf("%.40s: %v; must be %v", in, err, want)
		}
	}
	if s = wiretest.Decode(t, r, wiretest.Unhex(t, "525245462c020000000000a040")); s != *wiretest.SampleOf(stream.Pitch,
		5, stream.Airspeed, 100) {
		t.Errorf("%+v", s)
	}
}

// dref makes dataref output as documented: value, then the name in 500 bytes.
func dref(name string, bits string) []byte {
	b, _ := hex.DecodeString("445245462b" + bits)
	b = append(b, name...)
	return append(b, make([]byte, 509-len(b))...)
}

// Dataref output: the attitude makes a sample when all three angles came.
func TestDatarefOutput(t *testing.T) {
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	for _, b := range [][]byte{
		dref("sim/flightmodel/position/indicated_airspeed", "0000cb42"), // 101.5, computed from the structure
		dref("sim/flightmodel/position/theta", "0000a040"),
		dref("sim/flightmodel/position/mag_psi", "00002042"),
		dref("sim/weather/rain", "0000a040"),
	} {
		if err := r.Decode(b, 0, &s); err != fault.ErrPart {
			t.Fatal(err)
		}
	}
	s = wiretest.Decode(t, r, dref("sim/flightmodel/position/phi", "0000f041"))
	want := *wiretest.SampleOf(stream.Airspeed, 101.5, stream.Pitch, 5, stream.Heading, 40, stream.Bank, 30)
	if want.Magnetic = true; s != want || r.Format() != "dataref output (DREF)" {
		t.Errorf("%+v", s)
	}
	if err := r.Decode(dref("sim/flightmodel/position/phi", "0000f041"), 0, &s); err != fault.ErrPart {
		t.Error("bank alone made a sample:", err)
	}
	r.Decode(dref("sim/flightmodel/position/theta", "0000a040"), 0, &s)
	if s = wiretest.Decode(t, r, dref("sim/flightmodel/position/psi", "00002042")); s.Magnetic ||
		s.Value(stream.Heading) != 40 {
		t.Errorf("the true heading does not win: %+v", s)
	}
	if err := r.Decode(dref("x", "00000000")[:400], 0, &s); err != fault.ErrTruncated {
		t.Error(err)
	}
}

// A beacon of version 1.2, computed from the documented structure.
func TestBeacon(t *testing.T) {
	in := wiretest.Unhex(t, "4245434e0001020100000024d501000100000068bf53494d50430072bf")
	got, err := xplane.DecodeBeacon(in)
	if err != nil || got != (xplane.Beacon{Host: 1, Version: 120100, Role: 1, Port: 49000, Name: "SIMPC"}) {
		t.Errorf("%+v, %v", got, err)
	}
	for n := range len(in) - 2 {
		if _, err := xplane.DecodeBeacon(in[:n]); err == nil {
			t.Errorf("%d bytes are taken for a beacon", n)
		}
	}
	in[5] = 2
	if _, err := xplane.DecodeBeacon(in); err != fault.ErrUnknown {
		t.Error("an unknown major version:", err)
	}
}
