// Package canonical writes JSON in the one form that RFC 8785 (JSON Canonicalization Scheme) gives it, so that the same
// data has the same SHA-256 whoever wrote it: no white space, members sorted by the UTF-16 code units of their names,
// numbers as ECMAScript writes them, and in strings only what must be escaped.
package canonical

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// Read decodes a JSON value as [Append] takes it.
func Read(data []byte) (any, error) {
	d := json.NewDecoder(bytes.NewReader(data))
	var v any
	if err := d.Decode(&v); err != nil {
		return nil, err
	}
	return v, nil
}

// Of returns any value that encoding/json can write as [Append] takes it.
func Of(v any) (any, error) {
	data, err := json.Marshal(v)
	if err != nil {
		return nil, err
	}
	return Read(data)
}

// Hash returns the SHA-256 of the canonical form of a value, in hex.
func Hash(v any) (string, error) {
	data, err := Append(nil, v)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:]), nil
}

// Append appends the canonical form of a value: nil, bool, float64, string, []any or map[string]any. A number must be
// finite, and a string UTF-8.
func Append(b []byte, v any) ([]byte, error) {
	switch v := v.(type) {
	case nil:
		return append(b, "null"...), nil
	case bool:
		return strconv.AppendBool(b, v), nil
	case float64:
		return number(b, v)
	case string:
		return text(b, v)
	case []any:
		return array(b, v)
	case map[string]any:
		return object(b, v)
	}
	return nil, fmt.Errorf("a %T has no canonical form", v)
}

func array(b []byte, list []any) (_ []byte, err error) {
	b = append(b, '[')
	for i, v := range list {
		if i > 0 {
			b = append(b, ',')
		}
		if b, err = Append(b, v); err != nil {
			return nil, err
		}
	}
	return append(b, ']'), nil
}

func object(b []byte, members map[string]any) (_ []byte, err error) {
	keys := make([]string, 0, len(members))
	for k := range members {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b string) int {
		return slices.Compare(utf16.Encode([]rune(a)), utf16.Encode([]rune(b)))
	})
	b = append(b, '{')
	for i, k := range keys {
		if i > 0 {
			b = append(b, ',')
		}
		if b, err = text(b, k); err != nil {
			return nil, err
		}
		if b, err = Append(append(b, ':'), members[k]); err != nil {
			return nil, err
		}
	}
	return append(b, '}'), nil
}

// number writes a number as ECMAScript does (ECMA-262, Number::toString): the shortest digits that read back, without
// an exponent from 1e-6 up to 1e21.
func number(b []byte, x float64) ([]byte, error) {
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return nil, fmt.Errorf("%g has no canonical form", x)
	case x == 0:
		return append(b, '0'), nil
	}
	if a := math.Abs(x); a >= 1e-6 && a < 1e21 {
		return strconv.AppendFloat(b, x, 'f', -1, 64), nil
	}
	s := strconv.AppendFloat(nil, x, 'e', -1, 64)
	if n := len(s); n >= 4 && s[n-2] == '0' && (s[n-3] == '-' || s[n-3] == '+') {
		s = append(s[:n-2], s[n-1]) // e-07 is e-7
	}
	return append(b, s...), nil
}

// escapes are the characters that have a short escape.
var escapes = map[rune]string{
	'"': `\"`, '\\': `\\`, '\b': `\b`, '\t': `\t`, '\n': `\n`, '\f': `\f`, '\r': `\r`,
}

func text(b []byte, s string) ([]byte, error) {
	if !utf8.ValidString(s) {
		return nil, fmt.Errorf("%q is no UTF-8", s)
	}
	b = append(b, '"')
	for _, r := range s {
		switch e, ok := escapes[r]; {
		case ok:
			b = append(b, e...)
		case r < ' ':
			b = fmt.Appendf(b, `\u%04x`, r)
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return append(b, '"'), nil
}
