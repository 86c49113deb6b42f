package check

import (
	"fmt"
	"math"
	"strings"

	"halfturn/coach/valid"
)

// A Spec is a check as a card writes it. Which of its members are needed depends on its kind.
type Spec struct {
	ID      string   `toml:"id"`
	Label   string   `toml:"label"`
	Kind    string   `toml:"kind"`
	Channel string   `toml:"channel"` // a channel or a computed quantity
	About   string   `toml:"about"`   // aim and bands are counted from: entry, apex, stall, nose, dive, meant
	Turn    *float64 `toml:"turn"`    // where, in ° of turn
	At      string   `toml:"at"`      // or "exit"
	From    *float64 `toml:"from"`    // span, ° of turn
	To      *float64 `toml:"to"`      //
	Extreme string   `toml:"extreme"` // "highest" or "lowest"
	Cross   float64  `toml:"cross"`   // the value crossed
	Falling bool     `toml:"falling"` // crossed on the way down
	Within  float64  `toml:"within"`  // half the band a share of time is counted in
	Smooth  float64  `toml:"smooth"`  // s, time constant of the smoothing before judging
	Of      string   `toml:"of"`      // symmetry: the leg check compared
	Aim     *float64 `toml:"aim"`
	Met     []any    `toml:"met"`
	Near    []any    `toml:"near"`
	Limit   string   `toml:"limit"` // the edge that must not be passed, and no standard widens: LimitHigh and so on
	Weight  float64  `toml:"weight"`
	High    string   `toml:"high"` // what to change when the value is too high
	Low     string   `toml:"low"`
	Source  string   `toml:"source"`

	MetBand, NearBand Band `toml:"-"` // Met and Near after validation
}

// The edges of a check that are limits.
const (
	LimitHigh = "high"
	LimitLow  = "low"
	LimitBoth = "both"
)

// IsLimit reports whether the high or the low edge of the bands is a limit.
func (s *Spec) IsLimit(high bool) bool {
	return s.Limit == LimitBoth || high && s.Limit == LimitHigh || !high && s.Limit == LimitLow
}

// ValidateLimit checks that the edges named as limits are there.
func (s *Spec) ValidateLimit(v *valid.Validator, key string) {
	if s.Limit == "" {
		return
	}
	v.OneOf(key+".limit", s.Limit, LimitHigh, LimitLow, LimitBoth)
	if s.IsLimit(true) && s.NearBand.High == nil || s.IsLimit(false) && s.NearBand.Low == nil {
		v.Fail(key+".limit", "is %q, but near, %v, is open there; must name an edge of the band", s.Limit, s.NearBand)
	}
}

// Widened returns the bands of the check, stretched about its aim, or about their middle where there is none. Bands of
// a kind that are no tolerances stay; so does an open end, and an edge that is a limit.
func (s *Spec) Widened(kind Bounds, by float64) (met, near Band) {
	return s.widened(kind, s.MetBand, by), s.widened(kind, s.NearBand, by)
}

func (s *Spec) widened(kind Bounds, band Band, by float64) Band {
	wide := kind.Widen(band, s.Aim, by)
	if s.IsLimit(false) {
		wide.Low = band.Low
	}
	if s.IsLimit(true) {
		wide.High = band.High
	}
	return wide
}

// Quantity is what the check judges; the zero value where its kind takes none.
func (s *Spec) Quantity() Quantity {
	q, _ := QuantityNamed(s.Channel)
	return q
}

// Sign is 1 for the highest value, −1 for the lowest.
func (s *Spec) Sign() float64 {
	if s.Extreme == "lowest" {
		return -1
	}
	return 1
}

// A Band is a range of values; a missing end is open.
type Band struct {
	Low, High *float64
}

// Contains reports whether x lies in the band.
func (b Band) Contains(x float64) bool {
	return (b.Low == nil || x >= *b.Low) && (b.High == nil || x <= *b.High)
}

// Inside reports whether b lies within o.
func (b Band) Inside(o Band) bool {
	low := o.Low == nil || b.Low != nil && *b.Low >= *o.Low
	high := o.High == nil || b.High != nil && *b.High <= *o.High
	return low && high
}

// String writes the band as people read it.
func (b Band) String() string {
	switch {
	case b.Low == nil && b.High == nil:
		return "any"
	case b.Low == nil:
		return "at most " + number(*b.High)
	case b.High == nil:
		return "at least " + number(*b.Low)
	}
	return number(*b.Low) + " to " + number(*b.High)
}

func number(x float64) string {
	return strings.Replace(fmt.Sprintf("%g", math.Round(x*100)/100), "-", "−", 1)
}

// ReadBands reads the met and near bands below a key and checks them against each other and the aim.
func ReadBands(v *valid.Validator, key string, met, near []any, aim *float64) (m, n Band) {
	m, n = ReadMet(v, key, met, aim), readBand(v, key+".near", near)
	if v.Err() == nil && !m.Inside(n) {
		v.Fail(key+".near", "is %v; must contain met, %v", n, m)
	}
	return m, n
}

// ReadMet reads the met band below a key and checks it against the aim.
func ReadMet(v *valid.Validator, key string, met []any, aim *float64) Band {
	m := readBand(v, key+".met", met)
	if aim != nil && !m.Contains(*aim) {
		v.Fail(key+".aim", "is %g; must lie in met, %v", *aim, m)
	}
	return m
}

// readBand reads a band as a card writes it: two numbers, or a number and an open end written "".
func readBand(v *valid.Validator, key string, raw []any) Band {
	const ends = "must be two ends, such as [60, 90], with an open end written \"\""
	if !v.Has(key) {
		v.Fail(key, "is missing; "+ends)
		return Band{}
	}
	if len(raw) != 2 {
		v.Fail(key, "is an array of %d; "+ends, len(raw))
		return Band{}
	}
	b := Band{Low: readEnd(v, key, raw[0]), High: readEnd(v, key, raw[1])}
	if b.Low == nil && b.High == nil {
		v.Fail(key, "is open at both ends, so that nothing could miss it; must have at least one end")
	}
	if b.Low != nil && b.High != nil && *b.Low > *b.High {
		v.Fail(key, "runs from %g down to %g; the lower end must come first", *b.Low, *b.High)
	}
	return b
}

// readEnd reads one end of a band; nil where it is open.
func readEnd(v *valid.Validator, key string, raw any) *float64 {
	switch x := raw.(type) {
	case int64:
		return new(float64(x))
	case float64:
		return &x
	case string:
		if x != "" {
			v.Fail(key, "has the end %q; must be a number, or \"\" for an open end", x)
		}
	default:
		v.Fail(key, "has the end %v; must be a number, or \"\" for an open end", raw)
	}
	return nil
}
