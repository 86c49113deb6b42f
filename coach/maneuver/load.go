package maneuver

import (
	"halfturn/coach/valid"
	"halfturn/configs/strict"
)

// LoadCard reads and validates a maneuver card. The file name is used in errors only.
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

// FolderOf finds by the keys of a card which folder it belongs in: "maneuvers", "standards" or "aircraft".
func FolderOf(data []byte) string {
	top := strict.Top(data)
	for _, of := range []struct{ folder, key string }{
		{"maneuvers", "turn"},
		{"maneuvers", "check"},
		{"standards", "widen"},
		{"standards", "change"},
	} {
		if _, ok := top[of.key]; ok {
			return of.folder
		}
	}
	return "aircraft"
}
