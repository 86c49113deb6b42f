// Package strict reads TOML the strict way: an unknown key is an error, and every error,
// also one found later by the caller, can name its file, line and key.
package strict

import (
	"errors"
	"fmt"
	"reflect"
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
}

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
	f := &File{Name: name, lines: map[string]int{}}
	dec := toml.NewDecoder(strings.NewReader(string(data)))
	dec.DisallowUnknownFields()
	if err := dec.Decode(v); err != nil {
		return nil, f.explain(err, v)
	}
	f.index(data)
	return f, nil
}

// explain turns a decoder's error into an Error.
func (f *File) explain(err error, v any) error {
	var unknown *toml.StrictMissingError
	if errors.As(err, &unknown) && len(unknown.Errors) > 0 {
		first := &unknown.Errors[0]
		line, _ := first.Position()
		key := first.Key()
		allowed := keysAt(reflect.TypeOf(v), key[:len(key)-1])
		return &Error{f.Name, line, strings.Join(key, "."), "is not a known key; allowed here: " + strings.Join(allowed, ", ")}
	}
	var bad *toml.DecodeError
	if errors.As(err, &bad) {
		line, _ := bad.Position()
		return &Error{f.Name, line, strings.Join(bad.Key(), "."), plain(strings.TrimPrefix(bad.Error(), "toml: "))}
	}
	return &Error{File: f.Name, What: strings.TrimPrefix(err.Error(), "toml: ")}
}

// plain takes Go out of a decoder's message about a value of the wrong type.
func plain(msg string) string {
	got, found := strings.CutPrefix(msg, "cannot decode TOML ")
	want := msg[strings.LastIndexByte(msg, ' ')+1:]
	if !found {
		return msg
	}
	got, _, _ = strings.Cut(got, " ")
	if name, ok := map[string]string{"float64": "number", "int": "whole number", "bool": "true or false"}[want]; ok {
		want = name
	}
	return "is a TOML " + got + "; wanted: " + want
}

// keysAt lists the keys a table of type t has below the given path.
func keysAt(t reflect.Type, path []string) []string {
	for {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
			t = t.Elem()
		}
		if t.Kind() == reflect.Map && len(path) > 0 {
			t, path = t.Elem(), path[1:]
			continue
		}
		if t.Kind() != reflect.Struct {
			return []string{"none"}
		}
		if len(path) == 0 {
			break
		}
		next, ok := field(t, path[0])
		if !ok {
			return []string{"none"}
		}
		t, path = next, path[1:]
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

// index notes the line of every key. Tables of an array are counted: "check[2].met".
func (f *File) index(data []byte) {
	var p unstable.Parser
	p.Reset(data)
	count := map[string]int{}
	prefix := ""
	for p.NextExpression() {
		e := p.Expression()
		if e.Kind == unstable.Comment {
			continue
		}
		path, line := prefix, 0
		if e.Kind != unstable.KeyValue {
			path = ""
		}
		for it := e.Key(); it.Next(); {
			if path != "" {
				path += "."
			}
			path += string(it.Node().Data)
			if n, array := count[path]; array && e.Kind != unstable.ArrayTable {
				path += "[" + strconv.Itoa(n-1) + "]"
			}
			line = p.Shape(it.Node().Raw).Start.Line
		}
		switch e.Kind {
		case unstable.ArrayTable:
			n := count[path]
			count[path] = n + 1
			path += "[" + strconv.Itoa(n) + "]"
			prefix = path
		case unstable.Table:
			prefix = path
		}
		f.lines[path] = line
	}
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
		cut := strings.LastIndexByte(at, '.')
		at = at[:max(cut, 0)]
	}
	return &Error{f.Name, line, key, fmt.Sprintf(format, args...)}
}
