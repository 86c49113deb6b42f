// Package airplane is the model of the built-in aircraft: a point mass whose attitude follows the controls with a lag.
// It gains and loses energy by thrust and drag alone, flies in the standard atmosphere and is carried by the wind. It
// is a generic model for simulator practice and stands for no real aircraft.
package airplane

import (
	"math"

	"halfturn/stream/trainer/option"
)

// The units of the model.
const (
	Gravity = 9.80665 / 0.3048       // ft/s²
	Knot    = 1852.0 / 3600 / 0.3048 // ft/s
	rad     = math.Pi / 180
	earth   = 6371008.8 / 0.3048 // ft, mean radius (IUGG)
)

// An Airplane is what the model needs to know of one. Speeds are kt calibrated.
type Airplane struct {
	Name       string
	Title      string
	Stall      float64 // clean, 1 g
	Entry      float64 // entry airspeed, where Entries has no other for the maneuver
	Entries    map[string]float64
	Apex       float64 // lowest airspeed of a wing-over flown well
	LiftToDrag float64 // best lift-to-drag ratio
	Glide      float64 // speed of least drag
	RollRate   float64 // °/s a pilot uses at most
	Throttle   float64 // 0 to 1, what level flight at Entry needs
	RPM        float64 // at Entry
	Governed   bool    // a propeller governor keeps RPM whatever the airspeed
	Turbine    bool    // has torque and N1
	Torque     float64 // ° of sideslip the torque effect makes for each doubling of (entry/airspeed)²
	Fall       float64 // thrust falls with airspeed to this power, the throttle left alone
	SideForce  float64 // g of lateral load for each degree of sideslip at Entry
}

// airplanes are three generic ones. Stall, entry and apex are those of the aircraft card of the same name, which gives
// their sources; rpm of the radial trainer is common practice (no source); the rest is ours, typical of the class (from
// memory).
var airplanes = []Airplane{
	{
		Name:       "radial-trainer",
		Title:      "Radial-engine trainer",
		Stall:      59,
		Entry:      130,
		Entries:    map[string]float64{"steep-spiral": 95, "eights-on-pylons": 105},
		Apex:       70,
		LiftToDrag: 9,
		Glide:      85,
		RollRate:   28,
		Throttle:   0.6,
		RPM:        1950,
		Governed:   true,
		Torque:     2.6,
		Fall:       0.25,
		SideForce:  0.055,
	},
	{
		Name:       "light-single",
		Title:      "Light single",
		Stall:      49,
		Entry:      102,
		Entries:    map[string]float64{"steep-spiral": 80, "eights-on-pylons": 95},
		Apex:       78,
		LiftToDrag: 10,
		Glide:      72,
		RollRate:   22,
		Throttle:   0.75,
		RPM:        2366,
		Torque:     4.5,
		Fall:       0.25,
		SideForce:  0.052,
	},
	{
		Name:  "turboprop-trainer",
		Title: "Turboprop trainer",
		Stall: 84,
		Entry: 220,
		Entries: map[string]float64{"chandelle-civil": 200, "chandelle-traditional": 200, "steep-spiral": 130,
			"eights-on-pylons": 130},
		Apex:       148,
		LiftToDrag: 11,
		Glide:      125,
		RollRate:   30,
		Throttle:   0.75,
		RPM:        2000,
		Governed:   true,
		Turbine:    true,
		Torque:     4.2,
		Fall:       0,
		SideForce:  0.06,
	},
}

// EntryFor returns the entry airspeed of a maneuver, kt calibrated.
func (a *Airplane) EntryFor(maneuver string) float64 {
	if kt, ok := a.Entries[maneuver]; ok {
		return kt
	}
	return a.Entry
}

// Names lists the names of the built-in airplanes.
func Names() []string {
	names := make([]string, len(airplanes))
	for i := range airplanes {
		names[i] = airplanes[i].Name
	}
	return names
}

// Named returns a built-in airplane, the first one for an empty name. The error for an unknown name lists the names
// there are.
func Named(name string) (Airplane, error) {
	if name == "" {
		return airplanes[0], nil
	}
	for _, a := range airplanes {
		if a.Name == name {
			return a, nil
		}
	}
	return Airplane{}, option.Unknown("aircraft", name, Names())
}
