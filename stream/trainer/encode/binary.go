package encode

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/mapping"
)

// Generic binary records, as the shipped protocol file has them.
var binaryFormat = &written{
	Name:  "binary",
	Reads: "generic binary",
	Loss: Loss{
		Abs:    1e-9,
		Rel:    1e-7,
		Blanks: true,
	},
	make: newBinary,
}

// binaryRecords writes records of a shipped map's layout. Numbers that a sample lacks are NaN,
// flags 0.
type binaryRecords struct{ layout *mapping.Layout }

func newBinary() (Encoder, error) {
	return binaryRecords{mapping.ShippedNamed("generic-binary").Layout}, nil
}

func (binaryRecords) Preamble() []byte { return nil }

func (e binaryRecords) Channels() (all stream.Set) {
	for _, src := range e.layout.Plan.Columns {
		if src != nil {
			all = all.With(src.Channel)
		}
	}
	return all
}

func (e binaryRecords) Append(dst []byte, s *stream.Sample) []byte {
	l := e.layout
	for i, c := range l.Chunks {
		v := 0.0
		if src := l.Plan.Columns[i]; src != nil && (src.Channel != stream.Heading || src.Magnetic == s.Magnetic) {
			v = (orNaN(s, src.Channel) - src.Offset) / src.Scale
		} else if src != nil {
			v = math.NaN()
		}
		switch c.Kind {
		case mapping.Bool:
			dst = append(dst, byte(s.Value(l.Plan.Columns[i].Channel)))
		case mapping.Double:
			dst = binary.BigEndian.AppendUint64(dst, math.Float64bits(v))
		default:
			dst = binary.BigEndian.AppendUint32(dst, math.Float32bits(float32(v)))
		}
	}
	return binary.BigEndian.AppendUint32(dst, l.Number)
}
