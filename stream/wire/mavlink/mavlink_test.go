package mavlink_test

import (
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mavlink"
	"halfturn/stream/wire/wiretest"
)

// Frames made by another library (public TypeScript test, pymavlink 2.4.50, system 7).
const (
	mavFirst = "fd1000000007011e000040e20100c2b8323d35fa8ebdc34bcb3fd318" // attitude, published
	mavPlace = "fd1c00000007012100006ce20100f3220e11582a052ed41804004ccc00005e0188ffe7ff8c23c4cd"
	mavSpeed = "fd1300000007014a0000000048410000304100408643cdccccbe5b0037612c"
)

// The three messages of one vehicle make one sample; it tells where its values come from.
func TestMAVLinkMerge(t *testing.T) {
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	for _, in := range []string{mavPlace, mavSpeed} {
		if err := r.Decode(wiretest.Unhex(t, in), 1, &s); err != fault.ErrPart {
			t.Fatal("before the attitude no vehicle is followed:", err)
		}
	}
	if err := r.Decode(wiretest.Unhex(t, mavFirst+mavPlace+mavSpeed), 1, &s); err != nil {
		t.Fatal(err)
	}
	want := map[stream.Channel]float64{stream.Time: 123.456, stream.Bank: 2.5, stream.Pitch: -4, stream.Heading: 91,
		stream.Latitude: 28.6139123,
		stream.Airspeed: 12.5 * 3600 / 1852, stream.GroundSpeed: 3.7 * 3600 / 1852, stream.Altitude: 268.5 / 0.3048,
		stream.Throttle:      0.55,
		stream.VerticalSpeed: 0.25 / 0.3048 * 60} // position before the head-up display where both tell
	for c, v := range want {
		if !wiretest.Near(c, s.Value(c), v, 1e-5) {
			t.Errorf("%s = %v; must be %v", c, s.Value(c), v)
		}
	}
	if s.Has.Has(stream.Height) {
		t.Error("height above the start is taken for height above ground")
	}
	for now, c := range map[float64]stream.Channel{2.9: stream.Airspeed, 3.6: stream.Latitude} {
		if err := r.Decode(wiretest.Unhex(t, mavFirst), now, &s); err != nil || s.Has.Has(c) {
			t.Errorf("%v s later %s is still there, %v", now, c, err)
		}
	}
}

func TestMAVLinkBad(t *testing.T) {
	spoiled := func(at int) []byte {
		b := wiretest.Unhex(t, mavFirst)
		b[at] ^= 0x40
		return b
	}
	other := from(wiretest.Unhex(t, mavFirst), 9)
	unknown := []byte{mavlink.Magic2, 1, 0, 0, 0, 7, 1, 99, 0, 0, 5, 1, 2}
	signed := append([]byte{mavlink.Magic2, 1, 1, 0, 0, 7, 1, 99, 0, 0, 5, 1, 2}, make([]byte, 13)...)
	for name, tt := range map[string]struct {
		in  []byte
		err error
	}{
		"bit in the payload":       {spoiled(12), fault.ErrChecksum},
		"bit in the checksum":      {spoiled(27), fault.ErrChecksum},
		"bit in the sequence":      {spoiled(4), fault.ErrChecksum},
		"forbidding flag":          {spoiled(2), fault.ErrMalformed},
		"version 1, wrong length":  {[]byte{mavlink.Magic1, 4, 0, 7, 1, 30, 1, 2, 3, 4, 5, 6}, fault.ErrMalformed},
		"another vehicle":          {other, fault.ErrPart},
		"a message nobody knows":   {unknown, fault.ErrPart},
		"a signed one":             {signed, fault.ErrPart},
		"junk after a good one":    {append(wiretest.Unhex(t, mavFirst), "junk"...), nil},
		"good after unknown":       {append(append([]byte{}, unknown...), wiretest.Unhex(t, mavFirst)...), nil},
		"good after signed":        {append(append([]byte{}, signed...), wiretest.Unhex(t, mavFirst)...), nil},
		"spoiled after a good one": {append(wiretest.Unhex(t, mavFirst), spoiled(12)...), nil},
	} {
		r := wire.NewReader(format.Options{})
		wiretest.Decode(t, r, wiretest.Unhex(t, mavFirst))
		var s stream.Sample
		if err := r.Decode(tt.in, 0, &s); err != tt.err {
			t.Errorf("%s: %v; must be %v", name, err, tt.err)
		}
	}
	for _, in := range [][]byte{spoiled(12), []byte("\xfd\xfe"), []byte("\xfe\xff\x00a\x00b\x00c"), {mavlink.Magic2}} {
		var s stream.Sample
		if err := wire.NewReader(format.Options{}).Decode(in, 0, &s); err == nil || err == fault.ErrPart {
			t.Errorf("%x is taken for MAVLink: %v", in, err)
		}
	}
}

