package wire

import (
	"testing"

	"halfturn/stream"
)

// Frames made by another library (public TypeScript test, pymavlink 2.4.50, system 7).
const (
	mavPlace = "fd1c00000007012100006ce20100f3220e11582a052ed41804004ccc00005e0188ffe7ff8c23c4cd"
	mavSpeed = "fd1300000007014a0000000048410000304100408643cdccccbe5b0037612c"
)

// The three messages of one vehicle make one sample; it tells where its values come from.
func TestMAVLinkMerge(t *testing.T) {
	r := NewReader(Options{})
	var s stream.Sample
	for _, in := range []string{mavPlace, mavSpeed} {
		if err := r.DecodeAt(unhex(t, in), 1, &s); err != ErrPart {
			t.Fatal("before the attitude no vehicle is followed:", err)
		}
	}
	if err := r.DecodeAt(unhex(t, mavFirst+mavPlace+mavSpeed), 1, &s); err != nil {
		t.Fatal(err)
	}
	want := map[stream.Channel]float64{stream.Time: 123.456, stream.Bank: 2.5, stream.Pitch: -4, stream.Heading: 91, stream.Latitude: 28.6139123,
		stream.Airspeed: 12.5 * 3600 / 1852, stream.GroundSpeed: 3.7 * 3600 / 1852, stream.Altitude: 268.5 / 0.3048, stream.Throttle: 0.55,
		stream.VerticalSpeed: 0.25 / 0.3048 * 60} // position before the head-up display where both tell
	for c, v := range want {
		if !near(c, s.Value(c), v, 1e-5) {
			t.Errorf("%s = %v, want %v", c, s.Value(c), v)
		}
	}
	if s.Has.Has(stream.Height) {
		t.Error("height above the start is taken for height above ground")
	}
	for now, c := range map[float64]stream.Channel{2.9: stream.Airspeed, 3.6: stream.Latitude} {
		if err := r.DecodeAt(unhex(t, mavFirst), now, &s); err != nil || s.Has.Has(c) {
			t.Errorf("%v s later %s is still there, %v", now, c, err)
		}
	}
}

func TestMAVLinkBad(t *testing.T) {
	spoiled := func(at int) []byte {
		b := unhex(t, mavFirst)
		b[at] ^= 0x40
		return b
	}
	other := unhex(t, mavFirst)
	other[5] = 9
	f := mavParse(other)
	sum := mavSum(mavSum(0xFFFF, f.sum[:len(f.sum)-2]), []byte{39})
	other[len(other)-2], other[len(other)-1] = byte(sum), byte(sum>>8)
	unknown := []byte{mavMagic2, 1, 0, 0, 0, 7, 1, 99, 0, 0, 5, 1, 2}
	signed := append([]byte{mavMagic2, 1, 1, 0, 0, 7, 1, 99, 0, 0, 5, 1, 2}, make([]byte, 13)...)
	for name, tt := range map[string]struct {
		in  []byte
		err error
	}{
		"bit in the payload":       {spoiled(12), ErrChecksum},
		"bit in the checksum":      {spoiled(27), ErrChecksum},
		"bit in the sequence":      {spoiled(4), ErrChecksum},
		"forbidding flag":          {spoiled(2), ErrMalformed},
		"version 1, wrong length":  {[]byte{mavMagic1, 4, 0, 7, 1, 30, 1, 2, 3, 4, 5, 6}, ErrMalformed},
		"another vehicle":          {other, ErrPart},
		"a message nobody knows":   {unknown, ErrPart},
		"a signed one":             {signed, ErrPart},
		"junk after a good one":    {append(unhex(t, mavFirst), "junk"...), nil},
		"good after unknown":       {append(append([]byte{}, unknown...), unhex(t, mavFirst)...), nil},
		"good after signed":        {append(append([]byte{}, signed...), unhex(t, mavFirst)...), nil},
		"spoiled after a good one": {append(unhex(t, mavFirst), spoiled(12)...), nil},
	} {
		r := NewReader(Options{})
		mustDecode(t, r, unhex(t, mavFirst))
		var s stream.Sample
		if err := r.Decode(tt.in, &s); err != tt.err {
			t.Errorf("%s: %v, want %v", name, err, tt.err)
		}
	}
	for _, in := range [][]byte{spoiled(12), []byte("\xfd\xfe"), []byte("\xfe\xff\x00a\x00b\x00c"), {mavMagic2}} {
		var s stream.Sample
		if err := NewReader(Options{}).Decode(in, &s); err == nil || err == ErrPart {
			t.Errorf("%x is taken for MAVLink: %v", in, err)
		}
	}
}

// A frame that the end of a datagram cuts goes on in the next.
func TestMAVLinkAcrossDatagrams(t *testing.T) {
	whole := unhex(t, mavFirst)
	for cut := 1; cut < len(whole); cut++ {
		r := NewReader(Options{})
		mustDecode(t, r, whole)
		var s stream.Sample
		if err := r.Decode(whole[:cut], &s); err != ErrPart {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		if s = mustDecode(t, r, append(whole[cut:len(whole):len(whole)], whole...)); !near(stream.Bank, s.Value(stream.Bank), 2.5, 1e-5) {
			t.Errorf("cut at %d: %+v", cut, s)
		}
		r.Decode(whole[:cut], &s)
		if s = mustDecode(t, r, whole); !near(stream.Bank, s.Value(stream.Bank), 2.5, 1e-5) {
			t.Errorf("cut at %d, the rest lost: %+v", cut, s)
		}
	}
}

// The checksum's extra bytes, made as the specification says: from the message's name and the
// types and names of its fields in the order on the wire.
func TestMAVLinkExtra(t *testing.T) {
	for id, definition := range map[uint32]string{
		mavAttitude: "ATTITUDE uint32_t time_boot_ms float roll float pitch float yaw float rollspeed float pitchspeed float yawspeed ",
		mavPosition: "GLOBAL_POSITION_INT uint32_t time_boot_ms int32_t lat int32_t lon int32_t alt int32_t relative_alt int16_t vx int16_t vy int16_t vz uint16_t hdg ",
		mavHUD:      "VFR_HUD float airspeed float groundspeed float alt float climb int16_t heading uint16_t throttle ",
	} {
		sum := mavSum(0xFFFF, []byte(definition))
		if _, extra, _ := mavKnown(id); byte(sum)^byte(sum>>8) != extra {
			t.Errorf("message %d: %d", id, byte(sum)^byte(sum>>8))
		}
	}
}

// Another vehicle takes the place of one that is silent; zeros for both coordinates are no place.
func TestMAVLinkVehicles(t *testing.T) {
	r := NewReader(Options{})
	var s stream.Sample
	mine, other := unhex(t, mavFirst), mavFrom(unhex(t, mavFirst), 9)
	place := mavFrom((&mavEncoder{}).frame(nil, mavPosition, make([]byte, 28)), 9)
	for i, step := range []struct {
		now float64
		in  []byte
		err error
	}{{0, mine, nil}, {1, other, ErrPart}, {4, mine, nil}, {8.9, other, ErrPart}, {9.1, place, ErrPart}, {9.2, other, nil}, {9.3, mine, ErrPart},
		{9.4, append(append([]byte{}, place...), other...), nil}} {
		if err := r.DecodeAt(step.in, step.now, &s); err != step.err {
			t.Errorf("step %d: %v, want %v", i, err, step.err)
		}
	}
	if s.Has.Has(stream.Latitude) || s.Has.Has(stream.Longitude) || !s.Has.Has(stream.Altitude) {
		t.Errorf("channels %v", s.Has.Names())
	}
}
