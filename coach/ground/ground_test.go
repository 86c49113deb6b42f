package ground

import (
	"math"
	"testing"

	"halfturn/stream"
)

func samplePlace(lat, lon float64) Place {
	var s stream.Sample
	s.Put(stream.Latitude, lat)
	s.Put(stream.Longitude, lon)
	return PlaceOf(&s)
}

// The length of a degree on the WGS-84 ellipsoid, m: 110,574 and 111,320 at the equator, 111,132 and
// 78,847 at 45°, 111,412 and 55,800 at 60° (the usual table, from memory).
func TestDegrees(t *testing.T) {
	for _, c := range []struct{ lat, north, east float64 }{{0, 110574, 111320}, {45, 111132, 78847},
		{60, 111412, 55800}, {-45, 111132, 78847}} {
		p := samplePlace(c.lat, 11)
		if n, e := p.north*0.3048, p.east*0.3048; math.Abs(n-c.north) > 1 || math.Abs(e-c.east) > 1 {
			t.Errorf("at %g°: %.1f and %.1f m, want %g and %g", c.lat, n, e, c.north, c.east)
		}
	}
	if samplePlace(89.5, 0).ok {
		t.Error("at the pole east is nowhere")
	}
}

// By hand: entry at 60° north heading east (90°), turn to the right: south is across. A minute of
// latitude south is 1,852 m but for the flattening: 111,412/60 m = 6,092 ft.
func TestLocate(t *testing.T) {
	at := samplePlace(60, 179.995) // over the date line, too
	for _, c := range []struct {
		heading, side, lat, lon, along, across float64
	}{
		{90, 1, 60 - 1.0/60, 179.995, 0, 6092},
		{90, -1, 60 - 1.0/60, 179.995, 0, -6092},
		{90, 1, 60, -179.995, 1831, 0}, // a hundredth of 55,800 m
		{0, 1, 60, -179.995, 0, 1831},
		{180, 1, 60 - 1.0/60, 179.995, 6092, 0},
		{45, 1, 60 + 1.0/60, 179.995, 4308, -4308},
	} {
		a := Axes{at, c.heading, c.side}
		var s stream.Sample
		s.Put(stream.Latitude, c.lat)
		s.Put(stream.Longitude, c.lon)
		along, across, ok := a.Locate(&s)
		if !ok || math.Abs(along-c.along) > 2 || math.Abs(across-c.across) > 2 {
			t.Errorf("%+v: %.0f along, %.0f across", c, along, across)
		}
	}
}

// A point 5 NM off the right wing, heading north. After flying 5 NM on it stands 135° to the
// right, 7.07 NM away; by heading alone it would still stand at 90°.
func TestPoint(t *testing.T) {
	var c Sight
	var path Path
	at := samplePlace(47, 11)
	p := c.fix(&path, at, 0, 1)
	if b, far := p.from(at, 0); math.Abs(b-90) > 0.01 || math.Abs(far-5) > 0.001 {
		t.Errorf("abeam it stands at %.2f°, %.3f NM", b, far)
	}
	lat, lon := at.off(0, 5*nautical)
	on := samplePlace(lat, lon)
	if b, far := p.from(on, 0); math.Abs(b-135) > 0.1 || math.Abs(far-5*math.Sqrt2) > 0.01 {
		t.Errorf("5 NM on it stands at %.2f°, %.3f NM", b, far)
	}
	if b, _ := p.from(on, 90); math.Abs(b-45) > 0.1 {
		t.Errorf("and after a turn by 90° at %.2f°", b)
	}
}

// With a magnetic heading drift and wind are not stated: they cannot be separated from the variation. The
// variation serves for the point and the axes alone.
func TestMagnetic(t *testing.T) {
	const variation = 12.0
	var g Path
	at := samplePlace(47, 11)
	var s stream.Sample
	for i := range 600 { // 20 s at 150 kt to the true east
		now := float64(i) / 30
		lat, lon := at.off(90, now*150*nautical/3600)
		s.Reset()
		s.Put(stream.Time, now)
		s.Put(stream.Heading, 90-variation)
		s.Magnetic = true
		s.Put(stream.Bank, 0)
		s.Put(stream.Latitude, lat)
		s.Put(stream.Longitude, lon)
		s.Put(stream.TrueAirspeed, 150)
		g.Add(&s, 0)
	}
	if h, ok := g.trueOf(90 - variation); !ok || math.Abs(h-90) > 0.1 {
		t.Errorf("the true heading is %.2f°", h)
	}
	f := g.Show(&s, &Axes{})
	if f == nil || f.Drift != nil || f.Wind != nil || f.Track != nil {
		t.Errorf("by a magnetic heading: %+v", f)
	}
}

// Without position there is no ground, and standing still there is no track.
func TestNoTrack(t *testing.T) {
	var g Path
	var s stream.Sample
	s.Put(stream.Time, 1)
	if g.Add(&s, 0); g.Show(&s, &Axes{}) != nil {
		t.Error("a ground without position")
	}
	for i := range 300 {
		s.Put(stream.Time, 1+float64(i)/30)
		s.Put(stream.Heading, 90)
		s.Put(stream.Latitude, 47+float64(i)*1e-8)
		s.Put(stream.Longitude, 11)
		g.Add(&s, 0)
	}
	if f := g.Show(&s, &Axes{}); f == nil || f.Track != nil || f.Drift != nil {
		t.Errorf("standing still: %+v", f)
	}
}

func TestGroundAllocates(t *testing.T) {
	var g Path
	var s stream.Sample
	i := 0
	if n := testing.AllocsPerRun(1000, func() {
		i++
		s.Put(stream.Time, float64(i)/60)
		s.Put(stream.Heading, 90)
		s.Put(stream.Latitude, 47)
		s.Put(stream.Longitude, 11+float64(i)*1e-5)
		s.Put(stream.TrueAirspeed, 150)
		g.Add(&s, 0)
	}); n != 0 {
		t.Errorf("%v allocations a sample", n)
	}
}
