package mapping

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
)

// A Layout describes a record of FlightGear's generic protocol in binary (FlightGear, README.protocol): the values of
// the protocol file's chunks one after the other, without gaps, and a footer. The datagram says nothing of its layout,
// so a map must:
//
//	[binary]
//	byte-order = "network"   # or "host", little endian: as byte_order in the protocol file
//	footer = "none"          # "length", or "0x..." for a magic number: as binary_footer
//	chunks = [ { name = "t", type = "double" }, { name = "pitch", type = "float" } ]
//
// The sources then go by the chunks' names.
type Layout struct {
	Chunks []Chunk
	Little bool   // little endian
	Number uint32 // of the footer
	Marked bool   // records are recognized by footer and length
	Plan   *Plan  // of the chunks

	footer footer
	size   int // bytes without footer; 0 when strings make it vary
}

// A Chunk is one value of a record.
type Chunk struct {
	Kind ChunkKind
	size int
}

// A ChunkKind says how a value is stored.
type ChunkKind uint8

// The kinds of chunk.
const (
	Bool ChunkKind = iota
	Byte
	Word
	Int
	Fixed // 65536 stands for 1
	Float
	Double
	String // its length, then its bytes
)

var chunkTypes = map[string]Chunk{
	"bool":   {Bool, 1},
	"byte":   {Byte, 1},
	"word":   {Word, 2},
	"int":    {Int, 4},
	"fixed":  {Fixed, 4},
	"float":  {Float, 4},
	"double": {Double, 8},
	"string": {String, 4},
}

type footer uint8

const (
	footerNone footer = iota
	footerLength
	footerMagic
)

// Marks reports whether a datagram is a record of this layout: right length, right footer.
func (l *Layout) Marks(b []byte) bool {
	return len(b) == l.size+4 && l.u32(b[l.size:]) == l.Number
}

func (l *Layout) u32(b []byte) uint32 {
	if l.Little {
		return binary.LittleEndian.Uint32(b)
	}
	return binary.BigEndian.Uint32(b)
}

func (l *Layout) u64(b []byte) uint64 {
	if l.Little {
		return binary.LittleEndian.Uint64(b)
	}
	return binary.BigEndian.Uint64(b)
}

// value reads a chunk's value. A word stays in the order of the sender's machine whatever the rest does: the simulator
// never swaps it.
func (l *Layout) value(k ChunkKind, b []byte) float64 {
	switch k {
	case Bool, Byte:
		return float64(b[0])
	case Word:
		return float64(int16(binary.LittleEndian.Uint16(b)))
	case Int:
		return float64(int32(l.u32(b)))
	case Fixed:
		return float64(int32(l.u32(b))) / 65536
	case Float:
		return float64(math.Float32frombits(l.u32(b)))
	}
	return math.Float64frombits(l.u64(b))
}

// Decode reads one record.
func (l *Layout) Decode(b []byte, s *stream.Sample) error {
	at := 0
	for i, c := range l.Chunks {
		if len(b)-at < c.size {
			return fault.ErrTruncated
		}
		if c.Kind == String {
			n := l.u32(b[at:])
			if uint64(n) > uint64(len(b)-at-4) {
				return fault.ErrTruncated
			}
			at += 4 + int(n)
			continue
		}
		if src := l.Plan.Columns[i]; src != nil {
			src.Put(s, l.value(c.Kind, b[at:]))
		}
		at += c.size
	}
	if err := l.end(b, at); err != nil {
		return err
	}
	return l.Plan.finish(s)
}

// end checks what follows the values.
func (l *Layout) end(b []byte, at int) error {
	want := l.Number
	switch l.footer {
	case footerNone:
		if len(b) != at {
			return fault.ErrMalformed
		}
		return nil
	case footerLength:
		want = uint32(at)
	}
	switch {
	case len(b) < at+4:
		return fault.ErrTruncated
	case len(b) > at+4 || l.u32(b[at:]) != want:
		return fault.ErrMalformed
	}
	return nil
}
