package check

import (
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
)

// The verdicts.
const (
	Met         = "met"
	Near        = "near"
	Missed      = "missed"
	NotMeasured = "not-measured"
)

// Bands are the aim and the bands of a check after what they are counted from was added.
type Bands struct {
	Aim       *float64
	Met, Near Band
}

// Times returns the bands with all numbers multiplied, such as by 100 for percent.
func (b Bands) Times(factor float64) Bands {
	times := func(v *float64) *float64 {
		if v == nil {
			return nil
		}
		return new(factor * *v)
	}
	of := func(b Band) Band { return Band{Low: times(b.Low), High: times(b.High)} }
	return Bands{Aim: times(b.Aim), Met: of(b.Met), Near: of(b.Near)}
}

// Resolve adds what aim and bands are counted from. It fails when that is not known: reason
// says what is missing.
func Resolve(spec *Spec, f *Facts) (b Bands, reason phrase.Phrase) {
	base, known := 0.0, true
	var none *phrase.Definition
	switch spec.About {
	case "entry":
		base, none = f.Aircraft.Entry, phrase.NoEntrySpeed
		known = base != 0
	case "apex":
		base, none = f.Aircraft.Apex, phrase.NoApexSpeed
		known = base != 0
	case "stall":
		base, none = f.Aircraft.Stall, phrase.NoStallSpeed
		known = base != 0
	case "meant":
		base, none = f.Meant.Turn, phrase.NotMeant
		if spec.Channel == stream.Bank.String() {
			base = f.Meant.Bank
		}
		known = base != 0
	case "nose":
		base, none = f.Nose+f.Entry.Sample.Value(stream.Pitch), phrase.NoNose
		known = !math.IsNaN(f.Nose)
	case "dive":
		base, none = f.Dive+f.Entry.Sample.Value(stream.Pitch), phrase.NoDive
		known = !math.IsNaN(f.Dive)
	}
	if !known {
		return b, none.Of()
	}
	return Bands{shift(spec.Aim, base), shiftBand(spec.MetBand, base), shiftBand(spec.NearBand, base)}, phrase.Phrase{}
}

func shift(x *float64, by float64) *float64 {
	if x == nil {
		return nil
	}
	y := *x + by
	return &y
}

func shiftBand(b Band, by float64) Band {
	return Band{Low: shift(b.Low, by), High: shift(b.High, by)}
}

// Rounding returns half the step in which values of a unit are written: what is less can neither be read nor flown.
// Common practice, no source.
func Rounding(unit string) float64 {
	switch unit {
	case "°", "kt", "ft", "°/s", "%":
		return 0.5
	case "ft/min":
		return 5
	case "g", "balls", "s":
		return 0.05
	case "ratio", "":
		return 0.005
	}
	return 0 // what is counted
}

// Benefit returns the value as it is to be graded, given how far it may be off: one outside the met band counts as
// nearer to it by that much, up to its edge.
func (b Bands) Benefit(x, off float64) float64 {
	switch low, high := b.Met.Low, b.Met.High; {
	case high != nil && x > *high:
		return math.Max(*high, x-off)
	case low != nil && x < *low:
		return math.Min(*low, x+off)
	}
	return x
}

// Grade gives the verdict and a score of 0 to 100: 100 to half way from the aim to the edge
// of the met band, 85 at that edge, 60 at the edge of the near band, 0 as far again beyond it.
func (b Bands) Grade(x float64) (verdict string, score float64) {
	edge, outer, over := b.side(x)
	switch {
	case b.Met.Contains(x):
		verdict = Met
		aim := edge
		if b.Aim != nil {
			aim = *b.Aim
		} else if b.Met.Low != nil && b.Met.High != nil {
			aim = (*b.Met.Low + *b.Met.High) / 2
		}
		if reach := math.Abs(edge - aim); over == 0 && reach > 0 {
			off := math.Abs(x-aim) / reach
			return verdict, 100 - 30*math.Max(0, math.Min(1, off)-0.5)
		}
		return verdict, 100
	case b.Near.Contains(x):
		if outer == edge {
			return Near, 60
		}
		return Near, 85 - 25*math.Abs(x-edge)/math.Abs(outer-edge)
	}
	width := math.Abs(outer - edge)
	if width == 0 {
		width = math.Max(math.Abs(edge)*0.1, 1e-9)
	}
	return Missed, math.Max(0, 60-60*math.Abs(x-outer)/width)
}

// side returns the edges of the met and near bands on the side of x; over is 1 when that side
// is open.
func (b Bands) side(x float64) (edge, outer, over float64) {
	high := b.Met.High != nil
	if b.Met.Low != nil && b.Met.High != nil {
		high = x > (*b.Met.Low+*b.Met.High)/2
		if b.Aim != nil {
			high = x > *b.Aim
		}
	} else if b.Aim != nil && (x > *b.Aim) != high {
		return *b.Aim, *b.Aim, 1
	}
	if high {
		return *b.Met.High, *orElse(b.Near.High, b.Met.High), 0
	}
	return *b.Met.Low, *orElse(b.Near.Low, b.Met.Low), 0
}

func orElse(a, b *float64) *float64 {
	if a != nil {
		return a
	}
	return b
}

// High reports whether x lies on the high side of what was wanted.
func (b Bands) High(x float64) bool {
	if b.Aim != nil {
		return x > *b.Aim
	}
	if b.Met.High == nil {
		return false
	}
	return b.Met.Low == nil || x > (*b.Met.Low+*b.Met.High)/2
}
