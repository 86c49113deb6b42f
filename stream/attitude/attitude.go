// Package attitude computes with attitudes as rotations. They stay continuous where the nose passes the vertical, at
// which heading and bank jump.
package attitude

import "math"

const degree = math.Pi / 180

// A Quaternion is an attitude: the rotation that takes the north-east-down axes to the body axes (forward, right,
// down).
type Quaternion struct{ w, x, y, z float64 }

// Of returns the attitude with a heading, pitch and bank in degrees, applied in that order about the down, right and
// forward axes (the aerospace sequence).
func Of(heading, pitch, bank float64) Quaternion {
	sh, ch := math.Sincos(heading * degree / 2)
	sp, cp := math.Sincos(pitch * degree / 2)
	sb, cb := math.Sincos(bank * degree / 2)
	return Quaternion{
		w: cb*cp*ch + sb*sp*sh,
		x: sb*cp*ch - cb*sp*sh,
		y: cb*sp*ch + sb*cp*sh,
		z: cb*cp*sh - sb*sp*ch,
	}
}

// To returns the rotation from attitude a to attitude b seen in the body axes of a, as a rotation vector in degrees:
// its length is the angle, its direction the axis.
func (a Quaternion) To(b Quaternion) (x, y, z float64) {
	w := a.w*b.w + a.x*b.x + a.y*b.y + a.z*b.z
	x = a.w*b.x - a.x*b.w - a.y*b.z + a.z*b.y
	y = a.w*b.y + a.x*b.z - a.y*b.w - a.z*b.x
	z = a.w*b.z - a.x*b.y + a.y*b.x - a.z*b.w
	if w < 0 { // the short way around
		w, x, y, z = -w, -x, -y, -z
	}
	sine := math.Sqrt(x*x + y*y + z*z)
	scale := 2 / degree
	if sine > 1e-12 {
		scale = 2 * math.Atan2(sine, w) / sine / degree
	}
	return x * scale, y * scale, z * scale
}
