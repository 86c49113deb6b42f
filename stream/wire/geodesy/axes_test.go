package geodesy

import (
	"math"
	"math/rand/v2"
	"testing"
)

func near(a, b Vector, tolerance float64) bool {
	return math.Abs(a[0]-b[0]) < tolerance && math.Abs(a[1]-b[1]) < tolerance && math.Abs(a[2]-b[2]) < tolerance
}

// Points whose coordinates follow from the ellipsoid's axes alone: a = 6,378,137 m and b = 6,356,752.3142 m (NIMA
// TR8350.2, table 3.3).
func TestToCenter(t *testing.T) {
	const polar = 6356752.3142
	for _, c := range []struct {
		lat, lon, height float64
		want             Vector
	}{
		{0, 0, 0, Vector{6378137, 0, 0}},
		{0, 90, 0, Vector{0, 6378137, 0}},
		{0, 180, 100, Vector{-6378237, 0, 0}},
		{0, -90, -100, Vector{0, -6378037, 0}},
		{90, 0, 0, Vector{0, 0, polar}},
		{-90, 45, 1000, Vector{0, 0, -polar - 1000}},
	} {
		if got := ToCenter(c.lat*degree, c.lon*degree, c.height); !near(got, c.want, 1e-3) {
			t.Errorf("%v° %v° %v m: %v; must be %v", c.lat, c.lon, c.height, got, c.want)
		}
		lat, _, height := FromCenter(c.want)
		if math.Abs(lat/degree-c.lat) > 1e-9 || math.Abs(height-c.height) > 1e-3 {
			t.Errorf("back: %v°, %v m; must be %v°, %v m", lat/degree, height, c.lat, c.height)
		}
	}
}

// North, east and down at places where they are the Earth's own axes.
func TestNorthEastDown(t *testing.T) {
	for _, c := range []struct {
		lat, lon float64
		want     Axes
	}{
		{0, 0, Axes{{0, 0, 1}, {0, 1, 0}, {-1, 0, 0}}},
		{0, 90, Axes{{0, 0, 1}, {-1, 0, 0}, {0, -1, 0}}},
		{90, 0, Axes{{-1, 0, 0}, {0, 1, 0}, {0, 0, -1}}},
		{-90, 0, Axes{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
	} {
		got := NorthEastDown(c.lat*degree, c.lon*degree)
		for i := range got {
			if !near(got[i], c.want[i], 1e-12) {
				t.Errorf("%v° %v°, axis %d: %v; must be %v", c.lat, c.lon, i, got[i], c.want[i])
			}
		}
	}
}

// Single rotations move the axes as the right hand says (ISO 1151-1): a turn right takes the nose from north to east,
// nose up takes it off down, a right bank takes the right wing to down.
func TestAxesOf(t *testing.T) {
	for name, c := range map[string]struct {
		psi, theta, phi float64
		want            Axes
	}{
		"none":    {0, 0, 0, Axes{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
		"turn":    {90, 0, 0, Axes{{0, 1, 0}, {-1, 0, 0}, {0, 0, 1}}},
		"nose up": {0, 90, 0, Axes{{0, 0, -1}, {0, 1, 0}, {1, 0, 0}}},
		"bank":    {0, 0, 90, Axes{{1, 0, 0}, {0, 0, 1}, {0, -1, 0}}},
		"around":  {180, 0, 180, Axes{{-1, 0, 0}, {0, 1, 0}, {0, 0, -1}}},
	} {
		got := AxesOf(c.psi*degree, c.theta*degree, c.phi*degree)
		for i := range got {
			if !near(got[i], c.want[i], 1e-12) {
				t.Errorf("%s, axis %d: %v; must be %v", name, i, got[i], c.want[i])
			}
		}
	}
}

// Properties of every rotation: axes stay at right angles and of length one, a vector comes back, and the angles over
// the local axes are those that made the body's.
func TestRotations(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 2000 {
		psi, theta, phi := (random.Float64()*2-1)*math.Pi, (random.Float64()-0.5)*3.1, (random.Float64()*2-1)*math.Pi
		local := NorthEastDown((random.Float64()-0.5)*math.Pi, (random.Float64()*2-1)*math.Pi)
		over := AxesOf(psi, theta, phi)
		var body Axes
		for i := range body {
			body[i] = local.Back(over[i])
		}
		for i := range body {
			for k := range body {
				want := 0.0
				if i == k {
					want = 1
				}
				if got := body[i].Dot(body[k]); math.Abs(got-want) > 1e-12 {
					t.Fatalf("axes %d and %d: %v; must be %v", i, k, got, want)
				}
			}
		}
		v := Vector{random.NormFloat64(), random.NormFloat64(), random.NormFloat64()}
		if got := body.Back(body.Turn(v)); !near(got, v, 1e-12) {
			t.Fatalf("%v comes back as %v", v, got)
		}
		heading, pitch, bank := Attitude(body, local)
		for _, angles := range [][2]float64{{heading, psi}, {pitch, theta}, {bank, phi}} {
			if d := math.Remainder(angles[0]-angles[1], 2*math.Pi); math.Abs(d) > 1e-6 {
				t.Fatalf("angles %v %v %v come back as %v %v %v", psi, theta, phi, heading, pitch, bank)
			}
		}
	}
}
