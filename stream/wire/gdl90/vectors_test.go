package gdl90

import (
	"encoding/binary"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/vectors"
)

func TestVectors(t *testing.T) {
	vectors.Family{
		New:    func(*vectors.Message) format.Decoder { return &decoder{} },
		Latest: func(d format.Decoder) stream.Sample { return d.(*decoder).values.Latest() },
		Frame:  framed,
	}.Check(t)
}

// framed puts a message between flags; those published with their checksum must have the right one.
func framed(b []byte) []byte {
	if n := len(b) - 2; Sum(b[:n]) != binary.LittleEndian.Uint16(b[n:]) {
		b = binary.LittleEndian.AppendUint16(b[:len(b):len(b)], Sum(b))
	}
	out := []byte{Flag}
	for _, c := range b {
		if c == Flag || c == Escape {
			out = append(out, Escape)
			c ^= Mask
		}
		out = append(out, c)
	}
	return append(out, Flag)
}
