package encode_test

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire/wiretest"
)

// turning is a descending left turn, with numbers that are exact in binary where the formats allow it.
func turning() *stream.Sample {
	return wiretest.SampleOf(stream.Time, 61.5, stream.Heading, 90.5, stream.Pitch, 5.25, stream.Bank, -20.5,
		stream.Airspeed, 120, stream.TrueAirspeed, 130, stream.GroundSpeed, 100, stream.Track, 60,
		stream.VerticalSpeed, -600, stream.Altitude, 5000, stream.Height, 3000, stream.Latitude, 47.5,
		stream.Longitude, 11.25, stream.AngleOfAttack, 4, stream.Sideslip, -1.5, stream.NormalLoad, 1.5,
		stream.LateralLoad, 0.125, stream.AxialLoad, 0.25, stream.RollRate, 6, stream.PitchRate, 3,
		stream.YawRate, -2, stream.Throttle, 0.75, stream.RPM, 2400, stream.StallWarning, 1, stream.OnGround, 0)
}

// Units by definition: the foot is 0.3048 m, the knot 1852 m/h, standard gravity 9.80665 m/s².
const (
	radian   = 180 / math.Pi // °
	foot     = 0.3048        // m
	knot     = 1852.0 / 3600 // m/s
	gravity  = 9.80665       // m/s²
	feetPerG = gravity / foot
)

// A field is a number at its place in a datagram.
type field struct {
	name string
	at   int
	kind string // f32, f64, i16, u16, i32 or u32
	want float64
}

// checkFields reads numbers at their places.
func checkFields(t *testing.T, what string, b []byte, order binary.ByteOrder, fields []field) {
	t.Helper()
	for _, f := range fields {
		var got float64
		switch f.kind {
		case "f32":
			got = float64(math.Float32frombits(order.Uint32(b[f.at:])))
		case "f64":
			got = math.Float64frombits(order.Uint64(b[f.at:]))
		case "i16":
			got = float64(int16(order.Uint16(b[f.at:])))
		case "u16":
			got = float64(order.Uint16(b[f.at:]))
		case "i32":
			got = float64(int32(order.Uint32(b[f.at:])))
		case "u32":
			got = float64(order.Uint32(b[f.at:]))
		default:
			t.Fatalf("%s: no kind %q", f.name, f.kind)
		}
		if math.Abs(got-f.want) > 1e-6*max(1, math.Abs(f.want)) {
			t.Errorf("%s, %s at %d: %v; must be %v", what, f.name, f.at, got, f.want)
		}
	}
}

// The velocity of the sample: 100 kt toward 060°, 600 ft/min down.
var (
	north = 100 * knot * math.Cos(60/radian)
	east  = 100 * knot * math.Sin(60/radian)
	up    = -600 * foot / 60
)

// The reply to RPOS as X-Plane's "Exchanging Data with X-Plane" lists its structure: positions as doubles, then floats;
// x is east, y up and z south.
func TestPositionReply(t *testing.T) {
	b := wiretest.Encode(t, "rpos", turning())
	if len(b) != 69 || !bytes.HasPrefix(b, []byte("RPOS")) {
		t.Fatalf("%d bytes, %q", len(b), b[:5])
	}
	checkFields(t, "RPOS", b, binary.LittleEndian, []field{
		{"dat_lon", 5, "f64", 11.25},
		{"dat_lat", 13, "f64", 47.5},
		{"dat_ele", 21, "f64", 5000 * foot},
		{"y_agl_mtr", 29, "f32", 3000 * foot},
		{"veh_the_loc", 33, "f32", 5.25},
		{"veh_psi_loc", 37, "f32", 90.5},
		{"veh_phi_loc", 41, "f32", -20.5},
		{"vx_wrl", 45, "f32", east},
		{"vy_wrl", 49, "f32", up},
		{"vz_wrl", 53, "f32", -north},
		{"Prad", 57, "f32", 6 / radian},
		{"Qrad", 61, "f32", 3 / radian},
		{"Rrad", 65, "f32", -2 / radian},
	})
}

