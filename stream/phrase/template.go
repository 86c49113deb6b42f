package phrase

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
)

// templatePlace is a place in the text of a card.
var templatePlace = regexp.MustCompile(`\{([a-z]+)\}`)

// Template fills in the places of a text that a card has: "Bank {bank}, nose level". The text is its own code, by which
// the pages translate it; they then write the arguments in the form of their reader. A text without places becomes a
// phrase without a code.
func Template(text string, args ...Arg) Phrase {
	if !isTemplate(text) {
		return Plain(text)
	}
	filled := templatePlace.ReplaceAllStringFunc(text, func(place string) string {
		if a := find(args, strings.Trim(place, "{}")); a != nil {
			return a.as(a.kind)
		}
		return place
	})
	return Phrase{code: text, args: used(text, args), text: filled}
}

// isTemplate tells the text of a card with places from the codes of the table, which have no braces.
func isTemplate(text string) bool { return templatePlace.MatchString(text) }

// used are the arguments that a text has places for, in the order of the text.
func used(text string, args []Arg) (list []Arg) {
	for _, found := range templatePlace.FindAllStringSubmatch(text, -1) {
		if a := find(args, found[1]); a != nil && find(list, a.name) == nil {
			list = append(list, *a)
		}
	}
	return list
}

// decodeTemplate reads the arguments of a text of a card. Their kinds follow from what they are in JSON.
func decodeTemplate(text string, from map[string]json.RawMessage) (args []Arg, ok bool) {
	for _, found := range templatePlace.FindAllStringSubmatch(text, -1) {
		name := found[1]
		data := bytes.TrimSpace(from[name])
		if len(data) == 0 || find(args, name) != nil {
			continue
		}
		kind := words
		switch data[0] {
		case '{':
			kind = number
		case '[':
			kind = nested
		}
		a, err := decodeArg(name, kind, data)
		if err != nil {
			return nil, false
		}
		args = append(args, a)
	}
	return args, true
}
