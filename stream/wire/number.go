package wire

import (
	"math"
	"strconv"
)

// pow10 holds the powers of ten that a float64 represents exactly.
var pow10 = [23]float64{
	1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11,
	1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
}

// number reads the decimal number that starts at b[i] and returns its value and the index
// after it. The value is the float64 nearest to what is written (equal to strconv), infinite
// when that is too large. ok is false when there is no number at i; "nan" and "inf" in any
// case are numbers.
//
// Where mantissa and power of ten are both exact, one multiplication or division rounds once
// and so gives the nearest value (W. D. Clinger, How to Read Floating Point Numbers
// Accurately, 1990). All else is left to strconv.
func number(b []byte, i int) (v float64, end int, ok bool) {
	start := i
	neg := false
	if i < len(b) && (b[i] == '-' || b[i] == '+') {
		neg = b[i] == '-'
		i++
	}
	first := i
	var mant uint64
	for i < len(b) {
		c := b[i] - '0'
		if c > 9 {
			break
		}
		mant = mant*10 + uint64(c)
		i++
	}
	digits := i - first
	exp := 0
	if i < len(b) && b[i] == '.' {
		i++
		point := i
		for i < len(b) {
			c := b[i] - '0'
			if c > 9 {
				break
			}
			mant = mant*10 + uint64(c)
			i++
		}
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

// slow leaves a well-formed number to strconv. What is far out of range is settled here,
// because strconv would allocate an error.
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

// isZero tells whether the mantissa of a number is zero.
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
	case hasWord(b[i:], "nan"):
		return math.NaN(), i + 3, true
	case hasWord(b[i:], "infinity"):
		return math.Inf(int(sign(neg))), i + 8, true
	case hasWord(b[i:], "inf"):
		return math.Inf(int(sign(neg))), i + 3, true
	}
	return 0, start, false
}

// hasWord tells whether b begins with the lower-case word, in any case.
func hasWord(b []byte, word string) bool {
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
