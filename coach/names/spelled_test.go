package names

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"
	"testing"
	"unicode/utf16"
	"unicode/utf8"
)

// TestSpelled: a name is found as whole words in any capital letters, also behind letters that grow when they are made
// small (İ, U+0130, is two bytes, and i one), and as JSON escapes it (RFC 8259, 7), with digits of both cases.
func TestSpelled(t *testing.T) {
	for _, c := range []struct{ text, name, found string }{
		{"", "Ada", ""},
		{"Ada", "", ""},
		{"Ada, ADA, aDa", "Ada", "Ada ADA aDa"},
		{"İİİ Ada İ ada", "ADA", "Ada ada"},
		{"Adam, Nevada, Ada2, halfturn", "Ada", ""},
		{"halfturn Al", "Al", "Al"},
		{"Jos\u00e9 JOS\u00c9", "jos\u00e9", "Jos\u00e9 JOS\u00c9"},
		{`"Jos\u00e9" "JOS\u00C9" "jos\u00E9"`, "Jos\u00e9", `Jos\u00e9 JOS\u00C9 jos\u00E9`},
		{`\u0041da`, "ada", `\u0041da`},
		{`\nAda \u003cAda\u003e \u0061Ada Ada\u0061`, "Ada", "Ada Ada"},
		{`Ada \u003cB\u003E`, "Ada <B>", `Ada \u003cB\u003E`},
		{`O\"Hara O"hara`, `O"Hara`, `O\"Hara O"hara`},
		{`a\\b a\b`, `A\B`, `a\\b a\b`},
		{`\ud835\udc9c \uD835\uDC9C`, "\U0001d49c", `\ud835\udc9c \uD835\uDC9C`},
		{"K\u212a", "kk", "K\u212a"}, // the Kelvin sign folds to k
		{"\xff\x00Ada\x00\xff", "Ada", "Ada"},
		{"ba a a", "a a", "a a"},
		{`Ada\u00`, "Ada", "Ada"},
		{`\ud835 Ada`, "Ada", "Ada"},
	} {
		var found []string
		for _, p := range Spelled([]byte(c.text), c.name) {
			found = append(found, c.text[p.From:p.To])
		}
		if got := strings.Join(found, " "); got != c.found {
			t.Errorf("%q in %q: found %q; must be %q", c.name, c.text, got, c.found)
		}
	}
}

// TestErase: what is erased leaves no name behind, and others are left as they are.
func TestErase(t *testing.T) {
	for _, c := range []struct{ text, name, is string }{
		{"Bo, Bo Example, BOB", "bo", "xx, Bo Example, BOB"},
		{"Bo Example", "Bo Example", "xxxxxxxxxx"},
		{"xx Xx x", "XX", "oo oo x"},
		{"none", "Bo", "none"},
	} {
		text := []byte(c.text)
		changed := Erase(text, c.name, []string{"Bo Example", "Cy"})
		if string(text) != c.is || changed != (c.text != c.is) {
			t.Errorf("%q without %q: %q, %v; must be %q", c.text, c.name, text, changed, c.is)
		}
	}
}

// ascii is a text in JSON in which everything but plain ASCII is escaped, as other programs write it.
func ascii(text, digits string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r >= ' ' && r < utf8.RuneSelf && !strings.ContainsRune(`"\`, r):
			b.WriteRune(r)
		default:
			for _, unit := range utf16.Encode([]rune{r}) {
				fmt.Fprintf(&b, `\u`+digits, unit)
			}
		}
	}
	return `"` + b.String() + `"`
}

// FuzzErase: after erasing, a text holds the name in no casing, by the rule for texts; what a regular expression finds
// was found. Its JSON can still be read, unless the name has marks of JSON, and is as long as it was.
func FuzzErase(f *testing.F) {
	f.Add("Ada Example said: ADA, less bank. İ ada", "Ada")
	f.Add("<É> é \\ \" \n", "<é>")
	f.Add("xx X", "x")
	f.Add("-a-a a-a", "-A")
	f.Add("a a a", "a a")
	f.Add(`O\"x \\`, `O"X`)
	f.Fuzz(func(t *testing.T, text, name string) {
		name, err := Person(name)
		if err != nil || name == "" || !utf8.ValidString(text) || len(text) > 1000 {
			return
		}
		// Regular expressions know words of ASCII letters alone.
		words, err := regexp.Compile(`(?i)(^|[^\pL\pN\pM])` + regexp.QuoteMeta(name) + `($|[^\pL\pN\pM])`)
		if err != nil {
			t.Fatal(err)
		}
		marks := strings.ContainsAny(name, `"\`) // those of JSON can be part of such a name
		plain, err := json.Marshal(text)
		if err != nil {
			t.Fatal(err)
		}
		for _, written := range []string{string(plain), ascii(text, "%04x"), ascii(text, "%04X")} {
			b := []byte(written)
			changed := Erase(b, name, nil)
			is := text
			if err := json.Unmarshal(b, &is); err != nil && !marks || len(b) != len(written) {
				t.Fatalf("%s is %s: %v", written, b, err)
			}
			if len(Spelled(b, name)) > 0 || !marks && Holds(is, name) {
				t.Fatalf("%q still stands in %s, from %s", name, b, written)
			}
			if held := words.MatchString(text); held && !changed {
				t.Fatalf("%q is not found in %s", name, written)
			}
			if changed != (string(b) != written) {
				t.Fatalf("%s is %s, and that is said to be changed: %v", written, b, changed)
			}
		}
	})
}
