package stream

import "math"

const degree = math.Pi / 180

// A quaternion is an attitude: the rotation that takes the north-east-down axes to the
// body axes (forward, right, down).
type quaternion struct{ w, x, y, z float64 }

// attitude builds the quaternion of heading, pitch and bank in degrees, applied in that
// order about the down, right and forward axes (the aerospace sequence).
func attitude(heading, pitch, bank float64) quaternion {
	sh, ch := math.Sincos(heading * degree / 2)
	sp, cp := math.Sincos(pitch * degree / 2)
	sb, cb := math.Sincos(bank * degree / 2)
	return quaternion{
		w: cb*cp*ch + sb*sp*sh,
		x: sb*cp*ch - cb*sp*sh,
		y: cb*sp*ch + sb*cp*sh,
		z: cb*cp*sh - sb*sp*ch,
	}
}

// to returns the rotation from attitude a to attitude b seen in the body axes of a, as a
// rotation vector in degrees: its length is the angle, its direction the axis.
func (a quaternion) to(b quaternion) (x, y, z float64) {
	w := a.w*b.w + a.x*b.x + a.y*b.y + a.z*b.z
	x = a.w*b.x - a.x*b.w - a.y*b.z + a.z*b.y
	y = a.w*b.y + a.x*b.z - a.y*b.w - a.z*b.x
	z = a.w*b.z - a.x*b.y + a.y*b.x - a.z*b.w
	if w < 0 { // the short way round
		w, x, y, z = -w, -x, -y, -z
	}
	sine := math.Sqrt(x*x + y*y + z*z)
	scale := 2 / degree
	if sine > 1e-12 {
		scale = 2 * math.Atan2(sine, w) / sine / degree
	}
	return x * scale, y * scale, z * scale
}
