package maneuver

import (
	"fmt"
	"slices"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/valid"
	"halfturn/configs/strict"
)

// A Standard is a card on top of a maneuver card: the tolerances to judge by.
type Standard struct {
	Name    string   `toml:"name"`
	Title   string   `toml:"title"`
	Summary string   `toml:"summary"`
	Source  string   `toml:"source"`
	Widen   float64  `toml:"widen"` // every band with two ends, about its aim
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
// would lie outside its met band.
func (s *Standard) Apply(card *Card) (*Card, error) {
	c := *card
	c.Standard = s.Name
	c.Checks = slices.Clone(card.Checks)
	for i := range c.Checks {
		k := &c.Checks[i]
		bands := kinds.Of(k).Bands
		k.MetBand, k.NearBand = bands.Widen(k.MetBand, k.Aim, s.Widen), bands.Widen(k.NearBand, k.Aim, s.Widen)
	}
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