// A frame that the end of a datagram cuts goes on in the next.
func TestMAVLinkAcrossDatagrams(t *testing.T) {
	whole := wiretest.Unhex(t, mavFirst)
	for cut := 1; cut < len(whole); cut++ {
		r := wire.NewReader(format.Options{})
		wiretest.Decode(t, r, whole)
		var s stream.Sample
		if err := r.Decode(whole[:cut], 0, &s); err != fault.ErrPart {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		if s = wiretest.Decode(t, r, append(whole[cut:len(whole):len(whole)], whole...)); !wiretest.Near(stream.Bank,
			s.Value(stream.Bank), 2.5, 1e-5) {
			t.Errorf("cut at %d: %+v", cut, s)
		}
		r.Decode(whole[:cut], 0, &s)
		if s = wiretest.Decode(t, r, whole); !wiretest.Near(stream.Bank, s.Value(stream.Bank), 2.5, 1e-5) {
			t.Errorf("cut at %d, the rest lost: %+v", cut, s)
		}
	}
}

// The checksum's extra bytes, made as the specification says: from the message's name and the
// types and names of its fields in the order on the wire.
func TestMAVLinkExtra(t *testing.T) {
	for id, definition := range map[uint32]string{
		mavlink.Attitude: "ATTITUDE uint32_t time_boot_ms float roll float pitch float yaw float rollspeed float " +
			"pitchspeed float yawspeed ",
		mavlink.Position: "GLOBAL_POSITION_INT uint32_t time_boot_ms int32_t lat int32_t lon int32_t alt int32_t " +
			"relative_alt int16_t vx int16_t vy int16_t vz uint16_t hdg ",
		mavlink.HUD: "VFR_HUD float airspeed float groundspeed float alt float climb int16_t heading uint16_t " +
			"throttle ",
	} {
		sum := mavlink.Sum(0xFFFF, []byte(definition))
		if _, extra, _ := mavlink.Known(id); byte(sum)^byte(sum>>8) != extra {
			t.Errorf("message %d: %d", id, byte(sum)^byte(sum>>8))
		}
	}
}

// Another vehicle takes the place of one that is silent; zeros for both coordinates are no place.
func TestMAVLinkVehicles(t *testing.T) {
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	mine, other := wiretest.Unhex(t, mavFirst), from(wiretest.Unhex(t, mavFirst), 9)
	place := from(append([]byte{mavlink.Magic1, 28, 0, 1, 1, mavlink.Position}, make([]byte, 30)...), 9)
	for i, step := range []struct {
		now float64
		in  []byte
		err error
	}{{0, mine, nil}, {1, other, fault.ErrPart}, {4, mine, nil}, {8.9, other, fault.ErrPart},
		{9.1, place, fault.ErrPart}, {9.2, other, nil}, {9.3, mine, fault.ErrPart},
		{9.4, append(append([]byte{}, place...), other...), nil}} {
		if err := r.Decode(step.in, step.now, &s); err != step.err {
			t.Errorf("step %d: %v; must be %v", i, err, step.err)
		}
	}
	if s.Has.Has(stream.Latitude) || s.Has.Has(stream.Longitude) || !s.Has.Has(stream.Altitude) {
		t.Errorf("channels %v", s.Has.Names())
	}
}

// from makes a frame of a message that is read one of another system, with the right checksum.
func from(b []byte, system byte) []byte {
	at, id := 3, uint32(b[5])
	if b[0] == mavlink.Magic2 {
		at, id = 5, uint32(b[7])
	}
	b[at] = system
	_, extra, _ := mavlink.Known(id)
	n := len(b) - 2
	sum := mavlink.Sum(mavlink.Sum(0xFFFF, b[1:n]), []byte{extra})
	b[n], b[n+1] = byte(sum), byte(sum>>8)
	return b
}

func FuzzMAVLink(f *testing.F) {
	wiretest.Fuzz(f, "FuzzMAVLink", "mavlink2", string(wiretest.Unhex(f, mavFirst)))
}

// FuzzMAVMessage gives messages the right checksum first: chance never does.
func FuzzMAVMessage(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzMAVMessage")
	f.Fuzz(func(t *testing.T, payload []byte, kind uint8) {
		id := [3]byte{mavlink.Attitude, mavlink.Position, mavlink.HUD}[kind%3]
		length, _, _ := mavlink.Known(uint32(id))
		payload = append(payload, make([]byte, length)...)[:length]
		b := []byte{mavlink.Magic1, byte(length), kind, 1, 1, id}
		if kind >= 128 {
			for len(payload) > 1 && payload[len(payload)-1] == 0 { // not sent in version 2
				payload = payload[:len(payload)-1]
			}
			b = []byte{mavlink.Magic2, byte(len(payload)), 0, 0, kind, 1, 1, id, 0, 0}
		}
		datagram := from(append(append(b, payload...), 0, 0), 7)
		wiretest.Feed(t, format.Options{}, []string{string(wiretest.Unhex(t, mavFirst))}, datagram, "mavlink1")
	})
}