// FGNetFDM as FlightGear's net_fdm.hxx declares it, version 24, in network order; the rates are of the Euler angles
// (B. L. Stevens and F. L. Lewis, Aircraft Control and Simulation, 2nd ed., equation 1.3-22).
func TestNativeFlightModel(t *testing.T) {
	s := turning()
	sinPhi, cosPhi := math.Sincos(-20.5 / radian)
	psiDot := (3*sinPhi + -2*cosPhi) / math.Cos(5.25/radian)
	fields := []field{
		{"longitude", 8, "f64", 11.25 / radian},
		{"latitude", 16, "f64", 47.5 / radian},
		{"altitude", 24, "f64", 5000 * foot},
		{"agl", 32, "f32", 3000 * foot},
		{"phi", 36, "f32", -20.5 / radian},
		{"theta", 40, "f32", 5.25 / radian},
		{"psi", 44, "f32", 90.5 / radian},
		{"alpha", 48, "f32", 4 / radian},
		{"beta", 52, "f32", -1.5 / radian},
		{"phidot", 56, "f32", (6 + psiDot*math.Sin(5.25/radian)) / radian},
		{"thetadot", 60, "f32", (3*cosPhi - -2*sinPhi) / radian},
		{"psidot", 64, "f32", psiDot / radian},
		{"vcas", 68, "f32", 120},
		{"climb_rate", 72, "f32", -10},
		{"v_north", 76, "f32", north / foot},
		{"v_east", 80, "f32", east / foot},
		{"v_down", 84, "f32", 10},
		{"A_X_pilot", 100, "f32", 0.25 * feetPerG},
		{"A_Y_pilot", 104, "f32", 0.125 * feetPerG},
		{"A_Z_pilot", 108, "f32", -1.5 * feetPerG},
		{"stall_warning", 112, "f32", 1},
		{"num_engines", 120, "u32", 1},
		{"rpm", 140, "f32", 2400},
	}
	for name, version := range map[string]float64{"fdm24": 24, "fdm25": 25} {
		b := wiretest.Encode(t, name, s)
		checkFields(t, name, b, binary.BigEndian, append([]field{{"version", 0, "u32", version}}, fields...))
	}
	if a, b := len(wiretest.Encode(t, "fdm24", s)), len(wiretest.Encode(t, "fdm25", s)); a != 408 || b <= a {
		t.Errorf("version 24 has %d bytes, 25 %d", a, b)
	}
}

// An entity state PDU of IEEE 1278.1-2012 (5.3.3) at 0° N 0° E, where the Earth's axes are up, east and north: flying
// level toward the east is a turn of 90° about z, then one of −90° about x.
func TestEntityState(t *testing.T) {
	s := wiretest.SampleOf(stream.Time, 900, stream.Heading, 90, stream.Pitch, 0, stream.Bank, 0,
		stream.GroundSpeed, 100, stream.Track, 90, stream.VerticalSpeed, -600, stream.Altitude, 10000, stream.Latitude,
		0, stream.Longitude, 0,
		stream.RollRate, 6, stream.PitchRate, 3, stream.YawRate, -2)
	b := wiretest.Encode(t, "dis", s)
	if len(b) != 144 {
		t.Fatalf("%d bytes", len(b))
	}
	for at, want := range map[int]byte{0: 7, 2: 1, 3: 1, 20: 1, 21: 2, 88: 4, 128: 1} {
		if b[at] != want {
			t.Errorf("byte %d is %d; must be %d", at, b[at], want)
		}
	}
	if !bytes.HasPrefix(b[129:], []byte("HALFTURN\x00\x00\x00")) {
		t.Errorf("marked %q", b[129:140])
	}
	checkFields(t, "entity state", b, binary.BigEndian, []field{
		{"time stamp, a quarter of an hour", 4, "u32", 1 << 30},
		{"length", 8, "u16", 144},
		{"velocity x", 36, "f32", up},
		{"velocity y", 40, "f32", 100 * knot},
		{"velocity z", 44, "f32", 0},
		{"location x", 48, "f64", 6378137 + 10000*foot},
		{"location y", 56, "f64", 0},
		{"location z", 64, "f64", 0},
		{"psi", 72, "f32", math.Pi / 2},
		{"theta", 76, "f32", 0},
		{"phi", 80, "f32", -math.Pi / 2},
		{"angular velocity x", 116, "f32", 6 / radian},
		{"angular velocity y", 120, "f32", 3 / radian},
		{"angular velocity z", 124, "f32", -2 / radian},
	})
	for _, c := range []struct {
		dropped   stream.Channel // besides those before
		algorithm byte
	}{{stream.RollRate, 2}, {stream.GroundSpeed, 0}} {
		s.Drop(c.dropped)
		if b := wiretest.Encode(t, "dis", s); b[88] != c.algorithm {
			t.Errorf("dead reckoning without %s is %d; must be %d", c.dropped, b[88], c.algorithm)
		}
	}
}

// x25 is MAVLink's checksum, CRC-16/MCRF4XX, bit by bit (mavlink.io, "Packet Serialization").
func x25(b []byte) uint16 {
	crc := uint16(0xFFFF)
	for _, c := range b {
		crc ^= uint16(c)
		for range 8 {
			if crc&1 != 0 {
				crc = crc>>1 ^ 0x8408
			} else {
				crc >>= 1
			}
		}
	}
	return crc
}

