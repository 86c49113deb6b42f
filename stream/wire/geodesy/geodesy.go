// Package geodesy computes positions and attitudes on the WGS-84 ellipsoid. Angles are in radians and lengths in
// meters, unless said otherwise.
package geodesy

import "math"

// WGS-84: semi-major axis in meters, flattening (NIMA TR8350.2, table 3.1).
const (
	radius        = 6378137.0
	flattening    = 1 / 298.257223563
	eccentricity2 = flattening * (2 - flattening)
)

// A Vector is a point or direction along three axes.
type Vector [3]float64

// Dot returns the scalar product.
func (a Vector) Dot(b Vector) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// Geodetic turns a geocentric latitude, of a point some height above the ellipsoid, into the geodetic one:
// tan φ = tan φ' (N+h) / (N(1−e²)+h) with N the radius of curvature in the prime vertical, which itself needs φ.
func Geodetic(latitude, height float64) float64 {
	t := math.Tan(latitude)
	phi := math.Atan(t / (1 - eccentricity2))
	for range 2 { // the height's share is below 1e-5 of the correction: two rounds settle it
		s := math.Sin(phi)
		n := radius / math.Sqrt(1-eccentricity2*s*s)
		phi = math.Atan(t * (n + height) / (n*(1-eccentricity2) + height))
	}
	return phi
}

// FromCenter returns the geodetic position of a point given along the Earth's axes (B. R. Bowring, "Transformation from
// Spatial to Geographical Coordinates", Survey Review 23, 1976; from memory). At the heights of aircraft one step
// leaves less than a micrometer.
func FromCenter(p Vector) (latitude, longitude, height float64) {
	const polar = radius * (1 - flattening)
	const second = eccentricity2 / (1 - eccentricity2)
	flat := math.Hypot(p[0], p[1])
	sinU, cosU := math.Sincos(math.Atan2(p[2]*radius, flat*polar))
	latitude = math.Atan2(p[2]+second*polar*sinU*sinU*sinU, flat-eccentricity2*radius*cosU*cosU*cosU)
	sin, cos := math.Sincos(latitude)
	height = flat*cos + p[2]*sin - radius*math.Sqrt(1-eccentricity2*sin*sin)
	return latitude, math.Atan2(p[1], p[0]), height
}

// ToCenter is the reverse of FromCenter.
func ToCenter(latitude, longitude, height float64) Vector {
	sinA, cosA := math.Sincos(latitude)
	sinO, cosO := math.Sincos(longitude)
	n := radius / math.Sqrt(1-eccentricity2*sinA*sinA)
	return Vector{
		(n + height) * cosA * cosO,
		(n + height) * cosA * sinO,
		(n*(1-eccentricity2) + height) * sinA,
	}
}

// Axes are three unit vectors, along the Earth's axes: x through 0° N 0° E, z through the north pole.
type Axes [3]Vector

// Turn brings a vector of the Earth's axes into these.
func (a *Axes) Turn(v Vector) Vector { return Vector{a[0].Dot(v), a[1].Dot(v), a[2].Dot(v)} }

// Back brings a vector of these axes into the Earth's.
func (a *Axes) Back(v Vector) (out Vector) {
	for i := range out {
		out[i] = a[0][i]*v[0] + a[1][i]*v[1] + a[2][i]*v[2]
	}
	return out
}

// NorthEastDown returns the local axes at a geodetic position.
func NorthEastDown(latitude, longitude float64) Axes {
	sinA, cosA := math.Sincos(latitude)
	sinO, cosO := math.Sincos(longitude)
	return Axes{
		{-sinA * cosO, -sinA * sinO, cosA},
		{-sinO, cosO, 0},
		{-cosA * cosO, -cosA * sinO, -sinA},
	}
}

// AxesOf returns the axes that the rotations psi about z, theta about the new y, phi about the new x lead to.
func AxesOf(psi, theta, phi float64) Axes {
	sinS, cosS := math.Sincos(psi)
	sinT, cosT := math.Sincos(theta)
	sinP, cosP := math.Sincos(phi)
	return Axes{
		{cosT * cosS, cosT * sinS, -sinT},
		{sinP*sinT*cosS - cosP*sinS, sinP*sinT*sinS + cosP*cosS, sinP * cosT},
		{cosP*sinT*cosS + sinP*sinS, cosP*sinT*sinS - sinP*cosS, cosP * cosT},
	}
}

// Attitude returns heading, pitch and bank of body axes over local axes (D. Koks, "Using Rotations to Build Aerospace
// Coordinate Systems", DSTO-TN-0640, 2008).
func Attitude(body, local Axes) (heading, pitch, bank float64) {
	forward := local.Turn(body[0])
	right, down := body[1].Dot(local[2]), body[2].Dot(local[2])
	return math.Atan2(forward[1], forward[0]), -math.Asin(min(max(forward[2], -1), 1)), math.Atan2(right, down)
}
