package wire

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
)

// Distributed Interactive Simulation, Entity State PDU (IEEE Std 1278.1), versions 5 to 7. A
// datagram may hold several PDUs; one entity is followed: the first that comes, or an air
// vehicle in place of any other.
//
// Altitude is the height above the WGS-84 ellipsoid. Ground speed, track and vertical speed come
// from the linear velocity, which is along the Earth's axes or the body's by the
// dead-reckoning algorithm; body rates are taken where that algorithm uses them. Nothing is dead
// reckoned here. The time stamp is not used as a clock: it starts again every hour and many
// senders put other things there.
type disReader struct {
	entity  [6]byte
	air     bool
	follows bool
	heard   float64 // receive time of the entity's last PDU, s
}

const (
	disShortest = 144
	disHeader   = 12
	disSilent   = 12.0 // s without the entity, more than two heartbeats of 5 s: another may take its place
)

// disPDU tells a PDU of a version that is read, and its length.
func disPDU(b []byte) (length int, ok bool) {
	if len(b) < disHeader || b[0] < 5 || b[0] > 7 {
		return 0, false
	}
	length = int(binary.BigEndian.Uint16(b[8:]))
	return length, length >= disHeader
}

// disValid tells whether a datagram begins with an Entity State PDU.
func disValid(b []byte) bool {
	length, ok := disPDU(b)
	return ok && b[2] == 1 && b[3] == 1 && length >= disShortest
}

func (r *disReader) decode(b []byte, now float64, s *stream.Sample) error {
	read := false
	for len(b) > 0 {
		length, ok := disPDU(b)
		switch {
		case !ok:
			return r.unless(read, ErrMalformed, s)
		case length > len(b):
			return r.unless(read, ErrTruncated, s)
		}
		if disValid(b) && r.follow(b, now) {
			s.Reset()
			if err := disState(b, s); err != nil {
				return err
			}
			read = true
		}
		b = b[length:]
	}
	return r.unless(read, ErrOther, s)
}

func (r *disReader) unless(read bool, err error, s *stream.Sample) error {
	if !read {
		return err
	}
	return hollow(s)
}

// follow tells whether a PDU is of the entity that is followed.
func (r *disReader) follow(b []byte, now float64) bool {
	id := [6]byte(b[12:18])
	air := b[20] == 1 && b[21] == 2 // a platform, in the air
	switch {
	case r.follows && id == r.entity:
	case !r.follows, air && !r.air, now-r.heard > disSilent:
		r.entity, r.air, r.follows = id, air, true
	default:
		return false
	}
	r.heard = now
	return true
}

// The Earth's center is no place for a simulator: m from it.
const (
	disNearest  = 6.3e6
	disFarthest = 6.45e6
)

// disState reads one Entity State PDU.
func disState(b []byte, s *stream.Sample) error {
	f64 := func(i int) float64 { return math.Float64frombits(binary.BigEndian.Uint64(b[i:])) }
	f32 := func(i int) float64 { return float64(math.Float32frombits(binary.BigEndian.Uint32(b[i:]))) }
	place := [3]float64{f64(48), f64(56), f64(64)}
	if d := math.Sqrt(dot(place, place)); !(d > disNearest && d < disFarthest) {
		return ErrMalformed
	}
	lat, lon, height := geodeticOf(place)
	s.Put(stream.Latitude, lat*degPerRadian)
	s.Put(stream.Longitude, lon*degPerRadian)
	s.Put(stream.Altitude, height/foot)

	local := northEastDown(lat, lon)
	body := axesOf(f32(72), f32(76), f32(80))
	heading, pitch, bank := localAngles(body, local)
	s.Put(stream.Heading, heading*degPerRadian)
	s.Put(stream.Pitch, pitch*degPerRadian)
	s.Put(stream.Bank, bank*degPerRadian)

	algorithm := b[88]
	v := [3]float64{f32(36), f32(40), f32(44)}
	if algorithm >= 6 && algorithm <= 9 {
		v = body.back(v)
	}
	if algorithm >= 1 && algorithm <= 9 {
		v = local.turn(v)
		putVelocity(s, v[0], v[1], v[2])
	}
	switch algorithm {
	case 3, 4, 7, 8:
		s.Put(stream.RollRate, f32(116)*degPerRadian)
		s.Put(stream.PitchRate, f32(120)*degPerRadian)
		s.Put(stream.YawRate, f32(124)*degPerRadian)
	}
	return nil
}

// axes are three unit vectors, in the Earth's axes: x through 0° N 0° E, z through the pole.
type axes [3][3]float64

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// turn brings a vector of the Earth's axes into these.
func (a *axes) turn(v [3]float64) [3]float64 {
	return [3]float64{dot(a[0], v), dot(a[1], v), dot(a[2], v)}
}

// back brings a vector of these axes into the Earth's.
func (a *axes) back(v [3]float64) (out [3]float64) {
	for i := range out {
		out[i] = a[0][i]*v[0] + a[1][i]*v[1] + a[2][i]*v[2]
	}
	return out
}

// northEastDown are the local axes at a geodetic position in radians.
func northEastDown(lat, lon float64) axes {
	sinA, cosA := math.Sincos(lat)
	sinO, cosO := math.Sincos(lon)
	return axes{{-sinA * cosO, -sinA * sinO, cosA}, {-sinO, cosO, 0}, {-cosA * cosO, -cosA * sinO, -sinA}}
}