// The messages of MAVLink's common set: number, length, CRC_EXTRA and fields as in common.xml. All three are due with
// the first sample.
func TestMessagesOfMAVLink(t *testing.T) {
	messages := []struct {
		id, extra byte
		fields    []field
	}{
		{30, 39, []field{
			{"time_boot_ms", 0, "u32", 61500},
			{"roll", 4, "f32", -20.5 / radian},
			{"pitch", 8, "f32", 5.25 / radian},
			{"yaw", 12, "f32", 90.5 / radian},
			{"rollspeed", 16, "f32", 6 / radian},
			{"pitchspeed", 20, "f32", 3 / radian},
			{"yawspeed", 24, "f32", -2 / radian},
		}},
		{33, 104, []field{
			{"time_boot_ms", 0, "u32", 61500},
			{"lat", 4, "i32", 475000000},
			{"lon", 8, "i32", 112500000},
			{"alt", 12, "i32", 1524000},
			{"vx", 20, "i16", math.Round(north * 100)},
			{"vy", 22, "i16", math.Round(east * 100)},
			{"vz", 24, "i16", math.Round(-up * 100)},
			{"hdg, not known", 26, "u16", 0xFFFF},
		}},
		{74, 20, []field{
			{"airspeed", 0, "f32", 120 * knot},
			{"groundspeed", 4, "f32", 100 * knot},
			{"alt", 8, "f32", 1524},
			{"climb", 12, "f32", up},
			{"heading", 16, "i16", 90},
			{"throttle", 18, "u16", 75},
		}},
	}
	for name, head := range map[string]struct {
		magic    byte
		length   int
		seq, msg int // places in the head
	}{"mavlink1": {0xFE, 6, 2, 5}, "mavlink2": {0xFD, 10, 4, 7}} {
		b := wiretest.Encode(t, name, turning())
		for i, m := range messages {
			if b[0] != head.magic || int(b[head.seq]) != i || b[head.msg] != m.id {
				t.Fatalf("%s, message %d begins with % x", name, m.id, b[:head.length])
			}
			end := head.length + int(b[1])
			sum := x25(append(bytes.Clone(b[1:end]), m.extra))
			if got := binary.LittleEndian.Uint16(b[end:]); got != sum {
				t.Errorf("%s, message %d: checksum %04x; must be %04x", name, m.id, got, sum)
			}
			payload := append(bytes.Clone(b[head.length:end]), make([]byte, 8)...) // version 2 cuts zeros off
			checkFields(t, name, payload, binary.LittleEndian, m.fields)
			b = b[end+2:]
		}
		if len(b) != 0 {
			t.Errorf("%s: %d bytes more", name, len(b))
		}
	}
}

// The example of GDL 90's interface document (560-1058-00, 2.2.4): a heartbeat with its checksum, between flags; and
// both bytes that are stuffed.
func TestFrameOfGDL90(t *testing.T) {
	for message, want := range map[string]string{
		"008141dbd00802": "7e008141dbd00802b38b7e",
	} {
		if got := encode.GDLFrame(nil, wiretest.Unhex(t, message)); !bytes.Equal(got, wiretest.Unhex(t, want)) {
			t.Errorf("%s: % x; must be %s", message, got, want)
		}
	}
	if got := encode.GDLFrame(nil, []byte{0x7E, 0x7D, 1}); !bytes.HasPrefix(got, wiretest.Unhex(t, "7e7d5e7d5d01")) {
		t.Errorf("stuffed: % x", got)
	}
}

// The ownship report (560-1058-00, 3.4 and 3.5.1): semicircles of 180°/2²³, altitude in steps of 25 ft from −1,000 ft,
// knots, steps of 64 ft/min, and steps of 360/256°.
func TestOwnshipReport(t *testing.T) {
	frames := bytes.Split(wiretest.Encode(t, "gdl90", turning()), []byte{0x7E})
	var report []byte
	for _, f := range frames {
		if len(f) > 0 && f[0] == 10 {
			report = bytes.ReplaceAll(f, []byte{0x7D, 0x5E}, []byte{0x7E})
			report = bytes.ReplaceAll(report, []byte{0x7D, 0x5D}, []byte{0x7D})
		}
	}
	if len(report) != 28+2 {
		t.Fatalf("% x", report)
	}
	word := func(i int) int { return int(report[i])<<16 | int(report[i+1])<<8 | int(report[i+2]) }
	for what, c := range map[string]struct{ got, want int }{
		"latitude":       {word(5), 0x21C71C},   // 47.5 × 2²³ / 180 = 2213660.4
		"longitude":      {word(8), 0x080000},   // 11.25° is 1/16 of 180°
		"altitude":       {word(11) >> 12, 240}, // (5000 + 1000) / 25
		"true track":     {int(report[12] & 3), 1},
		"airborne":       {int(report[12] >> 3 & 1), 1},
		"speed":          {word(14) >> 12, 100},
		"vertical speed": {word(14) & 0xFFF, 0xFF7}, // −600 / 64 = −9.4
		"track":          {int(report[17]), 43},     // 60 × 256 / 360 = 42.7
	} {
		if c.got != c.want {
			t.Errorf("%s is %#x; must be %#x", what, c.got, c.want)
		}
	}
}

