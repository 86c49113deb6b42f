package phrase

import (
	"reflect"
	"testing"

	"halfturn/stream/pack"
)

// TestPacked: a phrase comes back with its arguments, and nothing else is as it.
func TestPacked(t *testing.T) {
	of := &Definition{code: "of", texts: []string{"", ""}, places: []place{{"n", number}}}
	for _, want := range []Phrase{
		{},
		Plain("as it is"),
		of.Of(),
		of.Of(Number("n", -12.5, 1, "°"), Name("who", "A"), Words("w", "x"), Int("k", 3)),
		of.Of(Number("n", 1.0/3, -1, "kt"), List("all", of.Of(Int("n", 1)), Phrase{}, Plain("b")), Part("none")),
		{code: "of", args: []Arg{}, text: "of"},
	} {
		got := pack.Of(&want).Unpack()
		if !reflect.DeepEqual(*got, want) {
			t.Errorf("%#v; must be %#v", *got, want)
		}
	}
}
