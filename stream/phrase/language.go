package phrase

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// LanguageCodes are the languages there are (ISO 639-1), English first.
var LanguageCodes = []string{"en", "de", "es"}

// A Language says sentences otherwise than in English. The nil Language is English. Its tables are those of the pages,
// so that a sentence has one translation; see halfturn/web/languages. A value is not changed once it is used.
type Language struct {
	Code      string            // ISO 639-1: "de"
	Name      string            // in its own words: "Deutsch"
	Sentences map[string]string // by code, with the places of the English
	Texts     map[string]string // the texts of shipped cards, guides and tables by the English
	Words     map[string]string // what has no code, by the English: the words of pages, prints and commands
	Point     string            // before the decimals
	Group     string            // between thousands
	Ungrouped int               // the most figures that stand together
}

// Say writes a phrase. What has no code and is no shipped text stays as it is, such as the text of a user's own card.
func (l *Language) Say(p Phrase) string {
	if l == nil {
		return p.text
	}
	if p.code == "" {
		return l.Text(p.text)
	}
	sentence, ok := l.Sentences[p.code]
	if isTemplate(p.code) {
		sentence, ok = l.Text(p.code), true
	}
	if !ok {
		return p.text
	}
	return anyPlace.ReplaceAllStringFunc(sentence, func(place string) string {
		name, how, _ := strings.Cut(strings.Trim(place, "{}"), ":")
		if a := find(p.args, name); a != nil {
			return l.argument(a, how)
		}
		return place
	})
}

// anyPlace is a place in a sentence of a language.
var anyPlace = regexp.MustCompile(`\{[a-z]+(?::[a-z]+)?\}`)

// In returns the phrase with its words in the language.
func (l *Language) In(p Phrase) Phrase {
	if l != nil {
		p.text = l.Say(p)
	}
	return p
}

// Error writes an error: a sentence of the table is put into the language, with what stands before it as it is, and so
// is each of several errors that were joined.
func (l *Language) Error(err error) string {
	all := err.Error()
	if l == nil {
		return all
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		if list := joined.Unwrap(); errors.Join(list...).Error() == all {
			told := make([]string, len(list))
			for i := range list {
				told[i] = l.Error(list[i])
			}
			return strings.Join(told, "\n")
		}
	}
	var e *Error
	if errors.As(err, &e) {
		if before, ok := strings.CutSuffix(all, e.Error()); ok {
			return before + l.Say(e.phrase)
		}
	}
	return l.Told(all)
}

// Told writes what was said in English, for what is kept as text: a sentence of the table, or what stands before a
// colon with a sentence after it.
func (l *Language) Told(english string) string {
	if l == nil {
		return english
	}
	told := "" // by a sentence of which a part is none
	for from := 0; ; {
		p := Read(english[from:])
		switch {
		case p.code == "":
		case p.whole():
			return english[:from] + l.Say(p)
		case told == "":
			told = english[:from] + l.Say(p)
		}
		colon := strings.Index(english[from:], ": ")
		if colon < 0 {
			return cmp.Or(told, english)
		}
		from += colon + len(": ")
	}
}

// whole reports whether the sentences within a sentence are all of the table.
func (p Phrase) whole() bool {
	at := slices.IndexFunc(table.all, func(d *Definition) bool { return d.code == p.code })
	if at < 0 {
		return false
	}
	for _, place := range table.all[at].places {
		a := find(p.args, place.name)
		if place.kind != nested || a == nil {
			continue
		}
		if slices.ContainsFunc(a.phrases, func(q Phrase) bool { return !q.whole() }) {
			return false
		}
	}
	return true
}

// Text returns a text of a shipped card, guide or table in the language.
func (l *Language) Text(english string) string {
	if l != nil && l.Texts[english] != "" {
		return l.Texts[english]
	}
	return english
}

// Word returns words without a code in the language. They may be a format of package fmt.
func (l *Language) Word(english string) string {
	if l != nil && l.Words[english] != "" {
		return l.Words[english]
	}
	return english
}

// Wordf formats words without a code, with values that are in the language already.
func (l *Language) Wordf(english string, args ...any) string {
	return fmt.Sprintf(l.Word(english), args...)
}

func (l *Language) argument(a *Arg, how string) string {
	switch a.kind {
	case number:
		s := l.Number(a.value, a.digits)
		switch unit := l.Unit(a.unit); {
		case how == bare || unit == "":
			return s
		case strings.HasPrefix(unit, "°"), unit == "%":
			return s + unit
		default:
			return s + "\u00a0" + unit
		}
	case nested, list, within:
		all := make([]string, len(a.phrases))
		for i, p := range a.phrases {
			if all[i] = l.Say(p); how == within {
				all[i] = Lower(all[i])
			}
		}
		if n := len(all); a.kind == list && n > 1 {
			last := strings.NewReplacer("{some}", strings.Join(all[:n-1], ", "), "{last}", all[n-1])
			return last.Replace(l.Word("{some} and {last}"))
		}
		return strings.Join(all, ", ")
	}
	return a.words
}

// OneOf lists what something may be: "a, b or c".
func (l *Language) OneOf(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " " + l.Word("or") + " " + names[last]
}

// Unit is a unit as it is written; all but these are signs, the same in every language.
func (l *Language) Unit(unit string) string {
	switch {
	case l == nil:
	case unit == "balls":
		return l.Word("ball widths")
	case unit == "legs":
		return l.Word("legs")
	}
	return unit
}

// Number writes a number with a true minus sign and the marks of the language; digits −1 is as many as it takes.
func (l *Language) Number(v float64, digits int) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', digits, 64)
	whole, part, _ := strings.Cut(s, ".")
	if l != nil {
		if n := len(whole); n > l.Ungrouped {
			for i := n - 3; i > 0; i -= 3 {
				whole = whole[:i] + l.Group + whole[i:]
			}
		}
	}
	if part != "" {
		point := "."
		if l != nil {
			point = l.Point
		}
		whole += point + part
	}
	if v < 0 && strings.ContainsAny(s, "123456789") {
		return "−" + whole
	}
	return whole
}

// Figures writes the numbers in words that were put together in English, such as "74.1°": the point becomes that of the
// language, and a heading or an address stays as it is.
func (l *Language) Figures(s string) string {
	if l == nil {
		return s
	}
	return decimal.ReplaceAllStringFunc(s, func(n string) string {
		if strings.Count(n, ".") != 1 {
			return n
		}
		return strings.Replace(n, ".", l.Point, 1)
	})
}

// decimal is a number, or something of figures and points such as an address.
var decimal = regexp.MustCompile(`\d+(?:\.\d+)+`)

// Capital begins a sentence.
func Capital(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}
