// Package strict reads TOML the strict way: an unknown key is an error, and every error,
// also one found later by the caller, can name its file, line and key.
package strict

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
)

// Largest is how many bytes a file may have: some hundred times what the longest card takes.
const Largest = 1_000_000

// What a file may have at most, so that reading it takes time and memory in proportion to its size.
const (
	deepest = 8      // tables and arrays within each other
	longest = 100    // bytes of one part of a key
	loosest = 10_000 // inline tables, and keys where any may stand: the decoder looks for each of them among all
)

// A File is a decoded TOML file that remembers where its keys stand.
type File struct {
	Name  string
	lines map[string]int // of each key, from 1
}

// An Error is a fault in a TOML file, in one line: file, line, key, what is wrong and what
// is allowed.
type Error struct {
	File string
	Line int
	Key  string
	What string
}

// Error gives the fault as "file:line: key: what", without the control characters that file or text may hold.
func (e *Error) Error() string {
	where := e.File
	if e.Line > 0 {
		where += ":" + strconv.Itoa(e.Line)
	}
	if e.Key != "" {
		where += ": " + e.Key
	}
	return Printable(where + ": " + clipped(e.What))
}

const mostSaid = 1000 // bytes of a fault; a value it quotes can be as long as the file

func clipped(s string) string {
	if len(s) <= mostSaid {
		return s
	}
	return strings.ToValidUTF8(s[:mostSaid], "") + "…"
}

// Printable escapes what a terminal would not print but obey: control and format characters, and lone bytes.
func Printable(s string) string {
	if utf8.ValidString(s) && !strings.ContainsFunc(s, func(r rune) bool { return !strconv.IsPrint(r) }) {
		return s
	}
	var b strings.Builder
	for at, r := range s {
		_, size := utf8.DecodeRuneInString(s[at:])
		switch {
		case r == utf8.RuneError && size == 1:
			fmt.Fprintf(&b, `\x%02x`, s[at])
		case strconv.IsPrint(r):
			b.WriteRune(r)
		default:
			quoted := strconv.QuoteRune(r)
			b.WriteString(quoted[1 : len(quoted)-1])
		}
	}
	return b.String()
}

// Decode reads data into v, a pointer to a struct whose fields have toml tags. Keys that v has no field
// for are refused, and numbers that are nan or inf. It takes time in proportion to the size of data, of which more
// than Largest is refused. The error is an *Error.
func Decode(name string, data []byte, v any) (*File, error) {
	if len(data) > Largest {
		return nil, tooLarge(name)
	}
	data = bytes.TrimPrefix(data, mark)
	x := newIndex(name, data)
	// Not left to the decoder: it counts the lines up to each unknown key from the beginning of the file.
	if x.file(reflect.TypeOf(v)); x.fault != nil {
		return nil, x.fault
	}
	if err := toml.NewDecoder(bytes.NewReader(data)).Decode(v); err != nil {
		return nil, explain(name, err)
	}
	return &x.File, nil
}

var mark = []byte("\ufeff") // some editors put it in front

func tooLarge(name string) error {
	const what = "is larger than %g MB; must be a card, a map or a configuration, which take a few kB"
	return &Error{File: name, What: fmt.Sprintf(what, Largest/1e6)}
}

// explain turns a decoder's error into an Error.
func explain(name string, err error) error {
	var bad *toml.DecodeError
	if errors.As(err, &bad) {
		line, _ := bad.Position()
		return &Error{name, line, strings.Join(bad.Key(), "."), plain(strings.TrimPrefix(bad.Error(), "toml: "))}
	}
	return &Error{File: name, What: strings.TrimPrefix(err.Error(), "toml: ")}
}

// plain takes Go out of a decoder's message about a value of the wrong type.
func plain(msg string) string {
	if rest, ok := strings.CutPrefix(msg, "cannot decode TOML "); ok {
		got, want, _ := strings.Cut(rest, " into ")
		return "is a TOML " + got + "; must be " + named(want[strings.LastIndex(want, " of type ")+len(" of type "):])
	}
	if rest, ok := strings.CutPrefix(msg, "cannot store "); ok {
		got, want, _ := strings.Cut(rest, " in a ")
		return "is " + got + "; must be " + named(want)
	}
	if strings.HasPrefix(msg, "unable to parse float") {
		return "is a number too large or too small to be used"
	}
	return msg
}

// named names a Go type as TOML does.
func named(t string) string {
	switch {
	case t == "float64":
		return "a number"
	case t == "int":
		return "a whole number"
	case t == "string":
		return "a string"
	case t == "[]string":
		return "a list of strings"
	case t == "bool":
		return "true or false"
	case t == "[]interface {}":
		return "an array"
	case strings.HasPrefix(t, "[]") && strings.Contains(t, "."):
		return "tables, each headed by the key in double brackets"
	case strings.HasPrefix(t, "struct"), strings.HasPrefix(t, "map["), strings.Contains(t, "."):
		return "a table"
	}
	return t
}

// Has reports whether a key, such as "check[2].met", is written in the file.
func (f *File) Has(key string) bool {
	_, ok := f.lines[key]
	return ok
}

// Errorf makes an error about a key of the file, such as "check[2].met". Where the key is
// not written, the line is that of the nearest table above it.
func (f *File) Errorf(key, format string, args ...any) error {
	line, at := 0, key
	for at != "" {
		if n, ok := f.lines[at]; ok {
			line = n
			break
		}
		cut := strings.LastIndexAny(at, ".[")
		at = at[:max(cut, 0)]
	}
	return &Error{f.Name, line, key, fmt.Sprintf(format, args...)}
}

// OneOf lists names as a sentence does: "a, b or c".
func OneOf(list []string) string {
	last := len(list) - 1
	if last < 1 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:last], ", ") + " or " + list[last]
}
