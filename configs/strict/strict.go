// Package strict reads TOML the strict way: an unknown key is an error, and every error,
// also one found later by the caller, can name its file, line and key.
package strict

import (
	"bytes"
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// A File is a decoded TOML file that remembers where its keys stand.
type File struct {
	Name  string
	lines map[string]int
	keys  map[place]string // whole keys, by where their last part begins
	odd   error            // about the first number that is none

	tables []string // headed by single brackets
}

// A place is a line and a column of a file, from 1.
type place struct{ line, column int }

// An Error is a fault in a TOML file, in one line: file, line, key, what is wrong and what
// is allowed.
type Error struct {
	File string
	Line int
	Key  string
	What string
}

// Error gives the fault as "file:line: key: what".
func (e *Error) Error() string {
	where := e.File
	if e.Line > 0 {
		where += ":" + strconv.Itoa(e.Line)
	}
	if e.Key != "" {
		where += ": " + e.Key
	}
	return where + ": " + e.What
}

// Decode reads data into v, a pointer to a struct. The error is an *Error.
func Decode(name string, data []byte, v any) (*File, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff")) // some editors put it in front
	f := &File{Name: name, lines: map[string]int{}, keys: map[place]string{}}
	f.index(data)
	dec := toml.NewDecoder(bytes.NewReader(data))
	dec.DisallowUnknownFields()
	if err := dec.Decode(v); err != nil {
		return nil, f.explain(err, v)
	}
	for _, t := range f.tables {
		if list, _ := typeAt(reflect.TypeOf(v), strings.Split(counted.ReplaceAllString(t, ""), ".")); list.Kind() == reflect.Slice {
			return nil, f.Errorf(t, "is headed [%s]; wanted: [[%[1]s]], once for each", t)
		}
	}
	return f, nil
}

// explain turns a decoder's error into an Error.
func (f *File) explain(err error, v any) error {
	var unknown *toml.StrictMissingError
	if errors.As(err, &unknown) && len(unknown.Errors) > 0 {
		first := &unknown.Errors[0]
		line, column := first.Position()
		key := first.Key()
		path := []string(key)
		if whole, ok := f.keys[place{line, column}]; ok { // of an inline table's key the decoder knows only the end
			path = strings.Split(counted.ReplaceAllString(whole, ""), ".")
		}
		allowed := keysAt(reflect.TypeOf(v), path[:len(path)-1])
		return &Error{f.Name, line, strings.Join(key, "."), "is not a known key; allowed here: " + strings.Join(allowed, ", ")}
	}
	var bad *toml.DecodeError
	if errors.As(err, &bad) {
		line, _ := bad.Position()
		return &Error{f.Name, line, strings.Join(bad.Key(), "."), plain(strings.TrimPrefix(bad.Error(), "toml: "))}
	}
	return &Error{File: f.Name, What: strings.TrimPrefix(err.Error(), "toml: ")}
}

// counted finds the numbers of tables in a key.
var counted = regexp.MustCompile(`\[\d+\]`)

// plain takes Go out of a decoder's message about a value of the wrong type.
func plain(msg string) string {
	if rest, ok := strings.CutPrefix(msg, "cannot decode TOML "); ok {
		got, want, _ := strings.Cut(rest, " into ")
		return "is a TOML " + got + "; wanted: " + wanted(want[strings.LastIndex(want, " of type ")+len(" of type "):])
	}
	if rest, ok := strings.CutPrefix(msg, "cannot store "); ok {
		got, want, _ := strings.Cut(rest, " in a ")
		return "is " + got + "; wanted: " + wanted(want)
	}
	if strings.HasPrefix(msg, "unable to parse float") {
		return "is a number too large or too small to be used"
	}
	return msg
}

// wanted names a Go type as TOML does.
func wanted(t string) string {
	switch {
	case t == "float64":
		return "number"
	case t == "int":
		return "whole number"
	case t == "bool":
		return "true or false"
	case t == "[]interface {}":
		return "array"
	case strings.HasPrefix(t, "[]") && strings.Contains(t, "."):
		return "tables, each headed by the key in double brackets"
	case strings.HasPrefix(t, "struct"), strings.HasPrefix(t, "map["), strings.Contains(t, "."):
		return "table"
	}
	return t
}

// typeAt returns the type of what a table of type t holds at a path. It fails where the path
// leads nowhere.
func typeAt(t reflect.Type, path []string) (reflect.Type, bool) {
	for _, key := range path {
		t = table(t)
		switch {
		case t.Kind() == reflect.Map:
			t = t.Elem()
		case t.Kind() == reflect.Struct:
			next, ok := field(t, key)
			if !ok {
				return t, false
			}
			t = next
		default:
			return t, false
		}
	}
	return t, true
}

// table returns the type of the single table in a pointer to one or an array of them.
func table(t reflect.Type) reflect.Type {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
		t = t.Elem()
	}
	return t
}

