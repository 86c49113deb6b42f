package maneuver

import (
	"testing"

	"halfturn/coach/check"
)

// sameEnd reports whether two ends of bands are one.
func sameEnd(a, b *float64) bool { return a == b || a != nil && b != nil && *a == *b }

// sameEdge reports whether two checks have the same bands at an edge.
func sameEdge(a, b *check.Spec, edge string) bool {
	if edge == check.LimitHigh {
		return sameEnd(a.MetBand.High, b.MetBand.High) && sameEnd(a.NearBand.High, b.NearBand.High)
	}
	return sameEnd(a.MetBand.Low, b.MetBand.Low) && sameEnd(a.NearBand.Low, b.NearBand.Low)
}

// What is a limit is one by every standard. That bank is one where a card says never past ninety, or past the 60° of
// 14 CFR 91.307(c), and the stall wherever a card has a margin over it, is listed by hand.
func TestNoStandardWidensALimit(t *testing.T) {
	lib := shippedLibrary(t)
	edges := map[string]bool{
		"wing-over bank-at-90 high": true, "wing-over steepest-bank high": true, "wing-over stall-margin low": true,
		"lazy-eight stall-margin low": true, "steep-turn steepest-bank high": true, "steep-turn stall-margin low": true,
		"steep-turn-45 stall-margin low": true, "clearing-turns steepest-bank high": true,
		"chandelle-civil no-stall low": true, "chandelle-civil exit-speed low": true,
		"chandelle-traditional no-stall low": true, "chandelle-traditional exit-speed low": true,
	}
	found := map[string]bool{}
	for _, card := range lib.Cards() {
		for _, standard := range lib.Standards() {
			judged, err := standard.Apply(card)
			if err != nil {
				t.Fatal(err)
			}
			for i := range card.Checks {
				for _, edge := range []string{check.LimitHigh, check.LimitLow} {
					was, is := &card.Checks[i], &judged.Checks[i]
					if !was.IsLimit(edge == check.LimitHigh) {
						continue
					}
					name := card.Name + " " + was.ID + " " + edge
					found[name] = true
					if standard.Widen != 1 && !sameEdge(was, is, edge) {
						t.Errorf("%s makes %v, %v of %s, which was %v, %v",
							standard.Name, is.MetBand, is.NearBand, name, was.MetBand, was.NearBand)
					}
				}
			}
		}
	}
	for name := range edges {
		if !found[name] {
			t.Errorf("%s is no limit", name)
		}
	}
}

// No bank of a wing-over may be flown past ninety, nor one of a steep turn past the 60° of 14 CFR 91.307(c), whichever
// check of the card and whichever standard it is.
func TestNoBandReachesPastALimit(t *testing.T) {
	lib := shippedLibrary(t)
	for name, most := range map[string]float64{"wing-over": 91, "steep-turn": 60, "clearing-turns": 65} {
		card, err := lib.Card(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, standard := range lib.Standards() {
			judged, err := standard.Apply(card)
			if err != nil {
				t.Fatal(err)
			}
			for _, k := range judged.Checks {
				ofBank := k.Channel == "bank" && (k.Kind == "value" || k.Kind == "extreme" || k.Kind == "mean")
				if ofBank && k.NearBand.High != nil && *k.NearBand.High > most {
					t.Errorf("by %s, %s of a %s reaches to %g°", standard.Name, k.ID, name, *k.NearBand.High)
				}
			}
		}
	}
}
