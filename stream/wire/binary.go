package wire

import (
	"bytes"
	"encoding/binary"
	"math"
	"strconv"
	"strings"

	"halfturn/stream"
)

// FlightGear's generic protocol in binary (FlightGear, README.protocol): the values of the
// protocol file's chunks one after the other, without gaps, and a footer. The datagram says
// nothing of its layout, so that a map must:
//
//	[binary]
//	byte-order = "network"   # or "host", little endian: as byte_order in the protocol file
//	footer = "none"          # "length", or "0x..." for a magic number: as binary_footer
//	chunks = [ { name = "t", type = "double" }, { name = "pitch", type = "float" } ]
//
// The sources then go by the chunks' names. A stream with a magic number and no strings is
// recognized by itself, others only with the map given by the user.
type layout struct {
	chunks []chunk
	little bool
	footer footerKind
	number uint32 // of the footer
	size   int    // bytes without footer; 0 when strings make it vary
	magic  bool   // records tell themselves by footer and length
	plan   *plan
}

type chunk struct {
	kind chunkKind
	size int
}

type chunkKind uint8

const (
	chunkBool chunkKind = iota
	chunkByte
	chunkWord
	chunkInt
	chunkFixed // 65536 stands for 1
	chunkFloat
	chunkDouble
	chunkString // a length, then so many bytes
)

var chunkKinds = map[string]chunk{
	"bool": {chunkBool, 1}, "byte": {chunkByte, 1}, "word": {chunkWord, 2}, "int": {chunkInt, 4},
	"fixed": {chunkFixed, 4}, "float": {chunkFloat, 4}, "double": {chunkDouble, 8}, "string": {chunkString, 4},
}

type footerKind uint8

const (
	footerNone footerKind = iota
	footerLength
	footerMagic
)

// mapBinary is the table of a map that describes a layout.
type mapBinary struct {
	ByteOrder string      `toml:"byte-order"`
	Footer    string      `toml:"footer"`
	Chunks    []fileChunk `toml:"chunks"`
}

type fileChunk struct {
	Name string `toml:"name"`
	Type string `toml:"type"`
}

// binary checks a layout as written.
func (l *loader) binary(in *mapFile) error {
	const footers = `none, length, or a number as 0x12345678`
	f := &layout{little: in.Binary.ByteOrder == "host"}
	switch in.Binary.ByteOrder {
	case "", "network", "host":
	default:
		return l.file.Errorf("binary.byte-order", "is %q; allowed: network, host", in.Binary.ByteOrder)
	}
	switch in.Binary.Footer {
	case "", "none":
	case "length":
		f.footer = footerLength
	default:
		n, err := strconv.ParseUint(strings.TrimPrefix(in.Binary.Footer, "0x"), 16, 32)
		if err != nil || !strings.HasPrefix(in.Binary.Footer, "0x") {
			return l.file.Errorf("binary.footer", "is %q; allowed: %s", in.Binary.Footer, footers)
		}
		f.footer, f.number = footerMagic, uint32(n)
	}
	if n := len(in.Binary.Chunks); n == 0 || n > maxColumns {
		return l.file.Errorf("binary.chunks", "has %d entries; from 1 to %d are allowed", n, maxColumns)
	}
	if len(in.Order) > 0 || len(in.Signature) > 0 {
		return l.file.Errorf("order", "and signature are of text streams; the chunks of binary have their own order")
	}
	names, varies := []string{}, false
	for i, c := range in.Binary.Chunks {
		k, ok := chunkKinds[c.Type]
		if !ok {
			return l.file.Errorf("binary.chunks", "entry %d has type %q; allowed: bool, byte, word, int, fixed, float, double, string", i+1, c.Type)
		}
		f.chunks = append(f.chunks, k)
		f.size += k.size
		varies = varies || k.kind == chunkString
		names = append(names, c.Name)
	}
	if varies {
		f.size = 0
	}
	f.magic = f.footer == footerMagic && !varies
	f.plan = l.m.bind(names)
	if f.plan.channels == 0 {
		return l.file.Errorf("sources", "name none of the chunks")
	}
	l.m.layout = f
	return nil
}

// marks tells whether a datagram is a record of this layout: right length, right footer.
func (l *layout) marks(b []byte) bool {
	return len(b) == l.size+4 && l.u32(b[l.size:]) == l.number
}

func (l *layout) u32(b []byte) uint32 {
	if l.little {
		return binary.LittleEndian.Uint32(b)
	}
	return binary.BigEndian.Uint32(b)
}

func (l *layout) u64(b []byte) uint64 {
	if l.little {
		return binary.LittleEndian.Uint64(b)
	}
	return binary.BigEndian.Uint64(b)
}

