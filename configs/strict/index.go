package strict

import (
	"fmt"
	"reflect"
	"slices"
	"sort"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// An index notes the line of every key, and the first fault that the decoder does not see, or not in time: a key that
// the type has no field for, a single table where there is to be an array of them, a number that is none.
// Tables of an array are counted: "check[2].met".
type index struct {
	File
	parser  unstable.Parser
	starts  []int // of the lines
	count   map[string]int
	tables  map[reflect.Type]map[string]reflect.Type // the types of their keys
	fault   error
	loose   int    // inline tables, and keys where any may stand
	element string // of an array, whose line is not known yet
}

// A level is a place in the file: its key and the type that is decoded there.
type level struct {
	path  string
	t     reflect.Type // nil where anything may stand
	depth int
}

func newIndex(name string, data []byte) *index {
	x := &index{File: File{Name: name, lines: map[string]int{}}, starts: []int{0}, count: map[string]int{},
		tables: map[reflect.Type]map[string]reflect.Type{}}
	for i, c := range data {
		if c == '\n' {
			x.starts = append(x.starts, i+1)
		}
	}
	x.parser.Reset(data)
	return x
}

// line is that of an offset, from 1.
func (x *index) line(offset uint32) int { return sort.SearchInts(x.starts, int(offset)+1) }

// file goes through all of it, to the first fault or to where the text is no TOML; the decoder says why.
func (x *index) file(t reflect.Type) {
	top := level{t: t}
	table := top
	for x.fault == nil && x.parser.NextExpression() {
		switch e := x.parser.Expression(); e.Kind {
		case unstable.ArrayTable:
			table = x.key(e, top)
		case unstable.Table:
			if table = x.key(e, top); table.t != nil && table.t.Kind() == reflect.Slice {
				x.fail(table.path, "is headed [%s]; must be [[%[1]s]], once for each", table.path)
			}
		case unstable.KeyValue:
			x.value(e.Value(), x.key(e, table))
		}
	}
}

func (x *index) fail(key, format string, args ...any) {
	if x.fault == nil {
		x.fault = x.Errorf(key, format, args...)
	}
}

// key notes the key of a table or of a value at a level, and returns the level it leads to.
func (x *index) key(e *unstable.Node, at level) level {
	for it := e.Key(); it.Next() && x.fault == nil; {
		part := it.Node()
		above := at
		if at.path != "" {
			at.path += "."
		}
		at.path += string(part.Data)
		line := x.line(part.Raw.Offset)
		if x.element != "" {
			x.lines[x.element], x.element = line, ""
		}
		if at.depth++; at.depth > deepest || len(part.Data) > longest {
			what := fmt.Sprintf("has a key of more than %d letters, or within more than %d tables", longest, deepest-1)
			x.fault = &Error{x.Name, line, "", what}
			return at
		}
		if t := single(above.t); t == nil || t.Kind() != reflect.Struct {
			x.loosen(at.path, line)
		}
		var known bool
		if at.t, known = x.inside(above.t, string(part.Data)); !known {
			x.lines[at.path] = line
			x.fail(at.path, "is not a known key; must be %s", OneOf(keysOf(above.t)))
			return at
		}
		if it.IsLast() && e.Kind == unstable.ArrayTable {
			x.count[at.path]++
		}
		if n := x.count[at.path]; n > 0 {
			at.path += "[" + strconv.Itoa(n-1) + "]"
		}
		if it.IsLast() {
			x.lines[at.path] = line
		}
	}
	return at
}

// loosen counts a table in braces, or a key where any may stand; its line is 0 where it is noted.
func (x *index) loosen(key string, line int) {
	if line > 0 {
		x.lines[key] = line
	}
	if x.loose++; x.loose > loosest {
		x.fail(key, "is one of more than %d tables in braces and keys of any name", loosest)
	}
}

// value notes the keys inside a value.
func (x *index) value(n *unstable.Node, at level) {
	switch n.Kind {
	case unstable.Array:
		if at.depth++; at.depth > deepest {
			x.fail(at.path, "has an array within more than %d tables and arrays", deepest-1)
		}
		of := level{t: element(at.t), depth: at.depth}
		for i, it := 0, n.Children(); it.Next() && x.fault == nil; i++ {
			of.path = at.path + "[" + strconv.Itoa(i) + "]"
			if it.Node().Kind == unstable.InlineTable {
				x.element = of.path
			}
			x.value(it.Node(), of)
		}
	case unstable.InlineTable:
		for it := n.Children(); it.Next() && x.fault == nil; {
			x.value(it.Node().Value(), x.key(it.Node(), at))
		}
		x.element = ""
		x.loosen(at.path, 0)
	case unstable.Float:
		word := strings.TrimLeft(string(n.Data), "+-")
		if word == "nan" || word == "inf" {
			x.fail(at.path, "is %s; must be a finite number", n.Data)
		}
	}
}

// inside returns the type of a key in a table of type t; it reports whether there can be such a key. What the table is
// of a type that is none, the decoder says better.
func (x *index) inside(t reflect.Type, key string) (reflect.Type, bool) {
	if t = single(t); t == nil {
		return nil, true
	}
	switch t.Kind() {
	case reflect.Struct:
		keys := x.tables[t]
		if keys == nil { // to read the tags of a type takes as long as the rest of a file
			keys = map[string]reflect.Type{}
			for f := range t.Fields() {
				keys[tagOf(f)] = f.Type
			}
			x.tables[t] = keys
		}
		of, known := keys[key]
		return of, known && key != ""
	case reflect.Map:
		return t.Elem(), true
	}
	return nil, true
}

// single returns the type of the single table in a pointer to one or an array of them.
func single(t reflect.Type) reflect.Type {
	for t != nil && (t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Array) {
		t = t.Elem()
	}
	return t
}

// element returns the type of what is in an array.
func element(t reflect.Type) reflect.Type {
	if t != nil && (t.Kind() == reflect.Slice || t.Kind() == reflect.Array) {
		return t.Elem()
	}
	return nil
}

// keysOf lists the keys a table has.
func keysOf(t reflect.Type) []string {
	t = single(t)
	var keys []string
	for f := range t.Fields() {
		if tag := tagOf(f); tag != "" {
			keys = append(keys, tag)
		}
	}
	if len(keys) == 0 {
		return []string{"none"}
	}
	slices.Sort(keys)
	return keys
}

func tagOf(f reflect.StructField) string {
	tag, _, _ := strings.Cut(f.Tag.Get("toml"), ",")
	if tag == "-" {
		return ""
	}
	return tag
}
