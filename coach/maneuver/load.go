package maneuver

import (
	"halfturn/coach/valid"
	"halfturn/configs/strict"
)

// LoadCard reads and validates a maneuver card. The file name serves in errors only.
func LoadCard(file string, data []byte) (*Card, error) {
	c := &Card{}
	f, err := strict.Decode(file, data, c)
	if err != nil {
		return nil, err
	}
	if err := c.validate(valid.New(f)); err != nil {
		return nil, err
	}
	return c, nil
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
