// Package names holds the one rule for names of students and stations, and for the words of a remark: how they are
// stored, when two names are the same, and what is rejected. Everything that reads a name (a flag, a key of the
// configuration, a page, a comment in a recording, a file of notes) uses it.
package names

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"

	"halfturn/stream/phrase"
)

// Limits in letters (code points in NFC).
const (
	Longest        = 80 // the name of a person
	LongestStation = 40
	LongestSpoken  = 60 // of what a person has said to a pilot
)

// MostSpoken is how many words a person may have said to a pilot at once: three seconds of speech.
const MostSpoken = 8

// Person returns the name of a student, or of whoever wrote a remark, as it is kept: in NFC, without white space around
// it, with one space for any white space inside; "" means that nobody is named. The error says what is wrong.
func Person(s string) (string, error) {
	name, err := clean(s)
	if err != nil {
		return "", err
	}
	if n := utf8.RuneCountInString(name); n > Longest {
		return "", phrase.NameTooLong.Error(phrase.Int("letters", n), phrase.Int("most", Longest))
	}
	return name, nil
}

// Station returns the name of a station as it is kept. It stands in addresses: a slash is refused.
func Station(s string) (string, error) {
	name, err := clean(s)
	if err != nil {
		return "", err
	}
	if n := utf8.RuneCountInString(name); n == 0 || n > LongestStation || strings.Contains(name, "/") {
		return "", phrase.NameStation.Error(phrase.Name("name", start(name)), phrase.Int("most", LongestStation))
	}
	return name, nil
}

// Spoken returns what a person has said to a pilot as it is kept: one line in NFC. The error says what is wrong.
func Spoken(s string) (string, error) {
	text := fold(s)
	if !utf8.ValidString(text) {
		return "", phrase.TextEncoding.Error()
	}
	letters := []rune(text)
	for i, r := range letters {
		if hidden(r) && !joins(letters, i) {
			return "", phrase.TextHidden.Error(phrase.Name("character", codePoint(r)))
		}
	}
	switch words := len(strings.Fields(text)); {
	case words == 0:
		return "", phrase.SpokenEmpty.Error()
	case words > MostSpoken || len(letters) > LongestSpoken:
		return "", phrase.SpokenTooLong.Error(phrase.Int("words", words), phrase.Int("letters", len(letters)),
			phrase.Int("most", MostSpoken), phrase.Int("longest", LongestSpoken))
	}
	return text, nil
}

// clean folds and composes a name, and refuses invisible characters.
func clean(s string) (string, error) {
	name := fold(s)
	if !utf8.ValidString(name) {
		return "", phrase.NameEncoding.Error(phrase.Name("name", start(name)))
	}
	letters := []rune(name)
	for i, r := range letters {
		if hidden(r) && !joins(letters, i) {
			return "", phrase.NameHidden.Error(phrase.Name("name", start(name)), phrase.Name("character", codePoint(r)))
		}
	}
	return name, nil
}

// start is the beginning of a name, as much as an error quotes.
func start(name string) string {
	if letters := []rune(name); len(letters) > 100 {
		return string(letters[:100])
	}
	return name
}

// fold makes one space of any white space, removes it at both ends, and composes (Unicode Standard Annex #15, NFC).
func fold(s string) string { return norm.NFC.String(strings.Join(strings.Fields(s), " ")) }

// Tidy applies the rule to a name that was stored before the rule existed: what Person refuses is removed,
// and what is too long is cut.
func Tidy(s string) string {
	letters := []rune(strings.ToValidUTF8(fold(s), ""))
	kept := make([]rune, 0, len(letters))
	for i, r := range letters {
		if !hidden(r) || joins(letters, i) {
			kept = append(kept, r)
		}
	}
	name := []rune(fold(string(kept)))
	return fold(string(name[:min(len(name), Longest)]))
}

// Key is the same for two spellings of one name. Small and capital letters make no difference: on a panel shared
// by a class, "ada example" is Ada Example typed in haste, not somebody else. The name is shown as it was first
// written.
func Key(name string) string {
	return norm.NFC.String(cases.Fold().String(strings.Map(func(r rune) rune {
		if joiner(r) {
			return -1
		}
		return r
	}, fold(name))))
}

// Words returns a text of several lines as it is kept: in NFC, with line feeds for line ends. Characters that
// control a terminal, or turn the direction of what comes after them, are refused.
func Words(s string) (string, error) {
	words := words(s)
	if !utf8.ValidString(words) {
		return "", phrase.TextEncoding.Error()
	}
	for _, r := range words {
		if controls(r) {
			return "", phrase.TextHidden.Error(phrase.Name("character", codePoint(r)))
		}
	}
	return words, nil
}

// TidyWords is Tidy for a text of several lines.
func TidyWords(s string) string {
	return words(strings.Map(func(r rune) rune {
		if controls(r) {
			return -1
		}
		return r
	}, words(strings.ToValidUTF8(s, ""))))
}

var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n", "\t", " ")

func words(s string) string { return norm.NFC.String(strings.TrimSpace(lineEnds.Replace(s))) }

// hidden reports whether a character is invisible: controls, and the format characters of Unicode (category Cf), such
// as those that turn the direction of writing.
func hidden(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }

// controls reports whether a character is harmful in a text of several lines.
func controls(r rune) bool {
	return r != '\n' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)
}

// joiner reports whether a character is one of the two format characters that belong to the spelling of some names:
// Persian and Indic scripts need them (Unicode Standard Annex #31, 2.3.1).
func joiner(r rune) bool { return r == '\u200c' || r == '\u200d' }

// joins reports whether the character is a joiner between two letters.
func joins(letters []rune, i int) bool {
	return joiner(letters[i]) && i > 0 && i+1 < len(letters) && spells(letters[i-1]) && spells(letters[i+1])
}

func spells(r rune) bool { return r > unicode.MaxLatin1 && (unicode.IsLetter(r) || unicode.IsMark(r)) }

func codePoint(r rune) string { return fmt.Sprintf("U+%04X", r) }
