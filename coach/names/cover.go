package names

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Removed is read where the name of somebody stood who was forgotten.
const Removed = "(name removed)"

// The marks around the hash that stands for a name. No name contains them, since they are looked for first.
const (
	coverOpens = "⟦"
	coverEnds  = "⟧"
	hashDigits = 64
)

// Covered is what stands in a text for a name of which only a hash is known, in hex.
func Covered(hash string) string { return coverOpens + hash + coverEnds }

// A Cover says what stands for names in a text.
type Cover struct {
	names []string // the longest first
	by    map[string]string
}

// NewCover makes a cover of names and what stands for each; "" leaves a name as it is, and what is longer than another
// name and holds it.
func NewCover(stands map[string]string) *Cover {
	c := &Cover{by: map[string]string{}}
	for name, by := range stands {
		if name = fold(name); name != "" {
			c.names = append(c.names, name)
			c.by[name] = by
		}
	}
	slices.SortFunc(c.names, func(a, b string) int {
		return cmp.Or(cmp.Compare(utf8.RuneCountInString(b), utf8.RuneCountInString(a)), cmp.Compare(a, b))
	})
	return c
}

// In returns a text with its names covered: whole words, in capital or small letters, the longest name that begins at a
// place. What is covered already stays.
func (c *Cover) In(text string) string {
	var b strings.Builder
	inWord := false
	for at := 0; at < len(text); {
		if n := coveredAt(text[at:]); n > 0 {
			b.WriteString(text[at : at+n])
			at, inWord = at+n, false
			continue
		}
		if !inWord {
			if name, n := c.nameAt(text[at:]); n > 0 {
				by := c.by[name]
				if by == "" {
					by = text[at : at+n]
				}
				b.WriteString(by)
				at, inWord = at+n, false
				continue
			}
		}
		r, n := utf8.DecodeRuneInString(text[at:])
		b.WriteString(text[at : at+n])
		at, inWord = at+n, ofWord(r)
	}
	return b.String()
}

// Holds reports whether a text holds a name, as In finds it.
func Holds(text, name string) bool {
	return NewCover(map[string]string{name: Removed}).In(text) != text
}

// nameAt is the longest name that a text begins with, and its length there in bytes.
func (c *Cover) nameAt(text string) (name string, n int) {
	for _, name := range c.names {
		if n := begins(text, name); n > 0 {
			if r, _ := utf8.DecodeRuneInString(text[n:]); n == len(text) || !ofWord(r) {
				return name, n
			}
		}
	}
	return "", 0
}

// begins returns how many bytes of a text spell a name; 0 when it does not begin with it.
func begins(text, name string) int {
	at := 0
	for _, want := range name {
		r, n := utf8.DecodeRuneInString(text[at:])
		if n == 0 || r != want && !strings.EqualFold(string(r), string(want)) {
			return 0
		}
		at += n
	}
	return at
}

func ofWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || unicode.IsMark(r) }

// coveredAt is the length in bytes of what stands for a name at the beginning of a text; 0 for anything else.
func coveredAt(text string) int {
	const whole = len(coverOpens) + hashDigits + len(coverEnds)
	if len(text) < whole || !strings.HasPrefix(text, coverOpens) || text[whole-len(coverEnds):whole] != coverEnds {
		return 0
	}
	if strings.Trim(text[len(coverOpens):whole-len(coverEnds)], "0123456789abcdef") != "" {
		return 0
	}
	return whole
}

// Readable writes [Removed] where only the hash of a name is known.
func Readable(text string) string {
	if !strings.Contains(text, coverOpens) {
		return text
	}
	var b strings.Builder
	for at := 0; at < len(text); {
		if n := coveredAt(text[at:]); n > 0 {
			b.WriteString(Removed)
			at += n
			continue
		}
		_, n := utf8.DecodeRuneInString(text[at:])
		b.WriteString(text[at : at+n])
		at += n
	}
	return b.String()
}
