package textlog

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
)

// A member is a value of a JSON object by its name; those of inner objects are named "outer.inner".
type member struct {
	name  string
	value []byte // as in a column: a number, 0 or 1 for a flag, a text; nothing for null
}

// deepest is how many objects may stand one in another.
const deepest = 4

var errNoObject = errors.New("not one JSON object")

// flatten lists the members of an object in their order. Arrays are left out.
func flatten(line []byte) ([]member, error) {
	dec := json.NewDecoder(bytes.NewReader(line))
	dec.UseNumber()
	if t, err := dec.Token(); err != nil || t != json.Delim('{') {
		return nil, errNoObject
	}
	all, err := appendMembers(nil, dec, "", 1)
	if err != nil {
		return nil, err
	}
	if _, err := dec.Token(); err != io.EOF {
		return nil, errNoObject
	}
	return all, nil
}

func appendMembers(all []member, dec *json.Decoder, prefix string, depth int) ([]member, error) {
	for dec.More() {
		name, err := dec.Token()
		if err != nil {
			return nil, err
		}
		key, _ := name.(string)
		var raw json.RawMessage
		if err := dec.Decode(&raw); err != nil {
			return nil, err
		}
		if raw[0] != '{' {
			if raw[0] != '[' {
				all = append(all, member{nameOf([]byte(prefix+key), false), plainValue(raw)})
			}
			continue
		}
		if depth == deepest {
			continue
		}
		inner := json.NewDecoder(bytes.NewReader(raw))
		if _, err := inner.Token(); err != nil {
			return nil, err
		}
		if all, err = appendMembers(all, inner, prefix+key+".", depth+1); err != nil {
			return nil, err
		}
	}
	_, err := dec.Token()
	return all, err
}

// plainValue is a JSON value as in a column.
func plainValue(raw json.RawMessage) []byte {
	switch raw[0] {
	case 't':
		return []byte("1")
	case 'f':
		return []byte("0")
	case 'n':
		return nil
	case '"':
		var s string
		if json.Unmarshal(raw, &s) != nil {
			return nil
		}
		return []byte(s)
	}
	return raw
}
