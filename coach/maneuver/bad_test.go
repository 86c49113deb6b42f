package maneuver

import (
	"errors"
	"strings"
	"testing"

	"halfturn/coach/valid/validtest"
	"halfturn/stream"
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
		if _, err := LoadCard(file, data); err != nil {
			channels := strings.Join(stream.ChannelNames(), ", ")
			return errors.New(strings.ReplaceAll(err.Error(), channels, "(a channel)"))
		}
		return nil
	})
}
