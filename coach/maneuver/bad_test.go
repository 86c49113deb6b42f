package maneuver

import (
	"testing"

	"halfturn/coach/valid/validtest"
)

const goodFile = "testdata/good-maneuver.toml"

// The card that the wrong ones were made from is right.
func TestGoodCard(t *testing.T) {
	if _, err := LoadCard(goodFile, validtest.Read(t, goodFile)); err != nil {
		t.Error(err)
	}
}

func TestBadCards(t *testing.T) {
	validtest.Folder(t, "maneuvers", 100, func(file string, data []byte) error {
		_, err := LoadCard(file, data)
		return err
	})
}
