package maneuver

import "slices"

// The checks that follow from a card's series rule, in every card of several legs; one that writes its own is judged
// by that.
const (
	LegsID  = "legs"                // of kind legs: as many legs finished as the rule says
	SidesID = "opposite-directions" // of kind directions: each the other way than the one before
)

// ruleWeight is that of a check which follows from the series rule (common practice, no source: like a check of the
// exit).
const ruleWeight = 2.0

// seriesChecks adds the checks that follow from the series rule.
func (c *Card) seriesChecks() {
	has := func(kind string) bool {
		return slices.ContainsFunc(c.Checks, func(k Check) bool { return k.Kind == kind })
	}
	if c.Series.Legs < 2 {
		return
	}
	if c.Series.Opposite && !has("directions") {
		c.Checks = append(c.Checks, Check{ID: SidesID, Label: "Legs the same way as the one before", Kind: "directions", Weight: ruleWeight,
			Aim: new(0.0), MetBand: Band{new(0.0), new(0.0)}, NearBand: Band{new(0.0), new(0.0)}, High: "The second the other way", Source: c.Series.Source})
	}
	if !has("legs") {
		want := float64(c.Series.Legs)
		c.Checks = append(c.Checks, Check{ID: LegsID, Label: "Legs finished", Kind: "legs", Weight: ruleWeight,
			MetBand: Band{Low: new(want)}, NearBand: Band{Low: new(want)}, Low: "Fly all the legs", Source: c.Series.Source})
	}
}
