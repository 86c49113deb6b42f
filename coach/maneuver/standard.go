package maneuver

import (
	"fmt"
	"slices"

	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/valid"
	"halfturn/configs/strict"
)

// A Standard is a card on top of a maneuver card: the tolerances to judge by.
type Standard struct {
	Name    string  `toml:"name"`
	Title   string  `toml:"title"`
	Summary string  `toml:"summary"`
	Source  string  `toml:"source"`
	Widen   float64 `toml:"widen"` // every band with two ends, about its aim
	// Prompts is how much is said in flight: "all", "fade" or "off"; "" is "fade".
	Prompts string   `toml:"prompts"`
	Changes []Change `toml:"change"`
	Tasks   []Task   `toml:"task"` // published tests, by maneuver
}

// A Change replaces what the maneuver card asks of one check.
type Change struct {
	Maneuver string   `toml:"maneuver"`
	Check    string   `toml:"check"`
	Aim      *float64 `toml:"aim"`
	Met      []any    `toml:"met"`
	Near     []any    `toml:"near"` // left out: nothing is nearly met
	Weight   *float64 `toml:"weight"`
	Source   string   `toml:"source"`

	metBand, nearBand check.Band
}

// LoadStandard reads and validates a standard card.
func LoadStandard(file string, data []byte) (*Standard, error) {
	s := &Standard{}
	f, err := strict.Decode(file, data, s)
	if err != nil {
		return nil, err
	}
	v := valid.New(f)
	v.Name("name", s.Name)
	v.Words("title", s.Title, 40)
	v.Words("summary", s.Summary, 200)
	v.Source("source", s.Source)
	v.Within("widen", s.Widen, 0.5, 4)
	if s.Prompts != "" {
		v.OneOf("prompts", s.Prompts, callout.PromptsAll, callout.PromptsFade, callout.PromptsOff)
	}
	for i := range s.Changes {
		c := &s.Changes[i]
		key := fmt.Sprintf("change[%d]", i)
		v.Name(key+".maneuver", c.Maneuver)
		v.Name(key+".check", c.Check)
		v.Source(key+".source", c.Source)
		if v.Has(key + ".near") {
			c.metBand, c.nearBand = check.ReadBands(v, key, c.Met, c.Near, c.Aim)
		} else {
			c.metBand = check.ReadMet(v, key, c.Met, c.Aim)
			c.nearBand = c.metBand
		}
		if c.Weight != nil {
			v.Within(key+".weight", *c.Weight, 0, 10)
		}
	}
	s.validateTasks(v)
	return s, v.Err()
}

// Apply returns the maneuver card as this standard judges it. The card itself is not changed. It fails when an aim
// would lie outside its met band, or a change would widen a limit.
func (s *Standard) Apply(card *Card) (*Card, error) {
	c := *card
	c.Standard, c.Prompts = s.Name, s.Prompts
	c.Checks = slices.Clone(card.Checks)
	for i := range c.Checks {
		k := &c.Checks[i]
		k.MetBand, k.NearBand = k.Widened(kinds.Of(k).Bands, s.Widen)
	}
	c.keepLimits(card)
	var changed []string
	for _, ch := range s.Changes {
		if ch.Maneuver != card.Name {
			continue
		}
		i := slices.IndexFunc(c.Checks, func(k check.Spec) bool { return k.ID == ch.Check })
		if i < 0 {
			continue // a user's own card may lack it
		}
		k := &c.Checks[i]
		if err := s.leavesLimit(k, &ch); err != nil {
			return nil, err
		}
		changed = append(changed, ch.Check)
		k.MetBand, k.NearBand, k.Source = ch.metBand, ch.nearBand, ch.Source
		if ch.Aim != nil {
			k.Aim = ch.Aim
		}
		if k.Aim != nil && !k.MetBand.Contains(*k.Aim) {
			return nil, fmt.Errorf(
				"the standard %s leaves the aim %g of %s outside met (%v)",
				s.Name,
				*k.Aim,
				k.ID,
				k.MetBand,
			)
		}
		if ch.Weight != nil {
			k.Weight = *ch.Weight
		}
	}
	if t := s.task(card.Name); t != nil {
		t.apply(&c, changed)
	}
	return &c, nil
}

// leavesLimit returns an error when a change would widen an edge that is a limit of the card.
func (s *Standard) leavesLimit(k *check.Spec, ch *Change) error {
	high := k.IsLimit(true) && (ch.nearBand.High == nil || *ch.nearBand.High > *k.NearBand.High)
	low := k.IsLimit(false) && (ch.nearBand.Low == nil || *ch.nearBand.Low < *k.NearBand.Low)
	if high || low {
		return fmt.Errorf("the standard %s gives %s the near band %v; must not widen the limit of the card, %v",
			s.Name, k.ID, ch.nearBand, k.NearBand)
	}
	return nil
}

// ofValue are the kinds whose bands are values of the check's quantity, so that a limit of one is a limit of another.
var ofValue = map[string]bool{"value": true, "extreme": true, "mean": true}

// keepLimits takes back what was widened past a limit that another check of the card sets for the same quantity.
func (c *Card) keepLimits(card *Card) {
	for i := range card.Checks {
		limit := &card.Checks[i]
		if limit.Limit == "" || !ofValue[limit.Kind] {
			continue
		}
		for j := range c.Checks {
			k := &c.Checks[j]
			if i != j && k.Channel == limit.Channel && k.About == limit.About && ofValue[k.Kind] {
				k.MetBand = keep(k.MetBand, card.Checks[j].MetBand, limit)
				k.NearBand = keep(k.NearBand, card.Checks[j].NearBand, limit)
			}
		}
	}
}

// keep returns a widened band without what lies past a limit, unless the band of the card reached there before.
func keep(wide, was check.Band, limit *check.Spec) check.Band {
	if limit.IsLimit(true) && wide.High != nil && was.High != nil {
		wide.High = new(min(*wide.High, max(*was.High, *limit.NearBand.High)))
	}
	if limit.IsLimit(false) && wide.Low != nil && was.Low != nil {
		wide.Low = new(max(*wide.Low, min(*was.Low, *limit.NearBand.Low)))
	}
	return wide
}
