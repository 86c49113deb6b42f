package check

import (
	"math"

	"halfturn/coach/valid"
	"halfturn/stream/phrase"
)

// A Kind is one kind of check: everything the program has to know about it. No field may be left out; a test of the
// package that lists the kinds finds one that is. Only Needs and Allows may be empty, and of Leg and Series one is nil.
type Kind struct {
	Name   string   // as a card writes it
	Says   string   // what it measures, as a phrase
	Needs  []string // keys it cannot do without
	Allows []string // further keys that mean something to it

	// Valid checks what its keys must be beside what holds for every kind.
	Valid func(v *valid.Validator, key string, s *Spec)
	// Where says in words of a language what a check of this kind measures: "highest nose from 0° to 90° of turn".
	Where func(s *Spec, in *phrase.Language) string
	// Unit names the unit of what it measures.
	Unit func(s *Spec) string

	Leg    func(s *Spec, f *Facts) Judge         // makes the judge of a leg
	Series func(s *Spec, f *SeriesFacts) Measure // measures a series of legs

	Bands  Bounds // how a standard widens its bands
	Looks  Look   // the part of the turn it looks into
	Known  Known  // when its value is known
	Doubt  Doubt  // how coarse samples make its value uncertain
	Told   Told   // how its value is given as evidence of a cause
	Counts Count  // what it asks of a whole series
}

// OfSeries reports whether the kind judges a series, not a leg.
func (k *Kind) OfSeries() bool { return k.Series != nil }

// Bounds says what the bands of a kind are to a standard.
type Bounds int

// What bands are.
const (
	Tolerances Bounds = iota + 1 // stretched about the aim
	Ratios                       // stretched about the aim by factors: half is as far from 1 as twice
	FromOne                      // stretched about the aim, and never below 1, where the quantity begins
	Exact                        // left as the card has them
)

// Widen stretches a band about an aim, or about its middle where there is none. A band with an open end is no
// tolerance and stays.
func (b Bounds) Widen(band Band, aim *float64, by float64) Band {
	if by == 1 || b == Exact || band.Low == nil || band.High == nil {
		return band
	}
	about := (*band.Low + *band.High) / 2
	if aim != nil {
		about = *aim
	}
	if b == Ratios && about > 0 && *band.Low > 0 {
		return Band{Low: new(about * math.Pow(*band.Low/about, by)), High: new(about * math.Pow(*band.High/about, by))}
	}
	low := about + (*band.Low-about)*by
	if b == FromOne {
		low = math.Max(1, low)
	}
	return Band{Low: &low, High: new(about + (*band.High-about)*by)}
}

// Look is the part of the turn that a kind looks into. Where the stream has a hole, it decides whether the check still
// has an answer; in a trend, where the check stands.
type Look int

// Where a kind looks.
const (
	BeforeTurn Look = iota + 1 // at the set-up
	AtPlace                    // at its turn angle, or at the exit where it has none
	Throughout                 // at every moment of its span, or of the leg: one missing could be the one that counts
	OnAverage                  // over its span, or the leg, where a moment more or less makes little difference
	AfterExit                  // at the recovery after the exit
	AcrossLegs                 // at the legs of a series
)

// Known is when the value of a kind is known: a check that is known on the way is corrected on the way.
type Known int

// When a value is known.
const (
	AtEnd     Known = iota + 1 // when the leg or series is over
	AtTurn                     // once its turn angle has been passed: it is a checkpoint, which is confirmed when met
	AtSpanEnd                  // once its span has been passed
)

// On returns the turn angle at which the value of a check is known before the leg is over.
func (k Known) On(s *Spec) (turn float64, ok bool) {
	switch {
	case k == AtTurn && s.Turn != nil:
		return *s.Turn, true
	case k == AtSpanEnd && s.To != nil:
		return *s.To, true
	}
	return 0, false
}

// Doubt is how coarse samples make the value of a kind uncertain.
type Doubt int

// What a value is made of, as far as its uncertainty goes.
const (
	Undoubted  Doubt = iota + 1 // it has no uncertainty that could be worked out
	OneValue                    // a value of the quantity: what it could be between two samples
	Difference                  // of two values in the span, each of which may be off
	FromStart                   // of a value and the one where the span begins, where it may have been another
	Angle                       // a turn angle: half a step between two samples
)

// Told is how the value of a kind is given as evidence of a cause.
type Told int

// How evidence states a value.
const (
	InNumbers Told = iota + 1 // what was flown and what was asked for
	WithPlace                 // and at which turn angle
	InWords                   // not in numbers: the cause says it
)

// Count is what a kind asks of a whole series; the series is incomplete without it.
type Count int

// What is asked of a series.
const (
	NoCount Count = iota + 1
	Legs          // as many finished legs as its met band says
	Sides         // legs to both sides in turn
)
