// Package pack keeps records that are seldom read, such as the legs flown earlier in a session, in a small part of
// their memory: a number with few decimals takes two to four bytes, a string that repeats one or two, and a field that
// says nothing a bit. What is unpacked is the same to the bit. The form is for memory alone: no version of it is kept
// on a disk.
package pack

import (
	"encoding/binary"
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
)

// A Record is a packed T, which must have fields; the zero value is none. It is immutable.
type Record[T any] struct{ data string }

// Of packs a record. It panics where a T holds what cannot be packed: an interface, a channel, a function, or a field
// that is not exported in a type that does not pack itself.
func Of[T any](v *T) Record[T] {
	w := Writer{data: make([]byte, 0, usual), seen: make(map[string]uint64, usual/64)}
	w.value(reflect.ValueOf(v).Elem())
	return Record[T]{string(w.data)}
}

// usual is how many bytes most records take at most, a string in sixty-four of them.
const usual = 8 << 10

// IsZero reports whether there is none.
func (r Record[T]) IsZero() bool { return r.data == "" }

// Unpack makes the record again; nil where there is none.
func (r Record[T]) Unpack() *T {
	if r.IsZero() {
		return nil
	}
	v := new(T)
	(&Reader{data: r.data}).value(reflect.ValueOf(v).Elem())
	return v
}

// Len is how many bytes the record takes.
func (r Record[T]) Len() int { return len(r.data) }

// Bytes is the packed form. Equal records have the same.
func (r Record[T]) Bytes() []byte { return []byte(r.data) }

// A Packer packs itself, since it has fields that are not exported; its pointer is an [Unpacker].
type Packer interface{ Pack(w *Writer) }

// An Unpacker reads what its Pack wrote, in the same order.
type Unpacker interface{ Unpack(r *Reader) }

// A Writer takes the values of a record one after the other.
type Writer struct {
	data []byte
	seen map[string]uint64 // strings that were written, numbered from 1
}

// Uint writes a count.
func (w *Writer) Uint(n uint64) { w.data = binary.AppendUvarint(w.data, n) }

// Int writes a whole number.
func (w *Writer) Int(n int64) { w.data = binary.AppendVarint(w.data, n) }

// String writes a string, where it was written before by its number.
func (w *Writer) String(s string) {
	if s == "" {
		w.Uint(0)
		return
	}
	if n := w.seen[s]; n > 0 {
		w.Uint(2 * n)
		return
	}
	w.seen[s] = uint64(len(w.seen) + 1)
	w.Uint(2*uint64(len(s)) + 1)
	w.data = append(w.data, s...)
}

// scales are the powers of ten that most numbers are a whole number with; the last way to write one is bit by bit.
var scales = [...]float64{1, 1e1, 1e3, 1e7}

const (
	bits       = 7       // in place of a scale
	mostScaled = 1 << 50 // beyond it a whole number is no shorter
)

// Float writes a number.
func (w *Writer) Float(x float64) {
	for i, scale := range scales {
		n := math.Round(x * scale)
		if !(math.Abs(n) < mostScaled) {
			break
		}
		whole := int64(n)
		if math.Float64bits(float64(whole)/scale) == math.Float64bits(x) { // no minus before a zero
			w.Uint(uint64(whole<<1^whole>>63)<<3 | uint64(i))
			return
		}
	}
	w.Uint(bits)
	w.data = binary.LittleEndian.AppendUint64(w.data, math.Float64bits(x))
}

// Bool writes a truth.
func (w *Writer) Bool(b bool) {
	if b {
		w.Uint(1)
		return
	}
	w.Uint(0)
}

// value writes any value.
func (w *Writer) value(v reflect.Value) {
	if p, ok := packer(v); ok {
		p.Pack(w)
		return
	}
	switch v.Kind() {
	case reflect.String:
		w.String(v.String())
	case reflect.Float64:
		w.Float(v.Float())
	case reflect.Int:
		w.Int(v.Int())
	case reflect.Bool:
		w.Bool(v.Bool())
	case reflect.Pointer:
		w.Bool(!v.IsNil())
		if !v.IsNil() {
			w.value(v.Elem())
		}
	case reflect.Slice:
		if v.IsNil() {
			w.Uint(0)
			return
		}
		w.Uint(uint64(v.Len()) + 1)
		w.elements(v)
	case reflect.Array:
		w.elements(v)
	case reflect.Map:
		w.numbers(v.Interface().(map[string]float64))
	case reflect.Struct:
		w.fields(v)
	default:
		panic(fmt.Sprintf("pack: a %s cannot be packed", v.Type()))
	}
}

// fields writes which fields of a struct say something, and those.
func (w *Writer) fields(v reflect.Value) {
	if v.NumField() > 64 {
		panic(fmt.Sprintf("pack: a %s has too many fields", v.Type()))
	}
	says := uint64(0)
	for i := range v.NumField() {
		if speaks(v.Field(i)) {
			says |= 1 << i
		}
	}
	w.Uint(says)
	for i := range v.NumField() {
		switch f := v.Field(i); {
		case says&(1<<i) == 0:
		case f.Kind() == reflect.Pointer:
			w.value(f.Elem())
		default:
			w.value(f)
		}
	}
}

// speaks reports whether a value is other than a new one, to the bit: a minus before a zero is.
func speaks(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Float64:
		return math.Float64bits(v.Float()) != 0
	case reflect.Struct:
		for i := range v.NumField() {
			if speaks(v.Field(i)) {
				return true
			}
		}
		return false
	case reflect.Array:
		for i := range v.Len() {
			if speaks(v.Index(i)) {
				return true
			}
		}
		return false
	}
	return !v.IsZero()
}

func (w *Writer) elements(v reflect.Value) {
	for i := range v.Len() {
		w.value(v.Index(i))
	}
}

// numbers writes a map in the order of its keys, so that equal records are packed alike.
func (w *Writer) numbers(m map[string]float64) {
	if m == nil {
		w.Uint(0)
		return
	}
	w.Uint(uint64(len(m)) + 1)
	for _, k := range slices.Sorted(maps.Keys(m)) {
		w.String(k)
		w.Float(m[k])
	}
}

// packer returns what packs itself. It asks the pointer, since the value would be copied; all of a record has one.
func packer(v reflect.Value) (p Packer, ok bool) {
	if v.Kind() != reflect.Struct {
		return nil, false
	}
	p, ok = v.Addr().Interface().(Packer)
	return p, ok
}
