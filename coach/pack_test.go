package coach_test

import (
	"reflect"
	"testing"

	"halfturn/coach"
	"halfturn/stream/pack"
	"halfturn/stream/phrase"
)

// TestPacked: a series, with something in every field of all its parts, comes back as it was. A field of a new type
// that cannot be packed fails here.
func TestPacked(t *testing.T) {
	f := filler{}
	var want coach.Series
	f.fill(t, reflect.ValueOf(&want).Elem())
	if f.n < 150 {
		t.Fatalf("only %d fields were filled", f.n)
	}
	if got := pack.Of(&want).Unpack(); !reflect.DeepEqual(*got, want) {
		t.Errorf("%+v; must be %+v", *got, want)
	}
}

// A filler puts something else into each field.
type filler struct{ n int }

func (f *filler) fill(t *testing.T, v reflect.Value) {
	t.Helper()
	if p, ok := v.Addr().Interface().(*phrase.Phrase); ok {
		f.n++
		*p = phrase.FaultEnded.Of(phrase.Number("n", float64(f.n), 0, "kt"))
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f.fill(t, v.Field(i))
		}
		return
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		f.fill(t, v.Elem())
		return
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			f.fill(t, v.Index(i))
		}
		return
	}
	f.n++
	switch v.Kind() {
	case reflect.String:
		v.SetString(string(rune('A' + f.n)))
	case reflect.Float64:
		v.SetFloat(float64(f.n) + 0.125)
	case reflect.Int:
		v.SetInt(int64(f.n))
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Map:
		v.Set(reflect.ValueOf(map[string]float64{"bank": float64(f.n)}))
	default:
		t.Fatalf("there is a field of type %s: say here what to put into it", v.Type())
	}
}