// Rows of X-Plane's data output ("Data Set Output Table"): an index and eight floats each, −999 where there is none.
func TestDataRows(t *testing.T) {
	b := wiretest.Encode(t, "rows", turning())
	if !bytes.HasPrefix(b, []byte("DATA")) || (len(b)-5)%36 != 0 {
		t.Fatalf("%d bytes, %.5q", len(b), b)
	}
	rows := map[uint32][]byte{}
	for b = b[5:]; len(b) > 0; b = b[36:] {
		rows[binary.LittleEndian.Uint32(b)] = b[4:36]
	}
	// Those of the table that hold a channel of the sample; RPM stands in two, by engine and by propeller.
	sent := []uint32{1, 3, 4, 16, 17, 18, 20, 25, 26, 37, 38}
	if got := slices.Sorted(maps.Keys(rows)); !slices.Equal(got, sent) {
		t.Errorf("rows %v are sent; must be %v", got, sent)
	}
	for row, want := range map[uint32][8]float64{
		3:  {120, -999, 130, 100, -999, 120 * 1.852 / 1.609344, 130 * 1.852 / 1.609344, 100 * 1.852 / 1.609344},
		17: {5.25, -20.5, 90.5, -999, -999, -999, -999, -999},
		20: {47.5, 11.25, 5000, 3000, -999, -999, -999, -999},
	} {
		b, ok := rows[row]
		if !ok {
			t.Errorf("there is no row %d", row)
			continue
		}
		for i, v := range want {
			checkFields(t, "row", b, binary.LittleEndian, []field{{"column", 4 * i, "f32", v}})
		}
	}
}

// Text for tablets: heading, pitch and roll to a tenth; longitude before latitude, altitude in meters, speed in m/s.
func TestTabletText(t *testing.T) {
	e := wiretest.NewEncoder(t, "xatt").(encode.Splitter)
	var got []string
	collect := func(b []byte) { got = append(got, string(b)) }
	s := turning()
	e.Datagrams(s, collect)
	s.Put(stream.Time, 61.6)
	s.Drop(stream.NormalLoad)
	e.Datagrams(s, collect)
	s.Put(stream.Time, 62.5)
	s.Put(stream.Bank, 12.34)
	s.Magnetic = true // a heading that the format cannot send
	e.Datagrams(s, collect)
	want := []string{
		"XGPS1,11.250000,47.500000,1524.0000,60.0000,51.4444",
		"XATT1,90.5,5.2,-20.5,0.1047,0.0524,-0.0349,44.6,-3.0,-25.7,0.12,1.50,0.25",
		"XATT1,90.5,5.2,-20.5",
		"XGPS1,11.250000,47.500000,1524.0000,60.0000,51.4444",
		"XATT1,,5.2,12.3",
	}
	if a, b := strings.Join(got, "\n"), strings.Join(want, "\n"); a != b {
		t.Errorf("sent\n%s\nmust be\n%s", a, b)
	}
}

// JSON lines are objects of RFC 8259 with the channels' names; flags are true or false.
func TestJSONLine(t *testing.T) {
	s := wiretest.SampleOf(stream.Heading, 0.1, stream.Bank, -20.5, stream.OnGround, 1, stream.StallWarning, 0)
	s.Magnetic = true
	b := wiretest.Encode(t, "json", s)
	var got map[string]any
	if err := json.Unmarshal(b, &got); err != nil {
		t.Fatalf("%s: %v", b, err)
	}
	want := map[string]any{"heading": 0.1, "bank": -20.5, "on-ground": true, "stall-warning": false, "magnetic": true}
	if len(got) != len(want) {
		t.Errorf("%s has %d members; must be %d", b, len(got), len(want))
	}
	for name, v := range want {
		if got[name] != v {
			t.Errorf("%s is %v; must be %v", name, got[name], v)
		}
	}
	if b := wiretest.Encode(t, "json", &stream.Sample{}); string(b) != "{}\n" {
		t.Errorf("an empty sample gives %q", b)
	}
}
