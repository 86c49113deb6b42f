package scan_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/stream/wire/scan"
)

// Where a number ends, whatever follows it, near the end of the text and far from it: both ways of reading agree.
func TestNumberEnds(t *testing.T) {
	for text, want := range map[string]struct {
		value float64
		end   int
	}{
		"12,3":                 {12, 2},
		"12 3":                 {12, 2},
		"12;":                  {12, 2},
		"-12.5x":               {-12.5, 5},
		"12.5.6":               {12.5, 4},
		"12..5":                {12, 3},
		"1-2":                  {1, 1},
		"1e2e3":                {100, 3},
		"1E2x":                 {100, 3},
		"007":                  {7, 3},
		"+7.25":                {7.25, 5},
		"12345678.12345678":    {12345678.12345678, 17},
		"1234567.123456789012": {1234567.123456789012, 20},
		"nano":                 {math.NaN(), 3},
		"INFINITYx":            {math.Inf(1), 8},
		"-inf,":                {math.Inf(-1), 4},
		"infinite":             {math.Inf(1), 3},
	} {
		for _, after := range []string{"", strings.Repeat(",", 40), strings.Repeat(" ", 40)} {
			for _, before := range []string{"", "abc", ",,,,,,,,,,"} {
				v, end, ok := scan.Number([]byte(before+text+after), len(before))
				if !ok || end != len(before)+want.end || v != want.value && !(v != v && want.value != want.value) {
					t.Errorf("%q before %q: %v, %d, %v; must be %v, %d", text, after, v, end-len(before), ok,
						want.value, want.end)
				}
			}
		}
	}
}

// Halves between two float64 go to the even one (IEEE 754, roundTiesToEven): 2⁵³+1 down, 2⁵³+3 up.
func TestNumberTies(t *testing.T) {
	for text, want := range map[string]float64{
		"9007199254740993":  1 << 53,
		"9007199254740995":  1<<53 + 4,
		"-9007199254740993": -1 << 53,
		"90071992547409.93": 90071992547409.93,
		// W. D. Clinger's hard case, and the largest and smallest that there are.
		"8.98846567431158e307":      8.98846567431158e307,
		"1.7976931348623157e308":    math.MaxFloat64,
		"4.9406564584124654e-324":   math.SmallestNonzeroFloat64,
		"2.4703282292062327e-324":   0,
		"2.4703282292062328e-324":   math.SmallestNonzeroFloat64,
		"1.7976931348623158079e308": math.MaxFloat64,
		"1.797693134862315808e308":  math.Inf(1),
	} {
		if v, end, ok := scan.Number([]byte(text), 0); v != want || end != len(text) || !ok {
			t.Errorf("%s is %v, %d, %v; must be %v", text, v, end, ok, want)
		}
	}
}

// What a decoder reads of a line costs no memory, whatever is in it.
func TestNumberAllocatesNothing(t *testing.T) {
	for _, text := range []string{"1.25", "-1e-400", "1e999999", "nan", "x", "123456789012345678901234567890", "1e"} {
		b := []byte(text)
		most := 0.0
		if len(text) > 19 { // left to strconv, which takes a string
			most = 1
		}
		if n := testing.AllocsPerRun(100, func() { scan.Number(b, 0) }); n > most {
			t.Errorf("%q: %v allocations", text, n)
		}
	}
}

// What ends a line, what a byte order mark is, and what is blank.
func TestTrim(t *testing.T) {
	for in, want := range map[string]string{
		"":                "",
		"a":               "a",
		"a\r\n":           "a",
		"a \n\x00":        "a",
		" a":              " a",
		"a\t":             "a\t", // an empty column at the end
		"\r\n\x00 ":       "",
		"a\nb\n":          "a\nb",
		"a\x00b\x00\x00 ": "a\x00b",
	} {
		if got := scan.TrimEnd([]byte(in)); string(got) != want {
			t.Errorf("the end of %q: %q; must be %q", in, got, want)
		}
	}
	// The mark of UTF-8 is EF BB BF (RFC 3629, section 6); alone it is no text.
	for in, want := range map[string]string{
		"\xEF\xBB\xBFa": "a",
		"\xEF\xBB\xBF":  "\xEF\xBB\xBF",
		"\xEF\xBBa":     "\xEF\xBBa",
		"a\xEF\xBB\xBF": "a\xEF\xBB\xBF",
		"":              "",
	} {
		if got := scan.TrimMark([]byte(in)); string(got) != want {
			t.Errorf("the mark of %q: %q; must be %q", in, got, want)
		}
	}
	for c := range 256 {
		if got, want := scan.IsBlank(byte(c)), strings.ContainsRune(" \t\r\n", rune(c)); got != want {
			t.Errorf("byte %#x is blank: %v", c, got)
		}
	}
}

func TestHasWord(t *testing.T) {
	for _, c := range []struct {
		text, word string
		want       bool
	}{
		{"nan", "nan", true}, {"NaN", "nan", true}, {"NANA", "nan", true}, {"na", "nan", false}, {"", "nan", false},
		{"nbn", "nan", false}, {"infinity", "inf", true},
	} {
		if got := scan.HasWord([]byte(c.text), c.word); got != c.want {
			t.Errorf("%q begins with %q: %v", c.text, c.word, got)
		}
	}
}

// Spaces are counted from anywhere, and only they.
func TestSkipSpacesFrom(t *testing.T) {
	b := []byte("ab    \tc" + strings.Repeat(" ", 20) + "d")
	for from, want := range map[int]int{0: 0, 2: 6, 4: 6, 6: 6, 8: 28, 15: 28, 28: 28, len(b): len(b)} {
		if got := scan.SkipSpaces(b, from); got != want {
			t.Errorf("from %d: %d; must be %d", from, got, want)
		}
	}
}

// A line is cut into its columns, empty ones too, by any separator.
func TestCutAll(t *testing.T) {
	for _, separator := range []byte{',', ';', '|', '\t', ' ', '\n'} {
		sep := string(separator)
		for text, want := range map[string][]string{
			"":                           {""},
			"a":                          {"a"},
			sep:                          {"", ""},
			"a" + sep + sep + "b":        {"a", "", "b"},
			sep + "a" + sep:              {"", "a", ""},
			strings.Repeat("x"+sep, 300): append(strings.Split(strings.Repeat("x ", 299)+"x", " "), ""),
		} {
			var got []string
			for rest, more := []byte(text), true; more; {
				var first []byte
				first, rest, more = scan.Cut(rest, separator)
				got = append(got, string(first))
			}
			if fmt.Sprint(got) != fmt.Sprint(want) || scan.Columns([]byte(text), separator) != len(want) {
				n := scan.Columns([]byte(text), separator)
				t.Errorf("%.20q by %q: %d columns %.40q; must be %d", text, sep, n, got, len(want))
			}
		}
	}
}
