// Package amount reads ages and sizes as people write them, and writes sizes and numbers of things in words.
package amount

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"halfturn/stream/phrase"
)

// ParseAge reads a time such as 90d, 12w or 36h; "" is none.
func ParseAge(in *phrase.Language, s string) (time.Duration, error) {
	if s == "" {
		return 0, nil
	}
	unit, ok := map[byte]time.Duration{'h': time.Hour, 'd': 24 * time.Hour, 'w': 7 * 24 * time.Hour}[s[len(s)-1]]
	n, err := strconv.ParseFloat(s[:len(s)-1], 64)
	if !ok || err != nil || !(n > 0 && n < 1e5) {
		return 0, errors.New(in.Wordf("is %q; must be a number with h, d or w, such as 90d", s))
	}
	return time.Duration(n * float64(unit)), nil
}

// ParseSize reads a size in bytes, such as 20GB or 500MB; "" is none. Units are powers of 1,000.
func ParseSize(in *phrase.Language, s string) (int64, error) {
	if s == "" {
		return 0, nil
	}
	upper := strings.ToUpper(strings.ReplaceAll(s, " ", ""))
	for tail, unit := range map[string]float64{"KB": 1e3, "MB": 1e6, "GB": 1e9, "TB": 1e12} {
		if number, ok := strings.CutSuffix(upper, tail); ok {
			if n, err := strconv.ParseFloat(number, 64); err == nil && n > 0 && n < 1e6 {
				return int64(n * unit), nil
			}
		}
	}
	return 0, errors.New(in.Wordf("is %q; must be a number with KB, MB, GB or TB, such as 20GB", s))
}

// Megabytes writes a number of bytes in megabytes of 1,000,000 bytes.
func Megabytes(in *phrase.Language, n int64) string { return in.Number(float64(n)/1e6, 1) + " MB" }

// Legs is a number of legs in words: "1 leg", "2 legs".
func Legs(in *phrase.Language, n int) string {
	if n == 1 {
		return in.Word("1 leg")
	}
	return in.Wordf("%d legs", n)
}

// Sessions is a number of sessions in words: "1 session", "2 sessions".
func Sessions(in *phrase.Language, n int) string {
	if n == 1 {
		return in.Word("1 session")
	}
	return in.Wordf("%d sessions", n)
}
