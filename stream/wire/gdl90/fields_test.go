package gdl90

import (
	"encoding/hex"
	"fmt"
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/merge"
)

// Fields as the specification's own tables have them (560-1058-00 Rev A, sections 3.5.1.3,
// 3.5.1.4, 3.5.1.8 and 3.8); NaN: no value.
func TestGDLFields(t *testing.T) {
	for in, want := range map[string]float64{
		"000000": 0, "000001": 2.1457672119140625e-05, "ffffff": -2.1457672119140625e-05, "200000": 45, "e00000": -45,
		"400000": 90, "800000": -180, "7fffff": 179.99997854232788,
	} {
		if got := angle(unhex(t, in)); got != want {
			t.Errorf("angle %s: %v; must be %v", in, got, want)
		}
	}
	field := func(c stream.Channel, spoil func(b *[28]byte)) float64 {
		b := [28]byte{Ownship}
		spoil(&b)
		var g decoder
		var m merge.Values
		g.ownship(b[:], 0, &m)
		return latest(&m, c)
	}
	same := func(what string, got, want float64) {
		t.Helper()
		if got != want && !(got != got && want != want) {
			t.Errorf("%s: %v; must be %v", what, got, want)
		}
	}
	none := math.NaN()
	for v, want := range map[int]float64{0x000: -1000, 0x028: 0, 0x050: 1000, 0xFFE: 101350, 0xFFF: none} {
		same(fmt.Sprintf("altitude %03x", v),
			field(stream.Altitude, func(b *[28]byte) { b[11], b[12] = byte(v>>4), byte(v<<4) }), want)
	}
	for v, want := range map[int]float64{0: 0, 1: 64, 0xFFF: -64, 0x1FD: 32576, 0xE03: -32576, 0x800: none, 0x1FE: none,
		0xE02: none} {
		same(fmt.Sprintf("vertical speed %03x", v),
			field(stream.VerticalSpeed, func(b *[28]byte) { b[15], b[16] = byte(v>>8), byte(v) }), want)
	}
	// 0xFFD is out of the channel's range
	for v, want := range map[int]float64{0: 0, 123: 123, 0xFFD: none, 0xFFE: none, 0xFFF: none} {
		same(fmt.Sprintf("speed %03x", v),
			field(stream.GroundSpeed, func(b *[28]byte) { b[14], b[15] = byte(v>>4), byte(v<<4) }), want)
	}
	// only a true track is one; section 3.5.1.5
	for v, want := range map[int]float64{0: none, 1: 90, 2: none, 3: none} {
		same(fmt.Sprintf("track %x", v), field(stream.Track, func(b *[28]byte) { b[12], b[17] = byte(v), 64 }), want)
	}
	for v, want := range map[int]float64{0xFF38: -1000, 0: 0, 0x00C8: 1000} {
		var g decoder
		var m merge.Values
		g.geometric([]byte{Geometric, byte(v >> 8), byte(v), 0, 10}, 0, &m)
		same(fmt.Sprintf("geometric altitude %04x", v), latest(&m, stream.Altitude), want)
	}
	for v, want := range map[uint16]float64{0: 0, 900: 90, 0x8000 | 900: 90, 3600: 360, 0x7FFF &^ 899: -90,
		0xFFFF: none, 3601: none} {
		got, ok := heading15(v)
		if !ok {
			got = none
		}
		same(fmt.Sprintf("heading %04x", v), got, want)
	}
}

func unhex(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// latest returns a channel's latest value, NaN when there is none.
func latest(m *merge.Values, c stream.Channel) float64 {
	s := m.Latest()
	if v, ok := s.Get(c); ok {
		return v
	}
	return math.NaN()
}
