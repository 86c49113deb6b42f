// Package units holds the exact sizes of units, and the factors between the units a sender may use and those of the
// channel table.
package units

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"halfturn/stream"
)

// Exact by definition: international foot 0.3048 m, nautical mile 1852 m, statute mile 1609.344 m (International Yard
// and Pound Agreement, 1959), standard gravity 9.80665 m/s² (3rd CGPM, 1901).
const (
	Foot             = 0.3048        // m
	Mile             = 1609.344      // m
	Knot             = 1852.0 / 3600 // m/s
	FootPerMinute    = Foot / 60     // m/s
	Gravity          = 9.80665       // m/s²
	DegreesPerRadian = 180 / math.Pi
)

// factors gives, for each unit of the channel table, the units a map may name and what one of them is in the channel's
// unit.
var factors = map[string]map[string]float64{
	"s":      {"s": 1, "ms": 1e-3, "min": 60},
	"°":      {"deg": 1, "rad": DegreesPerRadian},
	"kt":     {"kt": 1, "m/s": 1 / Knot, "ft/s": Foot / Knot, "km/h": 1 / 3.6 / Knot, "mph": Mile / 3600 / Knot},
	"ft":     {"ft": 1, "m": 1 / Foot},
	"ft/min": {"ft/min": 1, "ft/s": 60, "m/s": 1 / FootPerMinute},
	"°/s":    {"deg/s": 1, "rad/s": DegreesPerRadian},
	"g": {
		"g":     1,
		"m/s²":  1 / Gravity,
		"m/s2":  1 / Gravity,
		"ft/s²": Foot / Gravity,
		"ft/s2": Foot / Gravity,
	},
	"balls": {"ball": 1},
	"ratio": {"ratio": 1, "%": 0.01},
	"%":     {"%": 1, "ratio": 100},
	"rpm":   {"rpm": 1},
	"flag":  {"flag": 1},
}

// Geocentric is the one unit that is not a factor: a latitude measured at the Earth's center.
const Geocentric = "geocentric deg"

// Factor returns what one of the unit is in the channel's unit. The error lists the units that fit the channel.
func Factor(c stream.Channel, unit string) (float64, error) {
	if unit == Geocentric && c == stream.Latitude {
		return 1, nil
	}
	known := factors[c.Info().Unit]
	if f, ok := known[unit]; ok {
		return f, nil
	}
	names := slices.Collect(maps.Keys(known))
	if c == stream.Latitude {
		names = append(names, Geocentric)
	}
	slices.Sort(names)
	list := names[0]
	if last := len(names) - 1; last > 0 {
		list = strings.Join(names[:last], ", ") + " or " + names[last]
	}
	return 0, fmt.Errorf("is %q; for channel %s must be %s", unit, c, list)
}
