package scan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"halfturn/stream/wire/scan"
	"halfturn/stream/wire/wiretest"
)

// sameAsStrconv checks Number against the standard library, bit for bit.
func sameAsStrconv(t *testing.T, text string) {
	t.Helper()
	got, end, ok := scan.Number([]byte(text+",7"), 0)
	want, err := strconv.ParseFloat(text, 64)
	if err != nil && !math.IsInf(want, 0) {
		t.Fatalf("%q is no number: %v", text, err)
	}
	same := math.Float64bits(got) == math.Float64bits(want) || got != got && want != want
	if !ok || end != len(text) || !same {
		t.Errorf("Number(%q) = %v, %d, %v; strconv has %v", text, got, end, ok, want)
	}
}

func TestNumber(t *testing.T) {
	for _, text := range []string{
		"0", "-0", "+0", "0.0", "000", ".5", "5.", "-.5e1", "1e22", "1e23", "1e-22", "1e-23", "9007199254740991",
		"9007199254740992",
		"9007199254740993", "9007199254740993e0", "0.1", "0.3", "1.7976931348623157e308", "1.7976931348623159e308",
		"1e309", "-1e999999999999",
		"4.9e-324", "2e-324", "1e-400", "1e-999999999999", "0e999999", "0.000000000000000000000000000001",
		"123456789012345678901234567890",
		"2.2250738585072011e-308", "nan", "NaN", "inf", "+Inf", "-infinity", "1e+05", "1E-05",
		"00000000000000000000001", "-1.421085471e-30",
		"1000000000000000000000000000000000000000000000000e-48",
		"0.00000000000000000000000000000000000000000000000000000001e56",
		"-0e-400", "0." + fmt.Sprintf("%0420d", 1) + "e420",
	} {
		sameAsStrconv(t, text)
	}
	for _, text := range []string{"", "-", "+", ".", "e5", "1e", "1e+", "-e", "x", "na", "in", " 1", "--1"} {
		if v, end, ok := scan.Number([]byte(text), 0); ok || end != 0 {
			t.Errorf("Number(%q) = %v, %d, %v; want none", text, v, end, ok)
		}
	}
}

// TestNumberLikeStrconv is a property: the same bits as the standard library's reader, over
// random values in the forms that printf and iostreams write.
func TestNumberLikeStrconv(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 50000 {
		v := math.Float64frombits(rnd.Uint64())
		if v-v != 0 {
			continue
		}
		if rnd.IntN(2) == 0 {
			v = (rnd.Float64() - 0.5) * math.Pow(10, float64(rnd.IntN(12)))
		}
		sameAsStrconv(t, strconv.FormatFloat(v, "gef"[rnd.IntN(3)], rnd.IntN(20)-1, 64))
	}
}

func FuzzNumber(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzNumber")
	f.Fuzz(func(t *testing.T, mant uint64, exp int16, point uint8, neg bool) {
		digits := strconv.FormatUint(mant, 10)
		at := int(point) % (len(digits) + 1)
		text := digits[:at] + "." + digits[at:] + "e" + strconv.Itoa(int(exp))
		if neg {
			text = "-" + text
		}
		sameAsStrconv(t, text)
	})
}
