package maneuver

import (
	"errors"
	"strings"
	"testing"

	"halfturn/coach/kinds"
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

// lists puts a word in place of the lists that grow with the program.
var lists = func() *strings.Replacer {
	names := kinds.Names()
	last := len(names) - 1
	return strings.NewReplacer(
		strings.Join(stream.ChannelNames(), ", "), "(a channel)",
		strings.Join(names[:last], ", ")+" or "+names[last], "(a kind)",
	)
}()

func TestBadCards(t *testing.T) {
	validtest.Folder(t, "maneuvers", 100, func(file string, data []byte) error {
		if _, err := LoadCard(file, data); err != nil {
			return errors.New(lists.Replace(err.Error()))
		}
		return nil
	})
}
