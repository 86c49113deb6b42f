package take

import (
	"encoding/json"
	"errors"
	"testing"

	"halfturn/stream/phrase"
)

// Lists are arrays also when nothing is in them, and damage is a note.
func TestNewList(t *testing.T) {
	for want, all := range map[string][]*Taken{
		`{"version":1,"sessions":[],"notes":[]}`: nil,
		`{"version":1,"sessions":[],"notes":["one","torn","two"]}`: {
			{Notes: []phrase.Phrase{phrase.Plain("one")}, Damage: errors.New("torn")},
			{Notes: []phrase.Phrase{phrase.Plain("two")}},
		},
	} {
		if got, err := json.Marshal(NewList(all...)); err != nil || string(got) != want {
			t.Errorf("%s, %v; must be %s", got, err, want)
		}
	}
}
