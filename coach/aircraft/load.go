package aircraft

import (
	"cmp"
	"maps"
	"slices"

	"halfturn/coach/valid"
	"halfturn/configs/strict"
)

// Load reads and validates an aircraft card. The file name is used in errors only.
func Load(file string, data []byte) (*Aircraft, error) { return load(file, data, false) }

// Check is Load, and refuses a card that contradicts itself: speeds that its stall speed and its load limit do not
// allow. Load takes such a card, so that one that was in use yesterday is still read today.
func Check(file string, data []byte) error {
	_, err := load(file, data, true)
	return err
}

func load(file string, data []byte, agrees bool) (*Aircraft, error) {
	a := &Aircraft{}
	f, err := strict.Decode(file, data, a)
	if err != nil {
		return nil, err
	}
	v := valid.New(f)
	if err := a.validate(v); err != nil {
		return nil, err
	}
	if agrees {
		if a.agrees(v); v.Err() != nil {
			return nil, v.Err()
		}
	}
	if a.BankMax == 0 {
		a.BankMax = categories[a.Category].bank
	}
	return a, nil
}

func (a *Aircraft) validate(v *valid.Validator) error {
	v.Name("name", a.Name)
	v.Words("title", a.Title, 40)
	v.Source("source", a.Source)
	for _, n := range []struct {
		key       string
		value     float64
		low, high float64
	}{
		{"stall", a.Stall, 20, 250},
		{"entry", a.Entry, 30, 600},
		{"apex", a.Apex, 20, 500},
		{"glide", a.Glide, 20, 400},
		{"ratio", a.Ratio, 2, 60},
		{"never", a.Never, 40, 1500},
		{"load-max", a.LoadMax, 1, 15},
		{"bank-max", a.BankMax, 20, 180},
		{"maneuvering", a.Maneuvering, 30, 600},
		{"weight", a.Weight, 50, 1e6},
		{"max-weight", a.MaxWeight, 50, 1e6},
		{"climb-power", a.ClimbPower, 1, 5},
	} {
		if n.value != 0 {
			v.Within(n.key, n.value, n.low, n.high)
		}
	}
	v.Within("load-min", a.LoadMin, -10, 0)
	validateOrder(v, "", *a)
	for _, name := range slices.Sorted(maps.Keys(a.Speeds)) {
		a.validateFor(v, name)
	}
	v.OneOf("category", cmp.Or(a.Category, "normal"), slices.Sorted(maps.Keys(categories))...)
	v.OneOf("engine", cmp.Or(a.Engine, "propeller"), "propeller", "jet")
	v.OneOf("propeller", cmp.Or(a.Rotation, "none"), "clockwise", "counterclockwise", "none")
	return v.Err()
}

// validateFor checks the numbers that differ for one maneuver.
func (a *Aircraft) validateFor(v *valid.Validator, maneuver string) {
	at, s := "maneuver."+maneuver+".", a.Speeds[maneuver]
	if s.Entry != 0 {
		v.Within(at+"entry", s.Entry, 30, 600)
	}
	if s.Apex != 0 {
		v.Within(at+"apex", s.Apex, 20, 500)
	}
	if s.Steepest != 0 {
		v.Within(at+"steepest", s.Steepest, 20, 90)
	}
	if s.Nose != 0 {
		v.Within(at+"nose", s.Nose, 2, 60)
	}
	validateOrder(v, at, a.For(maneuver))
}

// validateOrder checks that stall, apex and entry speed rise in this order.
func validateOrder(v *valid.Validator, at string, a Aircraft) {
	if a.Entry > 0 && a.Stall > 0 && a.Entry <= a.Stall {
		v.Fail(at+"entry", "is %g kt; must be above the stall speed of %g kt", a.Entry, a.Stall)
	}
	if a.Apex > 0 && a.Entry > 0 && a.Apex >= a.Entry {
		v.Fail(at+"apex", "is %g kt; must be below the entry speed of %g kt", a.Apex, a.Entry)
	}
}
