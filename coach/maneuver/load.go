package maneuver

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"

	"halfturn/configs/strict"
)

var nameRule = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

// LoadCard reads and validates a maneuver card. The file name serves in errors only.
func LoadCard(file string, data []byte) (*Card, error) {
	c := &Card{}
	f, err := strict.Decode(file, data, c)
	if err != nil {
		return nil, err
	}
	if err := c.validate(f); err != nil {
		return nil, err
	}
	return c, nil
}

// LoadAircraft reads and validates an aircraft card.
func LoadAircraft(file string, data []byte) (*Aircraft, error) {
	a := &Aircraft{}
	f, err := strict.Decode(file, data, a)
	if err != nil {
		return nil, err
	}
	if err := a.validate(f); err != nil {
		return nil, err
	}
	return a, nil
}

func (a *Aircraft) validate(f *strict.File) error {
	v := &validator{f: f}
	v.name("name", a.Name)
	v.words("title", a.Title, 40)
	v.needs("source", a.Source)
	for _, n := range []struct {
		key       string
		value     float64
		low, high float64
	}{
		{"stall", a.Stall, 20, 250}, {"entry", a.Entry, 30, 600}, {"apex", a.Apex, 20, 500},
		{"glide", a.Glide, 20, 400}, {"ratio", a.Ratio, 2, 60}, {"never", a.Never, 40, 1500},
		{"load-max", a.LoadMax, 1, 15}, {"bank-max", a.BankMax, 20, 180},
	} {
		if n.value != 0 {
			v.within(n.key, n.value, n.low, n.high)
		}
	}
	v.within("load-min", a.LoadMin, -10, 0)
	v.speeds("", *a)
	for _, name := range slices.Sorted(maps.Keys(a.Speeds)) {
		a.validateFor(v, name)
	}
	v.oneOf("engine", cmp.Or(a.Engine, "propeller"), "propeller", "jet")
	v.oneOf("propeller", cmp.Or(a.Rotation, "none"), "clockwise", "counterclockwise", "none")
	return v.err
}

// validateFor checks the numbers that differ for one maneuver.
func (a *Aircraft) validateFor(v *validator, maneuver string) {
	at, s := "maneuver."+maneuver+".", a.Speeds[maneuver]
	if s.Entry != 0 {
		v.within(at+"entry", s.Entry, 30, 600)
	}
	if s.Apex != 0 {
		v.within(at+"apex", s.Apex, 20, 500)
	}
	if s.Steepest != 0 {
		v.within(at+"steepest", s.Steepest, 20, 90)
	}
	v.speeds(at, a.For(maneuver))
}

// speeds checks the order of an aircraft's speeds.
func (v *validator) speeds(at string, a Aircraft) {
	if a.Entry > 0 && a.Stall > 0 && a.Entry <= a.Stall {
		v.fail(at+"entry", "is %g kt; allowed: above the stall speed of %g kt", a.Entry, a.Stall)
	}
	if a.Apex > 0 && a.Entry > 0 && a.Apex >= a.Entry {
		v.fail(at+"apex", "is %g kt; allowed: below the entry speed of %g kt", a.Apex, a.Entry)
	}
}

// A validator keeps the first fault it is told of.
type validator struct {
	f   *strict.File
	err error
}

// is says what stands at a key.
func (v *validator) is(key, format string, x any) string {
	if !v.f.Has(key) {
		return "is missing"
	}
	return fmt.Sprintf("is "+format, x)
}

func (v *validator) fail(key, format string, args ...any) {
	if v.err == nil {
		v.err = v.f.Errorf(key, format, args...)
	}
}

func (v *validator) name(key, s string) {
	if !nameRule.MatchString(s) {
		v.fail(key, "%s; allowed: lower-case words joined by hyphens, such as wing-over", v.is(key, "%q", s))
	}
}

func (v *validator) needs(key, s string) {
	if strings.TrimSpace(s) == "" {
		v.fail(key, "is missing; it says where the numbers come from, or \"common practice, no source\"")
	}
}

