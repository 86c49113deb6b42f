package pack

import (
	"encoding/binary"
	"math"
	"reflect"
)

// A Reader gives the values of a record in the order in which they were written.
type Reader struct {
	data string
	at   int
	seen []string
}

// Uint reads a count.
func (r *Reader) Uint() (n uint64) {
	for shift := 0; ; shift += 7 {
		b := r.data[r.at]
		r.at++
		n |= uint64(b&0x7f) << shift
		if b < 0x80 {
			return n
		}
	}
}

// Int reads a whole number.
func (r *Reader) Int() int64 { return signed(r.Uint()) }

// signed undoes the form in which small negative numbers are short too.
func signed(n uint64) int64 { return int64(n>>1) ^ -int64(n&1) }

// String reads a string.
func (r *Reader) String() string {
	n := r.Uint()
	switch {
	case n == 0:
		return ""
	case n%2 == 0:
		return r.seen[n/2-1]
	}
	s := r.take(int(n / 2))
	r.seen = append(r.seen, s)
	return s
}

// take returns the next bytes, without copying them.
func (r *Reader) take(n int) string {
	r.at += n
	return r.data[r.at-n : r.at]
}

// Float reads a number.
func (r *Reader) Float() float64 {
	n := r.Uint()
	if n == bits {
		return math.Float64frombits(binary.LittleEndian.Uint64([]byte(r.take(8))))
	}
	return float64(signed(n>>3)) / scales[n&7]
}

// Bool reads a truth.
func (r *Reader) Bool() bool { return r.Uint() == 1 }

// value reads any value into v.
func (r *Reader) value(v reflect.Value) {
	if _, ok := packer(v); ok {
		v.Addr().Interface().(Unpacker).Unpack(r)
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(r.String())
	case reflect.Float64:
		v.SetFloat(r.Float())
	case reflect.Int:
		v.SetInt(r.Int())
	case reflect.Bool:
		v.SetBool(r.Bool())
	case reflect.Pointer:
		if r.Bool() {
			v.Set(reflect.New(v.Type().Elem()))
			r.value(v.Elem())
		}
	case reflect.Slice:
		if n := r.Uint(); n > 0 {
			v.Set(reflect.MakeSlice(v.Type(), int(n-1), int(n-1)))
			r.elements(v)
		}
	case reflect.Array:
		r.elements(v)
	case reflect.Map:
		if n := r.Uint(); n > 0 {
			m := make(map[string]float64, n-1)
			for range n - 1 {
				k := r.String()
				m[k] = r.Float()
			}
			v.Set(reflect.ValueOf(m))
		}
	case reflect.Struct:
		r.fields(v)
	}
}

func (r *Reader) fields(v reflect.Value) {
	says := r.Uint()
	for i := range v.NumField() {
		switch f := v.Field(i); {
		case says&(1<<i) == 0:
		case f.Kind() == reflect.Pointer:
			f.Set(reflect.New(f.Type().Elem()))
			r.value(f.Elem())
		default:
			r.value(f)
		}
	}
}

func (r *Reader) elements(v reflect.Value) {
	for i := range v.Len() {
		r.value(v.Index(i))
	}
}
