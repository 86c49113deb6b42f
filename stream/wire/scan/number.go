package scan

import (
	"encoding/binary"
	"math"
	"math/bits"
	"strconv"
)

// pow10 holds the powers of ten that a float64 represents exactly.
var pow10 = [23]float64{
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

// Number reads the decimal number that starts at b[i] and returns its value and the index after it. The value is the
// float64 nearest to what is written (equal to strconv), infinite when that is too large. ok is false when there is no
// number at i; "nan" and "inf" in any case are numbers.
//
// Where mantissa and power of ten are both exact, one multiplication or division rounds once and so gives the nearest
// value (W. D. Clinger, How to Read Floating Point Numbers Accurately, 1990). All else is left to strconv.
func Number(b []byte, i int) (v float64, end int, ok bool) {
	if len(b)-i < numberWindow {
		return anyNumber(b, i)
	}
	p := (*[numberWindow]byte)(b[i:])
	sign := minus[p[0]]
	first := int(sign)
	k, mant := first, uint64(0)
	for k < first+7 { // a few as a rule, so one by one
		c := uint64(p[k]) - '0'
		if c > 9 {
			break
		}
		mant = mant*10 + c
		k++
	}
	digits, exp := k-first, 0
	if p[k] == '.' {
		var frac uint64
		frac, exp = digitWord(p[k+1 : k+9])
		mant = mant*tens[exp&15] + frac
		k += 1 + exp
		if exp == 8 {
			var n int
			frac, n = digitWord(p[k : k+8])
			mant = mant*tens[n&15] + frac
			k += n
			exp += n
		}
		digits += exp
	}
	if digits == 0 || digits > 19 || mant >= 1<<53 || p[k]-'0' <= 9 || p[k]|0x20 == 'e' {
		return anyNumber(b, i)
	}
	v = float64(int64(mant)) / pow10[exp]
	return math.Float64frombits(math.Float64bits(v) | uint64(sign)<<63), i + k, true
}

// minus is 1 for a minus sign: a table, because signs are too random to branch on.
var minus = [256]uint8{'-': 1}

// numberWindow holds a sign, seven digits, a point, sixteen more and what ends them.
const numberWindow = 26

// digitWord reads the digits at the beginning of eight bytes and returns their value and count. It first finds the
// bytes that are no digits, then adds neighbors within the word by three multiplications, a known technique.
func digitWord(b []byte) (value uint64, n int) {
	w := binary.LittleEndian.Uint64(b) ^ 0x3030303030303030 // digits are 0 to 9 now
	other := (w + 0x7676767676767676 | w) & 0x8080808080808080
	n = bits.TrailingZeros64(other) / 8
	w <<= (8 - n) * 8 // zeros in front
	w = w*10 + w>>8
	return ((w&0x000000FF000000FF)*(100+1000000<<32) + (w>>16&0x000000FF000000FF)*(1+10000<<32)) >> 32, n
}

// anyNumber reads what is too long or too rare for the short way of Number.
func anyNumber(b []byte, i int) (v float64, end int, ok bool) {
	start := i
	neg := false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		neg = b[i] == '-'
		i++
	}
	first := i
	mant, i := digitRun(b, i, 0)
	digits := i - first
	exp := 0
	if i < len(b) && b[i] == '.' {
		point := i + 1
		mant, i = digitRun(b, point, mant)
		exp = point - i
		digits -= exp
	}
	if digits == 0 {
		return special(b, start, first, neg)
	}
	if i < len(b) && b[i]|0x20 == 'e' {
		var e int
		if e, i, ok = exponent(b, i+1); !ok {
			return 0, start, false
		}
		exp += e
	}
	if digits <= 19 && mant < 1<<53 && exp >= -22 && exp <= 22 {
		v = float64(mant)
		if exp < 0 {
			v /= pow10[-exp]
		} else if exp > 0 {
			v *= pow10[exp]
		}
		if neg {
			v = -v
		}
		return v, i, true
	}
	return slow(b[start:i], digits, exp, neg), i, true
}

// digitRun reads the digits at b[i] as a continuation of mant, which overflows silently past 19 digits.
func digitRun(b []byte, i int, mant uint64) (value uint64, end int) {
	for i+8 <= len(b) {
		w, n := digitWord(b[i : i+8])
		mant = mant*tens[n&15] + w
		if i += n; n < 8 {
			return mant, i
		}
	}
	for i < len(b) {
		c := b[i] - '0'
		if c > 9 {
			break
		}
		mant = mant*10 + uint64(c)
		i++
	}
	return mant, i
}

// tens is longer than the eight digits of a word, so that no bound need be checked.
var tens = [16]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8}

// exponent reads the digits of an exponent, with an optional sign, at b[i].
func exponent(b []byte, i int) (e, end int, ok bool) {
	neg := false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		neg = b[i] == '-'
		i++
	}
	first := i
	for ; i < len(b) && b[i]-'0' <= 9; i++ {
		if e < 1e6 { // larger makes no difference
			e = e*10 + int(b[i]-'0')
		}
	}
	if neg {
		e = -e
	}
	return e, i, i > first
}

// slow leaves a well-formed number to strconv. What is far out of range is settled here, because strconv would allocate
// an error.
func slow(b []byte, digits, exp int, neg bool) float64 {
	switch {
	case digits+exp < -400:
		return math.Copysign(0, sign(neg))
	case digits <= 19 && exp > 400 && !isZero(b):
		return math.Inf(int(sign(neg)))
	}
	v, _ := strconv.ParseFloat(string(b), 64) // the error can only be "out of range", with v infinite
	return v
}

func sign(neg bool) float64 {
	if neg {
		return -1
	}
	return 1
}

// isZero reports whether the mantissa of a number is zero.
func isZero(b []byte) bool {
	for _, c := range b {
		if c|0x20 == 'e' {
			return true
		}
		if c >= '1' && c <= '9' {
			return false
		}
	}
	return true
}

// special reads "nan", "inf" and "infinity" at b[i], after the sign.
func special(b []byte, start, i int, neg bool) (v float64, end int, ok bool) {
	switch {
	case HasWord(b[i:], "nan"):
		return math.NaN(), i + 3, true
	case HasWord(b[i:], "infinity"):
		return math.Inf(int(sign(neg))), i + 8, true
	case HasWord(b[i:], "inf"):
		return math.Inf(int(sign(neg))), i + 3, true
	}
	return 0, start, false
}

// HasWord reports whether b begins with the lower-case word, in any case.
func HasWord(b []byte, word string) bool {
	if len(b) < len(word) {
		return false
	}
	for i := range len(word) {
		if b[i]|0x20 != word[i] {
			return false
		}
	}
	return true
}
