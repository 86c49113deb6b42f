// Package aircraft holds the aircraft card: the numbers of an aircraft that a maneuver needs.
package aircraft

// An Aircraft is the numbers of an aircraft that a maneuver needs. A number that is 0 is
// unknown: checks that need it are not measured.
type Aircraft struct {
	Name     string  `toml:"name"`
	Title    string  `toml:"title"`
	Source   string  `toml:"source"`
	Stall    float64 `toml:"stall"`     // kt, clean, wings level, at 1 g
	Entry    float64 `toml:"entry"`     // kt
	Apex     float64 `toml:"apex"`      // kt, lowest speed of a good wing-over
	Power    string  `toml:"power"`     // the setting to use, in words: "1950 rpm"
	Glide    float64 `toml:"glide"`     // kt, speed of least drag
	Ratio    float64 `toml:"ratio"`     // best ratio of lift to drag
	Never    float64 `toml:"never"`     // kt, never exceed
	LoadMax  float64 `toml:"load-max"`  // g
	LoadMin  float64 `toml:"load-min"`  // g
	BankMax  float64 `toml:"bank-max"`  // °, where left out that of the category; 0 is no limit
	Engine   string  `toml:"engine"`    // "propeller" (also when left out), "jet"
	Rotation string  `toml:"propeller"` // "clockwise", "counterclockwise" as seen from the seat, "none"

	// Category is "normal", "utility" or "acrobatic"; "" is not known.
	Category string `toml:"category"`
	// Maneuvering is the published maneuvering speed, kt; it belongs to MaxWeight where that is given.
	Maneuvering float64 `toml:"maneuvering"`
	// Weight is the weight as flown, to which the stall speed belongs, and MaxWeight the one of the published
	// maneuvering speed, both in one unit: pounds, say.
	Weight    float64 `toml:"weight"`
	MaxWeight float64 `toml:"max-weight"`
	// ClimbPower is the thrust of climb power over that of level flight at entry speed, for maneuvers in which power
	// is added.
	ClimbPower float64 `toml:"climb-power"`

	Speeds map[string]Speeds `toml:"maneuver"` // by maneuver card name, where they differ

	Steepest float64 `toml:"-"` // °, the steepest bank aimed at in the maneuver; 0 is the card's
	Nose     float64 `toml:"-"` // °, the highest nose above level of the maneuver; 0 follows from the lowest speed
}

// Speeds are an aircraft's numbers for one maneuver, where they differ from its usual ones.
type Speeds struct {
	Entry    float64 `toml:"entry"`
	Apex     float64 `toml:"apex"`
	Steepest float64 `toml:"steepest"` // °, the steepest bank aimed at
	Nose     float64 `toml:"nose"`     // °, the highest nose above level where it is published
	Power    string  `toml:"power"`
}

// For returns the aircraft with the numbers that hold for one maneuver.
func (a Aircraft) For(maneuver string) Aircraft {
	s := a.Speeds[maneuver]
	if s.Entry > 0 {
		a.Entry = s.Entry
	}
	if s.Apex > 0 {
		a.Apex = s.Apex
	}
	a.Steepest, a.Nose = s.Steepest, s.Nose
	if s.Power != "" {
		a.Power = s.Power
	}
	return a
}