// axesOf are the axes that the rotations psi about z, theta about the new y, phi about the new x,
// in radians, lead to.
func axesOf(psi, theta, phi float64) axes {
	sinS, cosS := math.Sincos(psi)
	sinT, cosT := math.Sincos(theta)
	sinP, cosP := math.Sincos(phi)
	return axes{
		{cosT * cosS, cosT * sinS, -sinT},
		{sinP*sinT*cosS - cosP*sinS, sinP*sinT*sinS + cosP*cosS, sinP * cosT},
		{cosP*sinT*cosS + sinP*sinS, cosP*sinT*sinS - sinP*cosS, cosP * cosT},
	}
}

// localAngles returns heading, pitch and bank in radians of a body over local axes (D. Koks,
// "Using Rotations to Build Aerospace Coordinate Systems", DSTO-TN-0640, 2008).
func localAngles(body, local axes) (heading, pitch, bank float64) {
	forward := local.turn(body[0])
	right, down := dot(body[1], local[2]), dot(body[2], local[2])
	return math.Atan2(forward[1], forward[0]), -math.Asin(min(max(forward[2], -1), 1)), math.Atan2(right, down)
}

const disRadius = earthRadius * foot // m

// geodeticOf returns latitude and longitude in radians and the height in m above the WGS-84
// ellipsoid of a point in m from the Earth's center (B. R. Bowring, "Transformation from Spatial to
// Geographical Coordinates", Survey Review 23, 1976; from memory). At the heights of aircraft
// one step leaves less than a micrometer.
func geodeticOf(p [3]float64) (lat, lon, height float64) {
	const polar = disRadius * (1 - earthFlattening)
	const second = earthEccSq / (1 - earthEccSq)
	flat := math.Hypot(p[0], p[1])
	sinU, cosU := math.Sincos(math.Atan2(p[2]*disRadius, flat*polar))
	lat = math.Atan2(p[2]+second*polar*sinU*sinU*sinU, flat-earthEccSq*disRadius*cosU*cosU*cosU)
	sin, cos := math.Sincos(lat)
	height = flat*cos + p[2]*sin - disRadius*math.Sqrt(1-earthEccSq*sin*sin)
	return lat, math.Atan2(p[1], p[0]), height
}

// centerOf is the way back.
func centerOf(lat, lon, height float64) [3]float64 {
	sinA, cosA := math.Sincos(lat)
	sinO, cosO := math.Sincos(lon)
	n := disRadius / math.Sqrt(1-earthEccSq*sinA*sinA)
	return [3]float64{(n + height) * cosA * cosO, (n + height) * cosA * sinO, (n*(1-earthEccSq) + height) * sinA}
}

// disEncoder writes version 7 PDUs of an air vehicle, with dead-reckoning algorithm 4 (RVW), 2
// (FPW) when body rates are not known, 0 when the velocity is not. Without position or attitude
// there is nothing to write: angles are sent relative to the Earth's axes.
type disEncoder struct{}

func (disEncoder) Preamble() []byte { return nil }

func (disEncoder) Append(dst []byte, s *stream.Sample) []byte {
	const needed = attitudeSet | 1<<stream.Latitude | 1<<stream.Longitude | 1<<stream.Altitude
	if s.Has&needed != needed || s.Magnetic {
		return dst
	}
	start := len(dst)
	dst = append(dst, make([]byte, disShortest)...)
	b := dst[start:]
	be := binary.BigEndian
	f32 := func(i int, v float64) { be.PutUint32(b[i:], math.Float32bits(float32(v))) }
	copy(b, []byte{7, 1, 1, 1})
	be.PutUint32(b[4:], uint32(math.Mod(s.Value(stream.Time), 3600)/3600*(1<<31))<<1)
	be.PutUint16(b[8:], disShortest)
	copy(b[12:], []byte{0, 1, 0, 1, 0, 1})
	copy(b[20:], []byte{1, 2})

	lat, lon := s.Value(stream.Latitude)/degPerRadian, s.Value(stream.Longitude)/degPerRadian
	for i, v := range centerOf(lat, lon, s.Value(stream.Altitude)*foot) {
		be.PutUint64(b[48+8*i:], math.Float64bits(v))
	}
	local := northEastDown(lat, lon)
	over := axesOf(s.Value(stream.Heading)/degPerRadian, s.Value(stream.Pitch)/degPerRadian, s.Value(stream.Bank)/degPerRadian)
	var body axes
	for i := range body {
		body[i] = local.back(over[i])
	}
	f32(72, math.Atan2(body[0][1], body[0][0]))
	f32(76, -math.Asin(min(max(body[0][2], -1), 1)))
	f32(80, math.Atan2(body[1][2], body[2][2]))
	const rates = stream.Set(1<<stream.RollRate | 1<<stream.PitchRate | 1<<stream.YawRate)
	if north, east, down := velocity(s); north == north && down == down {
		b[88] = 2
		for i, v := range local.back([3]float64{north, east, down}) {
			f32(36+4*i, v)
		}
		if s.Has&rates == rates {
			b[88] = 4
			for i, c := range [...]stream.Channel{stream.RollRate, stream.PitchRate, stream.YawRate} {
				f32(116+4*i, s.Value(c)/degPerRadian)
			}
		}
	}
	copy(b[128:], "\x01HALFTURN")
	return dst
}
