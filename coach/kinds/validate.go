package kinds

import (
	"cmp"
	"slices"
	"strings"

	"halfturn/coach/check"
	"halfturn/coach/valid"
	"halfturn/stream"
)

// abouts are what aim and bands can be counted from.
var abouts = []string{"entry", "apex", "stall", "nose", "dive", "meant"}

// beyond is how far a span may reach past the turn, °.
const beyond = 60

// Validate checks the keys of a check that its kind gives a meaning to: that none is missing, none is idle, and each
// is in its range. key is where the check stands in its card, turn the ° of a whole leg.
func Validate(v *valid.Validator, key string, s *check.Spec, turn float64) {
	k := Of(s)
	if k == unknown {
		v.Fail(key+".kind", "%s; must be %s", v.Is(key+".kind", "%q", s.Kind), valid.Any(Names()))
		return
	}
	validateKeys(v, key, s, k)
	if s.Channel != "" {
		if _, ok := check.QuantityNamed(s.Channel); !ok {
			v.Fail(key+".channel", "is %q; must be %s", s.Channel, valid.Any(check.QuantityNames()))
		}
	}
	if s.About != "" {
		v.OneOf(key+".about", s.About, abouts...)
	}
	if s.Within != 0 {
		v.Within(key+".within", s.Within, 0, 10000)
	}
	if s.Smooth != 0 {
		v.Within(key+".smooth", s.Smooth, 0, 30)
	}
	if s.Extreme != "" {
		v.OneOf(key+".extreme", s.Extreme, "highest", "lowest")
	}
	k.Valid(v, key, s)
	if s.Turn != nil {
		v.Within(key+".turn", *s.Turn, 1, turn)
	}
	if (s.From == nil) != (s.To == nil) {
		v.Fail(key+".from", "has only one end; must be given with to, or neither of them")
	}
	if s.From != nil && s.To != nil && !(*s.From >= 0 && *s.To > *s.From && *s.To <= turn+beyond) {
		v.Fail(key+".from", "spans %g to %g; must rise, from 0 to at most %g", *s.From, *s.To, turn+beyond)
	}
}

// validateKeys checks that a check has the keys its kind needs and none that mean nothing to it.
func validateKeys(v *valid.Validator, key string, s *check.Spec, k *check.Kind) {
	written := []struct {
		key string
		has bool
	}{
		{"channel", s.Channel != ""},
		{"about", s.About != ""},
		{"turn", s.Turn != nil},
		{"at", s.At != ""},
		{"from", s.From != nil},
		{"to", s.To != nil},
		{"extreme", s.Extreme != ""},
		{"cross", s.Cross != 0},
		{"falling", s.Falling},
		{"within", s.Within != 0},
		{"smooth", s.Smooth != 0},
		{"of", s.Of != ""},
	}
	has := map[string]bool{}
	for _, w := range written {
		has[w.key] = w.has
	}
	for _, need := range k.Needs {
		if !has[need] {
			v.Fail(
				key+"."+need,
				"is missing; must be given, as a check of kind %s needs %s",
				k.Name,
				strings.Join(k.Needs, ", "),
			)
		}
	}
	meant := slices.Concat(k.Needs, k.Allows)
	for _, w := range written {
		if w.has && !slices.Contains(meant, w.key) {
			v.Fail(key+"."+w.key, "means nothing to a check of kind %s, which takes %s; must be left out",
				k.Name, cmp.Or(strings.Join(meant, ", "), "none of these keys"))
		}
	}
}

// anything is the answer of a kind whose keys need no more than what holds for every kind.
func anything(*valid.Validator, string, *check.Spec) {}

// straight checks that a quantity does not start again at 360°: neither a mean nor an extreme of such a one is of use.
func straight(v *valid.Validator, key string, s *check.Spec) {
	if c, ok := stream.ChannelNamed(s.Channel); ok && c.Info().Circular {
		v.Fail(
			key+".channel",
			"is %q, which starts again at 360°; must be turn in a check of kind %s",
			s.Channel,
			s.Kind,
		)
	}
}

// oneOf checks that the quantity is one of those that a kind can judge.
func oneOf(channels ...string) func(*valid.Validator, string, *check.Spec) {
	return func(v *valid.Validator, key string, s *check.Spec) {
		if s.Channel != "" {
			v.OneOf(key+".channel", s.Channel, channels...)
		}
	}
}
