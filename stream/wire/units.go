package wire

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"halfturn/stream"
)

// Exact by definition: international foot 0.3048 m, nautical mile 1852 m, statute mile
// 1609.344 m (International Yard and Pound Agreement, 1959), standard gravity 9.80665 m/s²
// (3rd CGPM, 1901).
const (
	foot         = 0.3048
	knot         = 1852.0 / 3600
	gravity      = 9.80665
	feetPerMin   = foot / 60
	degPerRadian = 180 / math.Pi
)

// units gives, for each unit of the channel table, the units a map may name and what one of
// them is in the channel's unit.
var units = map[string]map[string]float64{
	"s":      {"s": 1, "ms": 1e-3, "min": 60},
	"°":      {"deg": 1, "rad": degPerRadian},
	"kt":     {"kt": 1, "m/s": 1 / knot, "ft/s": foot / knot, "km/h": 1 / 3.6 / knot, "mph": 1609.344 / 3600 / knot},
	"ft":     {"ft": 1, "m": 1 / foot},
	"ft/min": {"ft/min": 1, "ft/s": 60, "m/s": 1 / feetPerMin},
	"°/s":    {"deg/s": 1, "rad/s": degPerRadian},
	"g":      {"g": 1, "m/s²": 1 / gravity, "ft/s²": foot / gravity, "m/s2": 1 / gravity, "ft/s2": foot / gravity},
	"balls":  {"ball": 1},
	"ratio":  {"ratio": 1, "%": 0.01},
	"%":      {"%": 1, "ratio": 100},
	"rpm":    {"rpm": 1},
	"flag":   {"flag": 1},
}

// geocentric is the one unit that is not a factor: a latitude measured at the Earth's center.
const geocentric = "geocentric deg"

// unitFactor gives what one of the unit is in the channel's unit.
func unitFactor(c stream.Channel, unit string) (float64, error) {
	if unit == geocentric && c == stream.Latitude {
		return 1, nil
	}
	known := units[c.Info().Unit]
	if f, ok := known[unit]; ok {
		return f, nil
	}
	allowed := []string{}
	for name := range known {
		allowed = append(allowed, name)
	}
	if c == stream.Latitude {
		allowed = append(allowed, geocentric)
	}
	slices.Sort(allowed)
	return 0, fmt.Errorf("unit %q does not fit channel %s; allowed: %s", unit, c, strings.Join(allowed, ", "))
}

// WGS-84: semi-major axis in feet, flattening (NIMA TR8350.2, table 3.1).
const (
	earthRadius     = 6378137 / foot
	earthFlattening = 1 / 298.257223563
	earthEccSq      = earthFlattening * (2 - earthFlattening)
)

// geodetic turns a geocentric latitude in degrees, of a point the height in feet above the
// ellipsoid, into the geodetic one: tan φ = tan φ' (N+h) / (N(1−e²)+h) with N the radius of
// curvature in the prime vertical, which itself needs φ.
func geodetic(lat, height float64) float64 {
	t := math.Tan(lat / degPerRadian)
	phi := math.Atan(t / (1 - earthEccSq))
	for range 2 { // the height's share is below 1e-5 of the correction: two rounds settle it
		s := math.Sin(phi)
		n := earthRadius / math.Sqrt(1-earthEccSq*s*s)
		phi = math.Atan(t * (n + height) / (n*(1-earthEccSq) + height))
	}
	return phi * degPerRadian
}
