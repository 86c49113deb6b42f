// Package languages reads the languages that the pages speak, for what else speaks to people: prints and commands. So
// a sentence has one translation, whoever says it.
//
// A language is a module of the pages, web/static/text/de.js, with a folder of tables beside it. A table is data: one
// object of strings, which this package reads as such. What is not one is an error, and a test reads them all.
package languages

import (
	"fmt"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"

	"halfturn/stream/phrase"
)

// Codes are the languages there are, English first.
var Codes = phrase.LanguageCodes

// texts are the tables by the texts of cards, guides and tables. The keys of the
// others are the English words.
var texts = []string{"cards", "channels", "elements", "errors", "guides", "said"}

// inCode is a code of package phrase.
var inCode = regexp.MustCompile(`^[a-z]+\.[a-z0-9-]+$`)

// form is the line of a language's module that says how it writes numbers.
var form = regexp.MustCompile(
	`form = \{ name: '([^']+)', locale: '[^']+', point: '([^']+)', group: '([^']+)', ungrouped: (\d) \}`)

// Load reads a language from the pages' files; nil is English.
func Load(pages fs.FS, code string) (*phrase.Language, error) {
	if !slices.Contains(Codes, code) {
		return nil, fmt.Errorf("language is %q; must be %s", code, Choices())
	}
	if code == Codes[0] {
		return nil, nil
	}
	module, err := fs.ReadFile(pages, path.Join("text", code+".js"))
	if err != nil {
		return nil, err
	}
	f := form.FindStringSubmatch(string(module))
	if f == nil {
		return nil, fmt.Errorf("text/%s.js does not say how numbers are written", code)
	}
	l := &phrase.Language{
		Code:      code,
		Name:      f[1],
		Sentences: map[string]string{},
		Texts:     map[string]string{},
		Words:     map[string]string{},
		Point:     f[2],
		Group:     strings.Replace(f[3], `\u202f`, "\u202f", 1),
		Ungrouped: int(f[4][0] - '0'),
	}
	files, err := fs.Glob(pages, path.Join("text", code, "*.js"))
	if err != nil {
		return nil, err
	}
	for _, name := range files {
		if err := take(l, pages, name); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	return l, nil
}

// Choices names the languages as an error does: "en, de or es".
func Choices() string {
	last := len(Codes) - 1
	return strings.Join(Codes[:last], ", ") + " or " + Codes[last]
}

// take reads a table into the language.
func take(l *phrase.Language, pages fs.FS, name string) error {
	data, err := fs.ReadFile(pages, name)
	if err != nil {
		return err
	}
	table, err := read(string(data))
	if err != nil {
		return err
	}
	if slices.Contains(texts, strings.TrimSuffix(path.Base(name), ".js")) {
		maps.Copy(l.Texts, table)
		return nil
	}
	for key, words := range table {
		if inCode.MatchString(key) {
			l.Sentences[key] = words
		} else {
			l.Words[key] = words
		}
	}
	return nil
}
