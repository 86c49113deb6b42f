package amount

import (
	"testing"
	"time"
)

func TestParseAge(t *testing.T) {
	for s, want := range map[string]time.Duration{
		"":     0,
		"36h":  36 * time.Hour,
		"90d":  90 * 24 * time.Hour,
		"2w":   14 * 24 * time.Hour,
		"1.5d": 36 * time.Hour,
	} {
		if got, err := ParseAge(nil, s); err != nil || got != want {
			t.Errorf("%q: %v, %v", s, got, err)
		}
	}
	for _, s := range []string{"d", "-1d", "0d", "90", "90m", "NaNd", "1e9d", "é"} {
		if got, err := ParseAge(nil, s); err == nil {
			t.Errorf("age %q: %v", s, got)
		}
	}
}

// Decimal prefixes are powers of 1,000 (IEC 80000-13, which leaves powers of 1,024 to Ki, Mi and Gi).
func TestParseSize(t *testing.T) {
	for s, want := range map[string]int64{"": 0, "20GB": 20e9, "500 mb": 500e6, "1.5KB": 1500, "1TB": 1e12} {
		if got, err := ParseSize(nil, s); err != nil || got != want {
			t.Errorf("%q: %v, %v", s, got, err)
		}
	}
	for _, s := range []string{"GB", "-1GB", "0GB", "20", "NaNGB", "InfGB", "1e9TB"} {
		if got, err := ParseSize(nil, s); err == nil {
			t.Errorf("size %q: %v", s, got)
		}
	}
}

func TestWords(t *testing.T) {
	for _, c := range []struct {
		got, want string
	}{
		{Legs(nil, 0), "0 legs"},
		{Legs(nil, 1), "1 leg"},
		{Legs(nil, 2), "2 legs"},
		{Sessions(nil, 1), "1 session"},
		{Sessions(nil, 12), "12 sessions"},
		{Megabytes(nil, 0), "0.0 MB"},
		{Megabytes(nil, 1_250_000), "1.2 MB"}, // half to even
		{Megabytes(nil, 20e9), "20000.0 MB"},
	} {
		if c.got != c.want {
			t.Errorf("%q; must be %q", c.got, c.want)
		}
	}
}
