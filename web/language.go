package web

import (
	"io/fs"

	"halfturn/stream/phrase"
	"halfturn/web/languages"
)

// Language returns a language that the pages speak, for prints and commands; nil is English.
//
// An error names the languages there are.
func Language(code string) (*phrase.Language, error) {
	files, err := fs.Sub(embedded, "static")
	if err != nil {
		return nil, err
	}
	return languages.Load(files, code)
}
