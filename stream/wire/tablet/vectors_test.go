package tablet

import (
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/vectors"
)

func TestVectors(t *testing.T) {
	vectors.Family{
		New:    func(*vectors.Message) format.Decoder { return &decoder{} },
		Latest: func(d format.Decoder) stream.Sample { return d.(*decoder).values.Latest() },
	}.Check(t)
}
