package scan_test

import (
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/scan"
)

// words takes lines of a word each, and refuses "no".
type words struct{ read []string }

func (w *words) Line(b []byte, _ *stream.Sample) error {
	w.read = append(w.read, string(b))
	if string(b) == "no" {
		return fault.ErrMalformed
	}
	return nil
}

func (*words) CutShort(err error) bool { return err == fault.ErrMalformed }

// The last line is read; the one before it when the last has no end and cannot be read.
func TestLastLine(t *testing.T) {
	for in, want := range map[string]struct {
		read string
		err  error
	}{
		"a":                                     {"a", nil},
		"a\nb\n":                                {"b", nil},
		"a\r\nb\r\n\x00":                        {"b", nil},
		"a\nb\nno":                              {"no b", nil},
		"a\nno\n":                               {"no", fault.ErrMalformed},
		"no":                                    {"no", fault.ErrMalformed},
		"\n":                                    {"", fault.ErrEmpty},
		strings.Repeat("x", scan.MaxLine+1):     {"", fault.ErrTooLong},
		"a\n" + strings.Repeat("x", 99) + "\nb": {"b", nil},
	} {
		w := &words{}
		err := scan.LastLine(w, []byte(in), &stream.Sample{})
		if got := strings.Join(w.read, " "); err != want.err || got != want.read {
			t.Errorf("%.20q: read %q, %v; want %q, %v", in, got, err, want.read, want.err)
		}
	}
}

func TestSkipSpaces(t *testing.T) {
	for n := range 30 {
		for _, after := range []string{"", "1", "1       "} {
			b := []byte(strings.Repeat(" ", n) + after)
			if got := scan.SkipSpaces(b, 0); got != n {
				t.Errorf("%d spaces before %q: %d", n, after, got)
			}
		}
	}
}

func TestCut(t *testing.T) {
	first, rest, more := scan.Cut([]byte("a;b;c"), ';')
	if string(first) != "a" || string(rest) != "b;c" || !more || scan.Columns([]byte("a;b;c"), ';') != 3 {
		t.Errorf("%q, %q, %v", first, rest, more)
	}
	if first, rest, more = scan.Cut([]byte("a"), ';'); string(first) != "a" || rest != nil || more {
		t.Errorf("%q, %q, %v", first, rest, more)
	}
}
