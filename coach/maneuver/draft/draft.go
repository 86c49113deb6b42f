// Package draft begins cards of a user's own, from another card or from a recording, checks them, and writes them
// where no file is lost.
package draft

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"halfturn/coach/aircraft"
	"halfturn/coach/maneuver"
)

// Find returns the kind (maneuvers, standards or aircraft) and the origin of the card with a name. ok is false when
// the library has none.
func Find(lib *maneuver.Library, name string) (kind string, o maneuver.Origin, ok bool) {
	for _, kind := range []string{"maneuvers", "standards", "aircraft"} {
		if o, ok := lib.Origin(kind, name); ok {
			return kind, o, true
		}
	}
	return "", o, false
}

// Check validates the text of a card of a kind, and refuses an aircraft whose numbers contradict each other. file is
// what errors name.
func Check(kind, file string, text []byte) error {
	if kind == "aircraft" {
		return aircraft.Check(file, text)
	}
	return readable(kind, file, text)
}

// readable validates the text of a card of a kind as far as it is needed to use the card.
func readable(kind, file string, text []byte) (err error) {
	switch kind {
	case "aircraft":
		_, err = aircraft.Load(file, text)
	case "standards":
		_, err = maneuver.LoadStandard(file, text)
	default:
		_, err = maneuver.LoadCard(file, text)
	}
	return err
}

var nameLine = regexp.MustCompile(`(?m)^name[ \t]*=.*$`)

// Rename returns the text of a card with the name that the file calls for: "mine" in mine.toml. The error is a
// wrong file name: one that does not end in .toml, or does not make the name of a card.
func Rename(kind, file string, text []byte) ([]byte, error) {
	renamed, err := Renamed(file, text)
	if err != nil {
		return nil, err
	}
	return renamed, readable(kind, file, renamed) // the name is all that changed
}

// Renamed is Rename of a card of any kind, which is not read again.
func Renamed(file string, text []byte) ([]byte, error) {
	name, ok := strings.CutSuffix(filepath.Base(file), ".toml")
	if !ok {
		return nil, fmt.Errorf("%s: a card's file ends in .toml", file)
	}
	renamed := string(text)
	if at := nameLine.FindStringIndex(renamed); at != nil { // the first: phases have names too
		renamed = renamed[:at[0]] + fmt.Sprintf("name = %q", name) + renamed[at[1]:]
	}
	return []byte(renamed), nil
}

// Write writes a file that must not exist yet.
func Write(path string, text []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	return errors.Join(err, f.Close())
}
