// Package wording writes what was measured as people read it.
package wording

import (
	"fmt"
	"math"
	"strings"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

// Wanted is the met band of a check in words: "60 to 88°", "at least 5 kt".
func Wanted(k *coach.Check) string { return Band(k).String() }

// Band is the met band of a check.
func Band(k *coach.Check) phrase.Phrase {
	low, high := k.Met[0], k.Met[1]
	d := 0
	for _, x := range []*float64{low, high} {
		if x != nil {
			d = max(d, min(Digits(*x), digitsOfEdge(k.Unit)))
		}
	}
	unit := strings.TrimSpace(Unit(k.Unit))
	switch {
	case low != nil && high != nil && *low == *high:
		return phrase.Exactly.Of(phrase.Number("value", *low, d, unit))
	case low != nil && high != nil:
		return phrase.Between.Of(phrase.Number("low", *low, d, unit), phrase.Number("high", *high, d, unit))
	case low != nil:
		return phrase.AtLeast.Of(phrase.Number("low", *low, d, unit))
	case high != nil:
		return phrase.AtMost.Of(phrase.Number("high", *high, d, unit))
	}
	return phrase.AnyValue.Of()
}

// AimAndBand is what a check asks for in words, the aim with the met band about it: "75 (60 to 88°)".
func AimAndBand(in *phrase.Language, k *coach.Check) string {
	wanted := BandIn(in, k)
	if k.Aim == nil || k.Met[0] != nil && k.Met[1] != nil && *k.Met[0] == *k.Met[1] {
		return wanted
	}
	return in.Number(*k.Aim, min(Digits(*k.Aim), digitsOfEdge(k.Unit))) + " (" + wanted + ")"
}

// BandIn is the met band of a check in words of a language.
func BandIn(in *phrase.Language, k *coach.Check) string {
	if k.Unit != "%" {
		return in.Say(Band(k))
	}
	whole := *k // figures without a unit, since a phrase has it close to the number
	whole.Unit = ""
	for i, end := range k.Met {
		if end != nil {
			whole.Met[i] = new(math.Round(*end))
		}
	}
	return in.Say(Band(&whole)) + UnitIn(in, k.Unit)
}

// Value is what a check measured, with its unit. The check must have a value.
func Value(in *phrase.Language, k *coach.Check) string {
	return in.Number(*k.Value, DigitsOfValue(k)) + UnitIn(in, k.Unit)
}

// InPercent is a check with its ratio as percent; a check of another unit is returned as it is.
func InPercent(k *coach.Check) *coach.Check {
	if k.Unit != "ratio" {
		return k
	}
	c := *k
	c.Unit = "%"
	times := func(v *float64) *float64 {
		if v == nil {
			return nil
		}
		return new(math.Round(100**v*1e6) / 1e6) // 100 × 0.07 is not 7 in binary
	}
	c.Value, c.Aim = times(k.Value), times(k.Aim)
	for i := range c.Met {
		c.Met[i], c.Near[i] = times(k.Met[i]), times(k.Near[i])
	}
	return &c
}

// Unit is a unit as written after a number, with the space before it where one is due.
func Unit(u string) string {
	switch u {
	case "", "ratio":
		return ""
	case "°", "%":
		return u
	}
	return " " + u
}

// UnitIn is a unit as written after a number in a language.
func UnitIn(in *phrase.Language, u string) string {
	switch {
	case u == "%" && in == nil:
		return " %"
	case u == "%":
		return "\u00a0%"
	}
	return Unit(in.Unit(u))
}

// Digits is the number of decimals a value is written with: fewer the larger it is, none where it is whole.
func Digits(v float64) int {
	switch a := math.Abs(v); {
	case a == math.Trunc(a) || a >= 100:
		return 0
	case a >= 3:
		return 1
	}
	return 2
}

// Signed writes a number with a true minus sign.
func Signed(v float64, d int) string {
	s := fmt.Sprintf("%.*f", d, v)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", "−", 1)
}

// DigitsIn is the number of decimals that a value in a unit is written with.
func DigitsIn(unit string, v float64) int { return min(Digits(v), digitsOf(unit)) }

// DigitsOfValue is the number of decimals that the value of a check is written with: as many as it is judged by
// ([check.Rounding]), and enough to show that it lies outside its met band when it does.
func DigitsOfValue(k *coach.Check) int {
	d := DigitsIn(k.Unit, *k.Value)
	if k.Verdict == coach.Met || k.Verdict == coach.NotMeasured {
		return d
	}
	for ; d < 2; d++ {
		shown := math.Round(*k.Value*math.Pow10(d)) / math.Pow10(d)
		if k.Met[0] != nil && shown < *k.Met[0] || k.Met[1] != nil && shown > *k.Met[1] {
			break
		}
	}
	return d
}

// digitsOf is the number of decimals of the step in which values of a unit are written.
func digitsOf(unit string) int {
	switch half := check.Rounding(unit); {
	case half >= 0.5:
		return 0
	case half >= 0.05:
		return 1
	}
	return 2
}

// digitsOfEdge is the number of decimals that a band is written with at most: one more than its values, since a card
// may set it between two of them.
func digitsOfEdge(unit string) int { return min(2, digitsOf(unit)+1) }
