package names

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"slices"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// A Place is where a name stands in a text: its first byte, and the one after its last.
type Place struct{ From, To int }

// Spelled lists where a name stands in a text: as whole words, in capital or small letters, as they are or as JSON
// escapes them. The text may be anything, also a file that is not text.
func Spelled(text []byte, name string) (all []Place) {
	letters := []rune(fold(name))
	if len(letters) == 0 {
		return nil
	}
	var first [256]bool // bytes with which the name may begin: all others are passed over at once
	first['\\'] = true
	for r, begun := letters[0], false; !begun || r != letters[0]; r, begun = unicode.SimpleFold(r), true {
		first[utf8.AppendRune(nil, r)[0]] = true
	}
	for at, end := 0, 0; at < len(text); at++ {
		if !first[text[at]] {
			continue
		}
		if at == end || !inWord(text, at) {
			if to := spelledAt(text, at, letters); to > at {
				all = append(all, Place{at, to})
				at, end = to-1, to
				continue
			}
		}
		if _, n := escapedRune(text[at:]); n > 0 { // no name begins inside an escape
			at += n - 1
		}
	}
	return all
}

// spelledAt is where a name ends that begins at a place; 0 when it does not. A backslash can be read in two ways, as
// itself and as the beginning of an escape.
func spelledAt(text []byte, at int, letters []rune) int {
	ends, next := []int{at}, []int(nil)
	for _, letter := range letters {
		next = next[:0]
		for _, end := range ends {
			for _, read := range []func([]byte) (rune, int){utf8.DecodeRune, escapedRune} {
				r, n := read(text[end:])
				if n > 0 && alike(r, letter) && !slices.Contains(next, end+n) {
					next = append(next, end+n)
				}
			}
		}
		if len(next) == 0 {
			return 0
		}
		ends, next = next, ends
	}
	for _, end := range ends {
		r, n := escapedRune(text[end:])
		if n == 0 {
			r, n = utf8.DecodeRune(text[end:])
		}
		if n == 0 || !ofWord(r) {
			return end
		}
	}
	return 0
}

func alike(a, b rune) bool { return a == b || strings.EqualFold(string(a), string(b)) }

// inWord reports whether the letter before a place belongs to a word that goes on there, however it is written.
func inWord(text []byte, at int) bool {
	r, n := utf8.DecodeLastRune(text[:at])
	if n == 0 || !ofWord(r) {
		return false
	}
	for _, long := range []int{2, 6, 12} {
		if at >= long {
			if r, n := escapedRune(text[at-long : at]); n == long && !ofWord(r) {
				return false
			}
		}
	}
	return true
}

// escapes are what follows a backslash in JSON (RFC 8259, 7), and what they stand for.
const (
	escapes = `"\/bfnrt`
	escaped = "\"\\/\b\f\n\r\t"
)

// escapedRune reads an escape of JSON at the beginning of a text, and its length; 0 for anything else.
func escapedRune(text []byte) (r rune, n int) {
	if len(text) < 2 || text[0] != '\\' {
		return 0, 0
	}
	if i := strings.IndexByte(escapes, text[1]); i >= 0 {
		return rune(escaped[i]), 2
	}
	const short = len(`\u0000`)
	unit, ok := escapedUnit(text)
	if !ok {
		return 0, 0
	}
	if utf16.IsSurrogate(unit) {
		if low, ok := escapedUnit(text[short:]); ok {
			if r := utf16.DecodeRune(unit, low); r != unicode.ReplacementChar {
				return r, 2 * short
			}
		}
	}
	return unit, short
}

func escapedUnit(text []byte) (rune, bool) {
	if len(text) < len(`\u0000`) || !bytes.HasPrefix(text, []byte(`\u`)) {
		return 0, false
	}
	var unit [2]byte
	_, err := hex.Decode(unit[:], text[2:6])
	return rune(binary.BigEndian.Uint16(unit[:])), err == nil
}

// Erase writes letters x over each place where a name stands in a text, and reports whether there was one. The text
// stays as long as it was. Others are names that stay, also where they hold that one.
func Erase(text []byte, name string, others []string) (changed bool) {
	by := byte('x')
	if strings.Trim(fold(name), "xX") == "" {
		by = 'o'
	}
	places := Spelled(text, name)
	if len(places) == 0 {
		return false
	}
	var kept []Place
	for _, other := range others {
		if len(Spelled([]byte(fold(other)), name)) > 0 && Key(other) != Key(name) {
			kept = append(kept, Spelled(text, other)...)
		}
	}
	for _, p := range places {
		if !slices.ContainsFunc(kept, func(k Place) bool { return k.From <= p.From && p.To <= k.To }) {
			copy(text[p.From:p.To], bytes.Repeat([]byte{by}, p.To-p.From))
			changed = true
		}
	}
	return changed
}
