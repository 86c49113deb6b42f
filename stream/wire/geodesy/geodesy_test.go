package geodesy

import (
	"math"
	"math/rand/v2"
	"testing"
)

const degree = math.Pi / 180

// The height's share in a geodetic latitude, against WGS-84 Cartesian coordinates computed from a geodetic position by
// the closed formula.
func TestGeodetic(t *testing.T) {
	for lat := -90.0; lat <= 90; lat += 7.5 {
		for _, height := range []float64{0, 3000, 18000} {
			s, c := math.Sincos(lat * degree)
			n := radius / math.Sqrt(1-eccentricity2*s*s)
			geocentric := math.Atan2((n*(1-eccentricity2)+height)*s, (n+height)*c)
			if got := Geodetic(geocentric, height) / degree; math.Abs(got-lat) > 1e-8 {
				t.Errorf("latitude %v at %v m: %v", lat, height, got)
			}
		}
	}
}

// A position of an independent library's test (open-dis-java, CoordinateConversionsTest, which allows 0.1), and the way
// there and back everywhere.
func TestFromCenter(t *testing.T) {
	lat, lon, height := FromCenter(Vector{1071401.9738714, -4450059.11156203, 4427050.83344532})
	off := math.Abs(lat/degree-44.2368804) + math.Abs(lon/degree+76.4630307)
	if off > 2e-7 || math.Abs(height-91) > 0.1 {
		t.Error(lat/degree, lon/degree, height)
	}
	random := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		lat, lon := (random.Float64()-0.5)*math.Pi, (random.Float64()*2-1)*math.Pi
		height := random.Float64()*20000 - 500
		a, o, h := FromCenter(ToCenter(lat, lon, height))
		if math.Abs(a-lat) > 1e-11 || math.Abs(o-lon) > 1e-11 || math.Abs(h-height) > 1e-5 {
			t.Fatalf("%v %v %v gives %v %v %v", lat, lon, height, a, o, h)
		}
	}
}

// D. Koks, "Using Rotations to Build Aerospace Coordinate Systems", DSTO-TN-0640, 2008: an aircraft over Adelaide,
// 34.9° S 138.5° E at 10,000 m, heading 135, nose 20 up, bank 30 right. The report prints the position, the local axes,
// and psi −123.0, theta 47.8, phi −29.7; the angles here are computed in full and round to those.
func TestKoks(t *testing.T) {
	const lat, lon = -34.9 * degree, 138.5 * degree
	place := ToCenter(lat, lon, 10000)
	for i, want := range []float64{-3928260.52, 3475431.327, -3634495.175} {
		if math.Abs(place[i]-want) > 0.01 {
			t.Errorf("position %d: %v; must be %v", i, place[i], want)
		}
	}
	local := NorthEastDown(lat, lon)
	for i, want := range [2]Vector{{-0.429, 0.379, 0.82}, {-0.663, -0.749, 0}} {
		for k := range want {
			if math.Abs(local[i][k]-want[k]) > 6e-4 {
				t.Errorf("axis %d: %v; must be %v", i, local[i], want)
			}
		}
	}
	heading, pitch, bank := Attitude(AxesOf(-122.96992*degree, 47.786475*degree, -29.670167*degree), local)
	for i, got := range []float64{heading, pitch, bank} {
		if want := []float64{135, 20, 30}[i]; math.Abs(got/degree-want) > 2e-5 {
			t.Errorf("angle %d: %v; must be %v", i, got/degree, want)
		}
	}
}
