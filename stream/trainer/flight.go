package trainer

import (
	"math"
	"slices"

	"halfturn/stream/trainer/airplane"
	"halfturn/stream/trainer/option"
)

// A Flight says what the scripted pilot flies. The zero value of a field means the default given beside it.
type Flight struct {
	Maneuver  string // of Maneuvers; "wing-over"
	Direction string // of Directions; "both": right and left in turn
	Flaw      string // of Flaws; "": flown well
	FlawLeg   int    // which leg has the flaw, from 1; 1, 2 for same-direction, in a pattern its last leg but one
	Strength  string // of the flaw: of Strengths, or a number of which 1 is medium; "medium"
	Airplane  string // of Airplanes; the first of them

	Legs int // how many; all of a pattern, else 2 for "both" and for same-direction, else 1

	WindFrom  float64 // °, where the wind comes from
	WindSpeed float64 // kt

	Latitude, Longitude float64 // ° of the start
	Altitude            float64 // ft MSL of the start; 6,000
	Heading             float64 // ° of the start

	Seed   uint64 // of the pilot's noise; flights with the same seed are the same
	Steady bool   // no noise at all
}

// Maneuvers lists the maneuvers the pilot can fly.
func Maneuvers() []string {
	names := make([]string, len(maneuvers))
	for i := range maneuvers {
		names[i] = maneuvers[i].name
	}
	return names
}

// Flaws lists the flaws the pilot can show, without "" for none.
func Flaws() []string {
	names := make([]string, len(flaws))
	for i := range flaws {
		names[i] = flaws[i].name
	}
	return names
}

// FlawsOf lists the flaws that make sense in a maneuver.
func FlawsOf(maneuver string) []string {
	names := []string{}
	for _, f := range flaws {
		if len(f.only) == 0 || slices.Contains(f.only, maneuver) {
			names = append(names, f.name)
		}
	}
	return names
}

// Directions lists what Flight.Direction can be.
func Directions() []string { return []string{"both", "right", "left"} }

// complete fills in the defaults and checks the rest. The error names the field, what is wrong
// and what is allowed.
func (f Flight) complete() (Flight, error) {
	if f.Maneuver == "" {
		f.Maneuver = "wing-over"
	}
	if f.Direction == "" {
		f.Direction = "both"
	}
	if f.Altitude == 0 {
		f.Altitude = f.usualAltitude()
	}
	if f.Flaw == "out-of-wind" && f.WindSpeed == 0 {
		f.WindSpeed = 15 // without one there is nothing to see
	}
	if f.Heading == 0 && f.WindSpeed > 0 && f.Maneuver == "eights-on-pylons" {
		f.Heading = f.acrossWind()
	}
	pattern := len(legsOf(f.Maneuver))
	if f.Legs == 0 {
		f.Legs = 1
		if f.Direction == "both" || f.Flaw == "same-direction" {
			f.Legs = 2
		}
		f.Legs = max(f.Legs, pattern)
		if f.Maneuver == "steep-spiral" { // there is no height left for another
			f.Legs = 1
		}
	}
	if f.FlawLeg == 0 {
		f.FlawLeg = max(1, min(f.Legs, pattern-1)) // where a pattern is hardest
		if f.Flaw == "same-direction" {
			f.FlawLeg = 2
		}
	}
	if err := f.names(); err != nil {
		return f, err
	}
	return f, f.numbers()
}

// acrossWind is the heading of a diagonal downwind, from which the first turn goes into the wind (FAA-H-8083-3C
// p. 7-17), or away from it where that is the flaw.
func (f *Flight) acrossWind() float64 {
	side := 1.0
	if (f.Direction == "left") != (f.Flaw == "out-of-wind") {
		side = -1
	}
	return math.Mod(f.WindFrom-120*side+720, 360)
}

// usualAltitude is where a flight starts unless it says otherwise, ft MSL: with room for the maneuver, or at the height
// from which a pylon stays on the wing without wind.
func (f *Flight) usualAltitude() float64 {
	switch a, err := airplane.Named(f.Airplane); {
	case err == nil && f.Maneuver == "eights-on-pylons":
		return airplane.Terrain + math.Round(sq(a.EntryFor(f.Maneuver)*1.025*knot)/gravity)
	case f.Maneuver == "steep-spiral":
		return 9000
	}
	return 6000
}

func (f *Flight) names() error {
	if !slices.Contains(Maneuvers(), f.Maneuver) {
		return option.Unknown("maneuver", f.Maneuver, Maneuvers())
	}
	if !slices.Contains(Directions(), f.Direction) {
		return option.Unknown("direction", f.Direction, Directions())
	}
	if f.Flaw != "" && !slices.Contains(FlawsOf(f.Maneuver), f.Flaw) {
		return option.Wrong("is %q; for a %s must be %s", "flaw", f.Flaw, f.Maneuver, FlawsOf(f.Maneuver))
	}
	if _, err := scale(f.Strength); err != nil {
		return err
	}
	_, err := airplane.Named(f.Airplane)
	return err
}

func (f *Flight) numbers() error {
	for _, r := range []struct {
		option string
		value  float64
		within option.Range
	}{
		{"legs", float64(f.Legs), LegRange}, {"flaw leg", float64(f.FlawLeg),
			option.Range{Low: 1, High: float64(f.Legs)}},
		{"wind direction", f.WindFrom, BearingRange}, {"wind speed", f.WindSpeed, WindRange},
		{"latitude", f.Latitude, latitudeRange}, {"longitude", f.Longitude, longitudeRange},
		{"altitude", f.Altitude, altitudeRange}, {"heading", f.Heading, BearingRange},
	} {
		if err := r.within.Check(r.option, r.value); err != nil {
			return err
		}
	}
	if f.Flaw == "same-direction" && f.FlawLeg < 2 {
		return option.Wrong("is %d; same-direction needs a leg before it: 2 or more", "flaw leg", f.FlawLeg)
	}
	return nil
}

// task is one leg to come.
type task struct {
	plan   plan
	number int // of the leg in its maneuver, from 0
	right  bool
	flaw   flaw
	scale  float64 // of the flaw
}

// tasks lists a complete flight's legs.
func (f *Flight) tasks(a *airplane.Airplane) []task {
	fresh := legsOf(f.Maneuver)
	legs := []task{}
	strength, _ := scale(f.Strength) // a complete flight's is right
	right := f.Direction != "left"
	for i := 1; i <= f.Legs; i++ {
		n := (i - 1) % len(fresh)
		t := task{plan: fresh[n](a), number: n, right: right, scale: strength}
		t.plan.start = a.EntryFor(f.Maneuver)
		if i == f.FlawLeg {
			for _, w := range flaws {
				if w.name == f.Flaw && w.change != nil {
					t.flaw = w
				}
			}
		}
		next := i + 1
		if f.Direction == "both" && !(f.Flaw == "same-direction" && next == f.FlawLeg) {
			right = !right
		}
		legs = append(legs, t)
	}
	legs[len(legs)-1].plan.follows = false
	return legs
}

// windVector is the air's motion in ft/s toward north and east.
func (f *Flight) windVector() [2]float64 {
	s, c := math.Sincos(f.WindFrom * rad)
	return [2]float64{-f.WindSpeed * knot * c, -f.WindSpeed * knot * s}
}
