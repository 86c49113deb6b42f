package mavlink

import (
	"encoding/hex"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/merge"
	"halfturn/stream/wire/vectors"
)

// Only messages of the vehicle that is followed are read: those without attitude come after one with it, of which
// nothing is left.
func TestVectors(t *testing.T) {
	const first = "fd1000000007011e000040e20100c2b8323d35fa8ebdc34bcb3fd318"
	b, err := hex.DecodeString(first)
	if err != nil {
		t.Fatal(err)
	}
	vectors.Family{
		New: func(m *vectors.Message) format.Decoder {
			d := &decoder{}
			if m.Error == "follow" {
				var s stream.Sample
				if err := d.Decode(b, 0, &s); err != nil {
					t.Fatal(err)
				}
				d.values = merge.Values{}
			}
			return d
		},
		Latest: func(d format.Decoder) stream.Sample { return d.(*decoder).values.Latest() },
	}.Check(t)
}
