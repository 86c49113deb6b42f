package pack_test

import (
	"math"
	"reflect"
	"testing"

	"halfturn/stream/pack"
)

// A sample of every kind of field.
type leaf struct {
	Name  string
	Value *float64
	Ends  [2]*float64
}

type tree struct {
	Text   string
	Whole  int
	Yes    bool
	Number float64
	Leaf   *leaf
	Leaves []leaf
	Map    map[string]float64
	Pair   [2]float64
	Embedded
}

// Embedded is in a tree without a name of its own.
type Embedded struct{ More []string }

// TestUnpacked: what is unpacked is the same, nothing and empty told apart.
func TestUnpacked(t *testing.T) {
	x, zero := 12.125, math.Copysign(0, -1)
	for name, want := range map[string]tree{
		"nothing": {},
		"minus 0": {Number: zero, Leaf: &leaf{}, Pair: [2]float64{0, zero}},
		"empty":   {Leaves: []leaf{}, Map: map[string]float64{}, Embedded: Embedded{More: []string{}}},
		"full": {
			Text: "näse", Whole: -3, Yes: true, Number: math.Pi, Leaf: &leaf{Name: "näse", Value: &x},
			Leaves:   []leaf{{Ends: [2]*float64{nil, &x}}, {Name: "b", Value: &zero}},
			Map:      map[string]float64{"bank": -61.25, "": 1e300, "pitch": 0},
			Embedded: Embedded{More: []string{"", "b", "b"}},
		},
	} {
		got := pack.Of(&want).Unpack()
		if !reflect.DeepEqual(*got, want) || math.Signbit(got.Number) != math.Signbit(want.Number) ||
			math.Signbit(got.Pair[1]) != math.Signbit(want.Pair[1]) {
			t.Errorf("%s: %+v; must be %+v", name, *got, want)
		}
	}
}

// TestNumbers: every number comes back bit by bit, and those with few decimals are short.
func TestNumbers(t *testing.T) {
	numbers := []float64{0, math.Copysign(0, -1), 1, -1, 0.1, 0.3, 0.1 + 0.2, 1.0 / 3, 90, 89.995, 47.1234567,
		-122.7654321, 1.7e9 + 0.1234, math.MaxFloat64, math.SmallestNonzeroFloat64, math.Inf(1), math.Inf(-1),
		math.NaN(),
		math.Float64frombits(0x7ff8000000000123),
		1 << 52, -(1 << 53), 1<<50 - 1, -(1 << 50), 1e15, 1e16, 123456789.5}
	for i := range 100000 {
		numbers = append(numbers, float64(i-50000)/1000, float64(i*37)/10, float64(i)*math.E)
	}
	got := *pack.Of(&numbers).Unpack()
	for i, x := range numbers {
		if math.Float64bits(got[i]) != math.Float64bits(x) {
			t.Fatalf("%v (%x) was unpacked as %v (%x)", x, math.Float64bits(x), got[i], math.Float64bits(got[i]))
		}
	}
	for x, most := range map[float64]int{
		0: 1, 1: 1, -7: 1, 61.5: 2, -2.512: 3, 271.512: 4, 47.1234567: 5, math.Pi: 9,
	} {
		if n := pack.Of(&x).Len(); n > most {
			t.Errorf("%g takes %d bytes; must be at most %d", x, n, most)
		}
	}
}

// TestEqualRecords: equal records are packed alike, whatever the order in which a map was filled.
func TestEqualRecords(t *testing.T) {
	names := []string{"bank", "pitch", "heading", "altitude", "airspeed", "latitude", "longitude", "time", "aileron"}
	made := func(from int) pack.Record[tree] {
		x := tree{Map: map[string]float64{}}
		for i := range names {
			k := (from + i) % len(names)
			x.Map[names[k]] = float64(k)
		}
		return pack.Of(&x)
	}
	for i := range names {
		if made(i) != made(0) {
			t.Errorf("filled from %s on, a record is packed otherwise", names[i])
		}
	}
}

// A wide type has one field more than fit.
type wide struct {
	A, B, C, D, E [1]int
	F, G, H, I, J, K, L, M, N, O, P, Q, R, S, T, U, V, W, X, Y, Z,
	AA, AB, AC, AD, AE, AF, AG, AH, AI, AJ, AK, AL, AM, AN, AO, AP, AQ, AR, AS, AT, AU, AV, AW, AX, AY, AZ,
	BA, BB, BC, BD, BE, BF, BG, BH, BI, BJ, BK, BL, BM int
}

// TestCannotBePacked: what would be lost without a word is refused.
func TestCannotBePacked(t *testing.T) {
	for name, of := range map[string]func(){
		"interface":       func() { pack.Of(&struct{ X any }{1}) },
		"not exported":    func() { pack.Of(&struct{ x any }{1}) },
		"too many fields": func() { pack.Of(&wide{}) },
		"function":        func() { pack.Of(&struct{ X func() }{func() {}}) },
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: packed; must be refused", name)
				}
			}()
			of()
		}()
	}
}
