package maneuver

import (
	"slices"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// The checks that follow from a card's series rule, in every card of several legs; one that writes its own is judged
// by that.
const (
	LegsID  = "legs"                // as many legs finished as the rule says
	SidesID = "opposite-directions" // each the other way than the one before
)

// rules are the ids that the series rule uses, and the kind of check of each.
var rules = []struct {
	id   string
	kind *check.Kind
}{
	{LegsID, kinds.Counting(check.Legs)},
	{SidesID, kinds.Counting(check.Sides)},
}

// ruleWeight is that of a check which follows from the series rule (common practice, no source: like a check of the
// exit).
const ruleWeight = 2.0

// seriesChecks adds the checks that follow from the series rule.
func (c *Card) seriesChecks() {
	if c.Series.Legs < 2 {
		return
	}
	if c.Series.Opposite && !c.counts(check.Sides) {
		none := check.Band{Low: new(0.0), High: new(0.0)}
		c.Checks = append(c.Checks, check.Spec{
			ID:       SidesID,
			Label:    "Legs flown twice the same way",
			Kind:     kinds.Counting(check.Sides).Name,
			Weight:   ruleWeight,
			Aim:      new(0.0),
			MetBand:  none,
			NearBand: none,
			High:     "The second the other way",
			Source:   c.Series.Source,
		})
	}
	if !c.counts(check.Legs) {
		all := check.Band{Low: new(float64(c.Series.Legs))}
		c.Checks = append(c.Checks, check.Spec{
			ID:       LegsID,
			Label:    "Legs finished",
			Kind:     kinds.Counting(check.Legs).Name,
			Weight:   ruleWeight,
			MetBand:  all,
			NearBand: all,
			Low:      "Fly all the legs",
			Source:   c.Series.Source,
		})
	}
}

// counts reports whether a check of the card asks for something of the whole series.
func (c *Card) counts(what check.Count) bool {
	return slices.ContainsFunc(c.Checks, func(k check.Spec) bool { return kinds.Of(&k).Counts == what })
}
