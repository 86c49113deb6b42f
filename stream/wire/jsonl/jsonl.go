// Package jsonl reads JSON lines: one object per line. Its members are named like the channels and hold numbers in the
// channels' units (see stream.Info), the time in seconds from any moment, 1970 as well; flags may be true or false.
// "magnetic": true says that the heading is magnetic. Of a member that comes twice the last counts; null is no value.
// Members with other names are skipped, whatever they hold:
//
//	{"time": 12.35, "heading": 90.1, "pitch": 4.2, "bank": -0.3, "airspeed": 129.8, "on-ground": false}
package jsonl

import (
	"bytes"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/scan"
)

// Format is JSON lines.
var Format = &format.Format{
	Names:     []string{name},
	First:     "{ \t\r\n\xEF", // blanks and a byte order mark may come before the brace
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(len(d.Head) > 0 && d.Head[0] == '{') },
	New:       func(*format.Options) format.Decoder { return decoder{} },
	Setting: func(_ string, c stream.Channel) phrase.Phrase {
		return phrase.AddMember.Of(phrase.Name("name", c.String()), phrase.Words("unit", c.Info().Unit))
	},
}

// Array is a JSON array, which is not read.
var Array = &format.Format{
	Names:     []string{"JSON array"},
	First:     "[",
	Recognize: func(*format.Datagram) format.Claim { return format.Yes },
	Instead:   phrase.OnlyArray,
}

const name = "JSON lines"

type decoder struct{ format.Plain }

func (decoder) Name() string { return name }

// Decode reads the last complete line.
func (d decoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	return scan.LastLine(d, scan.TrimMark(b), s)
}

// CutShort returns true for an object without its end: anything else is wrong in itself.
func (decoder) CutShort(err error) bool { return err == fault.ErrTruncated }

var channelByName = func() map[string]stream.Channel {
	names := map[string]stream.Channel{}
	for c := range stream.NumChannels {
		names[c.String()] = c
	}
	return names
}()

// Line reads one object.
func (decoder) Line(b []byte, s *stream.Sample) error {
	i := blanks(b, 0)
	if i == len(b) || b[i] != '{' {
		return fault.ErrMalformed
	}
	i = blanks(b, i+1)
	magnetic := false
	for first := true; ; first = false {
		if i >= len(b) {
			return fault.ErrTruncated
		}
		if b[i] == '}' && first {
			break
		}
		name, next, err := member(b, i)
		if err != nil {
			return err
		}
		if i, err = value(b, next, name, s, &magnetic); err != nil {
			return err
		}
		if i = blanks(b, i); i >= len(b) {
			return fault.ErrTruncated
		}
		if b[i] == '}' {
			break
		}
		if b[i] != ',' {
			return fault.ErrMalformed
		}
		i = blanks(b, i+1)
	}
	if blanks(b, i+1) != len(b) {
		return fault.ErrMalformed
	}
	if s.Has|s.Bad == 0 {
		return fault.ErrNoChannels
	}
	s.Magnetic = magnetic && s.Has.Has(stream.Heading)
	return fault.OfUseless(s)
}

func blanks(b []byte, i int) int {
	for i < len(b) && scan.IsBlank(b[i]) {
		i++
	}
	return i
}

// member reads a name and the colon after it, and returns where the value begins.
func member(b []byte, i int) (name []byte, next int, err error) {
	if b[i] != '"' {
		return nil, 0, fault.ErrMalformed
	}
	end, err := skipString(b, i)
	if err != nil {
		return nil, 0, err
	}
	next = blanks(b, end)
	if next >= len(b) {
		return nil, 0, fault.ErrTruncated
	}
	if b[next] != ':' {
		return nil, 0, fault.ErrMalformed
	}
	if next = blanks(b, next+1); next >= len(b) {
		return nil, 0, fault.ErrTruncated
	}
	return b[i+1 : end-1], next, nil
}

// skipString returns the index after the string that begins at b[i].
func skipString(b []byte, i int) (int, error) {
	for i++; i < len(b); i++ {
		switch b[i] {
		case '"':
			return i + 1, nil
		case '\\':
			i++
		}
	}
	return 0, fault.ErrTruncated
}

// value reads the value of a member that begins at b[i] and returns the index after it.
func value(b []byte, i int, name []byte, s *stream.Sample, magnetic *bool) (int, error) {
	c, known := channelByName[string(name)]
	switch b[i] {
	case '"':
		if known {
			refuse(s, c)
		}
		return skipString(b, i)
	case '{', '[':
		if known {
			refuse(s, c)
		}
		return skipNested(b, i)
	}
	for _, w := range literals {
		if b[i] < 'a' { // a number, the usual case
			break
		}
		if !bytes.HasPrefix(b[i:], w.text) {
			continue
		}
		switch {
		case known && w.isBool && c.Info().Flag:
			replace(s, c, w.value)
		case known && w.isBool:
			refuse(s, c)
		case known: // null: the sender has no value
			s.Drop(c)
			s.Bad = s.Bad.Without(c)
		case string(name) == "magnetic":
			*magnetic = w.value == 1
		}
		return i + len(w.text), nil
	}
	v, end, ok := scan.Number(b, i)
	if !ok {
		if !bytes.ContainsAny(b[i:], ",}]") {
			return 0, fault.ErrTruncated // in the middle of a number or a word
		}
		return 0, fault.ErrMalformed
	}
	if known {
		replace(s, c, v)
	}
	return end, nil
}

// refuse marks a channel as sent with a value that is not a number.
func refuse(s *stream.Sample, c stream.Channel) {
	s.Drop(c)
	s.Refuse(c, math.NaN())
}

// replace stores a value in place of an earlier one of the same record.
func replace(s *stream.Sample, c stream.Channel, v float64) {
	s.Drop(c)
	s.Bad = s.Bad.Without(c)
	s.Put(c, v)
}

var literals = []struct {
	text   []byte
	isBool bool
	value  float64
}{
	{[]byte("true"), true, 1},
	{[]byte("false"), true, 0},
	{[]byte("null"), false, 0},
}

// skipNested returns the index after the object or array that begins at b[i]. It counts brackets without recursion, so
// that depth costs nothing.
func skipNested(b []byte, i int) (int, error) {
	depth := 0
	for i < len(b) {
		switch b[i] {
		case '"':
			end, err := skipString(b, i)
			if err != nil {
				return 0, err
			}
			i = end
			continue
		case '{', '[':
			depth++
		case '}', ']':
			if depth--; depth == 0 {
				return i + 1, nil
			}
		}
		i++
	}
	return 0, fault.ErrTruncated
}