// value reads a chunk's value. A word stays in the order of the sender's machine whatever the
// rest does: the simulator never swaps it.
func (l *layout) value(k chunkKind, b []byte) float64 {
	switch k {
	case chunkBool, chunkByte:
		return float64(b[0])
	case chunkWord:
		return float64(int16(binary.LittleEndian.Uint16(b)))
	case chunkInt:
		return float64(int32(l.u32(b)))
	case chunkFixed:
		return float64(int32(l.u32(b))) / 65536
	case chunkFloat:
		return float64(math.Float32frombits(l.u32(b)))
	}
	return math.Float64frombits(l.u64(b))
}

// decode reads one record.
func (l *layout) decode(b []byte, s *stream.Sample) error {
	at := 0
	for i, c := range l.chunks {
		if len(b)-at < c.size {
			return ErrTruncated
		}
		if c.kind == chunkString {
			n := l.u32(b[at:])
			if uint64(n) > uint64(len(b)-at-4) {
				return ErrTruncated
			}
			at += 4 + int(n)
			continue
		}
		if src := l.plan.columns[i]; src != nil {
			src.put(s, l.value(c.kind, b[at:]))
		}
		at += c.size
	}
	if err := l.end(b, at); err != nil {
		return err
	}
	return l.plan.finish(s)
}

// end checks what follows the values.
func (l *layout) end(b []byte, at int) error {
	want := l.number
	switch l.footer {
	case footerNone:
		if len(b) != at {
			return ErrMalformed
		}
		return nil
	case footerLength:
		want = uint32(at)
	}
	switch {
	case len(b) < at+4:
		return ErrTruncated
	case len(b) > at+4 || l.u32(b[at:]) != want:
		return ErrMalformed
	}
	return nil
}

// binaryReader reads records of the layout that was given or that marks them, and lines split by
// count.
type binaryReader struct {
	m      *Map // the user's
	marked []*layout
}

func (r *binaryReader) maps(of *Reader) { r.m, r.marked = of.forced, of.marked }

func (r *binaryReader) decode(b []byte, s *stream.Sample) error {
	if r.m != nil && r.m.layout != nil {
		return r.m.layout.decode(b, s)
	}
	for _, l := range r.marked {
		if l.marks(b) {
			return l.decode(b, s)
		}
	}
	return ErrMalformed
}

// Text in which the separator between values is the one between records too, the line end: a
// record has as many lines as the user's map has columns.

// sniffCounted leaves lines of name=value to the pairs.
func (r *Reader) sniffCounted(b []byte) kind {
	if r.forced.inOrder == nil || bytes.IndexByte(b[:min(len(b), look)], r.forced.assign) >= 0 {
		return kindNone
	}
	return kindCounted
}

// nextCounted splits off the first record.
func (r *Reader) nextCounted(b []byte) (rec, rest []byte) {
	i := 0
	for range r.forced.inOrder.columns {
		end := bytes.IndexByte(b[i:], '\n')
		if end < 0 {
			return trimEnd(b), nil
		}
		i += end + 1
	}
	return trimEnd(b[:i]), b[i:]
}

// lastCounted returns the last record of a datagram of whole records, else all of it, which
// then is refused.
func (r *Reader) lastCounted(b []byte) []byte {
	b = trimEnd(b)
	columns := len(r.forced.inOrder.columns)
	if n := len(b) - 2*maxLine; n > 0 || columns == 0 || count(b, '\n')%columns != 0 {
		return b
	}
	at := len(b)
	for range columns {
		if at = bytes.LastIndexByte(b[:at], '\n'); at < 0 {
			return b
		}
	}
	return b[at+1:]
}

// binaryEncoder writes records of a shipped map's layout. Numbers that a sample lacks are NaN,
// flags 0.
type binaryEncoder struct{ m *Map }

func (binaryEncoder) Preamble() []byte { return nil }

func (e binaryEncoder) Append(dst []byte, s *stream.Sample) []byte {
	l := e.m.layout
	for i, c := range l.chunks {
		v := 0.0
		if src := l.plan.columns[i]; src != nil && (src.channel != stream.Heading || src.magnetic == s.Magnetic) {
			v = (orNaN(s, src.channel) - src.offset) / src.scale
		} else if src != nil {
			v = math.NaN()
		}
		switch c.kind {
		case chunkBool:
			dst = append(dst, byte(s.Value(l.plan.columns[i].channel)))
		case chunkDouble:
			dst = binary.BigEndian.AppendUint64(dst, math.Float64bits(v))
		default:
			dst = binary.BigEndian.AppendUint32(dst, math.Float32bits(float32(v)))
		}
	}
	return binary.BigEndian.AppendUint32(dst, l.number)
}