func (v *validator) words(key, s string, most int) {
	if s == "" || len([]rune(s)) > most {
		v.fail(key, "%s; allowed: 1 to %d characters", v.is(key, "%q", s), most)
	}
}

// spoken checks a phrase: silence is allowed, more than five words are not.
func (v *validator) spoken(key, s string) {
	n := len(strings.Fields(s)) + 2*strings.Count(s, "{heading}") // spoken as three figures
	if n > 5 {
		v.fail(key, "has %d words; allowed: at most 5, so that it can be said in time", n)
	}
}

func (v *validator) within(key string, x, low, high float64) {
	if !(x >= low && x <= high) {
		v.fail(key, "%s; allowed: %g to %g", v.is(key, "%g", x), low, high)
	}
}

func (v *validator) oneOf(key, s string, allowed ...string) {
	if !slices.Contains(allowed, s) {
		v.fail(key, "%s; allowed: %s", v.is(key, "%q", s), strings.Join(allowed, ", "))
	}
}

// band reads a band as written: two numbers, or a number and an open end written "".
func (v *validator) band(key string, raw []any) Band {
	var b Band
	if !v.f.Has(key) {
		v.fail(key, "is missing; allowed: two ends, such as [60, 90], an open end written \"\"")
		return b
	}
	if len(raw) != 2 {
		v.fail(key, "is an array of %d; allowed: two ends, such as [60, 90], an open end written \"\"", len(raw))
		return b
	}
	ends := [2]*float64{}
	for i, e := range raw {
		switch x := e.(type) {
		case int64:
			n := float64(x)
			ends[i] = &n
		case float64:
			ends[i] = &x
		case string:
			if x != "" {
				v.fail(key, "has the end %q; allowed: a number, or \"\" for an open end", x)
			}
		default:
			v.fail(key, "has the end %v; allowed: a number, or \"\" for an open end", e)
		}
	}
	b = Band{ends[0], ends[1]}
	if b.Low == nil && b.High == nil {
		v.fail(key, "is open at both ends, so that nothing could miss it; allowed: one open end")
	}
	if b.Low != nil && b.High != nil && *b.Low > *b.High {
		v.fail(key, "runs from %g down to %g; the lower end comes first", *b.Low, *b.High)
	}
	return b
}

// bands reads the met and near bands below a key and holds them against each other and the aim.
func (v *validator) bands(key string, met, near []any, aim *float64) (m, n Band) {
	m, n = v.band(key+".met", met), v.band(key+".near", near)
	if v.err == nil && !m.inside(n) {
		v.fail(key+".near", "is %v; allowed: a band that contains met, %v", n, m)
	}
	if aim != nil && !m.Contains(*aim) {
		v.fail(key+".aim", "is %g; allowed: what lies in met, %v", *aim, m)
	}
	return m, n
}

// Contains tells whether x lies in the band.
func (b Band) Contains(x float64) bool {
	return (b.Low == nil || x >= *b.Low) && (b.High == nil || x <= *b.High)
}

// inside tells whether b lies within o.
func (b Band) inside(o Band) bool {
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
		return fmt.Sprintf("at most %s", num(*b.High))
	case b.High == nil:
		return fmt.Sprintf("at least %s", num(*b.Low))
	}
	return fmt.Sprintf("%s to %s", num(*b.Low), num(*b.High))
}

func num(x float64) string {
	return strings.Replace(fmt.Sprintf("%g", math.Round(x*100)/100), "-", "−", 1)
}

// KindOf tells by the keys of a card's text of which kind it is: "maneuvers", "standards" or "aircraft".
func KindOf(data []byte) string {
	top := strict.Top(data)
	for _, of := range []struct{ kind, key string }{{"maneuvers", "turn"}, {"maneuvers", "check"}, {"standards", "widen"}, {"standards", "change"}} {
		if _, ok := top[of.key]; ok {
			return of.kind
		}
	}
	return "aircraft"
}