// keysAt lists the keys a table of type t has below the given path.
func keysAt(t reflect.Type, path []string) []string {
	t, ok := typeAt(t, path)
	if t = table(t); !ok || t.Kind() != reflect.Struct {
		return []string{"none"}
	}
	var keys []string
	for i := range t.NumField() {
		if tag := tagOf(t.Field(i)); tag != "" {
			keys = append(keys, tag)
		}
	}
	slices.Sort(keys)
	return keys
}

func field(t reflect.Type, key string) (reflect.Type, bool) {
	for i := range t.NumField() {
		if tagOf(t.Field(i)) == key {
			return t.Field(i).Type, true
		}
	}
	return nil, false
}

func tagOf(f reflect.StructField) string {
	tag, _, _ := strings.Cut(f.Tag.Get("toml"), ",")
	if tag == "-" {
		return ""
	}
	return tag
}

// index notes the place of every key. Tables of an array are counted: "check[2].met". It stops
// where the text is no TOML; the decoder says why.
func (f *File) index(data []byte) {
	var p unstable.Parser
	p.Reset(data)
	count := map[string]int{}
	prefix := ""
	for p.NextExpression() {
		e := p.Expression()
		switch e.Kind {
		case unstable.ArrayTable, unstable.Table:
			prefix = f.key(&p, e, "", count)
			if e.Kind == unstable.Table {
				f.tables = append(f.tables, prefix)
			}
		case unstable.KeyValue:
			f.value(&p, e.Value(), f.key(&p, e, prefix, count), count)
		}
	}
}

// key notes the key of a table or of a value below prefix, and returns the whole of it.
func (f *File) key(p *unstable.Parser, e *unstable.Node, prefix string, count map[string]int) string {
	path := prefix
	var at place
	for it := e.Key(); it.Next(); {
		if path != "" {
			path += "."
		}
		path += string(it.Node().Data)
		start := p.Shape(it.Node().Raw).Start
		at = place{start.Line, start.Column}
		if it.IsLast() && e.Kind == unstable.ArrayTable {
			count[path]++
		}
		if n := count[path]; n > 0 {
			path += "[" + strconv.Itoa(n-1) + "]"
		}
	}
	f.lines[path] = at.line
	f.keys[at] = path
	return path
}

// value notes the keys inside a value, and the first number that is none.
func (f *File) value(p *unstable.Parser, n *unstable.Node, path string, count map[string]int) {
	switch n.Kind {
	case unstable.Array:
		for i, it := 0, n.Children(); it.Next(); i++ {
			f.value(p, it.Node(), path+"["+strconv.Itoa(i)+"]", count)
		}
	case unstable.InlineTable:
		for it := n.Children(); it.Next(); {
			f.value(p, it.Node().Value(), f.key(p, it.Node(), path, count), count)
		}
	case unstable.Float:
		word := strings.TrimLeft(string(n.Data), "+-")
		if f.odd == nil && (word == "nan" || word == "inf") {
			f.odd = f.Errorf(path, "is %s; wanted: a finite number", n.Data)
		}
	}
}

// Finite returns an error when a number of the file is nan or inf, which TOML allows.
func (f *File) Finite() error { return f.odd }

// Has tells whether a key, such as "check[2].met", is written in the file.
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
